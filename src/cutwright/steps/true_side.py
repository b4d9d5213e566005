"""True the sides: one soft bow over the hip, straight below, without the hollow of a dress."""

from __future__ import annotations

from typing import ClassVar, Literal

from pydantic import Field

from cutwright.body.body import Body
from cutwright.messages import N_, Message
from cutwright.pattern.change import account
from cutwright.pattern.cutting.flare import refuse_if_crossing
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.result import Finding, Result, Severity, Trace
from cutwright.pattern.sewing.walk import refuse_if_parted
from cutwright.pattern.shaping.settle import settled
from cutwright.pattern.shaping.sides import SideLine, side_of, sides_bowed
from cutwright.pattern.sum import Figure, regained
from cutwright.pattern.traces import trued_trace
from cutwright.style.parameter import EdgeName, PieceName
from cutwright.style.registry import register
from cutwright.style.step import Step


@register
class TrueSide(Step):
    """Draw the sides of skirt parts anew where they are hollow."""

    SENTENCE: ClassVar[str] = N_(
        "True (redraw) the {edge} of {pieces} as one smooth curve over the hip."
    )
    HELP: ClassVar[str] = N_(
        "A side that was cut from a dress is hollow at the waist; in a skirt, and more so once "
        "it is flared, that hollow shows. It becomes one curve from the upper end to the hip and "
        "stays straight below. The hip and the hem keep their widths and the edge above keeps "
        "its length; it is redrawn square to the new side, which becomes a little longer at the "
        "top, by the same amount on every piece. Name front and back together."
    )
    WHY: ClassVar[str] = N_(
        "A skirt hangs smooth from a side that curves only over the hip. With the hollow of a dress it "
        "pulls in below the waist seam."
    )
    GROUP: ClassVar[str] = "lengths and hems"

    do: Literal["true_side"] = "true_side"
    pieces: tuple[PieceName, ...] = Field(
        min_length=1,
        max_length=8,
        description=N_("the pieces, front and back together"),
        json_schema_extra={"role": "pieces"},
    )
    edge: EdgeName = Field(default="side", description=N_("the side"))

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Draw the hollow sides; a side that is one bow already stays."""
        pieces = [pattern.piece(name) for name in self.pieces]
        sides = [side_of(piece, self.edge) for piece in pieces]
        if not any(side.hollow for side in sides):
            return Result(pattern, findings=(self._nothing(),))
        doing = N_("Truing the side")
        now = [
            refuse_if_crossing(settled(piece, doing, side.top), doing)
            for side, piece in zip(sides, sides_bowed(sides), strict=True)
        ]
        changed = pattern.with_pieces(*now)
        change = account(pattern, changed)
        refuse_if_parted(pattern, changed, change)
        traces = [t for side, piece in zip(sides, now, strict=True) for t in _traces(side, piece)]
        figures = tuple(self._figure(a, b) for a, b in zip(pieces, now, strict=True))
        return Result(changed, change, figures, traces=tuple(traces))

    def _nothing(self) -> Finding:
        text = Message(
            "no-hollow-body-nothing-redrawn",
            N_("No {edge} of {pieces} is hollow on this body; nothing was redrawn."),
            edge=self.edge,
            pieces=", ".join(self.pieces),
        )
        return Finding("no-side-to-true", Severity.NOTE, f"{self.pieces[0]}: {self.edge}", text)

    def _figure(self, before: Piece, after: Piece) -> Figure:
        now = regained(after.tape(self.edge), before.tape(self.edge))
        return Figure("length", now, before.name, self.edge)


def _traces(side: SideLine, after: Piece) -> tuple[Trace, ...]:
    return tuple(
        trued_trace(after.name, side.piece.edge(label).curves, after.edge(label).curves)
        for label in (side.edge.label, side.top)
    )
