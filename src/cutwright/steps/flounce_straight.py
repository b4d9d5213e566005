"""A straight flounce: a strip gathered onto measured edges."""

from __future__ import annotations

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from cutwright.body.body import Body
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Cut
from cutwright.pattern.result import Figure, Result
from cutwright.pattern.role import Role
from cutwright.pattern.shapes import rectangle
from cutwright.style.arithmetic import plain
from cutwright.style.flounce import (
    ClothWidth,
    Flounce,
    JoinAllowance,
    parted,
    parts_for,
    ratio_text,
)
from cutwright.style.parameter import Ratio
from cutwright.style.registry import register
from cutwright.words import N_, _


@register
class FlounceStraight(Flounce):
    """A strip as long as the measured edges times the gather ratio."""

    SENTENCE: ClassVar[str] = N_(
        "Gather a straight {piece} to {edges}, {ratio} times its length, {depth} cm deep."
    )
    HELP: ClassVar[str] = N_(
        "The edges are measured all round and multiplied by the gather ratio: 1.5 is scant, 1.7 good for "
        "medium cloth, 2 full, 3 for sheer cloth. The strip is pieced in equal parts for the cloth."
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
        depth = self.cm("depth", pattern, body)
        whole = found.working.times(self.ratio).rounded(self.round, self.round_to)
        parts = parts_for(whole.value, self.cm("cloth", pattern, body), self.join, self.parts)
        each = parted(whole, parts, self.round, self.round_to)
        piece = rectangle(self.piece, each.value, depth, Cut(copies=parts), Role.FLOUNCE)
        total = each.value * parts
        figures = (
            Figure(
                _("length of the {piece}").format(piece=self.piece), whole.value, "cm", whole.line
            ),
            Figure(
                _("each part of the {piece}").format(piece=self.piece), each.value, "cm", each.line
            ),
            Figure(
                _("fullness of the {piece}").format(piece=self.piece),
                round(total / found.working.value, 2),
                "ratio",
                ratio_text(total, found.working.value),
            ),
            Figure(_("depth of the {piece}").format(piece=self.piece), depth, "cm", plain(depth)),
        )
        return self.sewn(
            pattern, found.row, piece, figures if parts > 1 else (figures[0], *figures[2:]), True
        )
