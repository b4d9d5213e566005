"""How wide a piece is round a level of the body, its darts sewn."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from cutwright.checks.chords import near_edges
from cutwright.checks.corner import corners
from cutwright.geometry.point import Point, cross
from cutwright.memo import memoised
from cutwright.pattern.edge import Edge, EdgeKind
from cutwright.pattern.piece import Level, Piece, parts_by_name

_NEAR = 0.2
"""A level ends on an edge when its end lies this near, cm."""

_CORNER = 0.05
"""Two edges this equally near meet there, cm."""
_OPEN_KINDS = (EdgeKind.ARMHOLE, EdgeKind.NECKLINE, EdgeKind.HEM, EdgeKind.WAIST, EdgeKind.FREE)


@dataclass(frozen=True, slots=True)
class End:
    """Where a level leaves the paper: the edge, or None when it ends inside the paper."""

    edge: Edge | None
    at: Point


@dataclass(frozen=True, slots=True)
class Width:
    """The sewn width of a piece at one level, cm, with its two ends."""

    level: str
    cm: float
    ends: tuple[End, End]


@memoised
def widths(piece: Piece) -> dict[str, Width]:
    """The width at every level of a piece; a waist edge stands for the waist where it is one.

    Darts that cross a level take their width out. A waist that is the edge of the paper is
    measured along that edge, darts folded.
    """
    ends = _ends(piece)
    rings = list(_darts(piece))
    found = {
        level.name: Width(level.name, _across(level, rings), (ends[2 * i], ends[2 * i + 1]))
        for i, level in enumerate(piece.levels)
    }
    edge = _waist_edge(piece)
    if edge is not None and ("waist" not in found or _same_ends(found["waist"], edge)):
        found["waist"] = edge
    return found


def worn(piece: Piece, level: str) -> float | None:
    """The sewn width at one level, cm, without asking where it ends; None where there is none."""
    found = piece.level(level)
    if found is not None:
        return _across(found, list(_darts(piece)))
    edge = _waist_edge(piece) if level == "waist" else None
    return edge.cm if edge else None


def _same_ends(one: Width, two: Width) -> bool:
    places = [end.at for end in two.ends]
    return all(min(abs(end.at - place) for place in places) < 0.5 for end in one.ends)


def _waist_edge(piece: Piece) -> Width | None:
    """The waist edge of a bodice or skirt; None where there is none or more than one name."""
    found = [edge for edge in piece.edges if edge.kind is EdgeKind.WAIST]
    if not found or len({edge.name for edge in found}) > 1:
        return None
    parts = parts_by_name(piece)[found[0].name]
    first, last = corners(piece).beginning(parts[0]), corners(piece).ending(parts[-1])
    return Width(
        "waist",
        sum(piece.sewn(part) for part in parts),
        (End(first.before, first.at), End(last.after, last.at)),
    )


def _across(level: Level, rings: Sequence[Sequence[Point]]) -> float:
    return sum(
        abs(b - a) - sum(inside_length(a, b, ring) for ring in rings)
        for a, b in pairwise(level.points)
    )


def _darts(piece: Piece) -> Iterator[tuple[Point, ...]]:
    """The rings of cloth that darts take out: triangles at the edge, diamonds in the paper."""
    for diamond in piece.diamonds:
        yield (diamond.top, diamond.far, diamond.bottom, diamond.near)
    for dart in piece.darts:
        legs = [edge for edge in piece.edges if edge.name == dart.name]
        if len(legs) >= 2:
            yield (legs[0].start, dart.tip, legs[-1].end)


def inside_length(a: Point, b: Point, ring: Sequence[Point]) -> float:
    """How much of the straight line from `a` to `b` lies inside a convex ring, cm."""
    way = sum(cross(p - ring[0], q - ring[0]) for p, q in pairwise(ring))
    if abs(way) < 1e-12:
        return 0.0
    low, high, step = 0.0, 1.0, b - a
    for p, q in zip(ring, (*ring[1:], ring[0]), strict=True):
        side = (q - p) if way > 0 else (p - q)
        height, rise = cross(side, a - p), cross(side, step)
        if abs(rise) < 1e-15:
            if height < 0:
                return 0.0
            continue
        t = -height / rise
        low, high = (max(low, t), high) if rise > 0 else (low, min(high, t))
    return max(0.0, high - low) * abs(step)


def _ends(piece: Piece) -> list[End]:
    """Both ends of every level, in order."""
    places = [place for level in piece.levels for place in (level.points[0], level.points[-1])]
    if not places:
        return []
    found = near_edges(piece, places, _NEAR)
    return [_end(piece, at, near) for at, near in zip(places, found, strict=True)]


def _end(piece: Piece, at: Point, near: dict[int, float]) -> End:
    """The edge on which a place lies, legs left out; at a corner the one that is sewn."""
    found = [
        (piece.edges[index].kind in _OPEN_KINDS, gap, index)
        for index, gap in near.items()
        if not piece.edges[index].taken_up
    ]
    if not found:
        return End(None, at)
    nearest = min(gap for _open, gap, _index in found)
    there = [row for row in found if row[1] < nearest + _CORNER]
    return End(piece.edges[min(there)[2]], at)
