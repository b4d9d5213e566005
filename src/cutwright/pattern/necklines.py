"""The shapes of a neckline, drawn from the shoulder to the centre."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from cutwright.errors import GeometryError, StepError
from cutwright.geometry.curve import Line
from cutwright.geometry.draw import QUARTER, SHALLOW, corner_arc, meeting
from cutwright.geometry.path import Path
from cutwright.geometry.point import Point, angle_between, unit
from cutwright.words import _

Shape = Literal["round", "square", "V", "boat"]
_SOFT = 0.6
"""Handle share of the short bow with which a straight neckline leaves the shoulder square."""


@dataclass(frozen=True, slots=True)
class Ends:
    """Where a neckline leaves the shoulder and where it meets the centre, with directions.

    `away` is square to the shoulder, `into` square to the centre, `down` along the centre away
    from the neck (unit steps).
    """

    shoulder: Point
    away: Point
    centre: Point
    into: Point
    down: Point


@dataclass(frozen=True, slots=True)
class Drawn:
    """A neckline from shoulder to centre, and the corners that are wanted."""

    path: Path
    corners: tuple[Point, ...] = ()


def neckline(shape: Shape, ends: Ends, rounding: float = 0.0) -> Drawn:
    """Draw a neckline of a shape between two ends; raises StepError where it cannot bend so."""
    try:
        if shape == "V":
            return _v(ends)
        if shape == "square":
            return _square(ends, rounding)
        run = ends.centre - ends.shoulder
        depth = (run * ends.down.conjugate()).real
        shallow = depth < 0.5 * abs((run * ends.into.conjugate()).real)
        k_end, k = SHALLOW if shallow else (QUARTER, QUARTER)
        arc = corner_arc(ends.shoulder, ends.away, ends.centre, ends.into, k, k_end)
        return Drawn((arc,))
    except GeometryError:
        raise StepError(_bends_both_ways(ends).format(shape=_(shape))) from None


def _bends_both_ways(ends: Ends) -> str:
    met = meeting(ends.shoulder, ends.away, ends.centre, ends.into)
    if met is not None and met[0] > 0:
        return _(
            "A {shape} neckline so deep for its width would have to bend both ways. Make it wider at the "
            "shoulder or less deep, or draw a V."
        )
    return _(
        "A {shape} neckline so wide for its depth would have to bend both ways. Make it deeper at the centre, "
        "or less wide."
    )


def _soft_start(ends: Ends, towards: Point, reach: float) -> Path:
    """Leave the shoulder square and turn within twice the reach into a direction."""
    corner = ends.shoulder + ends.away * reach
    after = corner + towards * reach
    if abs(angle_between(ends.away, towards)) < 1e-3:
        return (Line(ends.shoulder, after),)
    return (corner_arc(ends.shoulder, ends.away, after, towards, _SOFT),)


def _v(ends: Ends) -> Drawn:
    reach = min(abs(ends.centre - ends.shoulder) * 0.25, 5.0)
    towards = unit(ends.centre - (ends.shoulder + ends.away * reach))
    if abs(angle_between(ends.away, towards)) > 1.3:
        raise GeometryError("")
    start = _soft_start(ends, towards, reach)
    path = (*start, Line(start[-1].end, ends.centre))
    return Drawn(path, (ends.centre,))


def _square(ends: Ends, rounding: float) -> Drawn:
    depth = ((ends.centre - ends.shoulder) * ends.down.conjugate()).real
    reach = min(max(depth, 0.0) * 0.25, 4.0)
    start = _soft_start(ends, ends.down, reach)
    met = meeting(start[-1].end, ends.down, ends.centre, ends.into)
    if met is None or met[0] < 0.2 or met[1] > -0.2 or reach <= 0:
        raise GeometryError("")
    corner = start[-1].end + ends.down * met[0]
    if rounding <= 0:
        path = (*start, Line(start[-1].end, corner), Line(corner, ends.centre))
        return Drawn(path, (corner,))
    most = min(met[0], -met[1])
    if rounding > most:
        raise StepError(
            _(
                "A corner rounded by {rounding:.1f} cm does not fit; at most {most:.1f} cm does."
            ).format(rounding=rounding, most=most)
        )
    one, other = corner - ends.down * rounding, corner + ends.into * rounding
    bend = corner_arc(one, ends.down, other, ends.into, QUARTER)
    path = (*start, Line(start[-1].end, one), bend, Line(other, ends.centre))
    return Drawn(tuple(c for c in path if abs(c.end - c.start) > 1e-9))
