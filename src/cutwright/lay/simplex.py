"""The largest gain of a linear programme that starts from a place where all is well (compiled).

All variables start at 0, which breaks no row and no bound, and every step keeps it so: whenever the
work is cut short, the answer can be used. Whatever blocks a step is exchanged for it in a table
that is kept whole, because there are few rows; ties go to the largest pivot.
All kernels are in this one file, because the compiler's cache does not see other files change.
Source: the primal simplex method with bounded variables is textbook knowledge (from memory).
"""

from __future__ import annotations

import numpy as np
from numba import njit

_GAIN, _PIVOT, _LOOSE = 1e-9, 1e-9, 1e-9


@njit(cache=True, nogil=True)
def _entering(
    gain: np.ndarray, column: np.ndarray, value: np.ndarray, low: np.ndarray, high: np.ndarray
) -> int:
    """The column that gains most and may still move its way; -1 if none does."""
    best, found = _GAIN, -1
    for j in range(gain.size):
        v = column[j]
        g = gain[j]
        if g > best and value[v] < high[v] - _LOOSE:
            best, found = g, j
        elif -g > best and value[v] > low[v] + _LOOSE:
            best, found = -g, j
    return found


@njit(cache=True, nogil=True)
def _blocking(
    table: np.ndarray, j: int, way: float, most: float, row: np.ndarray, value: np.ndarray,
    low: np.ndarray, high: np.ndarray,
) -> tuple[int, float]:  # fmt: skip
    """Which row ends a step of column j, and how long the step is; row -1 if the column's own bound does."""
    limit = most
    for i in range(row.size):
        a = way * table[i, j]
        v = row[i]
        if a > _PIVOT:
            limit = min(limit, (value[v] - low[v] + _LOOSE) / a)
        elif a < -_PIVOT and high[v] < 1e300:
            limit = min(limit, (high[v] - value[v] + _LOOSE) / -a)
    found, largest, step = -1, 0.0, most
    for i in range(row.size):
        a = way * table[i, j]
        v = row[i]
        if abs(a) <= max(_PIVOT, largest):
            continue
        if a > 0.0:
            t = (value[v] - low[v]) / a
        elif high[v] < 1e300:
            t = (high[v] - value[v]) / -a
        else:
            continue
        if t <= limit:
            found, largest, step = i, abs(a), max(t, 0.0)
    return found, step


@njit(cache=True, nogil=True)
def _exchange(table: np.ndarray, gain: np.ndarray, r: int, j: int) -> None:
    """Let column j and row r change places."""
    pivot = table[r, j]
    table[r, j] = 1.0
    for k in range(gain.size):
        table[r, k] /= pivot
    for i in range(table.shape[0]):
        f = table[i, j]
        if i != r and f != 0.0:
            table[i, j] = 0.0
            for k in range(gain.size):
                table[i, k] -= f * table[r, k]
    f = gain[j]
    gain[j] = 0.0
    for k in range(gain.size):
        gain[k] -= f * table[r, k]


@njit(cache=True, nogil=True)
def largest(
    table: np.ndarray, room: np.ndarray, low: np.ndarray, high: np.ndarray, gain: np.ndarray,
    most: int,
) -> tuple[np.ndarray, int]:  # fmt: skip
    """The variables x with the largest gain . x such that table . x <= room and low <= x <= high.

    `room` >= 0 and low <= 0 <= high. Ends after `most` exchanges at the latest. `table` and `gain`
    are used up. Returns x and the number of exchanges.
    """
    m, n = table.shape
    value = np.zeros(n + m)
    value[n:] = room
    lowest, highest = np.zeros(n + m), np.full(n + m, 1e301)
    lowest[:n], highest[:n] = low, high
    column, row = np.arange(n), np.arange(n, n + m)
    used = 0
    while used < most:
        used += 1
        j = _entering(gain, column, value, lowest, highest)
        if j < 0:
            break
        v = column[j]
        way = 1.0 if gain[j] > 0.0 else -1.0
        own = highest[v] - value[v] if way > 0.0 else value[v] - lowest[v]
        r, step = _blocking(table, j, way, own, row, value, lowest, highest)
        for i in range(m):
            value[row[i]] -= way * step * table[i, j]
        value[v] += way * step
        if r >= 0:
            _exchange(table, gain, r, j)
            column[j], row[r] = row[r], v
    return value[:n], used
