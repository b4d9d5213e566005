"""Sums as data: what was measured, times what, rounded how. No words in here.

A term knows its own value, rounded once and just as it is printed, so whatever is worked out of it is worked out
of printed figures and holds to the last digit. `cutwright.wording` makes the line a reader sees.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import StrEnum
from functools import reduce
from math import ceil, cos, floor, radians, sin, sqrt

from cutwright.pattern.edge import Ref


class Unit(StrEnum):
    """What a figure counts."""

    CM = "cm"
    DEGREE = "degree"
    NUMBER = "number"


class Source(StrEnum):
    """Where the value of a rule comes from."""

    COMMON = "common practice"
    OWN = "own method"


class Sign(StrEnum):
    """What is done with the terms of an operation, from left to right."""

    PLUS = "+"
    MINUS = "-"
    TIMES = "*"
    OVER = "/"


class Rounding(StrEnum):
    """How a value is taken to a convenient number."""

    UP = "up"
    NEAREST = "nearest"
    NONE = "none"


class Bound(StrEnum):
    """On which side a limit holds."""

    MOST = "at most"
    LEAST = "at least"


def round_up(value: float, step: float = 1.0) -> float:
    """The next whole number of steps, a hair of 1e-9 forgiven, in the unit of the value.

    Parameters
    ----------
    value, step : in one unit; the step over 0

    Returns
    -------
    a multiple of the step, in that unit
    """
    return ceil(value / step - 1e-9) * step


def round_to(value: float, step: float = 1.0) -> float:
    """The nearest whole number of steps, halves upwards, in the unit of the value.

    Parameters
    ----------
    value, step : in one unit; the step over 0

    Returns
    -------
    a multiple of the step, in that unit
    """
    return floor(value / step + 0.5 + 1e-12) * step


def taped(value: float, step: float = 0.1) -> float:
    """A length as read from a tape.

    Parameters
    ----------
    value : cm
    step : how finely it is read, cm

    Returns
    -------
    cm
    """
    return round(round_to(value, step), 6)


def hundredth(value: float) -> float:
    """A worked out value to a hundredth, halves away from nothing, in its own unit.

    Parameters
    ----------
    value : in any unit

    Returns
    -------
    the same to 0.01 of the unit; never minus nought
    """
    return round(round_to(abs(value), 0.01) * (1 if value >= 0 else -1), 6) + 0.0


@dataclass(frozen=True, slots=True)
class Taped:
    """A measure of the body, as it stands on the card (cm; degrees for a slope)."""

    measure: str
    size: float

    @property
    def value(self) -> float:
        """The measure to a hundredth, in its unit."""
        return hundredth(self.size)


@dataclass(frozen=True, slots=True)
class EdgeLength:
    """An edge measured on the paper, read to the millimetre, cm."""

    ref: Ref
    size: float
    step: float = 0.1

    @property
    def value(self) -> float:
        """What the tape shows, cm."""
        return taped(self.size, self.step)


@dataclass(frozen=True, slots=True)
class ReadOff:
    """Something else that is read off the paper: an opened gap, a mouth, an angle, what truing took.

    `code` tells what it is, `piece` on which piece, where that tells it apart; `step` is how finely it is read. What is `given` is a
    correction of the draft that a hand cannot find: a lesson prints it as the reference body has it.
    """

    code: str
    size: float
    step: float = 0.1
    unit: Unit = Unit.CM
    piece: str = ""
    given: bool = False

    @property
    def value(self) -> float:
        """What is read, in its unit."""
        return taped(self.size, self.step) + 0.0


@dataclass(frozen=True, slots=True)
class Chosen:
    """What the cutter chose in a field of the step; `text` is the sum it was written as, if it was one."""

    field: str
    size: float
    unit: Unit = Unit.CM
    text: str = ""

    @property
    def value(self) -> float:
        """Lengths to a hundredth of a cm, everything else as it was chosen, in its unit."""
        return hundredth(self.size) if self.unit is Unit.CM else self.size


@dataclass(frozen=True, slots=True)
class DraftRule:
    """A figure of a drafting rule, with where it comes from."""

    code: str
    value: float
    source: Source
    unit: Unit = Unit.NUMBER


@dataclass(frozen=True, slots=True)
class Number:
    """A plain number of geometry: 2 for two halves, a count of parts, 57.3 for radians to degrees."""

    value: float
    code: str = ""


@dataclass(frozen=True, slots=True)
class Earlier:
    """The value of a figure that was worked out before."""

    figure: Figure

    @property
    def value(self) -> float:
        """As it was printed there, in the unit of that figure."""
        return self.figure.value


@dataclass(frozen=True, slots=True)
class Op:
    """Terms added, taken off, multiplied or divided from left to right, to a hundredth."""

    sign: Sign
    terms: tuple[Term, ...]

    @property
    def value(self) -> float:
        """What it comes to, in the unit that its terms give."""
        return hundredth(worked(self.sign, [term.value for term in self.terms]))


@dataclass(frozen=True, slots=True)
class Rounded:
    """A value taken to a whole number of steps."""

    term: Term
    way: Rounding
    step: float

    @property
    def value(self) -> float:
        """The convenient number, in the unit of the term."""
        return rounded_value(self.term.value, self.way, self.step)


@dataclass(frozen=True, slots=True)
class Limited:
    """A value that may not pass a limit."""

    term: Term
    limit: Term
    bound: Bound

    @property
    def holds(self) -> bool:
        """Whether the limit is what counts."""
        within = self.term.value <= self.limit.value
        return not within if self.bound is Bound.MOST else self.term.value < self.limit.value

    @property
    def value(self) -> float:
        """The value, or the limit, in the unit of both."""
        return self.limit.value if self.holds else self.term.value


@dataclass(frozen=True, slots=True)
class Solved:
    """A value found by trying until something else is right; `so_that` is the sum that proves it."""

    size: float
    so_that: Term
    step: float = 0.1

    @property
    def value(self) -> float:
        """What was found, as a ruler shows it, in the unit of `step`."""
        return taped(self.size, self.step)


class Fn(StrEnum):
    """What a calculator or a set square finds."""

    SINE = "sin"
    COSINE = "cos"
    LEG = "leg"
    SLANT = "slant"


@dataclass(frozen=True, slots=True)
class Trigonometric:
    """Sine or cosine of an angle in degrees, to four places; or a side of a set square: √(a² − b²), √(a² + b²)."""

    fn: Fn
    terms: tuple[Term, ...]

    @property
    def value(self) -> float:
        """What it comes to: a plain number for sine and cosine, cm for a side."""
        return found_value(self.fn, [term.value for term in self.terms])


Leaf = Taped | EdgeLength | ReadOff | Chosen | DraftRule | Number | Earlier
Compound = Op | Trigonometric | Rounded | Limited | Solved
Term = Leaf | Compound


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure of the work sheet: what it is (`code`), the sum it comes from, and what it is about.

    Parameters
    ----------
    code : one of the templates of `cutwright.wording.figures`
    piece, part : the piece it is about, and its edge or dart
    step : number of the step that worked it out, from 1; set by the replay
    """

    code: str
    term: Term
    piece: str = ""
    part: str = ""
    unit: Unit = Unit.CM
    step: int = 0

    @property
    def value(self) -> float:
        """What its sum comes to, in its unit."""
        return self.term.value


def worked(sign: Sign, values: list[float]) -> float:
    """Values taken together from left to right, not rounded, in their unit.

    Parameters
    ----------
    sign : what is done
    values : in the units of the sum, not empty

    Returns
    -------
    in the unit that these give
    """
    match sign:
        case Sign.PLUS:
            return sum(values)
        case Sign.MINUS:
            return reduce(lambda a, b: a - b, values)
        case Sign.TIMES:
            return reduce(lambda a, b: a * b, values)
        case Sign.OVER:
            return reduce(lambda a, b: a / b, values)


def found_value(fn: Fn, values: list[float]) -> float:
    """Sine and cosine to four places, without unit; a leg or slant to a hundredth, in the unit of its values.

    Parameters
    ----------
    fn : what is found
    values : one angle in degrees; or the longer and the shorter side, of a slant both legs, cm

    Returns
    -------
    a plain number; cm for a side
    """
    match fn:
        case Fn.SINE:
            return round(sin(radians(values[0])), 4)
        case Fn.COSINE:
            return round(cos(radians(values[0])), 4)
        case Fn.LEG:
            return hundredth(sqrt(max(values[0] ** 2 - values[1] ** 2, 0.0)))
        case Fn.SLANT:
            return hundredth(sqrt(values[0] ** 2 + values[1] ** 2))


def rounded_value(value: float, way: Rounding, step: float) -> float:
    """A value in whole steps, in its own unit.

    Parameters
    ----------
    value, step : in one unit; a step of 0 leaves the value
    way : up, to the nearest, or not at all

    Returns
    -------
    in that unit
    """
    if way is Rounding.NONE or step <= 0:
        return value
    return round(round_up(value, step) if way is Rounding.UP else round_to(value, step), 6)


def plus(*terms: Term) -> Term:
    """Terms added up; one alone is itself."""
    return terms[0] if len(terms) == 1 else Op(Sign.PLUS, terms)


def minus(*terms: Term) -> Op:
    """The first less all others."""
    return Op(Sign.MINUS, terms)


def times(*terms: Term) -> Op:
    """Terms multiplied."""
    return Op(Sign.TIMES, terms)


def over(*terms: Term) -> Op:
    """The first divided by all others."""
    return Op(Sign.OVER, terms)


def rounded(term: Term, way: str, step: float) -> Term:
    """A term rounded, or the term itself where rounding changes nothing.

    Parameters
    ----------
    term : what is rounded
    way : "up", "nearest" or "none"
    step : in the unit of the term

    Returns
    -------
    the term to a whole number of steps
    """
    if abs(rounded_value(term.value, Rounding(way), step) - term.value) < 1e-9:
        return term
    return Rounded(term, Rounding(way), step)


def all_round(rows: Iterable[tuple[EdgeLength, int]]) -> Term:
    """Edges and how often each counts, added up all round; where all count alike the half is added first.

    What is multiplied is read to a hundredth, so that the whole is the length that a tape shows all round.
    """
    whole: Term
    found = tuple(rows)
    counts = {count for _edge, count in found}
    if counts == {1}:
        return plus(*(edge for edge, _count in found))
    fine = [(EdgeLength(edge.ref, edge.size, 0.01), count) for edge, count in found]
    if len(counts) == 1:
        whole = times(plus(*(edge for edge, _count in fine)), Number(counts.pop(), "all-round"))
    else:
        parts = (edge if count == 1 else times(edge, Number(count)) for edge, count in fine)
        whole = plus(*parts)
    return rounded(whole, Rounding.NEAREST, 0.1)


def completed(value: float, *before: Term, code: str, given: bool = True) -> Term:
    """A value as the sum of what it came from and of the rest, which `code` names; to a millimetre.

    Parameters
    ----------
    value : what it comes to, cm
    before : what it came from, one or more
    code : of the rest (see `ReadOff`)
    given : whether the rest is a correction of the draft that a hand cannot find

    Returns
    -------
    a sum whose value is `value` to a millimetre
    """
    rest = taped(value - sum(term.value for term in before))
    return plus(*before, ReadOff(code, rest, given=given)) if abs(rest) > 1e-9 else plus(*before)


def regained(now: EdgeLength, *before: Term, code: str = "trued") -> Term:
    """What an edge measures now, as what it came from and what drawing it anew took or added.

    Parameters
    ----------
    now : the edge as it is
    before : what it came from, one or more
    code : of what was taken or added

    Returns
    -------
    a sum whose value is that of `now`
    """
    return completed(now.value, *before, code=code, given=False)


def children(term: Term) -> tuple[Term, ...]:
    """The terms a term is made of."""
    match term:
        case Op(terms=terms) | Trigonometric(terms=terms):
            return terms
        case Rounded(term=inner):
            return (inner,)
        case Limited(term=inner, limit=limit):
            return (inner, limit)
        case Solved(so_that=inner):
            return (inner,)
        case _:
            return ()


def leaves(term: Term) -> Iterator[Leaf]:
    """Everything a term is worked out from, in order."""
    if isinstance(term, Compound):
        for inner in children(term):
            yield from leaves(inner)
    else:
        yield term


def of_the_body(term: Term) -> bool:
    """Whether a value changes from body to body, because a tape lies somewhere in it."""
    match term:
        case Taped() | EdgeLength() | Solved():
            return True
        case ReadOff(given=given):
            return not given
        case Chosen(text=text):
            return bool(text)
        case Earlier(figure=figure):
            return of_the_body(figure.term)
        case _:
            return any(of_the_body(inner) for inner in children(term))
