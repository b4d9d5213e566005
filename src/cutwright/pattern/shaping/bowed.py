"""An edge redrawn as one bow over a mouth that is not sewn shut."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from cutwright.errors import GeometryError
from cutwright.geometry.curve import Cubic, curve_length
from cutwright.geometry.draw import corner_arc
from cutwright.geometry.hollow import curvatures
from cutwright.geometry.path import (
    Path,
    direction_at,
    nearest_distance,
    path_length,
    point_at,
    split_path,
)
from cutwright.geometry.point import Point
from cutwright.geometry.solve import root_within

_FLATTEST, _FULLEST, _USUAL = 0.3, 0.95, 0.62
_WIDER = 1.15
_TRIES = 12
_STRAIGHT = 0.0025
"""Curvature in 1/cm that the eye takes for straight (a radius of 4 m)."""
_T = np.linspace(0.0, 1.0, 17)


@dataclass(frozen=True, slots=True)
class Bowed:
    """The edge with its bow, and from where to where the bow runs, cm along the new edge."""

    path: Path
    start: float
    end: float


def bowed_over(path: Path, mouth: tuple[Point, Point], over: float, widen: bool) -> Bowed | None:
    """The edge with one bow about the middle of a mouth, of the same length as the stretch it replaces.

    Own method: the fullness of a corner arc is solved for that length; the usual fullness is taken
    where none has it.

    Parameters
    ----------
    path : the edge, straight across the mouth, cm
    mouth : both ends of the mouth, on the edge in walking order, cm
    over : length of the stretch that is redrawn, cm; less where the edge ends before
    widen : whether the stretch may grow, to 1.15 of itself up to eleven times, until the edge bends
        no more often than it did

    Returns
    -------
    the edge and where the bow runs; None where no such bow can be drawn
    """
    ends = nearest_distance(path, mouth[0]), nearest_distance(path, mouth[1])
    calm = bends(split_path(path, ends[0])[0]) + bends(split_path(path, ends[1])[1])
    best: tuple[int, Bowed] | None = None
    for k in range(_TRIES if widen else 1):
        found = _bow(path, ends, over * _WIDER**k)
        if found is None:
            continue
        count = bends(found.path)
        if count <= calm:
            return found
        if best is None or count < best[0]:
            best = count, found
    return best[1] if best else None


def _bow(path: Path, ends: tuple[float, float], over: float) -> Bowed | None:
    """One curve over the stretch, in the directions the edge has there and of the same length."""
    middle, half = (ends[0] + ends[1]) / 2, max(over, ends[1] - ends[0]) / 2
    start, end = max(middle - half, 0.0), min(middle + half, path_length(path))
    places = (
        point_at(path, start),
        direction_at(path, start),
        point_at(path, end),
        direction_at(path, end),
    )

    def drawn(k: float) -> Cubic:
        return corner_arc(*places, k)

    def miss(k: float) -> float:
        return curve_length(drawn(k)) - (end - start)

    try:
        fullness = root_within(miss, _FLATTEST, _FULLEST, 1e-9)
        curve = drawn(_USUAL if fullness is None else fullness)
    except GeometryError:
        return None
    before, after = split_path(path, start)[0], split_path(path, end)[1]
    return Bowed((*before, curve, *after), start, start + curve_length(curve))


def bends(path: Path) -> int:
    """How often a chain changes from bending one way to bending the other, corners not counted.

    Parameters
    ----------
    path : a chain of curves, cm

    Returns
    -------
    a count; what has a radius of more than 4 m is taken for straight
    """
    cubics = [c for c in path if isinstance(c, Cubic)]
    if not cubics:
        return 0
    found = curvatures(cubics, _T).ravel()
    signs = np.sign(found[abs(found) > _STRAIGHT])
    return int(np.count_nonzero(np.diff(signs)))
