"""Hems drawn beside the old one: longer or shorter by amounts that change smoothly along it."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from cutwright.geometry.curve import Cubic, Line
from cutwright.geometry.draw import smooth_through
from cutwright.geometry.offset import offset_path
from cutwright.geometry.path import Path, direction_at, path_length, point_at
from cutwright.geometry.point import Point, unit
from cutwright.pattern.piece import Piece
from cutwright.pattern.shaping.redraw import (
    EdgePlace,
    cut_back,
    edge_place,
    kept_end,
    kept_start,
    redrawn,
)

_STEP = 1e-3
_EVEN = 1e-9
_TRUE = 0.02


@dataclass(frozen=True, slots=True)
class HemGrowth:
    """How much longer a hem becomes where it begins and where it ends (clockwise), cm.

    `start_slope` and `end_slope` tell how fast that amount changes there, cm for each cm of hem.
    """

    start: float
    end: float
    start_slope: float = 0.0
    end_slope: float = 0.0


def new_hem(piece: Piece, label: str, ends: HemGrowth) -> Piece:
    """The piece with its hem moved; the neighbours are run on straight or cut back.

    Square ends stay square where the amounts do not slope there. Own method: between the ends the
    amount changes as a cubic of the way along the hem.

    Parameters
    ----------
    piece : the paper before
    label : name of the hem
    ends : how much longer at its ends, cm

    Returns
    -------
    the piece after

    Raises
    ------
    LookupFailed : the piece has no such edge
    StepError : a dart divides the hem, or a neighbour has not the length that is taken
    """
    place = edge_place(piece, label)
    before = cut_back(place, place.before, -ends.start)
    after = cut_back(place, place.after, -ends.end)
    path = _even(place, ends, before, after) or _changing(place, ends, before, after)
    return redrawn(place, before, path, after)


def _even(place: EdgePlace, ends: HemGrowth, before: Path, after: Path) -> Path | None:
    """A line at one distance all along, where it meets both neighbours at their ends."""
    if abs(ends.start - ends.end) > _EVEN or ends.start_slope or ends.end_slope:
        return None
    line = offset_path(place.edge.curves, ends.start)
    a, b = before[-1].end, after[0].start
    if abs(line[0].start - a) > _TRUE or abs(line[-1].end - b) > _TRUE or not line:
        return None
    return _with_ends(line, a, b)


def _with_ends(line: Path, a: Point, b: Point) -> Path:
    first, last = line[0], line[-1]
    shift_a, shift_b = a - first.start, b - last.end
    first = (
        Line(a, first.end)
        if isinstance(first, Line)
        else Cubic(a, first.first + shift_a, first.second, first.end)
    )
    line = (first, *line[1:])
    last = line[-1]
    last = (
        Line(last.start, b)
        if isinstance(last, Line)
        else Cubic(last.start, last.first, last.second + shift_b, b)
    )
    return (*line[:-1], last)


def _changing(place: EdgePlace, ends: HemGrowth, before: Path, after: Path) -> Path:
    """A chain through places beside the old hem, amounts blended from one end to the other."""
    old = place.edge.curves
    size = path_length(old)
    a, b = before[-1].end, after[0].start
    astray_a = a - (point_at(old, 0.0) + direction_at(old, 0.0) * -1j * ends.start)
    astray_b = b - (point_at(old, size) + direction_at(old, size) * -1j * ends.end)

    def at(along: float) -> Point:
        t = along / size
        soft = t * t * (3 - 2 * t)
        out = point_at(old, along) + direction_at(old, along) * -1j * _blend(ends, t, size)
        return out + astray_a * (1 - soft) + astray_b * soft

    def heading(along: float) -> Point:
        low, high = max(along - _STEP, 0.0), min(along + _STEP, size)
        return unit(at(high) - at(low))

    count = max(4, min(12, ceil(size / 6)))
    stops = [size * i / count for i in range(count + 1)]
    directions = [heading(s) for s in stops]
    directions[0] = _turned(kept_start(place, before), ends.start_slope)
    directions[-1] = _turned(kept_end(place, after), ends.end_slope)
    points = [a, *(at(s) for s in stops[1:-1]), b]
    return smooth_through(points, directions)


def _turned(along: Point, slope: float) -> Point:
    """A direction that also leaves the paper by so many cm for each cm."""
    return unit(along * (1 - 1j * slope))


def _blend(ends: HemGrowth, t: float, size: float) -> float:
    """The amount at a share of the way: a plain cubic with the given ends and slopes."""
    h00, h01 = 2 * t**3 - 3 * t**2 + 1, -2 * t**3 + 3 * t**2
    h10, h11 = t**3 - 2 * t**2 + t, t**3 - t**2
    slopes = h10 * ends.start_slope + h11 * ends.end_slope
    return h00 * ends.start + h01 * ends.end + slopes * size
