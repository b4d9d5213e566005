"""The shapes of a neckline, drawn from the shoulder to the centre."""

from __future__ import annotations

from dataclasses import dataclass
from math import radians, tan
from typing import Literal

from cutwright.errors import GeometryError, StepError
from cutwright.geometry.curve import Cubic, Line
from cutwright.geometry.draw import QUARTER, corner_arc, meeting
from cutwright.geometry.gentle import gentle_arc
from cutwright.geometry.path import Path
from cutwright.geometry.point import Point, angle_between, direction, unit
from cutwright.geometry.solve import root_within
from cutwright.messages import N_, Message

Shape = Literal["round", "square", "V", "boat"]

EASY = 1.5
"""A neckline is turned and stitched without trouble where its least radius is this, cm (common practice)."""

_SOFT = 0.6
"""Handle share of the short bow with which a straight neckline leaves the shoulder."""
_FULL = 2.0
"""Below this least radius a round neckline is drawn fuller than a quarter oval, cm."""
_TURN = 2.0
"""The radius with which a boat or a wide V turns at the shoulder, cm, where there is the depth for it."""
_HOLLOW = 1 / 3
"""A hollow V bends so much at its point, as a share of what it bends at the shoulder."""
_SLIGHT = radians(22.0)
"""What a V may bend at the shoulder and still be called slightly hollow."""


@dataclass(frozen=True, slots=True)
class NecklineEnds:
    """Where a neckline leaves the shoulder and where it meets the centre.

    `along` runs along the shoulder away from the neck, `into` square to the centre, `down` along
    the centre away from the neck (unit steps); `spin` is the sense, 1 or -1, in which the paper
    lies between the shoulder and the neckline.
    """

    shoulder: Point
    along: Point
    spin: float
    centre: Point
    into: Point
    down: Point

    def leaving(self, angle: float) -> Point:
        """The direction of a neckline that makes an angle of paper with the shoulder, radians.

        Parameters
        ----------
        angle : of paper with the shoulder, radians

        Returns
        -------
        a step of length one
        """
        return self.along * direction(self.spin * angle)

    def angle(self, way: Point) -> float:
        """The angle of paper between the shoulder and a direction.

        Parameters
        ----------
        way : a direction away from the shoulder, of any length

        Returns
        -------
        radians in (-pi, pi]
        """
        return self.spin * angle_between(self.along, way)


@dataclass(frozen=True, slots=True)
class DrawnNeckline:
    """A neckline from shoulder to centre, and the corners that are wanted."""

    path: Path
    corners: tuple[Point, ...] = ()


def shoulder_angle(shape: Shape, ends: NecklineEnds) -> float | None:
    """The angle of paper at the shoulder at which a shape runs straight.

    Parameters
    ----------
    shape : of the neckline
    ends : where it begins and ends

    Returns
    -------
    radians; None where any angle will do
    """
    if shape == "V":
        return ends.angle(ends.centre - ends.shoulder)
    return ends.angle(ends.down) if shape == "square" else None


def neckline(
    shape: Shape, ends: NecklineEnds, angle: float, rounding: float = 0.0
) -> DrawnNeckline:
    """Draw a neckline of a shape that meets the shoulder at an angle.

    Parameters
    ----------
    shape : of the neckline
    ends : where it begins and ends
    angle : of paper with the shoulder, radians
    rounding : how far from its corner a square one begins to be round, cm; 0 keeps the corner

    Returns
    -------
    the line from shoulder to centre

    Raises
    ------
    StepError : it cannot bend so, or its corner cannot be rounded so far
    """
    away = ends.leaving(angle)
    try:
        if shape == "V":
            return _v(ends, away)
        if shape == "square":
            return _square(ends, away, rounding)
        return DrawnNeckline(_boat(ends, away) if shape == "boat" else (_round(ends, away),))
    except GeometryError:
        raise StepError(_bends_both_ways(ends, away, shape)) from None


def _bends_both_ways(ends: NecklineEnds, away: Point, shape: str) -> Message:
    met = meeting(ends.shoulder, away, ends.centre, ends.into)
    if met is not None and met[0] > 0:
        return Message(
            "neckline-deep-width-would-bend",
            N_(
                "A {shape} neckline so deep for its width would have to bend both ways. Make it wider at the "
                "shoulder or less deep, or draw a V."
            ),
            shape=shape,
        )
    return Message(
        "neckline-wide-depth-would-bend",
        N_(
            "A {shape} neckline so wide for its depth would have to bend both ways. Make it deeper at the centre, "
            "or less wide."
        ),
        shape=shape,
    )


def _round(ends: NecklineEnds, away: Point) -> Cubic:
    """A quarter oval; where that is tight, the bow with the largest least radius."""
    return gentle_arc(ends.shoulder, away, ends.centre, ends.into, QUARTER, _FULL)


def _boat(ends: NecklineEnds, away: Point) -> Path:
    """A short turn at the shoulder, then one long flat bow that meets the centre square."""
    for size in range(10, 2, -1):
        radius = _TURN * size / 10
        path = _turned(ends, away, radius)
        if path:
            return path
    return (_round(ends, away),)


def _turned(ends: NecklineEnds, away: Point, radius: float) -> Path:
    """The boat that turns with a radius; none where it would have to rise again to the centre."""
    whole = angle_between(ends.into, away)

    def begun(share: float) -> tuple[Point, Point, float]:
        towards = ends.into * direction(share * whole)
        half = tan(abs(angle_between(away, towards)) / 2)
        return ends.shoulder + (away + towards) * radius * half, towards, half

    def miss(share: float) -> float:
        start, _towards, _half = begun(share)
        fall = angle_between(ends.into, ends.centre - start) / whole
        return fall - share / 2

    if abs(whole) < 1e-6 or miss(0.0) <= 1e-6:
        return ()
    share = root_within(miss, 0.0, 1.0, 1e-9)
    if share is None:
        return ()
    start, towards, half = begun(share)
    if abs(angle_between(ends.into, ends.centre - start)) > 1.2 or half < 1e-6:
        return ()
    k = 4 / 3 * tan(abs(angle_between(away, towards)) / 4) / half
    turn = corner_arc(ends.shoulder, away, start, towards, k)
    return (turn, corner_arc(start, towards, ends.centre, ends.into, 2 / 3))


def _soft_start(ends: NecklineEnds, away: Point, towards: Point, reach: float) -> Path:
    """Leave the shoulder in one direction and turn within twice the reach into another."""
    corner = ends.shoulder + away * reach
    after = corner + towards * reach
    if abs(angle_between(away, towards)) < 1e-3:
        return (Line(ends.shoulder, after),)
    return (corner_arc(ends.shoulder, away, after, towards, _SOFT),)


def _v(ends: NecklineEnds, away: Point) -> DrawnNeckline:
    """Straight where the shoulder lets it, or slightly hollow; else a short turn, then straight."""
    run = ends.centre - ends.shoulder
    turn = ends.angle(run) - ends.angle(away)
    if abs(turn) > 1.3:
        raise GeometryError("")
    if abs(turn) < radians(0.2):
        return DrawnNeckline((Line(ends.shoulder, ends.centre),), (ends.centre,))
    if radians(-3.0) <= turn <= _SLIGHT:
        arriving = unit(run) * direction(ends.spin * turn * _HOLLOW)
        bow = corner_arc(ends.shoulder, away, ends.centre, arriving, 2 / 3)
        return DrawnNeckline((bow,), (ends.centre,))
    reach = min(_TURN * tan(abs(turn) / 2), abs(run) * 0.25)
    towards = unit(ends.centre - (ends.shoulder + away * reach))
    start = _soft_start(ends, away, towards, reach)
    return DrawnNeckline((*start, Line(start[-1].end, ends.centre)), (ends.centre,))


def _square(ends: NecklineEnds, away: Point, rounding: float) -> DrawnNeckline:
    depth = ((ends.centre - ends.shoulder) * ends.down.conjugate()).real
    reach = min(max(depth, 0.0) * 0.25, 4.0)
    start = _soft_start(ends, away, ends.down, reach)
    met = meeting(start[-1].end, ends.down, ends.centre, ends.into)
    if met is None or met[0] < 0.2 or met[1] > -0.2 or reach <= 0:
        raise GeometryError("")
    corner = start[-1].end + ends.down * met[0]
    if rounding <= 0:
        path = (*start, Line(start[-1].end, corner), Line(corner, ends.centre))
        return DrawnNeckline(path, (corner,))
    most = min(met[0], -met[1])
    if rounding > most:
        raise StepError(
            Message(
                "corner-rounded-cm-not-fit",
                N_(
                    "A corner rounded by {rounding:.1f} cm does not fit; at most {most:.1f} cm does."
                ),
                rounding=rounding,
                most=most,
            )
        )
    one, other = corner - ends.down * rounding, corner + ends.into * rounding
    bend = corner_arc(one, ends.down, other, ends.into, QUARTER)
    path = (*start, Line(start[-1].end, one), bend, Line(other, ends.centre))
    return DrawnNeckline(tuple(c for c in path if abs(c.end - c.start) > 1e-9))
