"""Lengths written as sums: `waist_girth / 4 + 1`, `1.8 * length("skirt front: hem")`.

A closed evaluator: numbers, + - * /, brackets, body measures by name, and the few functions
below. Nothing else is understood, so a style from a stranger can compute a length and no more.
"""

from __future__ import annotations

import ast
from collections.abc import Callable
from math import isfinite, sqrt

from cutwright.errors import CutwrightError, FormulaError
from cutwright.messages import N_, Message
from cutwright.pattern.sum import round_to, round_up

LONGEST = 200
_DEEPEST = 20
_LARGEST = 1e6

MeasureOf = Callable[[str], float]
LengthOf = Callable[[str], float]


_CALLS: dict[str, tuple[Callable[..., float], int, int]] = {
    "min": (min, 2, 6),
    "max": (max, 2, 6),
    "abs": (abs, 1, 1),
    "sqrt": (sqrt, 1, 1),
    "round_up": (round_up, 1, 2),
    "round_to": (round_to, 1, 2),
}


def evaluate(text: str, measure_of: MeasureOf, length_of: LengthOf) -> float:
    """Work out a sum, in cm.

    Parameters: `measure_of` gives a body measure by its name, `length_of` the length of an edge
    named "piece: edge". Raises FormulaError (or the error of a look-up) in the user's words.
    """
    tree = _parsed(text)
    value = _Evaluator(text, measure_of, length_of).value(tree.body, 0)
    if not isfinite(value) or abs(value) > _LARGEST:
        raise FormulaError(
            Message(
                "sum-comes-out-too-large", N_('The sum "{text}" comes out too large.'), text=text
            )
        )
    return value


def check_formula(text: str) -> None:
    """Raise FormulaError when a sum is written in a way that can never be worked out."""
    _parsed(text)


def names_in(text: str) -> tuple[str, ...]:
    """The body measures a sum asks for, in order of appearance."""
    calls = {
        node.func.id
        for node in ast.walk(_parsed(text))
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)
    }
    names = [n.id for n in ast.walk(_parsed(text)) if isinstance(n, ast.Name)]
    return tuple(dict.fromkeys(n for n in names if n not in calls))


def _parsed(text: str) -> ast.Expression:
    if len(text) > LONGEST:
        raise FormulaError(
            Message(
                "sum-may-most-characters-long",
                N_("A sum may be at most {most} characters long; this one has {count}."),
                most=LONGEST,
                count=len(text),
            )
        )
    try:
        return ast.parse(text.strip(), mode="eval")
    except (SyntaxError, ValueError, MemoryError, RecursionError):
        raise FormulaError(
            Message(
                "cannot-read-sum-write-like",
                N_('"{text}" cannot be read as a sum. Write it like "waist_girth / 4 + 1".'),
                text=text,
            )
        ) from None


class _Evaluator:
    def __init__(self, text: str, measure_of: MeasureOf, length_of: LengthOf) -> None:
        self.text, self.measure_of, self.length_of = text, measure_of, length_of

    def value(self, node: ast.expr, depth: int) -> float:
        if depth > _DEEPEST:
            raise FormulaError(
                Message(
                    "sum-too-many-brackets",
                    N_('The sum "{text}" has too many brackets.'),
                    text=self.text,
                )
            )
        match node:
            case ast.Constant(value=bool()):
                raise self._forbidden(node)
            case ast.Constant(value=int() | float() as number):
                if abs(number) > _LARGEST:
                    raise FormulaError(
                        Message(
                            "sum-comes-out-too-large",
                            N_('The sum "{text}" comes out too large.'),
                            text=self.text,
                        )
                    )
                return float(number)
            case ast.UnaryOp(op=ast.USub() | ast.UAdd() as op, operand=inner):
                size = self.value(inner, depth + 1)
                return -size if isinstance(op, ast.USub) else size
            case ast.BinOp(left=left, op=op, right=right):
                return self._binary(op, self.value(left, depth + 1), self.value(right, depth + 1))
            case ast.Name(id=name):
                return self.measure_of(name)
            case ast.Call(func=ast.Name(id=name), args=args, keywords=[]):
                return self._call(name, args, depth)
            case _:
                raise self._forbidden(node)

    def _binary(self, op: ast.operator, a: float, b: float) -> float:
        match op:
            case ast.Add():
                return a + b
            case ast.Sub():
                return a - b
            case ast.Mult():
                return a * b
            case ast.Div():
                if b == 0:
                    raise FormulaError(
                        Message(
                            "sum-divides-nothing",
                            N_('The sum "{text}" divides by nothing.'),
                            text=self.text,
                        )
                    )
                return a / b
        raise FormulaError(
            Message(
                "brackets-understood",
                N_('In "{text}" only + - * / and brackets are understood.'),
                text=self.text,
            )
        )

    def _call(self, name: str, args: list[ast.expr], depth: int) -> float:
        if name == "length":
            if (
                len(args) == 1
                and isinstance(args[0], ast.Constant)
                and isinstance(args[0].value, str)
            ):
                return self.length_of(args[0].value)
            raise FormulaError(
                Message(
                    "length-needs-edge-quotes-like",
                    N_('In "{text}", length needs one edge in quotes, like length("front: hem").'),
                    text=self.text,
                )
            )
        if name not in _CALLS:
            raise FormulaError(
                Message(
                    "not-known",
                    N_('In "{text}", "{name}" is not known. There is: {there}.'),
                    text=self.text,
                    name=name,
                    there=", ".join(["length", *_CALLS]),
                )
            )
        function, least, most = _CALLS[name]
        if not least <= len(args) <= most:
            raise FormulaError(
                Message(
                    "given-numbers",
                    N_('In "{text}", "{name}" was given {count} numbers.'),
                    text=self.text,
                    name=name,
                    count=len(args),
                )
            )
        numbers = [self.value(arg, depth + 1) for arg in args]
        try:
            return float(function(*numbers))
        except (ValueError, ZeroDivisionError, OverflowError):
            raise FormulaError(
                Message(
                    "sum-cannot-worked-out",
                    N_('The sum "{text}" cannot be worked out.'),
                    text=self.text,
                )
            ) from None

    def _forbidden(self, node: ast.expr) -> CutwrightError:
        part = ast.get_source_segment(self.text, node) or self.text
        return FormulaError(
            Message(
                "not-allowed-sum-use-numbers",
                N_(
                    '"{part}" is not allowed in the sum "{text}". Use numbers, measures, + - * / and brackets.'
                ),
                part=part[:40],
                text=self.text,
            )
        )
