"""The first lay, at once: pieces as boxes, biggest first, each as far back as it will go."""

from __future__ import annotations

from math import ceil, inf

import numpy as np

from cutwright.lay.task import LayShape, LayTask, Places

_LEVELS = 200


def first_lay(task: LayTask) -> Places:
    """Lay every piece by its box alone; it always succeeds, because cloth can always be longer."""
    grid = task.height / _LEVELS
    front = np.zeros(_LEVELS + 2)
    done: dict[int, tuple[int, float, float]] = {}
    for i, item in enumerate(task.items):
        if item.pin is not None:
            done[i] = item.pin
            _cover(front, grid, task.shapes[item.pin[0]], item.pin[1], item.pin[2])
    for i in sorted(range(len(task.items)), key=lambda k: (-_bulk(task, k), k)):
        if i not in done:
            done[i] = _furthest_back(task, i, front, grid)
            s, x, y = done[i]
            _cover(front, grid, task.shapes[s], x, y)
    order = [done[i] for i in range(len(task.items))]
    length = max((x + task.shapes[s].ring[:, 0].max() for s, x, _y in order), default=0.0)
    return Places(
        tuple(s for s, _x, _y in order),
        tuple(float(x) for _s, x, _y in order),
        tuple(float(y) for _s, _x, y in order),
        float(length),
    )


def _bulk(task: LayTask, i: int) -> float:
    return float(np.prod(np.ptp(task.shapes[task.items[i].shapes[0]].ring, axis=0)))


def _rows(shape: LayShape, y: float, grid: float) -> slice:
    low = int((y + shape.ring[:, 1].min()) / grid + 1e-6)
    return slice(max(low, 0), max(ceil((y + shape.ring[:, 1].max()) / grid - 1e-6), low + 1))


def _cover(front: np.ndarray, grid: float, shape: LayShape, x: float, y: float) -> None:
    rows = _rows(shape, y, grid)
    front[rows] = np.maximum(front[rows], x + shape.ring[:, 0].max())


def _furthest_back(
    task: LayTask, i: int, front: np.ndarray, grid: float
) -> tuple[int, float, float]:
    best = (inf, 0, 0.0, 0.0)
    for s in task.items[i].shapes:
        shape = task.shapes[s]
        left, right = float(shape.ring[:, 0].min()), float(shape.ring[:, 0].max())
        for y in _levels(shape, grid):
            x = max(shape.x0, float(front[_rows(shape, y, grid)].max()) - left)
            if shape.xstep:
                x = shape.x0 + shape.xstep * ceil((x - shape.x0) / shape.xstep - 1e-9)
            best = min(best, (x + right, s, x, y))
    return best[1:]


def _levels(shape: LayShape, grid: float) -> list[float]:
    """The heights to try: every row of the grid, or every place of the lattice, and the far edge."""
    step = shape.ystep or grid
    count = int((shape.y1 - shape.y0) / step + 1e-9)
    levels = [shape.y0 + k * step for k in range(count + 1)]
    return levels if shape.ystep else [*levels, shape.y1]
