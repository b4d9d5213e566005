"""A slashed flounce: a rectangle cut from the free edge and spread, gathered or not where it is sewn."""

from __future__ import annotations

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from cutwright.body.body import Body
from cutwright.pattern.flare import refuse_if_crossing
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Cut
from cutwright.pattern.result import Figure, Result
from cutwright.pattern.role import Role
from cutwright.pattern.shapes import rectangle
from cutwright.pattern.spreading import slash_lines, spread
from cutwright.style.arithmetic import Working, plain, taped
from cutwright.style.flounce import (
    ClothWidth,
    Flounce,
    JoinAllowance,
    parted,
    parts_for,
    ratio_text,
)
from cutwright.style.parameter import Count, Length, Ratio, Within
from cutwright.style.registry import register
from cutwright.words import N_, _


@register
class FlounceSlashed(Flounce):
    """A rectangle slashed evenly on both sides of its middle and opened at the free edge."""

    SENTENCE: ClassVar[str] = N_(
        "Slash a {piece} for {edges}, {depth} cm deep: {cuts} cuts on each side of the middle, each opened {by} cm."
    )
    GATHERS: ClassVar[str] = N_("Gather it {ratio} times.")
    HELP: ClassVar[str] = N_(
        "A rectangle as long as the edges (times a gather ratio, if any) is slashed from its free edge to a "
        "hair before the sewn one, which keeps its length while the free edge opens."
    )
    GROUP: ClassVar[str] = "flounces"

    do: Literal["flounce_slashed"] = "flounce_slashed"
    cuts: Annotated[Count, Field(ge=1, le=20)] = Field(
        default=5, description=N_("cuts on each side of the middle")
    )
    by: Annotated[Length, Within(0.0, 40.0)] = Field(
        default=2.0, description=N_("how far each cut opens at the free edge")
    )
    ratio: Annotated[Ratio, Field(ge=1.0, le=6.0)] = Field(
        default=1.0, description=N_("gather ratio at the sewn edge")
    )
    cloth: ClothWidth = 140.0
    join: JoinAllowance = 1.0

    def clauses(self) -> tuple[str, ...]:
        """The sentence, and the gathers where there are any."""
        return (self.SENTENCE, self.GATHERS) if self.ratio > 1 else (self.SENTENCE,)

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Measure, cut the rectangle, slash, spread, true and sew on."""
        found = self.measured_row(pattern)
        depth, by = self.cm("depth", pattern, body), self.cm("by", pattern, body)
        gathered = self.ratio > 1
        if gathered:
            whole = found.working.times(self.ratio).rounded(self.round, self.round_to)
        else:
            whole = found.working  # printed to the millimetre; the paper keeps the exact length
        parts = parts_for(whole.value, self.cm("cloth", pattern, body), self.join, self.parts)
        each = parted(whole, parts, self.round if gathered else "none", self.round_to)
        size = each.value if gathered else found.row.whole / parts
        flat = rectangle(self.piece, size, depth, Cut(copies=parts), Role.SLASHED_FLOUNCE)
        shares = [(i + 1) / (2 * self.cuts + 1) for i in range(2 * self.cuts)]
        slashes = slash_lines(flat, "top", "hem", shares)
        flared = spread(
            flat, "top", "hem", slashes, [by] * len(slashes), [0.0] * len(slashes), self.cuts
        )
        piece = refuse_if_crossing(flared.piece, _("Slashing the flounce"))
        figures = self._figures(whole, each, parts, by, taped(piece.edge_length("hem")))
        if gathered:
            total = each.value * parts
            fullness = Figure(
                _("fullness of the {piece}").format(piece=self.piece),
                round(total / found.working.value, 2),
                "ratio",
                ratio_text(total, found.working.value),
            )
            figures = (*figures, fullness)
        return self.sewn(pattern, found.row, piece, figures, gathered)

    def _figures(
        self, whole: Working, each: Working, parts: int, by: float, hem: float
    ) -> tuple[Figure, ...]:
        name = self.piece
        cuts = 2 * self.cuts
        opened = round(cuts * by, 2)
        out = [
            Figure(
                _("sewn edge of the {piece}").format(piece=name),
                whole.value,
                "cm",
                whole.line,
            )
        ]
        if parts > 1:
            out.append(
                Figure(
                    _("each part of the {piece}").format(piece=name), each.value, "cm", each.line
                )
            )
        out.append(
            Figure(
                _("opened in each part").format(piece=name),
                opened,
                "cm",
                f"2 × {self.cuts} = {cuts}; {cuts} × {plain(by)} = {plain(opened)}",
            )
        )
        out.append(
            Figure(
                _("free edge of each part of the {piece}").format(piece=name),
                hem,
                "cm",
                _("{hem}, trued").format(hem=plain(hem)),
            )
        )
        return tuple(out)
