"""How much is sewn and stiffened: lengths of seams, hems, darts; areas of cloth. All in cm, cm2."""

from __future__ import annotations

from math import ceil

from cutwright.finish.finished import FinishedPattern, FinishedPiece
from cutwright.geometry.outline import area
from cutwright.pattern.edge import EdgeKind, Ref
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Cut, Material, Piece
from cutwright.pattern.seam import Seam
from cutwright.worksheet.parts import bound_edges, kinds_of, staystitched

BIAS_WIDTH, BIAS_SPARE = 3.0, 10.0
"""Width of a bias strip that faces an edge, and what joins and trimming take at each edge, cm (common practice, no source)."""


def seam_length(pattern: Pattern, seam: Seam) -> float:
    """How long a seam is in the whole garment, measured along its shorter row."""
    rows = [
        sum(pattern.piece(s.ref.piece).times * pattern.length(s.ref) for s in row)
        for row in seam.rows
    ]
    if seam.own_mirror:
        return rows[0] / 2
    return min(rows)


def seams_length(pattern: Pattern) -> float:
    """All seams together."""
    return sum(seam_length(pattern, seam) for seam in pattern.seams)


def free_length(pattern: Pattern) -> float:
    """All edges that are turned and sewn down: hems and free edges that no seam takes."""
    sewn = {ref for seam in pattern.seams for ref in seam.refs}
    return sum(
        piece.times * edge.length
        for piece in pattern.pieces
        for edge in piece.outer_edges
        if edge.kind is not EdgeKind.FOLD and Ref(piece.name, edge.name) not in sewn
    )


def darts_length(pattern: Pattern) -> float:
    """All darts together, sewn from mouth to point (two-point darts both ways)."""
    return sum(piece.times * _darts(piece) for piece in pattern.pieces)


def _darts(piece: Piece) -> float:
    simple = sum(piece.legs(dart)[0].length for dart in piece.darts)
    return simple + sum(abs(d.top - d.near) + abs(d.near - d.bottom) for d in piece.diamonds)


def gathers_length(pattern: Pattern) -> float:
    """Gathering threads: two rows along every edge that is drawn up."""
    return sum(
        2 * pattern.piece(ref.piece).times * pattern.length(ref)
        for seam in pattern.seams
        for layer in seam.layers
        if layer.gathered
        for ref in layer.refs
    )


def staystitch_length(pattern: Pattern) -> float:
    """Necklines, armholes and waists that would stretch, of the garment itself."""
    return sum(
        pattern.piece(ref.piece).times * pattern.length(ref) for ref in staystitched(pattern)
    )


def bias_length(pattern: Pattern) -> float:
    """Bias strip for every neckline and armhole that has no facing, with something to join and trim."""
    kinds = [
        kind
        for kind in (EdgeKind.NECKLINE, EdgeKind.ARMHOLE)
        if kind in kinds_of(pattern, bound_edges(pattern))
    ]
    rounds = sum(2 if kind is EdgeKind.ARMHOLE else 1 for kind in kinds)
    edges = sum(
        pattern.piece(ref.piece).times * pattern.length(ref) for ref in bound_edges(pattern)
    )
    return ceil((edges + rounds * BIAS_SPARE) / 5) * 5 if edges else 0.0


def cloth_area(piece: FinishedPiece, cut: Cut) -> float:
    """What all copies of a piece take of a cloth, allowances included, cm2."""
    halves = 2 if piece.piece.on_fold else 1
    return halves * cut.copies * abs(area(piece.cut_line.outline))


def areas(finished: FinishedPattern) -> dict[Material, float]:
    """Cloth in all pieces of each material, cm2."""
    out: dict[Material, float] = {}
    for piece in finished.pieces:
        for cut in piece.piece.cuts:
            out[cut.material] = out.get(cut.material, 0.0) + cloth_area(piece, cut)
    return out
