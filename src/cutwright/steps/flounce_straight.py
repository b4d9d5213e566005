"""A straight flounce: a strip gathered onto measured edges."""

from __future__ import annotations

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from cutwright.body.body import Body
from cutwright.messages import N_
from cutwright.pattern.parts.shapes import rectangle
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Cut
from cutwright.pattern.result import Result
from cutwright.pattern.role import Role
from cutwright.pattern.sum import Chosen, Earlier, Figure, Unit, rounded, times
from cutwright.style.flounce import (
    ClothWidth,
    Flounce,
    JoinAllowance,
    fullness,
    part_length,
    parts_for,
    strips,
)
from cutwright.style.parameter import Ratio
from cutwright.style.registry import register


@register
class FlounceStraight(Flounce):
    """A strip as long as the measured edges times the gather ratio."""

    SENTENCE: ClassVar[str] = N_(
        "Cut the {piece} as a straight strip, {depth} cm deep and {ratio} times as long as the "
        "{edges}; gather it on."
    )
    HELP: ClassVar[str] = N_(
        "The edges are measured all round and multiplied by the gather ratio: 1.5 is scant, 1.7 good for "
        "medium cloth, 2 full, 3 for sheer cloth. The strip is pieced in equal parts for the cloth."
    )
    WHY: ClassVar[str] = N_(
        "Cloth that is drawn up falls in folds from the seam. Too little looks stretched, too much is "
        "bulky in the seam."
    )
    CLOTH: ClassVar[str] = N_(
        "Gather 1.5 times the seam for heavy cloth, 1.7 for medium, 2 for full gathers, 3 for sheer cloth "
        "(common practice)."
    )
    GROUP: ClassVar[str] = "flounces"

    do: Literal["flounce_straight"] = "flounce_straight"
    ratio: Annotated[Ratio, Field(ge=1.0, le=6.0)] = Field(
        default=1.7, description=N_("gather ratio")
    )
    cloth: ClothWidth = 140.0
    join: JoinAllowance = 1.0

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Measure, multiply, round, divide; draw the strip and sew it on."""
        found = self.measured_row(pattern)
        depth = self.chosen("depth", pattern, body)
        full = times(Earlier(found.figure), Chosen("ratio", self.ratio, Unit.NUMBER))
        whole = Figure("flounce-length", rounded(full, self.round, self.round_to), self.piece)
        cloth = self.chosen("cloth", pattern, body)
        parts = parts_for(whole.value, cloth.value, self.join, self.parts)
        room = cloth.value - 2 * self.join
        each = Figure(
            "each-part", part_length(whole, parts, self.round, self.round_to, room), self.piece
        )
        piece = rectangle(self.piece, each.value, depth.size, Cut(copies=parts), Role.FLOUNCE)
        figures = (
            found.figure,
            whole,
            strips(whole, cloth, self.join, parts),
            *((each,) if parts > 1 else ()),
            fullness(each if parts > 1 else whole, parts, found.figure),
            Figure("depth", depth, self.piece),
        )
        return self.sewn(pattern, found.course, piece, figures, True)
