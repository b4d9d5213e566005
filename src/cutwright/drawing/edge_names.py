"""The words that say which edge is the centre."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from cutwright.drawing.primitives import Item, Layer, Words
from cutwright.drawing.type import words_box
from cutwright.finish.finished import FinishedPiece
from cutwright.geometry.path import direction_at, point_at
from cutwright.geometry.point import Point, unit
from cutwright.pattern.edge import Edge
from cutwright.pattern.role import Role
from cutwright.words import _

if TYPE_CHECKING:
    from shapely import MultiLineString, Polygon

SIGN = 0.36
"""Height of capitals of the sign of a centre, cm."""

_SHARES = (0.1, 0.9, 0.5, 0.35, 0.65, 0.25, 0.75, 0.18, 0.82, 0.05, 0.95)
FREE = 0.25
"""How far a sign stays from other lines, cm."""
_CLEAR = 0.75
"""From the stitch line to the middle of the letters, cm."""


def edge_names(finished: FinishedPiece, taken: Iterable[Sequence[Point]]) -> list[Item]:
    """The signs of the centres, clear of the lines that are taken."""
    from shapely import MultiLineString

    lines = MultiLineString([[(p.real, p.imag) for p in line] for line in taken])
    out: list[Item] = []
    for edge in finished.piece.edges:
        if edge.at_centre and (sign := centre_sign(finished.piece.role)):
            out.append(_along(edge, sign, lines))
    return out


def centre_sign(role: Role) -> str:
    """The letters for the centre of a front or a back; nothing for other parts."""
    if role is Role.FRONT:
        return _("CF")
    return _("CB") if role is Role.BACK else ""


def _along(edge: Edge, sign: str, taken: MultiLineString) -> Item:
    """A sign along an edge, inside the stitch line, at the first free place."""
    ways = [_read(at, along, sign, SIGN, bold=True) for at, along in _places(edge)]
    return max(ways, key=lambda way: min(taken.distance(_box(way)), FREE))


def _box(words: Words) -> Polygon:
    """The upright box of some words."""
    from shapely import box

    return box(*words_box(words))


def _places(edge: Edge) -> Iterator[tuple[Point, Point]]:
    for share in _SHARES:
        d = edge.length * share
        along = direction_at(edge.curves, d)
        yield point_at(edge.curves, d) + along * 1j * _CLEAR, along


def _read(middle: Point, along: Point, text: str, size: float, bold: bool = False) -> Words:
    """Words about a middle along a direction, turned so that they are read from left or below."""
    way = unit(along)
    if way.real < -1e-3 or (abs(way.real) <= 1e-3 and way.imag > 0):
        way = -way
    base = middle + way * 1j * size / 2
    return Words(base, text, size, Layer.TEXT, along=way, anchor="middle", bold=bold)
