"""Sums as a reader sees them: "front 27.4 + back 26.1 = 53.5; 53.5 × 1.8 = 96.3 → 97.0".

A line is kept in parts, and each number knows from which others it is worked out, so that a lesson can leave it
blank and look through what was written there.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from cutwright.numerals import number, short
from cutwright.pattern.edge import Ref, parse_label
from cutwright.pattern.sum import (
    Bound,
    Chosen,
    Compound,
    DraftRule,
    Earlier,
    EdgeLength,
    Figure,
    Fn,
    Leaf,
    Limited,
    Number,
    Op,
    ReadOff,
    Rounded,
    Rounding,
    Sign,
    Solved,
    Taped,
    Term,
    Trigonometric,
    Unit,
    found_value,
    hundredth,
    of_the_body,
    rounded_value,
    worked,
)
from cutwright.wording.terms import Tell, behind, label
from cutwright.words import N_, _

SIGNS = {Sign.PLUS: "+", Sign.MINUS: "−", Sign.TIMES: "×", Sign.OVER: "÷"}
BOUNDS = {Bound.MOST: N_("no more than"), Bound.LEAST: N_("no less than")}
ROUNDED = {
    (Rounding.UP, False): N_("rounded up to whole {step} cm"),
    (Rounding.NEAREST, False): N_("rounded to the nearest whole {step} cm"),
    (Rounding.UP, True): N_("rounded up"),
    (Rounding.NEAREST, True): N_("rounded"),
}


@dataclass(frozen=True, slots=True)
class Made:
    """How a number is worked out from others of its line.

    `of` are their places among the numbers of the line; `step` belongs to a rounding.
    """

    by: Sign | Fn | Rounding | Bound | None
    of: tuple[int, ...]
    step: float = 0.0

    def again(self, values: Sequence[float]) -> float:
        """What it comes to with other numbers in their places."""
        own = [values[place] for place in self.of]
        match self.by:
            case Sign():
                return hundredth(worked(self.by, own))
            case Fn():
                return found_value(self.by, own)
            case Rounding():
                return rounded_value(own[0], self.by, self.step)
            case Bound():
                return min(own) if self.by is Bound.MOST else max(own)
            case None:
                return own[0]


@dataclass(frozen=True, slots=True)
class Amount:
    """A number in a line. `of_body`: it belongs to the body, not to the style or a rule.

    `sign` is -1 for one that is printed behind a minus, so that it counts as less than nothing.
    """

    text: str
    value: float
    of_body: bool
    made: Made | None = None
    sign: int = 1


@dataclass(frozen=True, slots=True)
class SumLine:
    """A sum in the order it is read."""

    parts: tuple[str | Amount, ...]

    @property
    def amounts(self) -> tuple[Amount, ...]:
        """The numbers of the line."""
        return tuple(part for part in self.parts if isinstance(part, Amount))

    def __str__(self) -> str:
        return "".join(part if isinstance(part, str) else part.text for part in self.parts)


def number_text(value: float, unit: Unit = Unit.CM) -> str:
    """A number with the digits it needs: lengths and angles one or two, counts as few as will do."""
    if unit is Unit.NUMBER:
        return short(value, 4)
    text = number(value, 2)
    return text[:-1] if text.endswith("0") else text


def unit_of(term: Term) -> Unit:
    """What a term inside a sum counts, for the digits it is printed with."""
    match term:
        case Taped() | EdgeLength() | Solved():
            return Unit.CM
        case Number():
            return Unit.NUMBER
        case Chosen(unit=unit) | DraftRule(unit=unit) | ReadOff(unit=unit):
            return unit
        case Earlier(figure=figure):
            return figure.unit
        case Rounded(term=inner) | Limited(term=inner):
            return unit_of(inner)
        case Trigonometric(fn=fn):
            return Unit.CM if fn in (Fn.LEG, Fn.SLANT) else Unit.NUMBER
        case Op(sign=sign, terms=terms):
            units = [unit_of(inner) for inner in terms]
            if sign is Sign.OVER and units[0] in units[1:]:
                return Unit.NUMBER
            if sign in (Sign.PLUS, Sign.MINUS, Sign.OVER):
                return units[0]
            return next((u for u in (Unit.DEGREE, Unit.CM) if u in units), Unit.NUMBER)


@dataclass(slots=True)
class Writer:
    """Writes the sum of a figure down, the terms it needs first, each result at the end of its own part."""

    figure: Figure
    parts: list[str | Amount] = field(default_factory=list)
    count: int = 0

    def written(self) -> SumLine:
        """The whole line; the last number is the value of the figure."""
        self._state(self.figure.term, self.figure.unit)
        return SumLine(tuple(self.parts))

    def _amount(
        self, value: float, unit: Unit, body: bool, made: Made | None = None, sign: int = 1
    ) -> int:
        self.parts.append(
            Amount(number_text(abs(value) if sign < 0 else value, unit), value, body, made, sign)
        )
        if unit is Unit.DEGREE:
            self.parts.append("°")
        self.count += 1
        return self.count - 1

    def _state(self, term: Term, unit: Unit) -> int:
        """Write a term with all it needs; the place of its value among the numbers of the line."""
        match term:
            case Op():
                return self._op(term, unit)
            case Rounded(term=inner, way=way, step=step):
                place = self._state(inner, unit_of(inner))
                self.parts.append(" → ")
                whole = self._amount(term.value, unit, of_the_body(term), Made(way, (place,), step))
                if unit is Unit.NUMBER or (unit is Unit.CM and step > 0.2):
                    words = _(ROUNDED[way, unit is Unit.NUMBER]).format(step=short(step))
                    self.parts.append(f" ({words})")
                return whole
            case Limited(term=inner, limit=limit, bound=bound):
                place = self._state(inner, unit)
                if not term.holds:
                    return place
                self.parts.append("; ")
                if isinstance(limit, Op):
                    other = self._state(limit, unit)
                    self.parts.append("; ")
                    self.parts.append(_(BOUNDS[bound]) + " ")
                    return self._amount(term.value, unit, True, Made(bound, (place, other)))
                self.parts.append(_(BOUNDS[bound]) + " ")
                return self._amount(term.value, unit, of_the_body(limit))
            case Trigonometric():
                return self._found(term, unit)
            case Solved(so_that=proof):
                self._state(proof, unit_of(proof))
                self.parts.append("; " + _("this fits with") + " ")
                return self._amount(term.value, unit, True)
            case _:
                return self._leaf(term, unit, Tell.NOTHING)

    def _found(self, term: Trigonometric, unit: Unit) -> int:
        """ "sin 17.0° = 0.2924" or "√(27.5² − 1.95²) = 27.43"."""
        carried = [
            self._then(inner) if isinstance(inner, Compound) else None for inner in term.terms
        ]
        leg = term.fn in (Fn.LEG, Fn.SLANT)
        self.parts.append("√(" if leg else f"{term.fn.value} ")
        places: list[int] = []
        for inner, place in zip(term.terms, carried, strict=True):
            if places:
                self.parts.append(" − " if term.fn is Fn.LEG else " + ")
            places.append(self._operand(inner, place, Tell.NOTHING, 1))
            if leg:
                self.parts.append("²")
        self.parts.append(") = " if leg else " = ")
        return self._amount(term.value, unit, of_the_body(term), Made(term.fn, tuple(places)))

    def _then(self, term: Term) -> int:
        """Work a term out in a part of its own, before the sum it is needed in."""
        place = self._state(term, unit_of(term))
        self.parts.append("; ")
        return place

    def _operand(self, term: Term, carried: int | None, edges: Tell, sign: int) -> int:
        if isinstance(term, Compound):
            assert carried is not None
            made = Made(None, (carried,))
            return self._amount(term.value, unit_of(term), of_the_body(term), made, sign)
        return self._leaf(term, unit_of(term), edges, sign)

    def _op(self, term: Op, unit: Unit) -> int:
        carried = [
            self._then(inner) if isinstance(inner, Compound) else None for inner in term.terms
        ]
        edges = self._told_by(term.terms)
        places: list[int] = []
        for inner, place in zip(term.terms, carried, strict=True):
            negative = bool(places) and term.sign is Sign.PLUS and inner.value < 0
            if places:
                self.parts.append(f" {SIGNS[Sign.MINUS if negative else term.sign]} ")
            places.append(self._operand(inner, place, edges, -1 if negative else 1))
        self.parts.append(" = ")
        return self._amount(term.value, unit, of_the_body(term), Made(term.sign, tuple(places)))

    def _leaf(self, leaf: Leaf, unit: Unit, edges: Tell, sign: int = 1) -> int:
        before, after = label(leaf, edges), behind(leaf)
        if before:
            self.parts.append(f"{before} ")
        place = self._amount(leaf.value, unit, of_the_body(leaf), None, sign)
        if after:
            self.parts.append(f" {after}")
        return place

    def _told_by(self, terms: Sequence[Term]) -> Tell:
        """What tells the edges of one sum apart: their piece, their name, or both."""
        refs = [term.ref for term in terms if isinstance(term, EdgeLength)]
        if len(refs) > 1 and len({(r.piece, parse_label(r.edge)[0]) for r in refs}) == 1:
            return Tell.PART
        if refs == [Ref(self.figure.piece, self.figure.part)]:
            return Tell.BEFORE
        if len({ref.edge for ref in refs}) == 1:
            return Tell.PIECE
        return Tell.EDGE if len({ref.piece for ref in refs}) == 1 else Tell.BOTH
