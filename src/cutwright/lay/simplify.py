"""Outlines with fewer corners for the search: never smaller than the true one, hardly larger."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from cutwright.lay.task import Ring

if TYPE_CHECKING:
    from shapely import Polygon

_FINEST, _COARSEST = 0.02, 0.16
_ENOUGH = 48


def simplified(shape: Polygon) -> Ring:
    """A ring around the shape with few corners that keeps its box exactly.

    The outline is moved outwards by a hair (0.02 cm, more only if more than 48 corners are
    left), simplified by less than that, and cut back to the box of the true shape, so that a
    straight fold or selvedge edge stays where it is.
    """
    from shapely import Polygon

    ring = _ring(shape)
    slack = _FINEST
    while len(ring) > 16:
        wider = shape.buffer(slack, join_style="mitre", mitre_limit=2.0)
        cut = wider.simplify(slack * 0.95).intersection(_box(shape))
        if isinstance(cut, Polygon) and cut.is_valid and cut.buffer(1e-6).contains(shape):
            plain = Polygon(cut.exterior)
            if len(plain.exterior.coords) - 1 < len(ring):
                ring = _ring(plain)
        if len(ring) <= _ENOUGH or slack >= _COARSEST:
            break
        slack *= 2
    return ring


def _box(shape: Polygon) -> Polygon:
    from shapely import box

    return box(*shape.bounds)


def _ring(shape: Polygon) -> Ring:
    from shapely.geometry.polygon import orient

    return np.asarray(orient(shape).exterior.coords, dtype=np.float64)[:-1, :2]
