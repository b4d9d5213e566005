"""Drawing curves to conditions: corner arcs, arcs of given length and turn, smooth chains."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, sin, tan

from cutwright.errors import GeometryError
from cutwright.geometry.curve import Cubic, Curve, Line
from cutwright.geometry.path import Path
from cutwright.geometry.point import Point, angle_between, cross, unit
from cutwright.messages import N_, Message

QUARTER = 0.5523
"""Handle share of a corner arc that gives an (affine) quarter of a circle."""


SHALLOW = (0.70, 0.90)
"""Handle shares of a corner arc much longer than it is high, from its long side to its short one: they
give it the largest least radius (2.2 where a quarter oval has 0.9, for 7.2 by 2.1; measured)."""


def meeting(p: Point, d: Point, q: Point, e: Point) -> tuple[float, float] | None:
    """How far along `d` from `p` and along `e` from `q` two endless straight lines meet.

    Parameters
    ----------
    p, q : a place on each line, cm
    d, e : their directions, of any length

    Returns
    -------
    how far from `p` and from `q`, counted in lengths of `d` and `e` (cm where these are one long),
    negative behind the place; None where the lines run side by side
    """
    size = cross(d, e)
    if abs(size) < 1e-12:
        return None
    return cross(q - p, e) / size, cross(q - p, d) / size


def corner_arc(
    start: Point,
    leaving: Point,
    end: Point,
    arriving: Point,
    k: float = QUARTER,
    k_end: float | None = None,
) -> Cubic:
    """A curve that leaves along one tangent and arrives along another, without inflection.

    The tangents must meet ahead of the start and before the end; the handles take a share of the
    way to that corner (docs/drafting.md, section 1).

    Parameters
    ----------
    start, end : places, cm
    leaving, arriving : directions of travel there, of any length
    k, k_end : share of the way from each end to the corner where the tangents meet, from 0 to 1;
        `k_end` None is `k`

    Returns
    -------
    one cubic without inflection

    Raises
    ------
    GeometryError : the tangents run side by side, or meet behind the start or beyond the end
    """
    met = meeting(start, leaving, end, arriving)
    if met is None:
        if abs(cross(unit(leaving), end - start)) < 1e-7:  # one straight line
            return Cubic(start, start + (end - start) / 3, end - (end - start) / 3, end)
        raise GeometryError(
            Message(
                "two-tangents-run-side-side",
                N_("Two tangents run side by side, so no plain curve joins them."),
            )
        )
    ahead, behind = met
    if ahead <= 0 or behind >= 0:
        raise GeometryError(
            Message(
                "plain-curve-cannot-join-these",
                N_(
                    "A plain curve cannot join these two directions: it would have to bend both ways."
                ),
            )
        )
    corner = start + leaving * ahead
    return Cubic(
        start,
        start + (corner - start) * k,
        end + (corner - end) * (k if k_end is None else k_end),
        end,
    )


def arc(start: Point, leaving: Point, size: float, turn: float) -> Cubic:
    """A circular arc by one cubic: from a place, in a direction, with a length and a turn.

    The turn must stay within 1 radian for the length to hold to 1e-5 of it (measured;
    docs/drafting.md, section 1).

    Parameters
    ----------
    start : place, cm
    leaving : direction of travel there, of any length
    size : length, cm
    turn : radians, positive clockwise to the eye

    Returns
    -------
    one cubic
    """
    along = unit(leaving)
    if abs(turn) < 1e-9:
        end = start + along * size
        return Cubic(start, start + along * size / 3, end - along * size / 3, end)
    radius = size / turn
    handle = 4 / 3 * tan(turn / 4) * radius
    after = along * complex(cos(turn), sin(turn))
    end = start + radius * (after - along) * -1j
    return Cubic(start, start + along * handle, end - after * handle, end)


def circle_arc(centre: Point, start: Point, turn: float) -> Path:
    """An arc about a centre from a start point, as cubics of at most half a radian each.

    Parameters
    ----------
    centre, start : places, cm
    turn : radians, positive clockwise to the eye; may be more than a full turn

    Returns
    -------
    a chain of cubics
    """
    count = max(1, int(abs(turn) / 0.5 + 0.999999))
    part = turn / count
    spin = complex(cos(part), sin(part))
    handle = 4 / 3 * tan(part / 4)
    curves: list[Curve] = []
    arm = start - centre
    for _i in range(count):
        after = arm * spin
        a, b = centre + arm, centre + after
        curves.append(Cubic(a, a + arm * 1j * handle, b - after * 1j * handle, b))
        arm = after
    return tuple(curves)


def hermite(start: Point, leaving: Point, end: Point, arriving: Point) -> Cubic:
    """A gentle curve between two places with given directions, whatever way they bend.

    The handle is a third of the chord, lengthened by 2 / (1 + cos(turn / 2)), which draws an arc
    true (own method, docs/drafting.md, section 1).

    Parameters
    ----------
    start, end : places, cm
    leaving, arriving : directions of travel there, of any length

    Returns
    -------
    one cubic; it may have an inflection
    """
    chord = abs(end - start)
    out, come = unit(leaving), unit(arriving)
    turn = angle_between(out, come)
    handle = chord / 3 * 2 / (1 + max(cos(turn / 2), 0.2))
    return Cubic(start, start + out * handle, end - come * handle, end)


def smooth_through(points: Sequence[Point], directions: Sequence[Point]) -> Path:
    """A smooth chain through places with a direction at each, by one gentle curve from each to the next (`hermite`).

    Parameters
    ----------
    points : places, cm, two or more
    directions : of travel at each place, of any length; as many as places

    Returns
    -------
    a chain of cubics; one straight line where there are two places and both directions follow it
    """
    if len(points) == 2 and abs(points[1] - points[0]) > 0:
        along = unit(points[1] - points[0])
        if all(abs(unit(d) - along) < 1e-9 for d in directions):
            return (Line(points[0], points[1]),)
    return tuple(
        hermite(points[i], directions[i], points[i + 1], directions[i + 1])
        for i in range(len(points) - 1)
    )
