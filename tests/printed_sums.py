"""Reads printed sums by Python's own grammar and works them out again; shares nothing with the program."""

from __future__ import annotations

import ast
import math
import operator
import re
from collections.abc import Callable, Iterator

_WORDS = re.compile(r"[^\W\d_][\w’'.-]*")
_OPERATIONS: dict[type[ast.operator], Callable[[float, float], float]] = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
    ast.Pow: operator.pow,
    ast.MatMult: lambda power, base: base**power,  # stands for the root
}


def _angle(found: re.Match[str]) -> str:
    turn = math.radians(float(found[2]))
    return repr(math.sin(turn) if found[1] == "sin" else math.cos(turn))


def reckoned(text: str) -> float | None:
    """A sum by Python's own grammar, words taken out; None where it is no sum."""
    plain = (
        re.sub(r"(sin|cos) (\d+(?:\.\d+)?)°", _angle, text)
        .replace("√(", "0.5@(")
        .replace("²", "**2")
    )
    plain = re.sub(r"\([^()\d]*\)", " ", plain)
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
    for clause in line.replace("−", "-").split(";"):
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
        nearest = (
            abs(left - right) <= 0.05 + 1e-9
        )  # to the millimetre; a convenient number lies above
        if sign == "→" and not nearest and not (left - 1e-9 <= right < max(left + 10, left * 2)):
            out.append(f"{left} is not rounded to {right}: {line}")
    return out


def printed_last(line: str) -> float | None:
    """The last result that a line comes to; None where it is no sum."""
    results = re.findall(r"(?:=|→|right with|no (?:more|less) than) (−?\d+(?:\.\d+)?)", line)
    return float(results[-1].replace("−", "-")) if results else None
