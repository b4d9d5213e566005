"""The gentlest curve between two directions."""

from __future__ import annotations

from itertools import product

from cutwright.geometry.curve import Cubic
from cutwright.geometry.draw import corner_arc
from cutwright.geometry.hollow import least_radius
from cutwright.geometry.point import Point

_SHARES = tuple(0.5 + 0.05 * i for i in range(10))


def gentle_arc(
    start: Point, leaving: Point, end: Point, arriving: Point, share: float, enough: float
) -> Cubic:
    """A corner arc with handles of one share; where that is tight, the one with the largest least radius.

    Own method: ten shares from 0.5 to 0.95 are tried for each handle.

    Parameters
    ----------
    start, end : places, cm
    leaving, arriving : directions of travel there, of any length
    share : of both handles to begin with, from 0 to 1 (see `corner_arc`)
    enough : the least radius at which that is taken as it is, cm

    Returns
    -------
    one cubic without inflection

    Raises
    ------
    GeometryError : the two directions cannot be joined without bending both ways
    """

    def drawn(k: float, k_end: float) -> Cubic:
        return corner_arc(start, leaving, end, arriving, k, k_end)

    plain = drawn(share, share)
    if least_radius((plain,)) >= enough:
        return plain
    return max(
        (drawn(*pair) for pair in product(_SHARES, _SHARES)), key=lambda c: least_radius((c,))
    )
