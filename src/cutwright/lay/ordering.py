"""Annealing over order and turns, prepared from a task and run in parts."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from random import Random

import numpy as np

from cutwright.lay.nofit import NoFitTables
from cutwright.lay.task import LayTask, Places

GRID = 1.0
"""cm between rows; the search that follows places pieces freely (0.5 was no better, measured)."""
_WARM, _COLD = 0.015, 0.001
"""Heat at the start and end, as a share of a rough length of the lay."""
_ROUND = 20_000
COST = 0.3
"""Putting a piece down beside one other counts as so many places tried; the times are alike."""


class Ordering:
    """One annealing run over a task: pinned pieces go first, the others in a changing order."""

    def __init__(self, task: LayTask, found: NoFitTables, seed: int) -> None:
        self.task = task
        self.random = Random(seed)
        self.dice = np.array([self.random.getrandbits(63) | 1], dtype=np.uint64)
        steps = [s.ystep for s in task.shapes if s.ystep]
        target = GRID * task.height / 70 if task.height > 140 else GRID
        self.grid = steps[0] / max(1, round(steps[0] / target)) if steps else target
        self._measure(found)

    def _measure(self, found: NoFitTables) -> None:
        """Number every way a shape is measured, and cut the no-fit polygons into rows."""
        from cutwright.lay.anneal import cut_rows

        task = self.task
        shape: list[int] = []
        offset: list[float] = []
        ways: list[tuple[float, float, int, int, float, float, int]] = []
        self.of_shape: list[list[int]] = []
        for s, it in enumerate(task.shapes):
            lasts = math.floor((it.y1 - it.y0) / self.grid + 1e-9)
            left, right = float(it.ring[:, 0].min()), float(it.ring[:, 0].max())
            step = round(it.ystep / self.grid) if it.ystep else 1
            halves = [it.y0]
            if not it.ystep and it.y1 - it.y0 - lasts * self.grid > 1e-3:
                halves.append(it.y1 - lasts * self.grid)
            numbers = []
            for low in halves:
                numbers.append(len(shape))
                shape.append(s)
                offset.append(low)
                ways.append((it.x0, it.xstep, lasts + 1, step, -left, right, 0))
            self.of_shape.append(numbers + [-1] * (2 - len(numbers)))
        self.of_pin: dict[int, list[int]] = {}
        for i, item in enumerate(task.items):
            if item.pin is not None:
                s, x, y = item.pin
                ring = task.shapes[s].ring
                self.of_pin[i] = [len(shape), -1]
                shape.append(s)
                offset.append(y)
                ends = -float(ring[:, 0].min()), float(ring[:, 0].max())
                ways.append((x, 0.0, 1, 1, *ends, 1))
        self.shape = np.array(shape, dtype=np.int64)
        self.offset = np.array(offset)
        self.ways = np.array(ways)
        self.rows = cut_rows(
            found.box, found.start, found.stop, found.edges, self.shape, self.offset, self.grid
        )

    def run(
        self, heat: Callable[[], float], left: Callable[[], int]
    ) -> Iterator[tuple[Places | None, int]]:
        """Round after round: a lay if it is the best so far, and the places tried in the round.

        `heat` says how far the annealing still has to cool, from 1 down to 0, and `left` how many
        places may still be tried.
        """
        from cutwright.lay.anneal import anneal

        task, n = self.task, len(self.task.items)
        most = max(len(i.shapes) for i in task.items)
        options = np.full((n, most, 2), -1, dtype=np.int64)
        for i, item in enumerate(task.items):
            for k, s in enumerate(item.shapes):
                options[i, k] = self.of_pin.get(i, self.of_shape[s])
        count = np.array([len(i.shapes) for i in task.items], dtype=np.int64)
        held = len(self.of_pin)
        bulk = [float(np.prod(np.ptp(task.shapes[i.shapes[0]].ring, axis=0))) for i in task.items]
        order = np.array(
            sorted(range(n), key=lambda i: (i not in self.of_pin, -bulk[i])), dtype=np.int64
        )
        turn = np.zeros(n, dtype=np.int64)
        way, row, xs = np.zeros(n, np.int64), np.zeros(n, np.int64), np.zeros(n)
        guess, best = sum(bulk) / task.height, math.inf
        while True:
            trials = min(_ROUND // n, int(left() / (COST * n * n)))
            degrees = guess * _WARM * (_COLD / _WARM) ** (1.0 - min(max(heat(), 0.0), 1.0))
            length, laid = anneal(
                self.rows, self.ways, options, count, order, turn, held, degrees, trials,
                self.dice, best, way, row, xs,
            )  # fmt: skip
            yield (
                (self._places(way, row, xs, length) if length < best else None),
                int(COST * n * laid),
            )
            best = length

    def _places(self, way: np.ndarray, row: np.ndarray, xs: np.ndarray, length: float) -> Places:
        ys = self.offset[way] + row * self.grid
        return Places(
            tuple(self.shape[way].tolist()), tuple(xs.tolist()), tuple(ys.tolist()), length
        )
