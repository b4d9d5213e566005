"""A circular flounce: parts of a ring, flared without gathers."""

from __future__ import annotations

from math import ceil, degrees, radians
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from cutwright.body.body import Body
from cutwright.errors import StepError
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Cut
from cutwright.pattern.result import Figure, Result
from cutwright.pattern.role import Role
from cutwright.pattern.shapes import ring_part
from cutwright.style.arithmetic import Working, plain
from cutwright.style.flounce import Flounce, parted
from cutwright.style.parameter import Angle, Ratio
from cutwright.style.registry import register
from cutwright.words import N_, _


@register
class FlounceCircular(Flounce):
    """Ring parts whose inner edge is as long as the measured edges and whose hem is fuller."""

    SENTENCE: ClassVar[str] = N_(
        "Sew a circular {piece} to {edges}, {depth} cm deep, its hem {fullness} times the seam."
    )
    HELP: ClassVar[str] = N_(
        "Radius = seam × depth ÷ (hem − seam). The ring is cut in as many equal parts as its turn needs "
        "(source: L. I. Baldt, Clothing for Women, 1916, circular flounce)."
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
        depth = self.cm("depth", pattern, body)
        seam_line = Working(found.row.whole, found.working.line)
        hem = found.working.times(self.fullness)
        turn = found.row.whole * (self.fullness - 1) / depth
        radius = found.row.whole / turn
        parts = max(self.parts, ceil(turn / radians(self.widest) - 1e-9), 1)
        if parts > 24:
            raise StepError(
                _(
                    "This flounce would need {parts} parts: it turns {angle:.0f} degrees in all. Ask for less "
                    "fullness or more depth."
                ).format(parts=parts, angle=degrees(turn))
            )
        each = parted(
            Working(round(seam_line.value, 2), plain(found.working.value)), parts, "none", 0
        )
        piece = ring_part(
            self.piece, radius, depth, turn / parts, Cut(copies=parts), Role.CIRCULAR_FLOUNCE
        )
        return self.sewn(
            pattern, found.row, piece, self._figures(found.working, hem, depth, parts, each), False
        )

    def _figures(
        self, seam: Working, hem: Working, depth: float, parts: int, each: Working
    ) -> tuple[Figure, ...]:
        s, whole = seam.value, hem.value
        radius = round(s * depth / (whole - s), 2)
        angle = round(degrees((whole - s) / depth), 1)
        name = self.piece
        out = [
            Figure(_("seam of the {piece}").format(piece=name), s, "cm", seam.line),
            Figure(_("hem of the {piece}").format(piece=name), whole, "cm", hem.line),
            Figure(
                _("radius of the {piece}").format(piece=name),
                radius,
                "cm",
                f"{plain(s)} × {plain(depth)} ÷ ({plain(whole)} − {plain(s)}) = {plain(radius)}",
            ),
            Figure(
                _("turn of the {piece}").format(piece=name),
                angle,
                "degree",
                f"({plain(whole)} − {plain(s)}) ÷ {plain(depth)} × 57.3 = "
                f"{plain(round((whole - s) / depth * 57.3, 1))}",
            ),
        ]
        if parts > 1:
            out.append(
                Figure(
                    _("each part of the {piece}").format(piece=name), each.value, "cm", each.line
                )
            )
        return tuple(out)
