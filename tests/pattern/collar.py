"""A plain collar as a step of the tests alone: sewn between neckline and facing, three layers in one seam."""

from __future__ import annotations

from dataclasses import replace
from typing import ClassVar, Literal

from cutwright.body.body import Body
from cutwright.pattern.change import account
from cutwright.pattern.edge import EdgeKind, Ref
from cutwright.pattern.parts.bands import Band, band_piece
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Cut, Piece
from cutwright.pattern.result import Result, Trace, TraceKind
from cutwright.pattern.role import Role
from cutwright.pattern.seam import LayerPart, Seam, SeamLayer, Side
from cutwright.pattern.sewing.course import course_of
from cutwright.style.step import Step


class SewCollar(Step):
    """Sew a straight collar in between a neckline and its facing."""

    SENTENCE: ClassVar[str] = "Sew a collar {depth} cm deep between neckline and facing."
    HELP: ClassVar[str] = "Neckline, collar and facing are three layers of one seam."
    do: Literal["sew_collar"] = "sew_collar"
    depth: float = 6.0
    ease: float = 0.0

    def apply(self, pattern: Pattern, body: Body) -> Result:
        necks = [
            (Ref(p, "neckline"), Ref(f"{p} neck facing", "neckline")) for p in ("back", "front")
        ]
        garment, facing = (course_of(pattern, [two[k] for two in necks]) for k in (0, 1))
        collar = self._collar(pattern, [side.ref for side in garment.sides])
        top = Side(Ref(collar.name, "neck edge"), not garment.sides[0].backwards)
        layers = (
            SeamLayer(garment.sides),
            SeamLayer((top,), LayerPart.COLLAR, ease=self.ease),
            SeamLayer(facing.sides, LayerPart.FACING),
        )
        taken = {ref for two in necks for ref in two}
        seams = tuple(s for s in pattern.seams if not set(s.refs) <= taken)
        changed = replace(pattern.with_pieces(collar), seams=(*seams, Seam(layers)))
        traces = (Trace(TraceKind.ADDED, collar.name, path=collar.outline),)
        return Result(changed, account(pattern, changed), traces=traces)

    def _collar(self, pattern: Pattern, necks: list[Ref]) -> Piece:
        """Half a collar, its centre back on the fold."""
        length = sum(map(pattern.length, necks)) + self.ease
        band = Band("collar", length, self.depth, sewn_name="neck edge", grain="crosswise")
        piece = band_piece(band, Cut(1), Role.COLLAR)
        back = "left end" if necks[0].piece == "back" else "right end"
        edges = (
            replace(e, name="centre back", kind=EdgeKind.FOLD)
            if e.name == back
            else replace(e, name="front end")
            if e.name.endswith(" end")
            else e
            for e in piece.edges
        )
        return replace(piece, edges=tuple(edges))
