"""Bands: long rectangles sewn on by one edge, which may run on beyond it at both ends."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from cutwright.geometry.curve import Line
from cutwright.geometry.path import point_at
from cutwright.geometry.point import Point, direction
from cutwright.pattern.edge import Edge, Kind
from cutwright.pattern.loop import edge_before, next_edge
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Cut, Mark, Piece
from cutwright.pattern.role import Role
from cutwright.pattern.rows import Row
from cutwright.words import _

Grain = Literal["lengthwise", "crosswise", "bias"]
_TURN = {"lengthwise": 0.0, "crosswise": 1.5707963267948966, "bias": 0.7853981633974483}


@dataclass(frozen=True, slots=True)
class Band:
    """What a band is: lengths in cm, names and kinds of its two long edges."""

    name: str
    sewn: float
    depth: float
    before: float = 0.0
    beyond: float = 0.0
    sewn_name: str = "sewn edge"
    sewn_kind: Kind = Kind.SEAM
    beyond_name: str = "overlap"
    far_name: str = "outer edge"
    far_kind: Kind = Kind.FREE
    end_kind: Kind = Kind.FREE
    grain: Grain = "lengthwise"


def band_piece(band: Band, cut: Cut, role: Role) -> Piece:
    """The rectangle, its sewn edge on top from left to right, the grain as asked."""
    whole = band.before + band.sewn + band.beyond
    right, low = complex(whole, 0), complex(0, band.depth)
    stops = [0j, complex(band.before, 0), complex(band.before + band.sewn, 0), right]
    other = f"other {band.beyond_name}" if band.beyond else band.beyond_name
    tops = [
        Edge(other, (Line(stops[0], stops[1]),), Kind.FREE),
        Edge(band.sewn_name, (Line(stops[1], stops[2]),), band.sewn_kind),
        Edge(band.beyond_name, (Line(stops[2], stops[3]),), Kind.FREE),
    ]
    edges = (
        *(e for e in tops if e.length > 1e-9),
        Edge("right end", (Line(right, right + low),), band.end_kind),
        Edge(band.far_name, (Line(right + low, low),), band.far_kind),
        Edge("left end", (Line(low, 0j),), band.end_kind),
    )
    return Piece(band.name, edges, _grain(whole, band), cut, role=role)


def _grain(whole: float, band: Band) -> tuple[Point, Point]:
    middle = complex(whole / 2, band.depth / 2)
    along = direction(_TURN[band.grain])
    reach = whole * 0.35 if band.grain == "lengthwise" else band.depth * 0.35
    return middle - along * min(reach, 30.0), middle + along * min(reach, 30.0)


def joins(pattern: Pattern, row: Row, band: Piece, label: str) -> tuple[Mark, ...]:
    """Points on the sewn edge where the seams and centres of a row come to lie.

    Only for a row of halves that closes at a centre, or one that occurs once; else none.
    """
    times = {t for _name, _size, t in row.measures}
    if times not in ({1}, {2}):
        return ()
    sewn = band.edge(label)
    share = sewn.length / row.whole
    stops: list[tuple[float, str]] = []
    walked = 0.0
    for side, (_name, size, _times) in zip(row.sides, row.measures, strict=True):
        walked += size
        piece = pattern.piece(side.ref.piece)
        meets = (edge_before if side.backwards else next_edge)(piece, side.ref.edge)
        stops.append((walked * share, meets.name))
    if times == {2}:
        stops += [(sewn.length - at, name) for at, name in reversed(stops[:-1])]
    if times == {1}:
        stops = stops[:-1]
    return tuple(
        Mark(MarkKind.POINT, point_at(sewn.curves, at), name, edge=label) for at, name in stops
    )


def fold_line(band: Piece) -> Mark:
    """The line along the middle on which a band is folded."""
    ends = [band.edge("left end"), band.edge("right end")]
    a, b = (point_at(e.curves, e.length / 2) for e in ends)
    return Mark(MarkKind.LINE, a, _("fold line"), to=b)
