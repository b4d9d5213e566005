"""A circular flounce: parts of a ring, flared without gathers."""

from __future__ import annotations

from math import ceil, degrees, radians
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from cutwright.body.body import Body
from cutwright.errors import StepError
from cutwright.messages import N_, Message
from cutwright.pattern.parts.shapes import ring_part
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Cut
from cutwright.pattern.result import Result
from cutwright.pattern.role import Role
from cutwright.pattern.sum import (
    Chosen,
    Earlier,
    Figure,
    Number,
    Rounding,
    Unit,
    minus,
    over,
    rounded,
    times,
)
from cutwright.style.flounce import Flounce, part_length
from cutwright.style.parameter import Angle, Ratio
from cutwright.style.registry import register


@register
class FlounceCircular(Flounce):
    """Ring parts whose inner edge is as long as the measured edges and whose hem is fuller."""

    SENTENCE: ClassVar[str] = N_(
        "Sew a circular {piece} to the {edges}, {depth} cm deep, its hem {fullness} times the seam."
    )
    HELP: ClassVar[str] = N_(
        "Radius = seam × depth ÷ (hem − seam). The ring is cut in as many equal parts as its turn needs "
        "(source: L. I. Baldt, Clothing for Women, 1916, circular flounce)."
    )
    WHY: ClassVar[str] = N_(
        "A ring lies smooth at the seam and ripples at the hem. An inner edge that is too long puckers in "
        "the seam."
    )
    CLOTH: ClassVar[str] = N_(
        "Sheer, soft cloth takes 2 to 3 times the seam at the hem; the heavier the cloth, the less."
    )
    GROUP: ClassVar[str] = "flounces"

    do: Literal["flounce_circular"] = "flounce_circular"
    fullness: Annotated[Ratio, Field(ge=1.02, le=12.0)] = Field(
        default=2.0, description=N_("hem over seam")
    )
    widest: Annotated[Angle, Field(ge=20.0, le=340.0)] = Field(
        default=180.0, description=N_("most degrees of turn in one part")
    )
    round: Literal["up", "nearest", "none"] = Field(
        default="none",
        description=N_("how its length is rounded"),
        json_schema_extra={"role": "choice"},
    )

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Find radius and turn; draw the ring parts and sew them on."""
        found = self.measured_row(pattern)
        depth = self.chosen("depth", pattern, body)
        turn = found.course.whole * (self.fullness - 1) / depth.size
        radius = found.course.whole / turn
        parts = max(self.parts, ceil(turn / radians(self.widest) - 1e-9), 1)
        if parts > 24:
            raise StepError(
                Message(
                    "flounce-would-need-parts-turns",
                    N_(
                        "This flounce would need {parts} parts: it turns {angle:.0f} degrees in all. Ask for less "
                        "fullness or more depth."
                    ),
                    parts=parts,
                    angle=degrees(turn),
                )
            )
        piece = ring_part(
            self.piece, radius, depth.size, turn / parts, Cut(copies=parts), Role.CIRCULAR_FLOUNCE
        )
        figures = self._figures(found.figure, depth, parts)
        return self.sewn(pattern, found.course, piece, figures, False)

    def _figures(self, seam: Figure, depth: Chosen, parts: int) -> tuple[Figure, ...]:
        """Hem, radius, turn and parts; radius = seam x depth / (hem - seam), turn = (hem - seam) / depth."""
        name = self.piece
        hem = Figure(
            "flounce-hem",
            times(Earlier(seam), Chosen("fullness", self.fullness, Unit.NUMBER)),
            name,
        )
        more = Figure("hem-longer", minus(Earlier(hem), Earlier(seam)), name)
        radius = Figure("radius", over(times(Earlier(seam), depth), Earlier(more)), name)
        angle = times(over(Earlier(more), depth), Number(57.3, "degrees"))
        turn = Figure("turn", rounded(angle, Rounding.NEAREST, 0.1), name, unit=Unit.DEGREE)
        out = [seam, hem, more, radius, turn]
        if parts > 1:
            widest = Chosen("widest", self.widest, Unit.DEGREE)
            need = rounded(over(Earlier(turn), widest), Rounding.UP, 1.0)
            count = need if parts == need.value else Chosen("parts", parts, Unit.NUMBER)
            out.append(Figure("strips", count, name, unit=Unit.NUMBER))
            out.append(Figure("each-part", part_length(seam, parts, "none", 0), name))
        return tuple(out)
