"""The armhole: from the shoulder end over the across point to the underarm."""

from __future__ import annotations

from math import log

from cutwright.blocks.frame import heading, heading_of
from cutwright.errors import GeometryError
from cutwright.geometry.curve import Cubic
from cutwright.geometry.draw import corner_arc, meeting
from cutwright.geometry.point import Point, cross
from cutwright.geometry.solve import root
from cutwright.messages import N_, Message

_ABOVE = 0.56


def armhole_arcs(
    end: Point, leaving: float, across: Point, under: Point, arriving: float
) -> tuple[Cubic, Cubic]:
    """Two corner arcs that meet at the across point with one direction and one curvature.

    `leaving` and `arriving` are headings in radians. Own method (docs/drafting.md, section 4): the unknown is the heading at
    the across point; between the headings of the two chords the difference of the curvatures
    changes sign, so there is always a root and never an inflection.

    Parameters
    ----------
    end, across, under : shoulder end, across point, underarm in the half's frame, cm
    leaving, arriving : headings there, radians

    Returns
    -------
    the curve above and the curve below the across point

    Raises
    ------
    GeometryError : the armhole would have to bend both ways
    """
    low, high = heading_of(across - end), heading_of(under - across)
    if not leaving < low < high < arriving:
        raise GeometryError(
            Message("armhole-would-bend-both-ways", N_("The armhole would have to bend both ways."))
        )
    start, finish = heading(leaving), heading(arriving)

    def difference(at: float) -> float:
        here = heading(at)
        above = _end_curvature(end, start, across, here, _ABOVE)
        below = _end_curvature(under, finish, across, here, _scoop(across, here, under, finish))
        return above - below

    edge = 1e-3 * (high - low)
    here = heading(root(difference, low + edge, high - edge, tolerance=1e-11))
    scoop = _scoop(across, here, under, finish)
    return (
        corner_arc(end, start, across, here, _ABOVE),
        corner_arc(across, here, under, finish, scoop),
    )


def _scoop(across: Point, here: Point, under: Point, finish: Point) -> float:
    """Handle share below the across point; it keeps the bottom round where the armhole is narrow."""
    met = meeting(across, here, under, finish)
    if met is None or met[0] <= 0 or met[1] >= 0:
        return 0.5523
    return min(max(0.54 + 0.13 * log(met[0] / -met[1]), 0.48), 0.76)


def _end_curvature(far: Point, along: Point, near: Point, tangent: Point, k: float) -> float:
    """Curvature at `near` of a corner arc between two places, in closed form.

    (2/3) (1 - k) / k^2 times the far end's distance from the tangent over the leg squared.
    """
    met = meeting(near, tangent, far, along)
    if met is None:
        return 0.0
    off = abs(cross(tangent, far - near))
    return 2 / 3 * (1 - k) / (k * k) * off / (met[0] * met[0])
