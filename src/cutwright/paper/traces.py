"""Where ink falls: close-set points along everything of a drawing that print shows.

Arranging, leaving bare sheets out and finding a free corner for a word all ask these points
instead of the curves.
"""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
from numpy.typing import NDArray

from cutwright.drawing.inks import PRINT
from cutwright.drawing.primitives import Drawing, Item, Stroke, Words
from cutwright.drawing.type import words_box
from cutwright.geometry.outline import flattened
from cutwright.geometry.point import Point

Points = NDArray[np.complex128]

Box = tuple[float, float, float, float]
"""Left, top, right, bottom in cm."""

SPACING = 0.05
"""Largest distance in cm from one point to the next along a line."""

_FLAT = 0.005


def ink_points(drawing: Drawing, *, spacing: float = SPACING) -> Points:
    """Points along all lines, and about all words and spots, that print shows."""
    starts: list[Point] = []
    ends: list[Point] = []
    for item in drawing.items:
        corners = _corners(item)
        starts += corners[:-1]
        ends += corners[1:]
    if not starts:
        return np.zeros(0, dtype=np.complex128)
    return _filled(np.array(starts), np.array(ends), spacing)


def _corners(item: Item) -> list[Point]:
    if isinstance(item, Words):
        return _round(words_box(item)) if item.text.strip() else []
    pen = PRINT[item.ink]
    if pen.width == 0 and not (item.fill and pen.fill != ""):
        return []
    if isinstance(item, Stroke):
        points = flattened(item.path, _FLAT)
        return [*points, points[0]] if item.closed and points else points
    x, y, r = item.at.real, item.at.imag, item.radius
    return _round((x - r, y - r, x + r, y + r))


def _round(box: Box) -> list[Point]:
    left, top, right, bottom = box
    a, b = complex(left, top), complex(right, bottom)
    return [a, complex(right, top), b, complex(left, bottom), a]


def _filled(starts: Points, ends: Points, spacing: float) -> Points:
    steps = ends - starts
    counts = np.maximum(np.ceil(np.abs(steps) / spacing).astype(np.int64), 1)
    which = np.repeat(np.arange(len(starts)), counts)
    first = np.cumsum(counts) - counts
    share = (np.arange(len(which)) - first[which]) / counts[which]
    inner: Points = starts[which] + steps[which] * share
    return np.concatenate([inner, ends])


class Inked:
    """A coarse picture of where ink lies on a spread, asked for free rectangles.

    Squares are half a centimetre; a rectangle is free when no square that it touches has ink.
    """

    side = 0.5

    def __init__(self, groups: Iterable[Points], width: float, height: float) -> None:
        columns, rows = int(width / self.side) + 2, int(height / self.side) + 2
        full = np.zeros((rows, columns), dtype=np.int64)
        for points in groups:
            x = np.clip((points.real / self.side).astype(np.int64), 0, columns - 1)
            y = np.clip((points.imag / self.side).astype(np.int64), 0, rows - 1)
            full.ravel()[y * columns + x] = 1
        self._full = full
        self._count()

    def _count(self) -> None:
        self._sums = np.pad(self._full.cumsum(0).cumsum(1), ((1, 0), (1, 0)))

    def fill(self, at: Point, side: float) -> None:
        """Take an upright square for inked all over."""
        x, y, n = int(at.real / self.side), int(at.imag / self.side), int(side / self.side) + 1
        self._full[y : y + n, x : x + n] = 1
        self._count()

    def most_free(self, box: Box, width: float, height: float) -> tuple[Point, int]:
        """The left upper corner in a box where a rectangle meets least ink, and how much it meets.

        The first of the best, row by row from the top; ink is counted in squares.
        """
        left, top, right, bottom = (round(v / self.side) for v in box)
        w, h = int(np.ceil(width / self.side)), int(np.ceil(height / self.side))
        left, top = max(left, 0), max(top, 0)
        columns, rows = max(right - w - left, 0) + 1, max(bottom - h - top, 0) + 1
        s = self._part(left, top, columns + w, rows + h)
        met = s[h:, w:] - s[:-h, w:] - s[h:, :-w] + s[:-h, :-w]
        row, column = divmod(int(met.argmin()), columns)
        return complex(left + column, top + row) * self.side, int(met[row, column])

    def _part(self, left: int, top: int, columns: int, rows: int) -> NDArray[np.int64]:
        """Some rows and columns of the sums; beyond the spread there is no ink to add."""
        part = self._sums[top : top + rows, left : left + columns]
        if part.shape == (rows, columns):
            return part
        y = np.minimum(np.arange(top, top + rows), self._sums.shape[0] - 1)
        x = np.minimum(np.arange(left, left + columns), self._sums.shape[1] - 1)
        whole: NDArray[np.int64] = self._sums[np.ix_(y, x)]
        return whole
