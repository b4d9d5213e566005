"""Where one piece must not lie for fear of another: no-fit polygons, one for each pair of shapes.

The no-fit polygon of a lying piece A and a moving piece B is the set of offsets (place of B
less place of A) at which they overlap: A (+) -B, the Minkowski sum. It is the union of all
parallelograms of an edge of one and an edge of the other with A and -B themselves.
Source: Minkowski sums by edge sweeping are common practice in computational geometry.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from cutwright.lay.task import LayShape, LayTurn, Ring

SCALE = 400_000.0
"""Integer units in a cm; keeps sums of pieces up to 13 m inside 30 bits of a fast clip."""

_SLIVER = 1e-3
"""Holes of less area than this (cm2) are not places a piece is put."""


@dataclass(frozen=True, slots=True)
class NoFitTables:
    """All no-fit polygons as flat arrays for the search.

    `box` (s, s, 4) bounds each polygon; its edges are rows `start` to `stop` of `edges`
    (x, y, dx, dy, 1 / length squared, y of the end). Only pairs a <= b are filled; the other is its negative.
    """

    box: NDArray[np.float64]
    start: NDArray[np.int64]
    stop: NDArray[np.int64]
    edges: NDArray[np.float64]


def _clean(paths: list[Any]) -> list[Ring]:
    rings = []
    for path in paths:
        ring = np.asarray(path, dtype=np.float64) / SCALE
        x, y = ring[:, 0], ring[:, 1]
        area = 0.5 * float(np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y))
        if area > 0.0 or area < -_SLIVER:
            rings.append(ring)
    return rings


def no_fit(lying: Ring, moving: Ring) -> list[Ring]:
    """The rings (outer ones and true holes) of the offsets at which the moving piece overlaps."""
    import pyclipper

    a = np.rint(lying * SCALE).astype(np.int64).tolist()
    b = np.rint(-moving * SCALE).astype(np.int64)
    b_list = b.tolist()
    if not pyclipper.Orientation(a):
        a.reverse()
    if not pyclipper.Orientation(b_list):
        b_list.reverse()
    swept = pyclipper.MinkowskiSum(b_list, a, True)
    clip = pyclipper.Pyclipper()
    clip.AddPaths(swept, pyclipper.PT_SUBJECT, True)
    a_at_b = (np.asarray(a) + np.asarray(b_list[0])).tolist()
    b_at_a = (np.asarray(b_list) + np.asarray(a[0])).tolist()
    clip.AddPaths([a_at_b, b_at_a], pyclipper.PT_SUBJECT, True)
    union = clip.Execute(pyclipper.CT_UNION, pyclipper.PFT_NONZERO, pyclipper.PFT_NONZERO)
    return _clean(union)


def _key(turn: LayTurn) -> tuple[int, bool]:
    return round(turn.angle % (2 * np.pi) * 1e9) % round(2 * np.pi * 1e9), turn.mirrored


class _Pairs:
    """No-fit polygons of outlines, each worked out once for all the ways two pieces can lie."""

    def __init__(self, shapes: tuple[LayShape, ...]) -> None:
        self.kept: dict[tuple[int, int, tuple[int, bool]], list[Ring]] = {}
        self.flat = {s.base: s.turn.back().of_ring(s.ring) for s in shapes}

    def of(self, a: LayShape, b: LayShape) -> list[Ring]:
        if a.base > b.base:
            return [-ring for ring in self.of(b, a)]
        between = a.turn.back().after(b.turn)
        key = (a.base, b.base, _key(between))
        if key not in self.kept:
            self.kept[key] = no_fit(self.flat[a.base], between.of_ring(self.flat[b.base]))
        return [a.turn.of_ring(ring) for ring in self.kept[key]]


def tables(shapes: tuple[LayShape, ...]) -> NoFitTables:
    """All pairs of shapes worked out and put into flat arrays for the search."""
    n = len(shapes)
    pairs = _Pairs(shapes)
    box = np.zeros((n, n, 4))
    start = np.zeros((n, n), dtype=np.int64)
    stop = np.zeros((n, n), dtype=np.int64)
    rows: list[NDArray[np.float64]] = []
    count = 0
    for i in range(n):
        for j in range(i, n):
            rings = pairs.of(shapes[i], shapes[j])
            block = np.vstack([_edges(ring) for ring in rings])
            rows.append(block)
            start[i, j], count = count, count + len(block)
            stop[i, j] = count
            box[i, j] = (*block[:, :2].min(axis=0), *block[:, :2].max(axis=0))
    return NoFitTables(box, start, stop, np.vstack(rows))


def _edges(ring: Ring) -> NDArray[np.float64]:
    end = np.roll(ring, -1, axis=0)
    step = end - ring
    square = np.maximum(np.sum(step**2, axis=1), 1e-18)
    return np.column_stack((ring, step, 1.0 / square, end[:, 1]))
