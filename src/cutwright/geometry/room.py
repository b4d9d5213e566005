"""Finding room inside an outline: where a block of words or a line fits."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from math import ceil, sqrt

import numpy as np
from numpy.typing import NDArray

from cutwright.geometry.outline import flattened, polygon
from cutwright.geometry.path import Path
from cutwright.geometry.point import Point, unit

CELLS = 1400
ACROSS = 20
"""At least so many cells lie across a strip."""


@dataclass(frozen=True)
class Room:
    """Free cells of a grid laid over an outline, turned so that `along` is its x direction.

    A block is placed where no cell under it is taken; `origin` is the corner of the grid in the
    turned frame, `cell` the side of a cell in cm.
    """

    along: Point
    origin: Point
    cell: float
    free: NDArray[np.bool_]

    @cached_property
    def _taken(self) -> NDArray[np.int32]:
        """How many cells are taken above and left of each corner of the grid."""
        rows, columns = self.free.shape
        taken = np.zeros((rows + 1, columns + 1), dtype=np.int32)
        np.cumsum(np.cumsum(~self.free, axis=0, dtype=np.int32), axis=1, out=taken[1:, 1:])
        return taken

    def fits(self, width: float, height: float, near: Point) -> Point | None:
        """The middle of the free block of that size that lies nearest to a place, or None.

        Parameters
        ----------
        width, height : of the block along and across `along`, cm
        near : the place its middle should come to, cm

        Returns
        -------
        its middle, cm; None where no such block is free
        """
        w, h = ceil(width / self.cell) + 1, ceil(height / self.cell) + 1
        rows, columns = self.free.shape
        if h > rows or w > columns:
            return None
        taken = self._taken
        inside = taken[h:, w:] - taken[:-h, w:] - taken[h:, :-w] + taken[:-h, :-w]
        ys, xs = np.nonzero(inside == 0)
        if not len(ys):
            return None
        wish = near * self.along.conjugate() - self.origin
        y = (ys + h / 2) * self.cell - wish.imag
        x = (xs + w / 2) * self.cell - wish.real
        best = int(np.argmin(x * x + y * y))
        middle = complex(xs[best] + w / 2, ys[best] + h / 2) * self.cell + self.origin
        return middle * self.along

    def is_free(self, middle: Point, width: float, height: float) -> bool:
        """Whether a block with its middle at a place lies on free cells only.

        Parameters
        ----------
        middle : of the block, cm
        width, height : along and across `along`, cm

        Returns
        -------
        False also where it reaches beyond the grid
        """
        at = middle * self.along.conjugate() - self.origin
        left, top = at.real - width / 2, at.imag - height / 2
        if left < 0 or top < 0:
            return False
        rows, columns = self.free.shape
        x0, x1 = int(left / self.cell), int((left + width) / self.cell) + 1
        y0, y1 = int(top / self.cell), int((top + height) / self.cell) + 1
        return x1 <= columns and y1 <= rows and bool(self.free[y0:y1, x0:x1].all())

    def without(self, paths: Iterable[Sequence[Point]], clear: float) -> Room:
        """The room that is left when a strip about some polylines is taken away.

        Parameters
        ----------
        paths : polylines as places in walking order, cm
        clear : how far from each line the room ends, cm

        Returns
        -------
        a room of the same grid with fewer cells free
        """
        free = self.free.copy()
        cell, reach = self.cell, (clear / self.cell) + 0.71
        back = self.along.conjugate() / cell
        rows, columns = free.shape
        xs, ys = np.arange(columns) + 0.5, (np.arange(rows) + 0.5)[:, None]
        for path in paths:
            points = [p * back - self.origin / cell for p in path]
            for a, b in itertools.pairwise(points):
                x0 = max(int(min(a.real, b.real) - reach), 0)
                x1 = int(max(a.real, b.real) + reach) + 1
                y0 = max(int(min(a.imag, b.imag) - reach), 0)
                y1 = int(max(a.imag, b.imag) + reach) + 1
                if x1 <= 0 or y1 <= 0 or x0 >= columns or y0 >= rows:
                    continue
                dx, dy = (b - a).real, (b - a).imag
                if abs(dx) < 1e-6 or abs(dy) < 1e-6:
                    free[y0:y1, x0:x1] = False
                    continue
                x, y = xs[x0:x1] - a.real, ys[y0:y1] - a.imag
                t = np.minimum(np.maximum((x * dx + y * dy) / (dx * dx + dy * dy), 0.0), 1.0)
                gap = (x - t * dx) ** 2 + (y - t * dy) ** 2
                free[y0:y1, x0:x1] &= gap > reach * reach
        return Room(self.along, self.origin, cell, free)


def room_in(outline: Path, along: Point, clear: float, cells: int = CELLS) -> Room:
    """The room inside a closed chain that stays clear of it, in a given direction.

    About `cells` cells are laid over the outline's box, more on a strip, so that there are enough
    across it; none is smaller than 0.2 cm.

    Parameters
    ----------
    outline : a closed chain of curves, cm
    along : the x direction of the grid, of any length but nought
    clear : how far from the chain the room ends, cm
    cells : how many cells to aim at

    Returns
    -------
    a grid of cells, of which those wholly inside are free
    """
    import shapely

    along = unit(along)
    ring = np.array(flattened(outline, 0.1)) * along.conjugate()
    left, top = float(ring.real.min()), float(ring.imag.min())
    width, height = float(np.ptp(ring.real)), float(np.ptp(ring.imag))
    cell = max(0.2, min(sqrt(width * height / cells), min(width, height) / ACROSS))
    shape = shapely.Polygon(np.stack([ring.real, ring.imag], axis=1))
    shape = shape.buffer(-clear, join_style="mitre")
    shapely.prepare(shape)
    columns, rows = ceil(width / cell) + 1, ceil(height / cell) + 1
    grid = np.meshgrid(left + np.arange(columns + 1) * cell, top + np.arange(rows + 1) * cell)
    corners = np.asarray(shapely.contains_xy(shape, grid[0].ravel(), grid[1].ravel()))
    corners = corners.reshape(rows + 1, columns + 1)
    free = corners[:-1, :-1] & corners[1:, :-1] & corners[:-1, 1:] & corners[1:, 1:]
    return Room(along, complex(left, top), cell, free)


def roomiest(outline: Path) -> tuple[Point, float]:
    """The middle of the largest circle inside a closed chain, and its radius.

    Parameters
    ----------
    outline : a closed chain of curves, cm

    Returns
    -------
    the middle and the radius, cm; the place is found to 0.5 cm
    """
    from shapely import maximum_inscribed_circle

    line = maximum_inscribed_circle(polygon(outline, 0.2), tolerance=0.5)
    (x, y), (u, v) = line.coords
    return complex(x, y), abs(complex(u - x, v - y))
