"""Draw the armholes of front and back anew: narrower shoulder, lower underarm, deeper scoop."""

from __future__ import annotations

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from cutwright.body.body import Body
from cutwright.errors import GeometryError, StepError
from cutwright.messages import N_, Message
from cutwright.pattern.change import account
from cutwright.pattern.cutting.flare import refuse_if_crossing
from cutwright.pattern.edge import EdgeKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.result import Result, Trace, TraceKind
from cutwright.pattern.sewing.walk import refuse_if_parted
from cutwright.pattern.shaping.armholes import armhole
from cutwright.pattern.shaping.redraw import EdgePlace, cut_back, edge_place, redrawn
from cutwright.pattern.shaping.settle import lost_levels, settled, without_levels
from cutwright.pattern.sum import Figure, plus
from cutwright.style.parameter import EdgeName, Length, PieceName, Within
from cutwright.style.registry import register
from cutwright.style.step import Step


@register
class ReshapeArmhole(Step):
    """Change the armholes of front and back together, so that shoulders and sides stay equal."""

    SENTENCE: ClassVar[str] = N_("Reshape the armhole of {front} and {back}.")
    HELP: ClassVar[str] = N_(
        "The shoulder is cut in from its end and the underarm lowered along the side, by the "
        "same amounts in front and back; a figure below 0 does the opposite. The scoop hollows "
        "the lower third further. The corners at shoulder and side stay as they are."
    )
    WHY: ClassVar[str] = N_(
        "The armhole follows the style and the arm. Too high it cuts in; too deep, the garment lifts with "
        "the arm."
    )
    CLOTH: ClassVar[str] = N_("Thick or lined cloth needs a slightly deeper armhole.")
    GROUP: ClassVar[str] = "necklines and armholes"

    do: Literal["reshape_armhole"] = "reshape_armhole"
    front: PieceName = Field(default="front", description=N_("the front"))
    back: PieceName = Field(default="back", description=N_("the back"))
    edge: EdgeName = Field(default="armhole", description=N_("the armhole"))
    shoulder_in: Annotated[Length, Within(-6.0, 20.0)] = Field(
        default=0.0, description=N_("shoulder shorter at its end")
    )
    deeper: Annotated[Length, Within(-4.0, 40.0)] = Field(
        default=0.0, description=N_("underarm lower along the side")
    )
    scoop_front: Annotated[Length, Within(-2.0, 6.0)] = Field(
        default=0.0, description=N_("hollowed further in front")
    )
    scoop_back: Annotated[Length, Within(-2.0, 6.0)] = Field(
        default=0.0, description=N_("hollowed further behind")
    )

    def clauses(self) -> tuple[str, ...]:
        """Name only what changes."""
        out = [self.SENTENCE]
        if self.shoulder_in:
            out.append(N_("Cut the shoulder in by {shoulder_in} cm."))
        if self.deeper:
            out.append(N_("Lower the underarm by {deeper} cm."))
        if self.scoop_front:
            out.append(N_("Scoop the front out by {scoop_front} cm."))
        if self.scoop_back:
            out.append(N_("Scoop the back out by {scoop_back} cm."))
        return tuple(out)

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Cut back shoulder and side, carry the line along."""
        inwards, deeper = self.cm("shoulder_in", pattern, body), self.cm("deeper", pattern, body)
        scoops = self.cm("scoop_front", pattern, body), self.cm("scoop_back", pattern, body)
        changed, lost = pattern, frozenset[str]()
        traces: list[Trace] = []
        for name, scoop in zip((self.front, self.back), scoops, strict=True):
            before = pattern.piece(name)
            after = self._drawn(before, inwards, deeper, scoop)
            changed = changed.with_pieces(after)
            lost |= lost_levels(before, after, self.edge)
            path = after.edge(self.edge).curves
            traces += [
                Trace(TraceKind.CUT, name, path=path),
                Trace(TraceKind.TRUED, name, path=path),
            ]
        changed = without_levels(changed, lost, (self.front, self.back))
        change = account(pattern, changed)
        refuse_if_parted(pattern, changed, change)
        return Result(changed, change, self._figures(changed), traces=tuple(traces))

    def _drawn(self, piece: Piece, inwards: float, deeper: float, scoop: float) -> Piece:
        place = edge_place(piece, self.edge)
        side_first = _side_first(place)
        before = cut_back(place, place.before, deeper if side_first else inwards)
        after = cut_back(place, place.after, inwards if side_first else deeper)
        doing = N_("Reshaping the armhole")
        try:
            middle = armhole(place, before, after, scoop, side_first)
        except GeometryError:
            raise StepError(
                Message(
                    "armhole-would-bend-both-ways-2",
                    N_(
                        'The armhole of "{piece}" would have to bend both ways. Take less off the shoulder, lower the '
                        "underarm less, or scoop it less."
                    ),
                    piece=piece.name,
                )
            ) from None
        out = settled(redrawn(place, before, middle, after), doing, self.edge)
        return refuse_if_crossing(out, doing)

    def _figures(self, after: Pattern) -> tuple[Figure, ...]:
        pieces = [after.piece(self.front), after.piece(self.back)]
        return (Figure("armhole-half", plus(*(p.tape(self.edge) for p in pieces))),)


def _side_first(place: EdgePlace) -> bool:
    """Whether the armhole is walked from the side to the shoulder."""
    kinds = place.before.kind, place.after.kind
    if EdgeKind.SHOULDER not in kinds or kinds[0] is kinds[1]:
        raise StepError(
            Message(
                "runs-step-needs-between-side",
                N_(
                    'The "{edge}" of "{piece}" runs from "{one}" to "{other}"; this step needs one between a side and a '
                    "shoulder."
                ),
                edge=place.edge.name,
                piece=place.piece.name,
                one=place.before.label,
                other=place.after.label,
            )
        )
    return kinds[1] is EdgeKind.SHOULDER
