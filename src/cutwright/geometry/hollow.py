"""How tightly a line is hollowed: the least radius on the side where an allowance is added."""

from __future__ import annotations

from collections.abc import Sequence
from math import inf

import numpy as np

from cutwright.geometry.curve import Cubic, Curve
from cutwright.geometry.point import Point

_T = np.linspace(0.0, 1.0, 65)


def tightest(path: Sequence[Curve]) -> tuple[float, Point | None]:
    """The least radius at which a chain is hollow to the left of travel, and where.

    Left is outside for a loop that runs clockwise to the eye, where the allowance lies. Read at 65
    places of each cubic; corners between curves are not looked at.

    Parameters
    ----------
    path : a chain of curves, cm

    Returns
    -------
    the radius and the place, cm; (inf, None) for a chain that is nowhere hollow
    """
    cubics = [c for c in path if isinstance(c, Cubic)]
    if not cubics:
        return inf, None
    bend = curvatures(cubics, _T)
    row, column = np.unravel_index(int(bend.argmin()), bend.shape)
    least = float(bend[row, column])
    if least >= -1e-9:
        return inf, None
    return -1 / least, cubics[int(row)].at(float(_T[column]))


def least_radius(path: Sequence[Curve]) -> float:
    """The least radius of a chain, whichever way it bends, read at 65 places of each cubic.

    Parameters
    ----------
    path : a chain of curves, cm; corners between them are not looked at

    Returns
    -------
    cm; inf for a straight one
    """
    cubics = [c for c in path if isinstance(c, Cubic)]
    most = float(abs(curvatures(cubics, _T)).max()) if cubics else 0.0
    return 1 / most if most > 1e-9 else inf


def curvatures(cubics: Sequence[Cubic], t: np.ndarray) -> np.ndarray:
    """Signed curvature of many cubics at many places.

    Parameters
    ----------
    cubics : n of them, cm; at least one
    t : m parameters from 0 to 1, shape (m,)

    Returns
    -------
    1/cm, shape (n, m), positive where a curve turns clockwise to the eye
    """
    p = np.array([c.controls for c in cubics])
    s = 1 - t
    d = 3 * np.diff(p, axis=1)
    e = 2 * np.diff(d, axis=1)
    v = d[:, 0:1] * s * s + 2 * d[:, 1:2] * s * t + d[:, 2:3] * t * t
    a = e[:, 0:1] * s + e[:, 1:2] * t
    speed = np.maximum(np.abs(v), 1e-9)
    bend: np.ndarray = (v.real * a.imag - v.imag * a.real) / speed**3
    return bend
