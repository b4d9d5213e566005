"""A second reckoning of printed arithmetic: reads "27.4 + 26.1 = 53.5; × 1.8 = 96.3 → 96.5".

Words between the numbers are read over. It shares nothing with what wrote the sums, so that a slip
there is found here.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from math import acos, asin, atan, cos, hypot, radians, sin, sqrt, tan

_TOKEN = re.compile(
    r"""(?P<number>(?<![\w.])\d+(?:[.,]\d+)?)
      |(?P<op>[-+−–×·*/÷()=→;√²³°^%])
      |(?P<word>[^\W\d_][\w.'’-]*)
      |(?P<rest>\S)""",
    re.X,
)
_SAME = {"−": "-", "–": "-", "×": "*", "·": "*", "÷": "/", "x": "*"}
_BREAKS = ("=", "→", ";")


@dataclass(frozen=True, slots=True)
class Number:
    """A printed number and the size of its last digit."""

    value: float
    last: float


@dataclass(frozen=True, slots=True)
class Claim:
    """A printed equation or rounding. `left` is None where it could not be reckoned.

    sign: "=" or "→".
    """

    left: float | None
    sign: str
    right: Number
    text: str

    @property
    def off(self) -> float:
        """How far it misses beyond what printing rounds away; 0 where it holds.

        An equation holds to half of the last digit printed. A rounding may go up or down by less
        than a tenth of the number, or by less than 5.
        """
        if self.left is None:
            return 0.0
        gap = abs(self.left - self.right.value)
        if self.sign == "=":
            return max(0.0, gap - self.right.last / 2 - 1e-9)
        return max(0.0, gap - max(5.0, abs(self.left) / 10))


Token = tuple[str, str]


def tokens(text: str) -> list[Token]:
    """The numbers, words and signs of a line in order; a lone x between numbers is a times sign."""
    found = [(m.lastgroup or "rest", m.group()) for m in _TOKEN.finditer(text)]
    out: list[Token] = []
    for index, (kind, word) in enumerate(found):
        if kind == "word" and word == "x" and _stands_between(found, index):
            out.append(("op", "*"))
        elif kind == "op":
            out.append((kind, _SAME.get(word, word)))
        else:
            out.append((kind, word))
    return out


def _stands_between(found: list[Token], index: int) -> bool:
    after = found[index + 1] if index + 1 < len(found) else ("", "")
    return after[0] == "number" or after[1] == "("


def claims(text: str) -> Iterator[Claim]:
    """Every equation and rounding in a line of arithmetic, reckoned again."""
    before: float | None = None
    part: list[Token] = []
    sign = ""
    left: float | None = None
    for token in [*tokens(text), ("op", ";")]:
        if token[0] != "op" or token[1] not in _BREAKS:
            part.append(token)
            continue
        printed = _single(part)
        value = reckon(part, before if not sign else None)
        if sign:
            number = printed or (None if value is None else Number(value, 1e-6))
            if number is not None:
                yield Claim(left, sign, number, text)
                value = number.value
        before = value if value is not None else before
        left = value
        sign = token[1] if token[1] != ";" else ""
        part = []


def _read(text: str) -> Number:
    plain = text.replace(",", ".")
    places = len(plain.partition(".")[2])
    return Number(float(plain), 10.0**-places)


def _single(part: list[Token]) -> Number | None:
    """The one number of a part that holds nothing else but words and a sign; else None."""
    plain = [t for t in _plain(part) if t not in (("op", "°"), ("op", "%"))]
    minus = len(plain) == 2 and plain[0] == ("op", "-")
    if minus:
        plain = plain[1:]
    if len(plain) != 1 or plain[0][0] != "number":
        return None
    number = _read(plain[0][1])
    return Number(-number.value, number.last) if minus else number


_CALLS = {
    "sqrt": sqrt, "sin": sin, "cos": cos, "tan": tan, "asin": asin, "acos": acos, "atan": atan,
    "hypot": hypot,
}  # fmt: skip

_SHARES = {"half": 0.5, "quarter": 0.25, "twice": 2.0}
"""Words before "of" that multiply: "half of (88 + 7)"."""


def _plain(part: list[Token]) -> list[Token]:
    """The part without words, units and brackets that hold only words."""
    out: list[Token] = []
    for index, (kind, word) in enumerate(part):
        if kind == "word":
            follows = part[index + 1][1] if index + 1 < len(part) else ""
            if word in _CALLS and follows == "(":
                out.append(("call", word))
            elif word in _SHARES and follows == "of":
                out += [("number", str(_SHARES[word])), ("op", "*")]
        elif kind in ("number", "op"):
            if (kind, word) == ("op", ")") and out and out[-1] == ("op", "("):
                out.pop()
            else:
                out.append((kind, word))
    return out


def reckon(part: list[Token], before: float | None = None) -> float | None:
    """What a part comes to; one that begins with a sign goes on from `before`. None: not a sum.

    A number that is only part of the wording before the sum ("5 slashes 3.2 × 5") is read over.
    """
    plain = _plain(part)
    if not plain:
        return None
    if before is not None and plain[0][0] == "op" and plain[0][1] in "+-*/":
        plain = [("value", repr(before)), *plain]
    starts = [0, *(i for i in range(1, len(plain)) if _two_numbers(plain[i - 1], plain[i]))]
    for start in starts:
        try:
            reading = _Reading(plain[start:])
            value = reading.sum()
        except (_NoSum, ZeroDivisionError, ValueError, OverflowError):
            continue
        if reading.done:
            return value
    return None


def _two_numbers(one: Token, two: Token) -> bool:
    return (one[0] in ("number", "value") or one[1] in (")", "°", "%")) and (
        two[0] in ("number", "call") or two[1] in ("(", "√")
    )


class _NoSum(Exception):
    """What stands there cannot be read as a sum; never leaves this module."""


class _Reading:
    """Reads a sum from left to right: sums of products of powers of numbers and brackets."""

    def __init__(self, parts: list[Token]) -> None:
        self.parts, self.place = parts, 0

    @property
    def done(self) -> bool:
        return self.place == len(self.parts)

    def _next(self) -> Token:
        return self.parts[self.place] if not self.done else ("", "")

    def _take(self, *signs: str) -> str:
        kind, word = self._next()
        if kind == "op" and word in signs:
            self.place += 1
            return word
        return ""

    def sum(self) -> float:
        value = self.product()
        while sign := self._take("+", "-"):
            value = value + self.product() if sign == "+" else value - self.product()
        return value

    def product(self) -> float:
        value = self.power()
        while sign := self._take("*", "/"):
            value = value * self.power() if sign == "*" else value / self.power()
        return value

    def power(self) -> float:
        value = self.single()
        while sign := self._take("²", "³", "^", "°", "%"):
            if sign in "²³":
                value = value ** (2 if sign == "²" else 3)
            elif sign == "^":
                value = value ** self.single()
            elif sign == "%":
                value /= 100
        return value

    def single(self) -> float:
        if self._take("-"):
            return -self.single()
        if self._take("√"):
            return sqrt(self.single())
        if self._take("("):
            value = self.sum()
            if not self._take(")"):
                raise _NoSum
            return value
        kind, word = self._next()
        self.place += 1
        if kind == "number":
            return _read(word).value
        if kind == "value":
            return float(word)
        if kind == "call":
            return self._called(word)
        raise _NoSum

    def _called(self, name: str) -> float:
        begin = self.place
        value = self.single()
        in_degrees = ("op", "°") in self.parts[begin : self.place]
        return _CALLS[name](radians(value) if in_degrees else value)
