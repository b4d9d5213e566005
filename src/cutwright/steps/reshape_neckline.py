"""Draw the neckline of front and back anew: wider along the shoulder, deeper at the centres."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from cutwright.body.body import Body
from cutwright.geometry.path import Path, reversed_path, start_direction
from cutwright.pattern.change import account
from cutwright.pattern.flare import refuse_if_crossing
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.necklines import Drawn, Ends, Shape, neckline
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Mark, Piece
from cutwright.pattern.redraw import (
    Place,
    cut_back,
    halved,
    kept_end,
    kept_start,
    redrawn,
    square_end,
    square_start,
)
from cutwright.pattern.result import Figure, Result, Trace
from cutwright.pattern.settle import lost_levels, settled, without_levels
from cutwright.pattern.walk import refuse_if_parted
from cutwright.style.arithmetic import all_round, measured
from cutwright.style.parameter import EdgeName, Length, PieceName, Within
from cutwright.style.registry import register
from cutwright.style.step import Step
from cutwright.words import N_, _


@dataclass(frozen=True, slots=True)
class _Wish:
    """What is asked of one piece; None for the shape leaves it as it is unless it is moved."""

    piece: str
    shape: Shape
    deeper: float
    touched: bool


@register
class ReshapeNeckline(Step):
    """Draw the neckline anew on front and back together, so that the shoulders stay equal."""

    SENTENCE: ClassVar[str] = N_("Draw a {shape} neckline on {front} and {back}.")
    HELP: ClassVar[str] = N_(
        "The neckline is taken wider along both shoulders alike and deeper along the centres; a figure below "
        "nothing brings it nearer to the neck. The new line leaves the shoulder as the old one did, so that front "
        "and back flow into each other, and meets the centre square, save for the point of a V."
    )
    GROUP: ClassVar[str] = "necklines and armholes"

    do: Literal["reshape_neckline"] = "reshape_neckline"
    front: PieceName = Field(default="front", description=N_("the front"))
    back: PieceName = Field(default="back", description=N_("the back"))
    edge: EdgeName = Field(default="neckline", description=N_("the neckline"))
    shape: Shape = Field(default="round", description=N_("the shape in front"))
    back_shape: Shape | None = Field(
        default=None,
        description=N_(
            "the shape behind: round when left out; without any change it stays as it is"
        ),
    )
    wider: Annotated[Length, Within(-3.0, 25.0)] = Field(
        default=0.0, description=N_("wider along each shoulder")
    )
    front_deeper: Annotated[Length, Within(-4.0, 60.0)] = Field(
        default=0.0, description=N_("deeper at centre front")
    )
    back_deeper: Annotated[Length, Within(-3.0, 60.0)] = Field(
        default=0.0, description=N_("deeper at centre back")
    )
    rounding: Annotated[Length, Within(0.0, 15.0)] = Field(
        default=0.0, description=N_("how much the corner of a square neckline is rounded")
    )

    def clauses(self) -> tuple[str, ...]:
        """Name only what is asked for."""
        out = [self.SENTENCE]
        if self.wider:
            out.append(N_("Take it {wider} cm wider along each shoulder."))
        if self.front_deeper:
            out.append(N_("Take it {front_deeper} cm deeper at centre front."))
        if self.back_deeper:
            out.append(N_("Take it {back_deeper} cm deeper at centre back."))
        if self.back_shape:
            out.append(N_("Behind it is {back_shape}."))
        if self.rounding:
            out.append(N_("Round its corner by {rounding} cm."))
        return tuple(out)

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Cut both shoulders back and draw both lines."""
        wider = self.cm("wider", pattern, body)
        behind = self.cm("back_deeper", pattern, body)
        rounding = self.cm("rounding", pattern, body)
        wishes = (
            _Wish(self.front, self.shape, self.cm("front_deeper", pattern, body), True),
            _Wish(
                self.back,
                self.back_shape or "round",
                behind,
                bool(self.back_shape or wider or behind),
            ),
        )
        changed, lost = pattern, frozenset[str]()
        traces: list[Trace] = []
        for wish in wishes:
            before = pattern.piece(wish.piece)
            if not wish.touched:
                before.edge_parts(self.edge)
                continue
            after = self._drawn(before, wish, wider, rounding)
            changed = changed.with_pieces(after)
            lost |= lost_levels(before, after, self.edge)
            path = after.edge(self.edge).curves
            traces += [Trace("cut", wish.piece, path=path), Trace("trued", wish.piece, path=path)]
        changed = without_levels(changed, lost, (self.front, self.back))
        change = account(pattern, changed)
        refuse_if_parted(pattern, changed, change)
        figures = self._figures(pattern, changed, wider)
        return Result(changed, change, figures, traces=tuple(traces))

    def _drawn(self, piece: Piece, wish: _Wish, wider: float, rounding: float) -> Piece:
        place = halved(piece, self.edge)
        last = place.centre_last
        before = cut_back(place, place.before, wider if last else wish.deeper)
        after = cut_back(place, place.after, wish.deeper if last else wider)
        drawn = neckline(wish.shape, _ends(place, before, after, last), rounding)
        middle = drawn.path if last else reversed_path(drawn.path)
        doing = _("Reshaping the neckline")
        out = settled(redrawn(place, before, middle, after), doing, self.edge)
        return refuse_if_crossing(_marked(out, place, drawn), doing)

    def _figures(self, before: Pattern, after: Pattern, wider: float) -> tuple[Figure, ...]:
        pieces = [after.piece(self.front), after.piece(self.back)]
        whole = all_round([(p.name, p.edge_length(self.edge), p.times) for p in pieces])
        out = [Figure(_("neckline, all round"), whole.value, "cm", whole.line)]
        if wider:
            place = halved(before.piece(self.front), self.edge)
            shoulder = (place.before if place.centre_last else place.after).name
            was = measured([(shoulder, before.piece(self.front).edge_length(shoulder))])
            left = was.plus(-wider)
            out.append(Figure(_("shoulder"), left.value, "cm", left.line))
        return tuple(out)


def _ends(place: Place, before: Path, after: Path, centre_last: bool) -> Ends:
    """Both ends of the new line, seen from the shoulder: that corner stays, the centre is square."""
    start, end = before[-1].end, after[0].start
    leaving = kept_start(place, before) if centre_last else square_start(before)
    arriving = square_end(after) if centre_last else kept_end(place, after)
    if centre_last:
        return Ends(start, leaving, end, arriving, start_direction(after))
    return Ends(end, -arriving, start, -leaving, start_direction(reversed_path(before)))


def _marked(piece: Piece, place: Place, drawn: Drawn) -> Piece:
    marks = tuple(Mark(MarkKind.CORNER, at, edge=place.edge.name) for at in drawn.corners)
    return replace(piece, marks=piece.marks + marks)
