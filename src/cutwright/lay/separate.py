"""Pull overlapping pieces apart inside a given length of cloth (compiled).

Guided local search: every overlapping piece in turn is put where its weighted overlaps are
least, and pairs that stay in each other's way grow heavier until they part. Overlap of a pair
is how deep one lies in the other: the distance from their offset to the edge of their no-fit
polygon. Places tried: at random over the cloth, near where the piece lies, and at corners of
no-fit polygons; the best are then refined by steps that shrink.
All kernels are in this one file, because the compiler's cache does not see other files change.
Source: the scheme of weights and refinement follows Egeblad, Nielsen and Odgaard, "Fast
neighborhood search for two- and three-dimensional nesting problems", European Journal of
Operational Research 183 (2007), and Gardeyn and Wauters' published work on guided separation
(from memory, not page-checked).
"""

from __future__ import annotations

import numpy as np
from numba import njit

Table = tuple[np.ndarray, ...]
"""Frame, head and index of the cells, then edges, start and stop of the no-fit polygons."""

OUTSIDE, PARTLY = 0, 2

TOLERANCE = 2e-4
"""Overlaps less deep than this (cm) count as touching."""


@njit(cache=True, nogil=True)
def chance(dice: np.ndarray) -> float:
    """The next number of the dice, 0 <= u < 1 (xorshift64*)."""
    s = dice[0]
    s ^= s >> np.uint64(12)
    s ^= s << np.uint64(25)
    s ^= s >> np.uint64(27)
    dice[0] = s
    return float((s * np.uint64(2685821657736338717)) >> np.uint64(11)) * (1.0 / 9007199254740992.0)


@njit(cache=True, nogil=True, error_model="numpy")
def depth(
    frame: np.ndarray,
    head: np.ndarray,
    index: np.ndarray,
    edges: np.ndarray,
    a: int,
    b: int,
    dx: float,
    dy: float,
) -> float:
    """How deep shape b lies in shape a when its origin is (dx, dy) from a's."""
    if a > b:
        a, b, dx, dy = b, a, -dx, -dy
    left = frame[a, b, 0]
    low = frame[a, b, 1]
    if dx <= left or dx >= frame[a, b, 2] or dy <= low or dy >= frame[a, b, 3]:
        return 0.0
    scale = frame[a, b, 4]
    row = int((dy - low) * scale)
    cell = np.uint64(head[a, b, 1] + row * head[a, b, 0] + int((dx - left) * scale))
    word = index[cell]
    if word & 3 == OUTSIDE:
        return 0.0
    if word & 3 == PARTLY:
        odd = 0
        line = np.uint64(head[a, b, 2] + row)
        for m in range(np.uint64(index[line]), np.uint64(index[line + np.uint64(1)])):
            k = np.uint64(index[m])
            y0, ey = edges[k, 1], edges[k, 3]
            spans = int((dy < y0) != (dy < edges[k, 5]))
            odd ^= spans & int(((dx - edges[k, 0]) * ey < (dy - y0) * edges[k, 2]) == (ey > 0.0))
        if odd == 0:
            return 0.0
    best = 1e300
    for m in range(np.uint64(word >> 2), np.uint64(index[cell + np.uint64(1)] >> 2)):
        k = np.uint64(index[m])
        ex, ey = edges[k, 2], edges[k, 3]
        ux = dx - edges[k, 0]
        uy = dy - edges[k, 1]
        t = (ux * ex + uy * ey) * edges[k, 4]
        t = 0.0 if t < 0.0 else t
        t = 1.0 if t > 1.0 else t
        vx = ux - t * ex
        vy = uy - t * ey
        d = vx * vx + vy * vy
        best = d if d < best else best
    if best <= TOLERANCE * TOLERANCE:
        return 0.0
    return float(np.sqrt(best))


@njit(cache=True, nogil=True)
def cost(
    frame: np.ndarray,
    head: np.ndarray,
    index: np.ndarray,
    edges: np.ndarray,
    place: np.ndarray,
    lie: np.ndarray,
    xs: np.ndarray,
    ys: np.ndarray,
    ext: np.ndarray,
    weight: np.ndarray,
    i: int,
    s: int,
    x: float,
    y: float,
    bound: float,
) -> float:
    """The weighted overlap of item i put down as shape s at (x, y); may stop above `bound`."""
    total = 0.0
    left = x + place[s, 7]
    right = x + place[s, 6]
    low = y + place[s, 8]
    high = y + place[s, 9]
    for j in range(lie.size):
        if ext[0, j] >= right or ext[1, j] <= left or ext[2, j] >= high or ext[3, j] <= low:
            continue
        if j != i:
            d = depth(frame, head, index, edges, lie[j], s, x - xs[j], y - ys[j])
            if d > 0.0:
                total += d * weight[i, j]
                if total > bound:
                    return float(total)
    return float(total)


@njit(cache=True, nogil=True)
def reach(
    place: np.ndarray, lie: np.ndarray, xs: np.ndarray, ys: np.ndarray, ext: np.ndarray, i: int
) -> None:
    """Note how far item i reaches: left, right, low, high."""
    s = lie[i]
    ext[0, i] = xs[i] + place[s, 7]
    ext[1, i] = xs[i] + place[s, 6]
    ext[2, i] = ys[i] + place[s, 8]
    ext[3, i] = ys[i] + place[s, 9]


@njit(cache=True, nogil=True)
def settle(v: float, low: float, high: float, step: float) -> float:
    """The allowed place nearest to v on one axis."""
    if step > 0.0:
        last = np.floor((high - low) / step + 1e-9)
        k = np.rint((v - low) / step)
        return float(low + step * min(max(k, 0.0), last))
    return min(max(v, low), high)


@njit(cache=True, nogil=True)
def somewhere(u: float, low: float, high: float, step: float) -> float:
    """An allowed place on one axis at the share u of the way."""
    if step > 0.0:
        last = np.floor((high - low) / step + 1e-9)
        return float(low + step * min(np.floor(u * (last + 1.0)), last))
    return low + u * (high - low)


@njit(cache=True, nogil=True)
def refine(
    table: Table,
    place: np.ndarray,
    lie: np.ndarray,
    xs: np.ndarray,
    ys: np.ndarray,
    ext: np.ndarray,
    weight: np.ndarray,
    i: int,
    s: int,
    x: float,
    y: float,
    f: float,
    length: float,
    hx: float,
    smallest: float,
    dice: np.ndarray,
) -> tuple[float, float, float, int]:
    """Walk from (x, y) downhill by steps that grow on success and shrink on failure."""
    frame, head, index, edges = table[:4]
    room = place[s]
    high = length - room[6]
    hy = hx
    used = 0
    while (hx > smallest or hy > smallest) and f > 0.0:
        kind = int(chance(dice) * 4.0)
        sx, sy = hx, hy
        if kind == 0:
            sy = 0.0
        elif kind == 1:
            sx = 0.0
        elif kind == 3:
            sy = -sy
        moved = False
        for sign in (1.0, -1.0):
            tx = settle(x + sign * sx, room[0], high, room[1])
            ty = settle(y + sign * sy, room[2], room[3], room[4])
            if tx == x and ty == y:
                continue
            used += 1
            g = cost(frame, head, index, edges, place, lie, xs, ys, ext, weight, i, s, tx, ty, f)
            if g < f:
                x, y, f = tx, ty, g
                moved = True
                break
        grow = 1.1 if moved else 0.5
        if kind != 1:
            hx *= grow
        if kind != 0:
            hy *= grow
        if kind > 1 and not moved:
            hx *= 1.4142
            hy *= 1.4142
    return x, y, f, used


@njit(cache=True, nogil=True)
def put_better(  # noqa: C901  (one loop that the compiler keeps tight)
    table: Table,
    place: np.ndarray,
    options: np.ndarray,
    count: np.ndarray,
    lie: np.ndarray,
    xs: np.ndarray,
    ys: np.ndarray,
    ext: np.ndarray,
    weight: np.ndarray,
    length: float,
    i: int,
    tries: tuple[int, int, int],
    dice: np.ndarray,
) -> int:
    """Put item i where its weighted overlap is least among many places tried."""
    frame, head, index, edges, start, stop = table
    n = lie.size
    keep = 3
    top_f = np.full(keep, 1e300)
    top_s = np.zeros(keep, np.int64)
    top_x = np.zeros(keep)
    top_y = np.zeros(keep)
    now_s = lie[i]
    now = cost(
        frame, head, index, edges, place, lie, xs, ys, ext, weight, i, now_s, xs[i], ys[i], 1e300
    )
    used = 1
    wide, near, corner = tries
    for k in range(wide + near + corner):
        s = options[i, int(chance(dice) * count[i])]
        room = place[s]
        high = length - room[6]
        if high < room[0] - 1e-9:
            continue
        if k < wide:
            x = somewhere(chance(dice), room[0], high, room[1])
            y = somewhere(chance(dice), room[2], room[3], room[4])
        elif k < wide + near:
            x = xs[i] + (chance(dice) - 0.5) * room[5]
            y = ys[i] + (chance(dice) - 0.5) * room[5]
            x = settle(x, room[0], high, room[1])
            y = settle(y, room[2], room[3], room[4])
        else:
            j = int(chance(dice) * n)
            if j == i:
                continue
            a = min(lie[j], s)
            b = max(lie[j], s)
            m = start[a, b] + int(chance(dice) * (stop[a, b] - start[a, b]))
            sign = 1.0 if lie[j] <= s else -1.0
            x = xs[j] + sign * edges[m, 0]
            y = ys[j] + sign * edges[m, 1]
            if x < room[0] - 1e-9 or x > high + 1e-9 or y < room[2] - 1e-9 or y > room[3] + 1e-9:
                continue
            x = settle(x, room[0], high, room[1])
            y = settle(y, room[2], room[3], room[4])
        used += 1
        f = cost(
            frame, head, index, edges, place, lie, xs, ys, ext, weight, i, s, x, y, top_f[keep - 1]
        )
        if f < top_f[keep - 1]:
            q = keep - 1
            while q > 0 and top_f[q - 1] > f:
                top_f[q], top_s[q] = top_f[q - 1], top_s[q - 1]
                top_x[q], top_y[q] = top_x[q - 1], top_y[q - 1]
                q -= 1
            top_f[q], top_s[q], top_x[q], top_y[q] = f, s, x, y
    best_f, best_s, best_x, best_y = now, now_s, xs[i], ys[i]
    size = place[now_s, 5]
    x, y, f, more = refine(table, place, lie, xs, ys, ext, weight, i, now_s, xs[i], ys[i], now,
                           length, 0.01 * size, 0.001 * size, dice)  # fmt: skip
    used += more
    if f < best_f:
        best_f, best_x, best_y = f, x, y
    for q in range(keep):
        if top_f[q] > 1e299:
            break
        s = top_s[q]
        x, y, f, more = refine(table, place, lie, xs, ys, ext, weight, i, s, top_x[q], top_y[q],
                               top_f[q], length, 0.1 * size, 0.005 * size, dice)  # fmt: skip
        used += more
        if f < best_f:
            best_f, best_s, best_x, best_y = f, s, x, y
    x, y, f, more = refine(table, place, lie, xs, ys, ext, weight, i, best_s, best_x, best_y,
                           best_f, length, 0.01 * size, 0.0001 * size, dice)  # fmt: skip
    used += more
    if f <= best_f:
        best_f, best_x, best_y = f, x, y
    if best_f <= now:
        lie[i], xs[i], ys[i] = best_s, best_x, best_y
        reach(place, lie, xs, ys, ext, i)
    return used


@njit(cache=True, nogil=True)
def look(
    table: Table,
    lie: np.ndarray,
    xs: np.ndarray,
    ys: np.ndarray,
    ext: np.ndarray,
    i: int,
    found: np.ndarray,
) -> None:
    """Fill in how deep item i overlaps each of the others."""
    frame, head, index, edges = table[:4]
    for j in range(lie.size):
        d = 0.0
        if (
            j != i
            and ext[0, j] < ext[1, i]
            and ext[1, j] > ext[0, i]
            and ext[2, j] < ext[3, i]
            and ext[3, j] > ext[2, i]
        ):
            p, q = min(i, j), max(i, j)
            d = depth(frame, head, index, edges, lie[p], lie[q], xs[q] - xs[p], ys[q] - ys[p])
        found[i, j] = d
        found[j, i] = d


@njit(cache=True, nogil=True)
def summed(found: np.ndarray) -> float:
    """The sum of all overlaps."""
    total = 0.0
    for i in range(found.shape[0]):
        for j in range(i + 1, found.shape[0]):
            total += found[i, j]
    return total


@njit(cache=True, nogil=True)
def reweigh(found: np.ndarray, weight: np.ndarray) -> None:
    """Make pairs that overlap heavier (most the deepest one), let the others grow light again."""
    n = found.shape[0]
    deepest = found.max()
    if deepest <= 0.0:
        return
    for i in range(n):
        for j in range(n):
            if found[i, j] > 0.0:
                weight[i, j] *= 1.2 + 0.8 * found[i, j] / deepest
            else:
                weight[i, j] = max(1.0, weight[i, j] * 0.95)


@njit(cache=True, nogil=True)
def separate(
    table: Table,
    place: np.ndarray,
    options: np.ndarray,
    count: np.ndarray,
    fixed: np.ndarray,
    lie: np.ndarray,
    xs: np.ndarray,
    ys: np.ndarray,
    weight: np.ndarray,
    length: float,
    tries: tuple[int, int, int],
    patience: int,
    budget: int,
    dice: np.ndarray,
) -> tuple[float, int]:
    """Move pieces until none overlap, or nothing got better for `patience` rounds.

    `lie`, `xs`, `ys` hold the best state found on return. Returns the overlap left (0 is a good
    lay) and the number of places tried; it also stops once that number reaches `budget`.
    """
    n = lie.size
    found = np.zeros((n, n))
    ext = np.zeros((4, n))
    for i in range(n):
        reach(place, lie, xs, ys, ext, i)
    for i in range(n):
        look(table, lie, xs, ys, ext, i, found)
    total = summed(found)
    best = total
    best_lie, best_xs, best_ys = lie.copy(), xs.copy(), ys.copy()
    order = np.arange(n)
    used = 0
    idle = 0
    while total > 0.0 and idle < patience and used < budget:
        reweigh(found, weight)
        for k in range(n - 1, 0, -1):
            m = int(chance(dice) * (k + 1))
            order[k], order[m] = order[m], order[k]
        for k in range(n):
            i = order[k]
            if fixed[i] or used >= budget:
                continue
            if found[i].max() > 0.0:
                used += put_better(table, place, options, count, lie, xs, ys, ext, weight, length,
                                   i, tries, dice)  # fmt: skip
                look(table, lie, xs, ys, ext, i, found)
        total = summed(found)
        idle += 1
        if total < best:
            if total < 0.98 * best:
                idle = 0
            best = total
            best_lie[:] = lie
            best_xs[:] = xs
            best_ys[:] = ys
    lie[:] = best_lie
    xs[:] = best_xs
    ys[:] = best_ys
    return best, used
