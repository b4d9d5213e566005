"""Every sum printed on a sheet, reckoned again by a reader that shares nothing with the program."""

from __future__ import annotations

import ast
import operator
import re
from collections.abc import Callable, Iterator

import pytest

from tests.worksheet.sheets import EVERY, sheet

_WORDS = re.compile(r"[^\W\d_][\w’'.-]*")
_OPERATIONS: dict[type[ast.operator], Callable[[float, float], float]] = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
}


def reckoned(text: str) -> float | None:
    """A sum by Python's own grammar, words taken out; None where it is no sum."""
    plain = re.sub(r"\([^()\d]*\)", " ", text)
    plain = _WORDS.sub(" ", plain).replace("×", "*").replace("÷", "/").replace("−", "-")
    plain = plain.replace(",", " ").replace("°", " ").strip()
    try:
        return _value(ast.parse(plain, mode="eval").body)
    except (SyntaxError, TypeError, ValueError):
        return None


def _value(node: ast.expr) -> float:
    if isinstance(node, ast.Constant) and isinstance(node.value, int | float):
        return float(node.value)
    if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
        return -_value(node.operand)
    if isinstance(node, ast.BinOp):
        return _OPERATIONS[type(node.op)](_value(node.left), _value(node.right))
    raise ValueError(ast.dump(node))


def equations(line: str) -> Iterator[tuple[float, str, float, int]]:
    """(left, sign, right, decimals) for each "=" and "→" whose left side is a sum."""
    for clause in line.split(";"):
        parts = re.split(r"(=|→)", clause.rpartition(": ")[2])
        for left, sign, right in zip(parts[::2], parts[1::2], parts[2::2], strict=False):
            printed = re.match(r"\s*(-?\d+(?:\.(\d+))?)", right)
            value = reckoned(left)
            if printed and value is not None:
                yield value, sign, float(printed[1]), len(printed[2] or "")


def wrong(line: str) -> list[str]:
    """What does not hold in a line."""
    out = []
    for left, sign, right, decimals in equations(line):
        if sign == "=" and abs(left - right) > 0.5 * 10**-decimals + 1e-9:
            out.append(f"{left} is not {right}: {line}")
        if sign == "→" and not (left - 1e-9 <= right < max(left + 10, left * 2)):
            out.append(f"{left} is not rounded to {right}: {line}")
    return out


@pytest.mark.parametrize(("style", "body"), EVERY)
def test_every_sum_on_the_sheet_holds(style: str, body: str) -> None:
    lines = [text for text in sheet(style, body).texts() if "=" in text or "→" in text]
    faults = [fault for line in lines for fault in wrong(line)]
    assert not faults, "\n".join(faults)
    read = sum(1 for line in lines for _equation in equations(line))
    assert read >= len(lines), "sums were found that could not be read"


@pytest.mark.parametrize(
    "line",
    [
        "hem: front 27.4 + back 26.1 = 53.6",
        "53.5; 53.5 × 1.8 = 96.4",
        "(116.0 + 7.0) ÷ 2 = 61.6",
        "a 10.0 × 2 = 20.0; 20.0 × 1.8 = 36.0 → 35.0",
    ],
)
def test_a_slip_is_found(line: str) -> None:
    assert wrong(line)
