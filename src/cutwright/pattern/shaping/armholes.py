"""An armhole drawn anew from the old one: its ends moved, its hollow deepened, its egg shape kept."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from cutwright.errors import GeometryError
from cutwright.geometry.curve import Cubic, Curve, curve_length
from cutwright.geometry.draw import corner_arc
from cutwright.geometry.path import Path, direction_at, path_length
from cutwright.geometry.point import Point, distance_to_line, unit
from cutwright.geometry.solve import root_within
from cutwright.messages import N_, Message
from cutwright.pattern.shaping.redraw import EdgePlace, kept_end, kept_start
from cutwright.pattern.shaping.truing import one_way

_FLATTEST, _DEEPEST = 0.3, 0.97
_LONG = 4.0
"""A curve of the old line longer than this is carried in two halves, cm."""
_LOW = 0.33
"""The share of the way up from the side at which a scoop is deepest."""


def armhole(place: EdgePlace, before: Path, after: Path, scoop: float, side_first: bool) -> Path:
    """The new armhole between a shoulder and a side that were cut back or run on.

    The old line is carried along with its ends, the shift fading smoothly from one to the other,
    and hollowed in its lower third; its corners stay as they were. Where that would bend both ways,
    one plain curve with the same corners is drawn in its place. Own method.

    Parameters
    ----------
    place : the armhole with its neighbours as they were
    before, after : its neighbours as they are to be, walked clockwise, cm
    scoop : how much deeper it is hollowed, cm
    side_first : whether the walk begins at the side rather than at the shoulder

    Returns
    -------
    the new line, walked clockwise

    Raises
    ------
    GeometryError : neither the one nor the other can be drawn
    """
    ends = _Ends(
        before[-1].end,
        kept_start(place, before),
        after[0].start,
        kept_end(place, after),
    )
    carried = _carried(place, ends, scoop, side_first)
    if one_way(carried):
        return carried
    like = _carried(place, ends, 0.0, side_first)
    return (_plain(ends, _hollow(like) + scoop),)


@dataclass(frozen=True, slots=True)
class _Ends:
    """Both ends of the new line and its directions there."""

    start: Point
    leaving: Point
    end: Point
    arriving: Point


def _plain(ends: _Ends, hollow: float) -> Curve:
    """One curve between both ends that lies so deep below its chord."""

    def drawn(k: float) -> Curve:
        return corner_arc(ends.start, ends.leaving, ends.end, ends.arriving, k)

    def miss(k: float) -> float:
        return _hollow((drawn(k),)) - hollow

    found = root_within(miss, _FLATTEST, _DEEPEST, 1e-9)
    if found is None:
        raise GeometryError(
            Message("no-plain-curve-hollow", N_("No plain curve is as hollow as that."))
        )
    return drawn(found)


def _hollow(path: Path) -> float:
    """How far a line lies from its chord at the deepest, cm."""
    a, b = path[0].start, path[-1].end
    return max(distance_to_line(c.at(i / 12), a, b) for c in path for i in range(13))


def _carried(place: EdgePlace, ends: _Ends, scoop: float, side_first: bool) -> Path:
    """The old line with its ends and handles shifted, each by its share, and joined smoothly."""
    old = [
        h for c in place.edge.curves for h in (c.split(0.5) if curve_length(c) > _LONG else (c,))
    ]
    size = path_length(old)
    shift_a, shift_b = ends.start - old[0].start, ends.end - old[-1].end

    def shifted(p: Point, along: float) -> Point:
        t = along / size
        soft = t * t * (3 - 2 * t)
        up = t if side_first else 1 - t
        hollow = direction_at(old, along) * 1j * scoop * _bump(up)
        return p + shift_a * (1 - soft) + shift_b * soft + hollow

    curves: list[Cubic] = []
    walked = 0.0
    for curve in old:
        third = curve_length(curve) / 3
        controls = as_cubic(curve).controls
        curves.append(Cubic(*(shifted(p, walked + i * third) for i, p in enumerate(controls))))
        walked += 3 * third
    headings = [ends.leaving]
    headings += [
        unit(unit(x.end - x.second) + unit(y.first - y.start)) for x, y in pairwise(curves)
    ]
    headings.append(ends.arriving)
    return tuple(
        Cubic(
            c.start,
            c.start + out * abs(c.first - c.start),
            c.end - come * abs(c.end - c.second),
            c.end,
        )
        for c, (out, come) in zip(curves, pairwise(headings), strict=True)
    )


def as_cubic(curve: Curve) -> Cubic:
    """A line or cubic as a cubic.

    Parameters
    ----------
    curve : either kind, cm

    Returns
    -------
    a cubic along the same way; of a line, with handles of a third
    """
    if isinstance(curve, Cubic):
        return curve
    third = (curve.end - curve.start) / 3
    return Cubic(curve.start, curve.start + third, curve.end - third, curve.end)


def _bump(up: float) -> float:
    """1 at the lower third, 0 with no slope at both ends."""
    if up <= 0 or up >= 1:
        return 0.0
    p, q = 2.0, 2.0 * (1 - _LOW) / _LOW
    top = _LOW**p * (1 - _LOW) ** q
    return float(up**p * (1 - up) ** q / top)
