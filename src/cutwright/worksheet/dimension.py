"""Words set beside lines without touching each other: lengths along edges, names in pieces."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Sequence

import numpy as np

from cutwright.drawing.primitives import Ink, Item, Layer, Stroke, Words
from cutwright.drawing.type import words_box
from cutwright.geometry.curve import Line
from cutwright.geometry.outline import flattened
from cutwright.geometry.path import Path, direction_at, path_length, point_at
from cutwright.geometry.point import Point
from cutwright.worksheet.sheet import Box

_STEPS = (0.5, 0.35, 0.65, 0.22, 0.78)
_AWAY = (1.0, 1.8, 2.8, 4.0, 5.5, 7.0)
_FAR = (2.8, 4.0, 5.5, 7.0, 9.0, 11.0)
_DENSE = 0.25
"""How far the places on a line lie apart by which words are kept off it, in capitals."""
_SPOTS = tuple(itertools.product((0.5, 0.6, 0.4, 0.7, 0.3, 0.8, 0.2), (0.5, 0.6, 0.4, 0.7, 0.3)))
"""Where the middle of a name may lie in a piece: shares down and across."""


class WordSetting:
    """Places words on a drawing, each clear of those that were placed before.

    Parameters
    ----------
    capitals : height of the capitals, cm of the drawing
    """

    def __init__(self, capitals: float) -> None:
        self.capitals = capitals
        self.items: list[Item] = []
        self._taken: list[Box] = []
        self._lines = np.empty(0, dtype=complex)

    def length(self, path: Path, text: str, outward: float = 1.0, bold: bool = False) -> None:
        """Set a length beside its own edge: on its outer side (`outward` 1), else on its inner side.

        No other line may be nearer to it. Where there is no such place, it stands where there is room and a thin
        line leads from it to the edge.
        """
        own = _dotted(path, self.capitals * _DENSE)
        size = path_length(path)
        for side, away, share in itertools.product((outward, -outward), _AWAY, _STEPS):
            words = self._beside(path, size * share, away, text, side, bold)
            if self._is_nearest(words_box(words), own) and self._place(words, True):
                return
        self._led(path, text, outward, bold)

    def _beside(
        self, path: Path, along: float, away: float, text: str, outward: float, bold: bool
    ) -> Words:
        normal = direction_at(path, along) * -1j * outward
        return self._words(
            point_at(path, along) + normal * self.capitals * away, normal, text, bold
        )

    def _led(self, path: Path, text: str, outward: float, bold: bool) -> None:
        """Set words where there is room, on either side, with a line that leads to the edge."""
        size = path_length(path)
        sides = (outward, -outward)
        for strict, side, away, share in itertools.product((True, False), sides, _FAR, _STEPS):
            words = self._beside(path, size * share, away, text, side, bold)
            if self._place(words, strict):
                self.items.append(_leader(words, point_at(path, size * share)))
                return

    def _is_nearest(self, box: Box, own: np.ndarray) -> bool:
        """Whether no line lies nearer to a box than its own."""
        slack = 0.06 * self.capitals
        return self._lines.size == 0 or _apart(box, own) <= _apart(box, self._lines) + slack

    def at_end(self, at: Point, along: Point, text: str, loose: bool = True) -> bool:
        """Set words beyond a place in a direction; over lines, and then near, only if `loose`."""
        away = _AWAY if not loose else _AWAY[:4]
        for strict in (True, False) if loose else (True,):
            for far in away:
                words = self._words(at + along * self.capitals * far, along, text, False)
                if self._place(words, strict):
                    return True
        return False

    def inside(self, outline: Path, text: str, bold: bool = True) -> None:
        """Set a name in a piece, or below it where it does not fit in."""
        ring = np.array(flattened(outline, 0.2), dtype=complex)
        left, top, right, bottom = _bounds(ring)
        spots = np.array(
            [
                complex(left + (right - left) * across, top + (bottom - top) * down)
                for down, across in _SPOTS
            ]
        )
        tries = []
        for capitals in (self.capitals * 1.15, self.capitals * 0.9, self.capitals * 0.78):
            lowered = spots + 0.5j * capitals  # the middle of the letters, not their foot
            box = words_box(self._plain(0j, text, capitals, bold))
            x, y = lowered.real, lowered.imag
            sides = (x + box[0], y + box[1], x + box[2], y + box[3])
            fitting = lowered[_within(np.stack(sides, axis=1), ring)].tolist()
            here = [self._plain(at, text, capitals, bold) for at in fitting]
            if any(self._place(words, True) for words in here):
                return
            tries += here
        below = [
            self._plain(
                complex((left + right) / 2, bottom + self.capitals * away),
                text,
                self.capitals,
                bold,
            )
            for away in (2.0, 3.5, 5.0)
        ]
        if any(self._place(words, True) for words in below):
            return
        any(self._place(words, False) for words in (*tries, *below))

    def keep_off(self, paths: Sequence[Path]) -> None:
        """Keep words off these lines, where there is another place."""
        found = [_dotted(path, self.capitals * _DENSE) for path in paths if path]
        self._lines = np.concatenate([self._lines, *found]) if found else self._lines

    def _words(self, at: Point, normal: Point, text: str, bold: bool) -> Words:
        anchor = "start" if normal.real > 0.5 else "end" if normal.real < -0.5 else "middle"
        drop = self.capitals * (0.5 + 0.5 * max(-1.0, min(1.0, normal.imag * 1.4)))
        return Words(
            at + 1j * drop, text, self.capitals, Layer.HELP, Ink.TEXT, anchor=anchor, bold=bold
        )

    def _plain(self, at: Point, text: str, capitals: float, bold: bool) -> Words:
        return Words(at, text, capitals, Layer.TEXT, anchor="middle", bold=bold)

    def _place(self, words: Words, strict: bool) -> bool:
        box = words_box(words)
        pad = self.capitals * 0.15
        wide = (box[0] - 2 * pad, box[1], box[2] + 2 * pad, box[3])  # words in a row need a gap
        if any(_meet(wide, other, pad) for other in self._taken):
            return False
        if strict and self._on_line(box):
            return False
        self._taken.append(box)
        self.items.append(words)
        return True

    def _on_line(self, box: Box) -> bool:
        x, y = self._lines.real, self._lines.imag
        inside = (x > box[0]) & (x < box[2]) & (y > box[1]) & (y < box[3])
        return bool(inside.any())


def _leader(words: Words, to: Point) -> Stroke:
    """A thin line from the edge of some words to the place they speak of."""
    left, top, right, bottom = words_box(words)
    start = complex(min(max(to.real, left), right), min(max(to.imag, top), bottom))
    return Stroke((Line(start, to),), Ink.LEADER, Layer.HELP)


def _apart(box: Box, points: np.ndarray) -> float:
    """From a box to the nearest of some points."""
    x, y = points.real, points.imag
    wide = np.maximum(np.maximum(box[0] - x, x - box[2]), 0.0)
    high = np.maximum(np.maximum(box[1] - y, y - box[3]), 0.0)
    return float(np.hypot(wide, high).min())


def _dotted(path: Path, step: float) -> np.ndarray:
    """Places along a line, so near to each other that no word fits between."""
    points = np.array(flattened(path, 0.2), dtype=complex)
    along = np.concatenate([[0.0], np.cumsum(np.abs(np.diff(points)))])
    between: np.ndarray = np.interp(np.arange(0.0, along[-1], step), along, points)
    return np.concatenate([points, between])


def _meet(a: Box, b: Box, pad: float) -> bool:
    return a[0] < b[2] + pad and b[0] < a[2] + pad and a[1] < b[3] + pad and b[1] < a[3] + pad


def _within(boxes: np.ndarray, ring: np.ndarray) -> np.ndarray:
    """Which boxes (n, 4) lie with all their corners in a closed ring (even-odd rule)."""
    x, y = boxes[:, (0, 2, 0, 2)].reshape(-1, 1), boxes[:, (1, 1, 3, 3)].reshape(-1, 1)
    a, b = ring, np.roll(ring, -1)
    rise = np.where(b.imag == a.imag, 1.0, b.imag - a.imag)
    across = a.real + (y - a.imag) * ((b.real - a.real) / rise)
    crossed = ((a.imag > y) != (b.imag > y)) & (x < across)
    inside: np.ndarray = (crossed.sum(axis=1) % 2 == 1).reshape(-1, 4).all(axis=1)
    return inside


def _bounds(points: np.ndarray) -> Box:
    return (
        float(points.real.min()),
        float(points.imag.min()),
        float(points.real.max()),
        float(points.imag.max()),
    )


def around(boxes: Iterable[Box], margin: float) -> Box:
    """The box about several boxes, with a margin."""
    every = tuple(boxes)
    return (
        min(b[0] for b in every) - margin,
        min(b[1] for b in every) - margin,
        max(b[2] for b in every) + margin,
        max(b[3] for b in every) + margin,
    )
