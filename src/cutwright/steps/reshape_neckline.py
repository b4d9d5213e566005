"""Draw the neckline of front and back anew: wider along the shoulder, deeper at the centres."""

from __future__ import annotations

from dataclasses import replace
from math import pi
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from cutwright.body.body import Body
from cutwright.geometry.path import reversed_path
from cutwright.messages import N_
from cutwright.pattern.change import account
from cutwright.pattern.cutting.flare import refuse_if_crossing
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Mark, Piece
from cutwright.pattern.result import Result, Trace, TraceKind
from cutwright.pattern.sewing.walk import refuse_if_parted
from cutwright.pattern.shaping.neckline_half import HalfNeckline, sewn_at_shoulder
from cutwright.pattern.shaping.neckline_pair import NecklineWish, drawn_together
from cutwright.pattern.shaping.necklines import DrawnNeckline, Shape, neckline
from cutwright.pattern.shaping.redraw import cut_back, halved, redrawn
from cutwright.pattern.shaping.settle import lost_levels, settled, without_levels
from cutwright.pattern.sum import Chosen, Figure, all_round, minus
from cutwright.style.parameter import EdgeName, Length, PieceName, Within
from cutwright.style.registry import register
from cutwright.style.step import Step


@register
class ReshapeNeckline(Step):
    """Draw the neckline anew on front and back together, so that the shoulders stay equal."""

    SENTENCE: ClassVar[str] = N_("Draw a {shape} neckline on {front} and {back}.")
    HELP: ClassVar[str] = N_(
        "The neckline is made wider by the same amount along both shoulders, and deeper along "
        "the centres; a figure below 0 brings it nearer to the neck. Front and back make one "
        "straight line where they meet at the shoulder. A V runs straight, or slightly hollow "
        "where the back cannot take the rest of the angle; a boat turns within a short way of "
        "the shoulder and then runs nearly straight, so its front is drawn higher; all but a V "
        "meet the centre square. When the neckline is made much wider, make the back deeper too, "
        "or it turns too tightly to be sewn."
    )
    WHY: ClassVar[str] = N_(
        "Front and back are drawn together, so that they meet smoothly at the shoulder. A corner there "
        "shows when it is worn."
    )
    CLOTH: ClassVar[str] = N_(
        "A wide or deep neckline gapes in soft cloth: sew a tape into its seam, or make it a little "
        "smaller."
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
        front = self._cut(pattern, self.front, wider, self.cm("front_deeper", pattern, body))
        halves = [(front, self.shape)]
        if self.back_shape or wider or behind:
            halves.append(
                (self._cut(pattern, self.back, wider, behind), self.back_shape or "round")
            )
        pattern.piece(self.back).edge_parts(self.edge)
        changed, lost = pattern, frozenset[str]()
        traces: list[Trace] = []
        for half, drawn in zip(
            [h for h, _s in halves], _lines(pattern, halves, self.back, rounding), strict=True
        ):
            before = half.place.piece
            after = self._redrawn(half, drawn)
            changed = changed.with_pieces(after)
            lost |= lost_levels(before, after, self.edge)
            path = after.edge(self.edge).curves
            traces += [
                Trace(TraceKind.CUT, before.name, path=path),
                Trace(TraceKind.TRUED, before.name, path=path),
            ]
        changed = without_levels(changed, lost, (self.front, self.back))
        change = account(pattern, changed)
        refuse_if_parted(pattern, changed, change)
        figures = self._figures(pattern, changed, wider)
        return Result(changed, change, figures, traces=tuple(traces))

    def _cut(self, pattern: Pattern, name: str, wider: float, deeper: float) -> HalfNeckline:
        place = halved(pattern.piece(name), self.edge)
        last = place.centre_last
        before = cut_back(place, place.before, wider if last else deeper)
        after = cut_back(place, place.after, deeper if last else wider)
        return HalfNeckline(place, before, after)

    def _redrawn(self, half: HalfNeckline, drawn: DrawnNeckline) -> Piece:
        place = half.place
        middle = drawn.path if place.centre_last else reversed_path(drawn.path)
        doing = N_("Reshaping the neckline")
        out = settled(redrawn(place, half.before, middle, half.after), doing, self.edge)
        marks = tuple(Mark(MarkKind.CORNER, at, edge=place.edge.name) for at in drawn.corners)
        return refuse_if_crossing(replace(out, marks=out.marks + marks), doing)

    def _figures(self, before: Pattern, after: Pattern, wider: float) -> tuple[Figure, ...]:
        pieces = [after.piece(self.front), after.piece(self.back)]
        whole = all_round((p.tape(self.edge), p.times) for p in pieces)
        out = [Figure("neckline", whole)]
        if wider:
            place = halved(before.piece(self.front), self.edge)
            shoulder = (place.before if place.centre_last else place.after).name
            was = before.piece(self.front).tape(shoulder)
            left = minus(was, Chosen("wider", wider))
            out.append(Figure("length", left, self.front, shoulder))
        return tuple(out)


def _lines(
    pattern: Pattern, halves: list[tuple[HalfNeckline, Shape]], back: str, rounding: float
) -> list[DrawnNeckline]:
    """The new lines, their angles at the shoulder adding to a straight line where it is sewn."""
    front, behind = halves[0][0], halves[-1][0]
    if len(halves) < 2 or not sewn_at_shoulder(pattern, front.place, back):
        return [neckline(s, h.ends, h.angle, rounding) for h, s in halves]
    one, other = (NecklineWish(s, h.ends, rounding) for h, s in halves)
    return list(drawn_together(one, other, (front.angle + pi - behind.angle) / 2))
