"""How many places of a curve a hand needs to draw it: enough that a smooth line through them meets it."""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from cutwright.geometry.outline import flattened
from cutwright.geometry.path import Path, path_length, point_at
from cutwright.geometry.point import Point

NEAR = 0.1
"""How far a smooth line laid through the printed places may pass beside the curve, cm."""

AS_LONG = 0.04
"""How far its length may lie from the curve's, cm, so that a measured edge comes out to the millimetre."""

ROUGHLY = 0.1
"""The same where places read to the millimetre come no nearer, however many there are, cm."""

COUNTS = (1, 3, 4, 7, 9, 14, 19)
"""How many places between the ends are tried, evenly along the curve."""

_MILLIMETRE = 1


@lru_cache(maxsize=4096)
def shares(path: Path, given: tuple[float, ...] = ()) -> tuple[float, ...]:
    """Where the places between the ends lie, as shares of the length: as few as will do.

    Those `given` are among them; none is set right beside them.
    """
    tried = [_even(count, given) for count in COUNTS]
    for slack in (AS_LONG, ROUGHLY):
        for found in tried:
            if _will_do(path, found, slack):
                return found
    return tried[-1]


def _even(count: int, given: tuple[float, ...]) -> tuple[float, ...]:
    """So many places evenly between the ends, but for those right beside one that is given."""
    even = (k / (count + 1) for k in range(1, count + 1))
    clear = (s for s in even if all(abs(s - g) > 0.5 / (count + 1) for g in given))
    return tuple(sorted((*given, *clear)))


def _will_do(path: Path, along: tuple[float, ...], slack: float) -> bool:
    """Whether a smooth line through places read to the millimetre is near the path and as long.

    Two lines are laid, as two hands would: one bends no further than the next places, the other all along.
    """
    size = path_length(path)
    ends = (path[0].start, *(point_at(path, size * share) for share in along), path[-1].end)
    places = np.array([_read(p) for p in ends])
    ring = np.array(flattened(path, 0.02))
    return all(_meets(ring, size, line(places), slack) for line in (_bent, _sprung))


def _meets(ring: np.ndarray, size: float, line: np.ndarray, slack: float) -> bool:
    """Whether a line is near a ring of chords and as long as the curve they stand for."""
    a, step = ring[:-1, None], np.diff(ring)[:, None]
    t = np.clip(((line - a) * step.conj()).real / np.abs(step) ** 2, 0.0, 1.0)
    beside = float(np.abs(line - a - t * step).min(axis=0).max())
    return beside <= NEAR and abs(float(np.abs(np.diff(line)).sum()) - size) <= slack


def _read(p: Point) -> Point:
    return complex(round(p.real, _MILLIMETRE), round(p.imag, _MILLIMETRE))


def _bent(places: np.ndarray) -> np.ndarray:
    """A flexible ruler through places: each stretch blends the two parabolas that meet in it."""
    if len(places) == 3:
        return _parabola(places[0], places[1], places[2], np.linspace(0.0, 1.0, 40))
    out: list[np.ndarray] = []
    t = np.linspace(0.0, 1.0, 12)
    for k in range(len(places) - 1):
        before = None if k == 0 else _part(places[k - 1 : k + 2], t, later=True)
        after = None if k + 2 >= len(places) else _part(places[k : k + 3], t, later=False)
        if before is None or after is None:
            out.append(after if before is None else before)  # type: ignore[arg-type]
        else:
            out.append((1 - t) * before + t * after)
    return np.concatenate(out)


def _part(three: np.ndarray, t: np.ndarray, later: bool) -> np.ndarray:
    """One of the two stretches of the parabola through three places."""
    first, second = abs(three[1] - three[0]), abs(three[2] - three[1])
    middle = first / (first + second)
    at = middle + t * (1 - middle) if later else t * middle
    return _parabola(three[0], three[1], three[2], at)


def _parabola(a: complex, b: complex, c: complex, t: np.ndarray) -> np.ndarray:
    """The parabola through three places, at shares of its way measured along the chords."""
    first, second = abs(b - a), abs(c - b)
    m = first / (first + second)
    line: np.ndarray = (
        a * (t - m) * (t - 1) / m + b * t * (t - 1) / (m * (m - 1)) + c * t * (t - m) / (1 - m)
    )
    return line


def _sprung(places: np.ndarray) -> np.ndarray:
    """A spring bent through all places at once: a cubic on each chord, free of bending at both ends."""
    wide = np.abs(np.diff(places))
    count = len(places)
    left, right = np.eye(count, dtype=complex), np.zeros(count, dtype=complex)
    slopes = np.diff(places) / wide
    for k in range(1, count - 1):
        left[k, k - 1 : k + 2] = wide[k - 1], 2 * (wide[k - 1] + wide[k]), wide[k]
        right[k] = 6 * (slopes[k] - slopes[k - 1])
    bends = np.linalg.solve(left, right)
    t = np.linspace(0.0, 1.0, 12)[None, :]
    h, p, q = wide[:, None], places[:-1, None], places[1:, None]
    m, n = bends[:-1, None], bends[1:, None]
    line = (1 - t) * p + t * q + h**2 / 6 * (((1 - t) ** 3 - (1 - t)) * m + (t**3 - t) * n)
    out: np.ndarray = line.ravel()
    return out
