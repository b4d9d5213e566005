"""Words that find no room inside a piece: set beside it, with a leader into it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from cutwright.drawing.primitives import Dot, Ink, Item, Layer, Stroke, Words
from cutwright.drawing.type import words_box
from cutwright.geometry.curve import Line
from cutwright.geometry.path import Path, direction_at, path_length, point_at
from cutwright.geometry.point import Point

GAP = 0.6
"""From the cut line to the words, cm."""
INSIDE = 0.8
"""How far the leader reaches into the piece, cm."""
_EVERY = 1.0
_GROWS = 4.0
"""How much longer a leader may be, cm, to spare the sheet 1 cm of height or width."""


def place_beside(outline: Path, width: float, height: float) -> tuple[Point, Point]:
    """The middle of a block beside a closed outline, and where its leader ends inside the piece.

    Of all places along the outline the one that makes the whole least larger: often a hollow.
    """
    from shapely import Polygon, box, prepare

    ring = [(p.real, p.imag) for p, _out in _round(outline, _EVERY / 2)]
    piece = Polygon(ring).buffer(GAP / 2)
    prepare(piece)
    best: tuple[float, Point, Point] | None = None
    for at, out in _round(outline, _EVERY):
        reach = abs(out.real) * width / 2 + abs(out.imag) * height / 2
        middle = at + out * (GAP + reach)
        left, top = middle.real - width / 2, middle.imag - height / 2
        block = box(left, top, left + width, top + height)
        if piece.intersects(block):
            continue
        cost = _GROWS * _growth(ring, block.bounds) + abs(at - middle)
        if best is None or cost < best[0]:
            best = cost, middle, at - out * INSIDE
    if best is None:  # an outline that winds: to the right of it all
        right, top = max(x for x, _y in ring), min(y for _x, y in ring)
        middle = complex(right + GAP + width / 2, top + height / 2)
        return middle, min((complex(*p) for p in ring), key=lambda p: -p.real)
    return best[1:]


def leader(words: Sequence[Item], end: Point, tag: str) -> list[Item]:
    """A thin line from the nearest of some words to a spot inside the piece they belong to."""
    boxes = [words_box(word) for word in words if isinstance(word, Words)]
    start = min((_nearest(box, end) for box in boxes), key=lambda p: abs(p - end))
    return [
        Stroke((Line(start, end),), Ink.MARK, Layer.TEXT, tag=f"{tag}: leader"),
        Dot(end, 0.08, Ink.MARK, Layer.TEXT),
    ]


def _nearest(box: tuple[float, float, float, float], at: Point) -> Point:
    """The place of an upright box that lies nearest to a place outside it."""
    left, top, right, bottom = box
    return complex(min(max(at.real, left), right), min(max(at.imag, top), bottom))


def _round(outline: Path, every: float) -> Iterator[tuple[Point, Point]]:
    """Places along an outline with the way out; it runs clockwise to the eye."""
    size = path_length(outline)
    count = max(int(size / every), 12)
    for k in range(count):
        d = size * (k + 0.5) / count
        yield point_at(outline, d), direction_at(outline, d) * -1j


def _growth(ring: Sequence[tuple[float, float]], block: tuple[float, float, float, float]) -> float:
    """How much wider and higher the whole becomes with the block, cm."""
    xs, ys = [x for x, _y in ring], [y for _x, y in ring]
    left, top, right, bottom = block
    wide = max(max(xs), right) - min(min(xs), left) - (max(xs) - min(xs))
    high = max(max(ys), bottom) - min(min(ys), top) - (max(ys) - min(ys))
    return wide + high
