"""A figure from the front and from behind, with the way of the tape for each measure.

The outline belongs to the family of figures, the way of the tape to the measure; both are in cm of a body
168 tall, y down from the crown of the head.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from cutwright.body.outline import Outline
from cutwright.body.tape import Tape
from cutwright.body.way import View, Way
from cutwright.drawing.primitives import Dot, Drawing, Ink, Item, Layer, Stroke, Words
from cutwright.drawing.signs import arrow_head
from cutwright.geometry.curve import Cubic
from cutwright.geometry.path import Path, polyline
from cutwright.geometry.point import Point, unit

BEHIND = 84.0
"""How far to the right the figure from behind stands, cm of the figure."""


def body_figure(wanted: Sequence[tuple[Tape, str]], outline: Outline, capitals: float) -> Drawing:
    """The two figures with numbered lines where the wanted measures are taken.

    Parameters
    ----------
    wanted : (tape, its number as printed)
    outline : the figure of the family
    capitals : height of the numbers, cm of the figure
    """
    ways = [(tape.way, text) for tape, text in wanted if tape.way is not None]
    legs = any(y > outline.thigh for way, _text in ways for _x, y in way.spots)
    items: list[Item] = [
        Stroke(path, Ink.FRAME, Layer.HELP)
        for shift in (0.0, BEHIND)
        for path in outline_paths(outline, shift, legs=legs)
    ]
    taken: list[Point] = []
    for way, text in ways:
        items += _numbered(way, text, capitals, taken)
    return Drawing(tuple(items))


def outline_paths(outline: Outline, shift: float = 0.0, *, legs: bool = True) -> Iterator[Path]:
    """The lines of a figure, both halves.

    Parameters
    ----------
    shift : how far to the right it stands, cm
    legs : whether it is drawn down to the floor
    """
    trunks = (outline.trunk,) if legs else (outline.trunk[: outline.hips], outline.trunk[-2:])
    for side in (1, -1):
        for spots in (outline.head, outline.neck, outline.arm, *trunks):
            yield _smooth([complex(x * side + shift, y) for x, y in spots])


def view_marks(outline: Outline, view: View, shift: float = 0.0) -> Iterator[Path]:
    """The dots and lines that tell the front of a figure from its back, both halves."""
    for spots in outline.front if view == "front" else outline.back:
        for side in (1, -1):
            yield _smooth([complex(x * side + shift, y) for x, y in spots])


def way_path(way: Way) -> Path:
    """The way of the tape where its figure stands; one that goes on behind the body sags."""
    points = _points(way)
    if way.kind != "round":
        return polyline(points)
    a, b = points
    sag = 1j * max(1.2, abs(b - a) * 0.07)
    return (Cubic(a, a + (b - a) * 0.25 + sag, b - (b - a) * 0.25 + sag, b),)


def _points(way: Way) -> list[Point]:
    shift = BEHIND if way.view == "back" else 0.0
    return [complex(x + shift, y) for x, y in way.spots]


def _smooth(points: Sequence[Point]) -> Path:
    """A soft line through places (handles a sixth of the way between the neighbours)."""
    size = len(points)
    curves = []
    for i in range(size - 1):
        before, a, b = points[max(i - 1, 0)], points[i], points[i + 1]
        after = points[min(i + 2, size - 1)]
        curves.append(Cubic(a, a + (b - before) / 6, b - (after - a) / 6, b))
    return tuple(curves)


def _numbered(way: Way, text: str, capitals: float, taken: list[Point]) -> list[Item]:
    """The way of the tape with its number, clear of the numbers that stand already."""
    points = _points(way)
    ink = Ink.SLASH if way.kind == "round" else Ink.ADDED
    items: list[Item] = [Stroke(way_path(way), ink, Layer.HELP)]
    if way.kind == "long":
        items.append(arrow_head(points[0], points[0] - points[1], Ink.ADDED, 2.2))
        items.append(arrow_head(points[-1], points[-1] - points[-2], Ink.ADDED, 2.2))
    at = _free(way.kind, points, capitals, taken)
    taken.append(at)
    items += [
        Dot(at, capitals * 1.05, Ink.CLOTH, Layer.HELP),
        Words(at + 0.5j * capitals, text, capitals, Layer.HELP, anchor="middle", bold=True),
    ]
    return items


def _free(kind: str, points: Sequence[Point], capitals: float, taken: Sequence[Point]) -> Point:
    """A place for the number near its line, clear of the numbers that stand already."""
    a, b = points[0], points[-1]
    tries: list[Point] = []
    if kind == "long":
        for share in (0.5, 0.38, 0.62, 0.26, 0.74, 0.14, 0.86):
            tries.append(_along(points, share))
    for step in range(6):
        away = capitals * (1.4 + 2.3 * step)
        tries += [b + unit(b - points[-2]) * away, a + unit(a - points[1]) * away]
    clear = 2.3 * capitals
    return next((p for p in tries if all(abs(p - t) > clear for t in taken)), tries[-1])


def _along(points: Sequence[Point], share: float) -> Point:
    sizes = [abs(b - a) for a, b in pairwise(points)]
    left = sum(sizes) * share
    for size, a, b in zip(sizes, points, points[1:], strict=False):
        if left <= size:
            return a + (b - a) * (left / size if size else 0)
        left -= size
    return points[-1]
