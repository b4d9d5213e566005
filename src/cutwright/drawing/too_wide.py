"""How pieces are shown that a cloth is too narrow for: each on a length of it, reaching over its edge."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from cutwright.drawing.primitives import Drawing, Ink, Item, Layer, Stroke, Words
from cutwright.drawing.type import text_width
from cutwright.geometry.curve import Line
from cutwright.geometry.path import polyline
from cutwright.geometry.room import roomiest
from cutwright.lay.cloth import Cloth
from cutwright.lay.cuts import EDGE
from cutwright.lay.piece import LayPiece, extent, whole
from cutwright.numerals import cm
from cutwright.wording.names import name_text
from cutwright.words import _

_GAP = 6.0


def too_wide(pieces: Sequence[LayPiece], cloth: Cloth) -> tuple[LayPiece, ...]:
    """The pieces of a cloth's material that are wider across the grain than what can be cut of it."""
    mine = (whole(p) for p in pieces if p.material == cloth.material and p.copies and not p.strip)
    return tuple(p for p in mine if extent(p)[1] > cloth.usable + EDGE)


def draw_too_wide(pieces: Sequence[LayPiece], cloth: Cloth) -> Drawing:
    """Each piece that is too wide, its grain along the cloth; what reaches over lies beyond the edge."""
    items: list[Item] = []
    x = 0.0
    for piece in too_wide(pieces, cloth):
        along, across = extent(piece)
        items += _shown(piece, cloth, x, along, across)
        x += along + _GAP
    return Drawing(tuple(items))


def _shown(piece: LayPiece, cloth: Cloth, x: float, along: float, across: float) -> Iterator[Item]:
    high, size = cloth.usable, max(0.02 * max(along, across), 2.0)
    corners = [complex(x, 0), complex(x + along, 0), complex(x + along, high), complex(x, high)]
    ground = polyline([*corners, corners[0]])
    yield Stroke(ground, Ink.CLOTH, Layer.CLOTH, closed=True, fill=True)
    turn = (piece.grain or 1 + 0j) / abs(piece.grain or 1)
    ring = [z / turn for z in piece.outline]
    corner = complex(min(z.real for z in ring) - x, min(z.imag for z in ring))
    ring = [z - corner for z in ring]
    outline = polyline([*ring, ring[0]])
    yield Stroke(outline, Ink.PAPER, Layer.CUT, closed=True, fill=True)
    yield Stroke(ground, Ink.CLOTH, Layer.CLOTH, closed=True)
    yield Stroke(outline, Ink.CUT, Layer.CUT, closed=True)
    edge = (Line(complex(x, high), complex(x + along, high)),)
    yield Stroke(edge, Ink.FAULT, Layer.PROOF)
    name = _("{piece}: {wide} wide, the cloth {cloth}").format(
        piece=name_text(piece.name), wide=cm(across), cloth=cm(high)
    )
    middle, reach = roomiest(outline)
    fits = min(size, 1.8 * reach / text_width(name, 1.0))
    yield Words(middle, name, fits, Layer.TEXT, anchor="middle")
