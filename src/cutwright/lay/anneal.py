"""In which order, and which way up, pieces are put down: annealing over both (compiled).

Pieces are put down one after the other, each as far back along the cloth as it will go on any
row of a grid across it (rows are measured from the fold and from the far edge). The annealing
changes the order and the turns of the pieces. For this the no-fit polygons are cut into rows:
for each pair and each row the stretches along the cloth that are forbidden.
All kernels are in this one file, because the compiler's cache does not see other files change.
"""

from __future__ import annotations

import numpy as np
from numba import njit

Rows = tuple[np.ndarray, np.ndarray, np.ndarray, np.ndarray, np.ndarray, np.ndarray]

_SHRINK = 1e-7


@njit(cache=True)
def cut_rows(  # noqa: C901  (one loop that the compiler keeps tight)
    box: np.ndarray,
    start: np.ndarray,
    stop: np.ndarray,
    edges: np.ndarray,
    shape: np.ndarray,
    offset: np.ndarray,
    grid: float,
) -> Rows:
    """Cut all no-fit polygons into rows.

    `shape` and `offset` give for each way a shape is measured (from fold or far edge) its number
    and the height of its row 0. Returns, for each pair of ways, the first row, where its rows
    begin in `begin`, and the forbidden stretches `low` to `high` row by row.
    """
    n = shape.size
    first = np.zeros((n, n), np.int64)
    rows = np.zeros((n, n), np.int64)
    at = np.zeros((n, n), np.int64)
    total = 0
    for u in range(n):
        for v in range(n):
            a, b = shape[u], shape[v]
            bottom, top = box[a, b, 1], box[a, b, 3]
            if a > b:
                bottom, top = -box[b, a, 3], -box[b, a, 1]
            gap = offset[v] - offset[u]
            first[u, v] = int(np.floor((bottom - gap) / grid))
            rows[u, v] = int(np.ceil((top - gap) / grid)) - first[u, v] + 1
            at[u, v] = total
            total += rows[u, v]
    begin = np.zeros(total + 1, np.int64)
    low = np.empty(total * 2 + 64)
    high = np.empty(total * 2 + 64)
    cuts = np.empty(256)
    count = 0
    for u in range(n):
        for v in range(n):
            a, b = shape[u], shape[v]
            flip = a > b
            if flip:
                a, b = b, a
            for m in range(rows[u, v]):
                begin[at[u, v] + m] = count
                dy = offset[v] - offset[u] + (first[u, v] + m) * grid
                if flip:
                    dy = -dy
                k = 0
                for e in range(start[a, b], stop[a, b]):
                    if (dy < edges[e, 1]) != (dy < edges[e, 5]) and k < 256:
                        share = (dy - edges[e, 1]) / edges[e, 3]
                        cuts[k] = edges[e, 0] + share * edges[e, 2]
                        k += 1
                xs = np.sort(cuts[:k])
                if flip:
                    xs = -xs[::-1]
                for q in range(0, k - 1, 2):
                    if xs[q + 1] - xs[q] > 2 * _SHRINK:
                        if count >= low.size:
                            more = np.empty(low.size)
                            low = np.concatenate((low, more))
                            high = np.concatenate((high, more))
                        low[count] = xs[q] + _SHRINK
                        high[count] = xs[q + 1] - _SHRINK
                        count += 1
    begin[total] = count
    return first, rows, at, begin, low[:count].copy(), high[:count].copy()


@njit(cache=True)
def put_down(  # noqa: C901  (one loop that the compiler keeps tight)
    rows: Rows,
    ways: np.ndarray,
    order: np.ndarray,
    turn: np.ndarray,
    since: int,
    limit: float,
    way: np.ndarray,
    row: np.ndarray,
    xs: np.ndarray,
    front: np.ndarray,
    options: np.ndarray,
) -> float:
    """Put the pieces down in order, from the one numbered `since`; gives up beyond `limit`.

    `ways` has for each way: x of the origin at least, step along, rows, step of rows, reach left,
    reach right, and 1 if it is pinned there. Returns the length, or a huge number.
    """
    first, many, at, begin, low, high = rows
    n = order.size
    length = 0.0 if since == 0 else front[since - 1]
    for k in range(since, n):
        i = order[k]
        best = 1e300
        for half in range(2):
            v = options[i, turn[i], half]
            if v < 0:
                continue
            r = ways[v]
            if r[6] > 0.0:
                best, way[i], row[i], xs[i] = 0.0, v, 0, r[0]
                continue
            step = r[1]
            rr = 0
            while rr < int(r[2]):
                x = r[0]
                again = True
                while again:
                    again = False
                    for q in range(k):
                        j = order[q]
                        u = way[j]
                        m = rr - row[j] - first[u, v]
                        if m < 0 or m >= many[u, v]:
                            continue
                        z = at[u, v] + m
                        for e in range(begin[z], begin[z + 1]):
                            d = x - xs[j]
                            if low[e] < d and d < high[e] - 1e-9:
                                x = xs[j] + high[e]
                                if step > 0.0:
                                    x = r[0] + step * np.ceil((x - r[0]) / step - 1e-9)
                                again = True
                    if x - r[4] >= best:
                        break
                if x - r[4] < best - 1e-9:
                    best = x - r[4]
                    way[i] = v
                    row[i] = rr
                    xs[i] = x
                rr += int(r[3])
        end = xs[i] + ways[way[i], 5]
        if end > length:
            length = end
        front[k] = length
        if length > limit:
            return 1e300
    return length


@njit(cache=True)
def _chance(dice: np.ndarray) -> float:
    s = dice[0]
    s ^= s >> np.uint64(12)
    s ^= s << np.uint64(25)
    s ^= s >> np.uint64(27)
    dice[0] = s
    return float((s * np.uint64(2685821657736338717)) >> np.uint64(11)) * (1.0 / 9007199254740992.0)


@njit(cache=True)
def _change(
    order: np.ndarray,
    turn: np.ndarray,
    new_order: np.ndarray,
    new_turn: np.ndarray,
    count: np.ndarray,
    held: int,
    dice: np.ndarray,
) -> int:
    """A small change of order or of one turn; returns the first place that is touched.

    The first `held` pieces, the pinned ones, keep their places in the order.
    """
    n = order.size
    new_order[:] = order
    new_turn[:] = turn
    since = n
    kind = _chance(dice)
    if n > 1 and kind < 0.65:
        a = held + int(_chance(dice) * (n - held))
        b = held + int(_chance(dice) * (n - held))
        since = min(a, b)
        if kind < 0.35:
            new_order[a], new_order[b] = order[b], order[a]
        elif a < b:
            new_order[a:b] = order[a + 1 : b + 1]
            new_order[b] = order[a]
        elif b < a:
            new_order[b + 1 : a + 1] = order[b:a]
            new_order[b] = order[a]
    if kind > 0.55:
        a = held + int(_chance(dice) * (n - held))
        i = new_order[a]
        new_turn[i] = int(_chance(dice) * count[i])
        since = min(since, a)
    return int(since)


@njit(cache=True, nogil=True)
def anneal(
    rows: Rows,
    ways: np.ndarray,
    options: np.ndarray,
    count: np.ndarray,
    order: np.ndarray,
    turn: np.ndarray,
    held: int,
    heat: float,
    trials: int,
    dice: np.ndarray,
    best: float,
    best_way: np.ndarray,
    best_row: np.ndarray,
    best_xs: np.ndarray,
) -> tuple[float, int]:
    """Anneal order and turns for a number of trials at one heat (cm).

    `order` and `turn` go on from where they are; a lay shorter than `best` is put into
    `best_…`. Returns the length of the best lay and the number of pieces put down.
    """
    n = order.size
    way = np.zeros(n, np.int64)
    row = np.zeros(n, np.int64)
    xs = np.zeros(n)
    front = np.zeros(n)
    now = put_down(rows, ways, order, turn, 0, 1e200, way, row, xs, front, options)
    laid = n
    if now < best - 1e-9:
        best = now
        best_way[:], best_row[:], best_xs[:] = way, row, xs
    old_way, old_row, old_xs, old_front = way.copy(), row.copy(), xs.copy(), front.copy()
    new_order, new_turn = order.copy(), turn.copy()
    for _ in range(trials):
        since = _change(order, turn, new_order, new_turn, count, held, dice)
        if since >= n:
            continue
        limit = now - heat * np.log(max(_chance(dice), 1e-12))
        length = put_down(
            rows, ways, new_order, new_turn, since, limit, way, row, xs, front, options
        )
        laid += n - since
        if length <= limit:
            now = length
            order[:] = new_order
            turn[:] = new_turn
            old_way[:], old_row[:], old_xs[:], old_front[:] = way, row, xs, front
            if now < best - 1e-9:
                best = now
                best_way[:], best_row[:], best_xs[:] = way, row, xs
        else:
            way[:], row[:], xs[:], front[:] = old_way, old_row, old_xs, old_front
    return float(best), laid
