"""A large spread seen through windows: which sheet shows what, and which sheets stay bare.

Windows have the size that a printer can print and overlap to the right and downwards. The part
that a sheet alone must show is its cell; cells lie edge to edge and cover everything once.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import ceil

import numpy as np

from cutwright.drawing.paper_sizes import PAPER_SIZES
from cutwright.paper.traces import Box, Points
from cutwright.words import _

Place = tuple[int, int]
"""Row and column, from nought."""


@dataclass(frozen=True, slots=True)
class Paper:
    """A size of paper and the margin that home printers leave, cm."""

    name: str
    width: float
    height: float
    margin: float = 1.0

    @property
    def wide(self) -> float:
        """Printable width."""
        return self.width - 2 * self.margin

    @property
    def high(self) -> float:
        """Printable height."""
        return self.height - 2 * self.margin


PAPERS = {
    size.name: Paper(size.name, size.width, size.height)
    for size in PAPER_SIZES.values()
    if size.joined
}
"""The papers whose sheets are joined to a pattern."""

OVERLAP = 1.0
"""How much of its neighbour a sheet repeats, cm."""


def count_along(size: float, window: float, overlap: float) -> int:
    """How many windows cover a length: ceil((size - overlap) / (window - overlap)), at least one."""
    return max(1, ceil(round((size - overlap) / (window - overlap), 9)))


@dataclass(frozen=True, slots=True)
class Grid:
    """Windows of one size over a spread."""

    columns: int
    rows: int
    wide: float
    high: float
    overlap: float = OVERLAP

    @staticmethod
    def over(
        width: float, height: float, wide: float, high: float, overlap: float = OVERLAP
    ) -> Grid:
        """The grid of windows that covers a width and a height, cm."""
        return Grid(
            count_along(width, wide, overlap),
            count_along(height, high, overlap),
            wide,
            high,
            overlap,
        )

    @property
    def across(self) -> float:
        """From one window to the next, cm."""
        return self.wide - self.overlap

    @property
    def down(self) -> float:
        """From one row of windows to the next, cm."""
        return self.high - self.overlap

    def corner(self, place: Place) -> complex:
        """The left upper corner of a window."""
        return complex(place[1] * self.across, place[0] * self.down)

    def window(self, place: Place) -> Box:
        """What a sheet shows: left, top, right, bottom."""
        at = self.corner(place)
        return at.real, at.imag, at.real + self.wide, at.imag + self.high

    def inked(self, points: Iterable[Points]) -> set[Place]:
        """The places whose cells have ink; the others need no sheet."""
        found = np.zeros((self.rows, self.columns), dtype=np.bool_)
        for group in points:
            column = np.minimum((group.real / self.across).astype(np.int64), self.columns - 1)
            row = np.minimum((group.imag / self.down).astype(np.int64), self.rows - 1)
            found.ravel()[row * self.columns + column] = True
        return {(int(row), int(column)) for row, column in zip(*found.nonzero(), strict=True)}


def row_word(row: int) -> str:
    """The word that names a row; after the last word they begin again with a number."""
    # Translators: names of the rows of a pattern printed on small sheets, in alphabetical order.
    # Give as many short kitchen-garden words as you like, parted by spaces; none may mean a part
    # of a garment.
    words = _(
        "apple bean cherry dill elder fig grape hazel iris juniper kale lemon mint nettle oat pear "
        "quince rose sage thyme violet walnut yarrow"
    ).split()
    again, which = divmod(row, len(words))
    return words[which] if not again else f"{words[which]}-{again + 1}"


def code(place: Place) -> str:
    """What a sheet is called: the word of its row and its number in the row."""
    return f"{row_word(place[0])} {place[1] + 1}"
