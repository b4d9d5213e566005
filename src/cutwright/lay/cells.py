"""Each no-fit polygon cut into cells, so that few of its edges need be looked at (compiled).

A cell wholly outside the polygon means "no overlap" at once. Any other cell lists the edges that
can be nearest to a point in it, and each row of cells the edges that decide whether a point in it
lies inside. What comes out is the same to the last bit as from a look at every edge.
All kernels are in this one file, because the compiler's cache does not see other files change.
Source: a grid over polygons for point location is common practice in computational geometry.
"""

from __future__ import annotations

import numpy as np
from numba import njit

Cells = tuple[np.ndarray, np.ndarray, np.ndarray]
"""For each pair the frame (box, cells in a cm) and the head (columns, where its cells and its rows
begin in the index). The index is flat: for each cell 4 times the place where its list of near
edges begins, plus its state; for each row where its list of edges begins; and the lists."""

OUTSIDE, INSIDE, PARTLY = 0, 1, 2
_CELLS = 90
_HAIR = 1e-7


@njit(cache=True)
def _off(edges: np.ndarray, k: int, x: float, y: float) -> float:
    """How far a point is from edge k."""
    ux, uy = x - edges[k, 0], y - edges[k, 1]
    t = min(max((ux * edges[k, 2] + uy * edges[k, 3]) * edges[k, 4], 0.0), 1.0)
    return float(np.hypot(ux - t * edges[k, 2], uy - t * edges[k, 3]))


@njit(cache=True)
def _inside(edges: np.ndarray, since: int, until: int, x: float, y: float) -> bool:
    odd = False
    for k in range(since, until):
        below = (x - edges[k, 0]) * edges[k, 3] < (y - edges[k, 1]) * edges[k, 2]
        if (y < edges[k, 1]) != (y < edges[k, 5]) and below == (edges[k, 3] > 0.0):
            odd = not odd
    return odd


@njit(cache=True)
def _crosses(edges: np.ndarray, k: int, left: float, low: float, right: float, high: float) -> bool:
    """Whether edge k comes into a rectangle."""
    since, until = 0.0, 1.0
    for axis in range(2):
        p, d = edges[k, axis], edges[k, 2 + axis]
        lo, hi = (left, right) if axis == 0 else (low, high)
        if d == 0.0:
            if p < lo or p > hi:
                return False
        else:
            a, b = (lo - p) / d, (hi - p) / d
            since, until = max(since, min(a, b)), min(until, max(a, b))
    return since <= until + 1e-9


@njit(cache=True)
def _more(row: np.ndarray, count: int) -> np.ndarray:
    """The same row of numbers with room for one more."""
    if count < row.size:
        return row
    wider = np.empty(2 * row.size, row.dtype)
    wider[: row.size] = row
    return wider


@njit(cache=True)
def cells(box: np.ndarray, start: np.ndarray, stop: np.ndarray, edges: np.ndarray) -> Cells:  # noqa: C901  (one pass over pairs, rows and cells)
    """The cells of all no-fit polygons."""
    n = start.shape[0]
    grid = np.zeros((n, n, 3))
    counts = np.zeros((n, n, 3), np.int64)
    inside = np.empty(1024, np.int8)
    begin = np.empty(1024, np.int32)
    near = np.empty(4096, np.int32)
    rows = np.empty(1024, np.int32)
    level = np.empty(4096, np.int32)
    off = np.empty((stop - start).max())
    cell, row, many, across = 0, 0, 0, 0
    for a in range(n):
        for b in range(a, n):
            x0, y0, x1, y1 = box[a, b]
            side = np.sqrt(max(x1 - x0, 1e-6) * max(y1 - y0, 1e-6) / _CELLS)
            columns = int((x1 - x0) / side) + 1
            lines = int((y1 - y0) / side) + 1
            grid[a, b, 0], grid[a, b, 1], grid[a, b, 2] = x0, y0, 1.0 / side
            counts[a, b, 0], counts[a, b, 1], counts[a, b, 2] = columns, cell, row
            for m in range(lines):
                low, high = y0 + m * side - _HAIR, y0 + (m + 1) * side + _HAIR
                rows = _more(rows, row + 1)
                rows[row] = across
                row += 1
                for k in range(start[a, b], stop[a, b]):
                    if (
                        min(edges[k, 1], edges[k, 5]) <= high
                        and max(edges[k, 1], edges[k, 5]) >= low
                    ):
                        level = _more(level, across)
                        level[across] = k
                        across += 1
                for c in range(columns):
                    left, right = x0 + c * side - _HAIR, x0 + (c + 1) * side + _HAIR
                    inside, begin = _more(inside, cell + 1), _more(begin, cell + 1)
                    begin[cell] = many
                    state = OUTSIDE
                    for k in range(start[a, b], stop[a, b]):
                        if _crosses(edges, k, left, low, right, high):
                            state = PARTLY
                            break
                    x, y = 0.5 * (left + right), 0.5 * (low + high)
                    if state == OUTSIDE and _inside(edges, start[a, b], stop[a, b], x, y):
                        state = INSIDE
                    inside[cell] = state
                    cell += 1
                    if state == OUTSIDE:
                        continue
                    half = 0.5 * np.hypot(right - left, high - low)
                    reach = 1e300
                    for k in range(start[a, b], stop[a, b]):
                        off[k - start[a, b]] = _off(edges, k, x, y)
                        reach = min(reach, off[k - start[a, b]] + half)
                    for k in range(start[a, b], stop[a, b]):
                        if off[k - start[a, b]] - half <= reach:
                            far = max(
                                max(_off(edges, k, left, low), _off(edges, k, right, low)),
                                max(_off(edges, k, left, high), _off(edges, k, right, high)),
                            )
                            reach = min(reach, far)
                    for k in range(start[a, b], stop[a, b]):
                        if off[k - start[a, b]] - half <= reach + _HAIR:
                            near = _more(near, many)
                            near[many] = k
                            many += 1
    begin[cell], rows[row] = many, across
    frame = np.zeros((n, n, 5))
    head = np.zeros((n, n, 3), np.int64)
    index = np.empty(cell + 1 + row + 1 + many + across, np.int32)
    lists = cell + 1 + row + 1
    index[:cell] = 4 * (begin[:cell] + lists) + inside[:cell]
    index[cell] = 4 * (many + lists)
    index[cell + 1 : lists] = rows[: row + 1] + lists + many
    index[lists : lists + many] = near[:many]
    index[lists + many :] = level[:across]
    frame[:, :, :4] = box
    frame[:, :, 4] = grid[:, :, 2]
    head[:, :, :2] = counts[:, :, :2]
    head[:, :, 2] = counts[:, :, 2] + cell + 1
    return frame, head, index
