"""What a piece or an edge is in the making: binding, flounce; round, flared, left open.

Everything is read from roles, kinds and seams, never from a name.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import degrees

from cutwright.checks.opening import Opening, OpenStretch
from cutwright.geometry.path import end_direction, start_direction
from cutwright.geometry.point import Point, angle_between
from cutwright.memo import memoised
from cutwright.pattern.edge import EdgeKind, Ref
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.parts.facings import facings
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Dart, Piece
from cutwright.pattern.role import BODY, Role

FLOUNCES = frozenset({Role.FLOUNCE, Role.SLASHED_FLOUNCE, Role.CIRCULAR_FLOUNCE})

_ROUND = 12.0
"""An edge across the grain that turns by more than this stretches, degrees (common practice, no source)."""

_BIAS = 20.0
"""So does one that lies further from the straight and the cross grain, degrees (common practice, no source)."""

_FLARED = 8.0
"""A hem that runs further from the cross grain lies partly on the bias and drops, degrees."""


def is_flounce(piece: Piece) -> bool:
    """Whether a piece is a flounce of any kind."""
    return piece.role in FLOUNCES


def is_strip(piece: Piece) -> bool:
    """Whether a piece is a binding or a tie."""
    return piece.role is Role.STRIP


def kinds_of(pattern: Pattern, refs: Iterable[Ref]) -> set[EdgeKind]:
    """The kinds of some edges."""
    return {edge.kind for ref in refs for edge in pattern.edge_parts(ref)}


@memoised
def bound_edges(pattern: Pattern) -> tuple[Ref, ...]:
    """Necklines and armholes to which nothing is sewn: they are finished with a bias strip."""
    sewn = {ref for seam in pattern.seams for ref in seam.refs}
    inside = facings(pattern)
    return tuple(
        Ref(piece.name, name)
        for piece in pattern.pieces
        if piece.name not in inside
        for name in piece.edge_names()
        if Ref(piece.name, name) not in sewn
        and {e.kind for e in piece.edge_parts(name)} & {EdgeKind.NECKLINE, EdgeKind.ARMHOLE}
    )


@memoised
def staystitched(pattern: Pattern) -> tuple[Ref, ...]:
    """Necklines, armholes, and waists that are round or run on the bias, of the garment itself."""
    inside = facings(pattern)
    return tuple(
        Ref(piece.name, name)
        for piece in pattern.pieces
        if piece.name not in inside and piece.role in BODY
        for name in piece.edge_names()
        if _stretches(piece, name)
    )


def _stretches(piece: Piece, name: str) -> bool:
    kinds = {e.kind for e in piece.edge_parts(name)}
    if kinds & {EdgeKind.NECKLINE, EdgeKind.ARMHOLE}:
        return True
    if not kinds & {EdgeKind.WAIST, EdgeKind.SEAM}:
        return False
    off = [_off_cross(piece, way) for way in _ways(piece, name)]
    return min(off) < 45 and (max(off) > _BIAS or _turn(piece, name) > _ROUND)


def _ways(piece: Piece, name: str) -> list[Point]:
    """The directions at both ends of every part of an edge."""
    return [
        way
        for part in piece.edge_parts(name)
        for way in (start_direction(part.curves), end_direction(part.curves))
    ]


def _turn(piece: Piece, name: str) -> float:
    """How far an edge turns from one end to the other, darts closed, degrees."""
    parts = piece.edge_parts(name)
    each = (abs(angle_between(start_direction(p.curves), end_direction(p.curves))) for p in parts)
    return degrees(sum(each))


def _off_cross(piece: Piece, way: Point) -> float:
    """How far a direction lies from the cross grain, 0 to 90 degrees."""
    cross = (piece.grain[1] - piece.grain[0]) * 1j
    angle = abs(degrees(angle_between(cross, way)))
    return min(angle, 180 - angle)


def drops(pattern: Pattern, ref: Ref) -> bool:
    """Whether a lower edge lies partly on the bias, so that it drops when the garment hangs."""
    piece = pattern.piece(ref.piece)
    return max(_off_cross(piece, way) for way in _ways(piece, ref.edge)) > _FLARED


def mouth_kind(piece: Piece, dart: Dart) -> EdgeKind:
    """On what kind of edge a dart opens."""
    return piece.beside_mouth(dart.name)[0].kind


def points_at_bust(piece: Piece, dart: Dart) -> bool:
    """Whether a dart gives the shape of the bust: in front, from any edge but the waist."""
    return piece.role is Role.FRONT and mouth_kind(piece, dart) not in (
        EdgeKind.WAIST,
        EdgeKind.HEM,
    )


def wholly_open(stretch: OpenStretch) -> bool:
    """Whether an opening takes an edge from end to end."""
    return stretch.cm > stretch.edge.length - 0.05


def in_one_seam(pattern: Pattern, openings: tuple[Opening, ...]) -> tuple[Opening, ...]:
    """The openings, each once, where the end of a zip is marked on both edges of a seam."""
    out: list[Opening] = []
    taken: set[Ref] = set()
    for opening in openings:
        first = Ref(opening.stretches[0].piece, opening.stretches[0].edge.name)
        if first in taken:
            continue
        out.append(opening)
        taken |= {ref for seam in pattern.seams_of(first) for ref in seam.refs} | {first}
    return tuple(out)


def cornered(pattern: Pattern, refs: Iterable[Ref]) -> bool:
    """Whether the style asks for a corner in one of these edges, such as the point of a V."""
    return any(
        mark.kind is MarkKind.CORNER and mark.edge and ref.edge == mark.edge.partition(".")[0]
        for ref in refs
        for mark in pattern.piece(ref.piece).marks
    )
