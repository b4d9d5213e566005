"""Shape the hem of front and back: level, curved at the sides, or sweeping from high to low."""

from __future__ import annotations

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from cutwright.body.body import Body
from cutwright.errors import StepError
from cutwright.messages import N_, Message
from cutwright.pattern.change import account
from cutwright.pattern.cutting.flare import refuse_if_crossing
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.result import Result, Trace, TraceKind
from cutwright.pattern.sewing.walk import refuse_if_parted
from cutwright.pattern.shaping.hem import HemGrowth, new_hem
from cutwright.pattern.shaping.redraw import halved
from cutwright.pattern.shaping.settle import settled
from cutwright.pattern.sum import Figure, plus
from cutwright.style.parameter import EdgeName, Length, PieceName, Within
from cutwright.style.registry import register
from cutwright.style.step import Step

_EVEN = 1e-6


@register
class ShapeHem(Step):
    """Lengthen or shorten a hem by different amounts at the centres and at the sides."""

    SENTENCE: ClassVar[str] = N_("Shape the hem of {front} and {back}: {shape}.")
    HELP: ClassVar[str] = N_(
        "Say how much longer the hem becomes at centre front, at the sides and at centre back; a "
        "figure below 0 makes it shorter. Level keeps the line of the hem; curved is square at "
        "the side as well as at the centres; high-low runs through the side seam in one line. "
        "Front and back sides change by the same amount."
    )
    WHY: ClassVar[str] = N_(
        "The hem hangs level on the figure, or rises as the style wants. With a corner at the side seam "
        "it shows a notch."
    )
    CLOTH: ClassVar[str] = N_(
        "In thick cloth a curved hem lies in pleats inside: curve it less, turn it up narrow, or face it."
    )
    GROUP: ClassVar[str] = "lengths and hems"

    do: Literal["shape_hem"] = "shape_hem"
    front: PieceName = Field(default="front", description=N_("the front"))
    back: PieceName = Field(default="back", description=N_("the back"))
    edge: EdgeName = Field(default="hem", description=N_("the hem"))
    shape: Literal["level", "curved", "high-low"] = Field(
        default="curved", description=N_("the line of the hem")
    )
    centre_front: Annotated[Length, Within(-80.0, 150.0)] = Field(
        default=0.0, description=N_("longer at centre front")
    )
    side: Annotated[Length, Within(-80.0, 150.0)] = Field(
        default=0.0, description=N_("longer at the sides")
    )
    centre_back: Annotated[Length, Within(-80.0, 150.0)] = Field(
        default=0.0, description=N_("longer at centre back")
    )

    def clauses(self) -> tuple[str, ...]:
        """Name only what changes."""
        out = [self.SENTENCE]
        if self.centre_front:
            out.append(N_("Longer by {centre_front} cm at centre front."))
        if self.side:
            out.append(N_("Longer by {side} cm at the sides."))
        if self.centre_back:
            out.append(N_("Longer by {centre_back} cm at centre back."))
        return tuple(out)

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Draw both hems beside the old ones."""
        centres = (
            self.cm("centre_front", pattern, body),
            self.cm("centre_back", pattern, body),
        )
        side = self.cm("side", pattern, body)
        if self.shape == "level" and max(abs(c - side) for c in centres) > _EVEN:
            raise StepError(
                Message(
                    "level-hem-changes-alike-all",
                    N_(
                        "A level hem changes by the same amount all round; here it would change by {front:.1f} "
                        "in front, {side:.1f} at the sides and {back:.1f} behind. Choose curved or high-low."
                    ),
                    front=centres[0],
                    side=side,
                    back=centres[1],
                )
            )
        pieces = (pattern.piece(self.front), pattern.piece(self.back))
        slope = self._sweep(pieces, centres, side)
        changed = pattern
        traces: list[Trace] = []
        for piece, centre, sign in zip(pieces, centres, (1, -1), strict=True):
            after = self._drawn(piece, centre, side, sign * slope)
            changed = changed.with_pieces(after)
            path = after.edge(self.edge).curves
            traces.append(Trace(TraceKind.TRUED, piece.name, path=path))
        change = account(pattern, changed)
        refuse_if_parted(pattern, changed, change)
        return Result(changed, change, self._figures(pieces, changed), traces=tuple(traces))

    def _sweep(
        self, pieces: tuple[Piece, Piece], centres: tuple[float, float], side: float
    ) -> float:
        """By how much the hem drops for each cm from front to back where it passes the side."""
        if self.shape != "high-low":
            return 0.0
        front, back = (p.edge_length(self.edge) for p in pieces)
        one, other = (side - centres[0]) / front, (centres[1] - side) / back
        if one * other <= 0:
            return 0.0
        mean = (side - centres[0] + centres[1] - side) / (front + back) * 1.5
        most = 3 * min(abs(one), abs(other))
        return max(-most, min(most, mean))

    def _drawn(self, piece: Piece, centre: float, side: float, slope: float) -> Piece:
        """`slope` is how fast the hem gets longer on the way outwards at the side."""
        ends = (
            HemGrowth(side, centre, start_slope=-slope)
            if halved(piece, self.edge).centre_last
            else HemGrowth(centre, side, end_slope=slope)
        )
        doing = N_("Shaping the hem")
        return refuse_if_crossing(settled(new_hem(piece, self.edge, ends), doing, self.edge), doing)

    def _figures(self, before: tuple[Piece, Piece], after: Pattern) -> tuple[Figure, ...]:
        now = [after.piece(p.name) for p in before]
        return (Figure("half-hem", plus(*(p.tape(self.edge) for p in now))),)
