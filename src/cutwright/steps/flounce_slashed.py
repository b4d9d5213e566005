"""A slashed flounce: a rectangle cut from the free edge and spread, gathered or not where it is sewn."""

from __future__ import annotations

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from cutwright.body.body import Body
from cutwright.messages import N_, N_plural
from cutwright.pattern.cutting.flare import refuse_if_crossing
from cutwright.pattern.cutting.spreading import slash_lines, spread
from cutwright.pattern.parts.shapes import rectangle
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Cut, Piece
from cutwright.pattern.result import Result
from cutwright.pattern.role import Role
from cutwright.pattern.sum import (
    Chosen,
    Earlier,
    Figure,
    Number,
    Unit,
    over,
    plus,
    regained,
    rounded,
    times,
)
from cutwright.style.flounce import (
    ClothWidth,
    Flounce,
    JoinAllowance,
    fullness,
    part_length,
    parts_for,
    strips,
)
from cutwright.style.parameter import Count, Length, Ratio, Within
from cutwright.style.registry import register


@register
class FlounceSlashed(Flounce):
    """A rectangle slashed evenly on both sides of its middle and opened at the free edge."""

    SENTENCE: ClassVar[tuple[str, str]] = N_plural(
        "Slash a {piece} for the {edges}, {depth} cm deep: {cuts} cut on each side of the middle, opened {by} cm.",
        "Slash a {piece} for the {edges}, {depth} cm deep: {cuts} cuts on each side of the middle, each opened {by} cm.",
    )
    COUNTS: ClassVar[str] = "cuts"
    GATHERS: ClassVar[str] = N_("Gather it {ratio} times.")
    HELP: ClassVar[str] = N_(
        "A rectangle as long as the edges (times a gather ratio, if any) is slashed from its "
        "free edge to 1 mm short of the sewn one, which keeps its length while the free edge "
        "opens."
    )
    WHY: ClassVar[str] = N_(
        "Slashed and opened, the strip stays smooth at the seam and ripples below. Opened unevenly, it "
        "ripples in one place only."
    )
    CLOTH: ClassVar[str] = N_(
        "Soft cloth takes many openings; in firm cloth fewer and smaller ones keep it from sticking out."
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

    def clauses(self) -> tuple[str | tuple[str, str], ...]:
        """The sentence, and the gathers where there are any."""
        return (self.SENTENCE, self.GATHERS) if self.ratio > 1 else (self.SENTENCE,)

    def apply(self, pattern: Pattern, body: Body) -> Result:
        """Measure, cut the rectangle, slash, spread, true and sew on."""
        found = self.measured_row(pattern)
        depth, by = self.chosen("depth", pattern, body), self.chosen("by", pattern, body)
        gathered = self.ratio > 1
        whole = self._whole(found.figure) if gathered else found.figure
        cloth = self.chosen("cloth", pattern, body)
        parts = parts_for(whole.value, cloth.value, self.join, self.parts)
        room = cloth.value - 2 * self.join
        way = self.round if gathered else "none"
        each = Figure("each-part", part_length(whole, parts, way, self.round_to, room), self.piece)
        # a plain one is printed to the millimetre; the paper keeps the exact length
        size = each.value if gathered else found.course.whole / parts
        flat = rectangle(self.piece, size, depth.size, Cut(copies=parts), Role.SLASHED_FLOUNCE)
        shares = [(i + 1) / (2 * self.cuts + 1) for i in range(2 * self.cuts)]
        slashes = slash_lines(flat, "top", "hem", shares)
        gaps, near = [by.size] * len(slashes), [0.0] * len(slashes)
        flared = spread(flat, "top", "hem", slashes, gaps, near, self.cuts)
        piece = refuse_if_crossing(flared.piece, N_("Slashing the flounce"))
        figures = [
            found.figure,
            *((whole,) if gathered else ()),
            strips(whole, cloth, self.join, parts),
        ]
        figures += [each] if parts > 1 else []
        figures += self._opened(each if parts > 1 else whole, by, piece)
        if gathered:
            figures.append(fullness(each if parts > 1 else whole, parts, found.figure))
        return self.sewn(pattern, found.course, piece, tuple(figures), gathered)

    def _whole(self, sewn: Figure) -> Figure:
        full = times(Earlier(sewn), Chosen("ratio", self.ratio, Unit.NUMBER))
        return Figure("flounce-length", rounded(full, self.round, self.round_to), self.piece)

    def _opened(self, each: Figure, by: Chosen, piece: Piece) -> tuple[Figure, ...]:
        """How many slashes and how far apart, what they open, and the free edge that comes of it."""
        cuts = times(Number(2, "both-sides"), Chosen("cuts", self.cuts, Unit.NUMBER))
        slashes = Figure("slashes", cuts, self.piece, unit=Unit.NUMBER)
        apart = over(Earlier(each), plus(Earlier(slashes), Number(1, "")))
        opened = Figure("opened-in-each-part", times(Earlier(slashes), by), self.piece)
        hem = piece.tape("hem")
        return (
            slashes,
            Figure("slash-spacing", apart, self.piece),
            opened,
            Figure("free-edge", regained(hem, Earlier(each), Earlier(opened)), self.piece),
        )
