"""Bands: long rectangles sewn on by one edge, which may run on beyond it at both ends."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from cutwright.geometry.curve import Line
from cutwright.geometry.path import point_at
from cutwright.geometry.point import Point, direction
from cutwright.messages import N_
from cutwright.pattern.edge import Edge, EdgeKind
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.piece import Cut, Mark, Piece
from cutwright.pattern.role import Role

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
    sewn_kind: EdgeKind = EdgeKind.SEAM
    beyond_name: str = "overlap"
    beyond_kind: EdgeKind = EdgeKind.FREE
    far_name: str = "outer edge"
    far_kind: EdgeKind = EdgeKind.FREE
    end_kind: EdgeKind = EdgeKind.FREE
    grain: Grain = "lengthwise"


def band_piece(band: Band, cut: Cut, role: Role) -> Piece:
    """The rectangle, its sewn edge on top from left to right, the grain as asked.

    Parameters
    ----------
    band : its lengths and names
    cut : how it is cut
    role : what it is in the garment

    Returns
    -------
    the piece, top left at the origin, x to the right, y down
    """
    whole = band.before + band.sewn + band.beyond
    right, low = complex(whole, 0), complex(0, band.depth)
    stops = [0j, complex(band.before, 0), complex(band.before + band.sewn, 0), right]
    other = f"other {band.beyond_name}" if band.beyond else band.beyond_name
    tops = [
        Edge(other, (Line(stops[0], stops[1]),), band.beyond_kind),
        Edge(band.sewn_name, (Line(stops[1], stops[2]),), band.sewn_kind),
        Edge(band.beyond_name, (Line(stops[2], stops[3]),), band.beyond_kind),
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


def overlap_mark(band: Piece, label: str, amount: float) -> Mark:
    """Where the overlap begins: a line across the band at the end of its sewn edge.

    Parameters
    ----------
    band : a piece made by `band_piece`
    label : name of its sewn edge
    amount : length of the overlap, cm

    Raises
    ------
    LookupFailed : the band has no such edge
    """
    at = band.edge(label).end
    depth = band.edge("left end").length
    return Mark(MarkKind.OVERLAP, at, to=at + complex(0, depth), edge=label, amount=amount)


def fold_line(band: Piece) -> Mark:
    """The line along the middle on which a band is folded."""
    ends = [band.edge("left end"), band.edge("right end")]
    a, b = (point_at(e.curves, e.length / 2) for e in ends)
    return Mark(MarkKind.LINE, a, N_("fold line"), to=b)
