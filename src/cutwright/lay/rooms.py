"""Convex rooms in which no two pieces overlap, for moving all of them at once (compiled).

For two pieces near each other the offset of one from the other lies outside their no-fit polygon.
A room is cut out of that outside by half planes: first along the edge nearest to the offset, then
along the nearest edge that still reaches into the room, until none does within reach.
All kernels are in this one file, because the compiler's cache does not see other files change.
Source: convex rooms of no-fit polygons for compaction are common in the literature on nesting
since the 1990s (from memory, not page-checked).
"""

from __future__ import annotations

import numpy as np
from numba import njit

_HAIR = 1e-6
_TOUCHING = 1e-3
_MOST = 14
"""Half planes for one pair; beyond that the room is left as it is, and the lay is held against it."""


@njit(cache=True)
def senses(start: np.ndarray, stop: np.ndarray, edges: np.ndarray) -> np.ndarray:
    """1 where the rings of a pair run left about what is forbidden, -1 where they run right."""
    n = start.shape[0]
    sense = np.ones((n, n))
    for a in range(n):
        for b in range(a, n):
            area = 0.0
            for k in range(start[a, b], stop[a, b]):
                area += edges[k, 0] * edges[k, 3] - edges[k, 1] * edges[k, 2]
            sense[a, b] = 1.0 if area > 0.0 else -1.0
    return sense


@njit(cache=True)
def _nearest(
    edges: np.ndarray, since: int, until: int, dx: float, dy: float, planes: np.ndarray,
    first: int, count: int, reach: float,
) -> tuple[int, float, float, float]:  # fmt: skip
    """The edge nearest to an offset of those that come into the room so far: its number, where, how far squared."""
    best, found, bx, by = reach, -1, 0.0, 0.0
    for k in range(since, until):
        x0, y0, ex, ey = edges[k, 0], edges[k, 1], edges[k, 2], edges[k, 3]
        t0, t1 = 0.0, 1.0
        for m in range(first, count):
            s0 = planes[m, 2] * x0 + planes[m, 3] * y0 - planes[m, 4]
            s1 = s0 + planes[m, 2] * ex + planes[m, 3] * ey
            if s0 <= _HAIR and s1 <= _HAIR:
                t1 = -1.0
                break
            if s0 < _HAIR:
                t0 = max(t0, (_HAIR - s0) / (s1 - s0))
            elif s1 < _HAIR:
                t1 = min(t1, (_HAIR - s0) / (s1 - s0))
        if t0 >= t1:
            continue
        t = ((dx - x0) * ex + (dy - y0) * ey) * edges[k, 4]
        t = min(max(t, t0), t1)
        vx, vy = dx - x0 - t * ex, dy - y0 - t * ey
        d = vx * vx + vy * vy
        if d < best:
            best, found, bx, by = d, k, x0 + t * ex, y0 + t * ey
    return found, bx, by, best


@njit(cache=True, nogil=True)
def rooms(
    box: np.ndarray, start: np.ndarray, stop: np.ndarray, edges: np.ndarray, sense: np.ndarray,
    lie: np.ndarray, xs: np.ndarray, ys: np.ndarray, trust: float, planes: np.ndarray,
) -> int:  # fmt: skip
    """Fill in the half planes of all pairs that can meet when each piece moves by `trust` at most.

    Rows of `planes` are p, q, nx, ny, c: n . (place of q less place of p) >= c. Returns how many
    there are, or -1 if there is no room for them.
    """
    n = lie.size
    count = 0
    near = 2.0 * trust
    for i in range(n):
        for j in range(i + 1, n):
            p, q = (i, j) if lie[i] <= lie[j] else (j, i)
            a, b = lie[p], lie[q]
            dx, dy = xs[q] - xs[p], ys[q] - ys[p]
            if dx < box[a, b, 0] - near or dx > box[a, b, 2] + near:
                continue
            if dy < box[a, b, 1] - near or dy > box[a, b, 3] + near:
                continue
            first = count
            for _round in range(_MOST):
                k, bx, by, d = _nearest(
                    edges, start[a, b], stop[a, b], dx, dy, planes, first, count, 2.0 * near * near
                )
                if k < 0:
                    break
                if count >= planes.shape[0]:
                    return -1
                ex, ey = edges[k, 2], edges[k, 3]
                size = np.sqrt(ex * ex + ey * ey)
                nx, ny = sense[a, b] * ey / size, -sense[a, b] * ex / size
                if d > _TOUCHING * _TOUCHING:
                    ux, uy = (dx - bx) / np.sqrt(d), (dy - by) / np.sqrt(d)
                    if abs(ux * nx + uy * ny) < 1.0 - 1e-9:
                        nx, ny = ux, uy  # nearest at a corner: square to the gap
                planes[count, 0], planes[count, 1] = p, q
                planes[count, 2], planes[count, 3] = nx, ny
                planes[count, 4] = nx * bx + ny * by
                count += 1
    return count
