"""From finished pieces of paper to the pieces that a lay puts on the cloth."""

from __future__ import annotations

from cutwright.finish.finished import FinishedPattern, FinishedPiece
from cutwright.geometry.outline import flattened
from cutwright.geometry.path import nearest_distance, point_at
from cutwright.geometry.point import Point, unit
from cutwright.lay.piece import LayPiece
from cutwright.pattern.edge import EdgeKind
from cutwright.pattern.piece import Cut
from cutwright.pattern.role import Role

FLAT = 0.01
"""Largest distance in cm between the cut line and the chords that stand for it in the lay."""


def lay_pieces(finished: FinishedPattern) -> tuple[LayPiece, ...]:
    """Every finished piece by its cut line, once for each cloth, in the order of the pattern."""
    return tuple(lay_piece(piece, cut) for piece in finished.pieces for cut in piece.piece.cuts)


def lay_piece(finished: FinishedPiece, cut: Cut) -> LayPiece:
    """One finished piece in one cloth; a straight flounce may be pieced across the cloth."""
    piece = finished.piece
    ring = tuple(flattened(finished.cut_line.outline, FLAT)[:-1])
    return LayPiece(
        name=piece.name,
        outline=ring,
        grain=unit(finished.grain[1] - finished.grain[0]),
        copies=cut.copies,
        mirrored=cut.mirrored,
        fold=_fold(finished),
        material=cut.material,
        marks=_marks(finished),
        strip=piece.role is Role.FLOUNCE,
        join=_join(finished),
    )


def _fold(finished: FinishedPiece) -> tuple[Point, Point] | None:
    """Both ends of the cut line along the fold, hem allowance included."""
    for edge in finished.piece.edges:
        if edge.kind is EdgeKind.FOLD:
            curves = finished.cut_line.edge(edge.label).curves or edge.curves
            return curves[0].start, curves[-1].end
    return None


def _join(finished: FinishedPiece) -> float:
    """What joining two lengths of it takes on each of them, cm: the allowance of its ends, which meet the hem."""
    edges = finished.piece.edges
    ends = {
        edge.label
        for before, edge, after in zip(
            (edges[-1], *edges[:-1]), edges, (*edges[1:], edges[0]), strict=True
        )
        if edge.kind is not EdgeKind.HEM and EdgeKind.HEM in (before.kind, after.kind)
    }
    return max((e.allowance for e in finished.cut_line.edges if e.label in ends), default=1.0)


def _marks(finished: FinishedPiece) -> dict[str, Point]:
    """Points a repeat can be matched at: where body levels meet the edges, and the edges' middles.

    Called "hip at side", "waist at centre front", "side middle".
    """
    piece = finished.piece
    out: dict[str, Point] = {}
    for level in piece.levels:
        for end in (level.points[0], level.points[-1]):
            edge = min(
                piece.outer_edges,
                key=lambda e: abs(point_at(e.curves, nearest_distance(e.curves, end)) - end),
            )
            out[f"{level.name} at {edge.name}"] = end
    for edge in piece.outer_edges:
        out[f"{edge.label} middle"] = point_at(edge.curves, edge.length / 2)
    return out
