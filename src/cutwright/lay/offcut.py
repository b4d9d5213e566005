"""What is left over: the largest rectangles between the pieces, and whether a small piece fits."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from cutwright.lay.piece import LayPiece, piece_polygon, whole
from cutwright.lay.plan import Lay, Placement
from cutwright.lay.stripe import cloth_direction

if TYPE_CHECKING:
    from shapely import Polygon

_GRID = 1.0


@dataclass(frozen=True, slots=True)
class Offcut:
    """A rectangle of cloth left over: which stretch, its corner and its sides along and across (cm)."""

    part: int
    x: float
    y: float
    along: float
    across: float
    layers: int


def offcuts(
    lay: Lay, pieces: Sequence[LayPiece], least: float = 10.0, most: int = 8
) -> list[Offcut]:
    """The largest rectangles left between the pieces, none overlapping, both sides at least `least`.

    They lie on the grain, on a grid of 1 cm, so each is true to the centimetre and never too large.
    """
    found: list[Offcut] = []
    for number, part in enumerate(lay.parts):
        free = _free(lay, pieces, number)
        while len(found) < most * len(lay.parts):
            i, j, rows, columns = _largest(free)
            if min(rows, columns) * _GRID < least:
                break
            layers = 1 if part.fold == "open" else 2
            found.append(
                Offcut(
                    number, part.start + j * _GRID, i * _GRID, columns * _GRID, rows * _GRID, layers
                )
            )
            free[i : i + rows, j : j + columns] = False
    return sorted(found, key=lambda o: -o.along * o.across)[:most]


def room_for(lay: Lay, pieces: Sequence[LayPiece], small: LayPiece) -> Placement | None:
    """A place among what is left where a small piece can be cut, or None.

    One cut is looked for, on the grain, anywhere on a grid of 1 cm; turned end for end only if
    the cloth has no nap. On a doubled stretch it gives a pair.
    """
    from shapely import prepare, unary_union

    laid = whole(small)
    for number, part in enumerate(lay.parts):
        taken = unary_union([shape for _p, shape in _shapes(lay, pieces, number)])
        prepare(taken)
        for turned in [False] if lay.cloth.nap == "one way" else [False, True]:
            spin = (-1 if turned else 1) / cloth_direction(laid)
            ring = [z * spin for z in laid.outline]
            left, low = min(z.real for z in ring), min(z.imag for z in ring)
            width, height = max(z.real for z in ring) - left, max(z.imag for z in ring) - low
            for x in np.arange(part.start, part.start + part.length - width + 1e-9, _GRID):
                for y in np.arange(0.0, part.height - height + 1e-9, _GRID):
                    place = Placement(
                        piece=small.name, copies=(1,) if part.fold == "open" else (1, 2),
                        part=number, x=float(x) - left, y=float(y) - low,
                        rotation=math.degrees(math.atan2(spin.imag, spin.real)) % 360,
                        mirrored=False, opened=laid is not small,
                    )  # fmt: skip
                    if taken.disjoint(_laid(place, laid)):
                        return place
    return None


def _laid(placement: Placement, piece: LayPiece) -> Polygon:
    from shapely import Polygon

    return Polygon([(z.real, z.imag) for z in map(placement.of, piece.outline)])


def _shapes(lay: Lay, pieces: Sequence[LayPiece], part: int) -> list[tuple[Placement, Polygon]]:
    named = {piece.name: piece for piece in pieces}
    return [
        (p, _laid(p, whole(named[p.piece]) if p.opened else named[p.piece]))
        for p in lay.placements
        if p.part == part
    ]


def _free(lay: Lay, pieces: Sequence[LayPiece], number: int) -> NDArray[np.bool_]:
    """Squares of the grid that no piece touches, as rows across the cloth and columns along it."""
    from shapely import STRtree, box

    part = lay.parts[number]
    rows, columns = int(part.height / _GRID + 1e-9), int(part.length / _GRID + 1e-9)
    free = np.ones((rows, columns), dtype=bool)
    y, x = np.mgrid[0:rows, 0:columns] * _GRID
    squares = STRtree(
        box(
            (x + part.start).ravel(),
            y.ravel(),
            (x + part.start + _GRID).ravel(),
            (y + _GRID).ravel(),
        )
    )
    for _placement, shape in _shapes(lay, pieces, number):
        free.ravel()[squares.query(shape, predicate="intersects")] = False
    return free


def _largest(free: NDArray[np.bool_]) -> tuple[int, int, int, int]:
    """The largest all-free rectangle: row, column, rows, columns (0 by 0 if there is none)."""
    best = (0, 0, 0, 0)
    heights = np.zeros(free.shape[1], dtype=np.int64)
    for i, row in enumerate(free):
        heights = np.where(row, heights + 1, 0)
        stack: list[tuple[int, int]] = []
        for j, height in enumerate([*heights.tolist(), 0]):
            start = j
            while stack and stack[-1][1] >= height:
                start, tall = stack.pop()
                if tall * (j - start) > best[2] * best[3]:
                    best = (i - tall + 1, start, tall, j - start)
            stack.append((start, height))
    return best


def area_left(lay: Lay, pieces: Sequence[LayPiece]) -> float:
    """Cloth that is in no piece, in square cm of all layers."""
    used = sum(
        piece_polygon(p).area * p.copies * (2 if p.fold is not None else 1)
        for p in pieces
        if p.material == lay.cloth.material
    )
    return lay.length * lay.cloth.usable - used
