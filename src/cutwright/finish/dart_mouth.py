"""The cut line over the mouth of a dart, shaped by folding the dart the way it will be pressed.

Waist and shoulder darts are pressed towards the centre, bust darts down (common practice). The
folded intake then lies on the cloth beside one leg, in two layers: the half next to that leg as a
mirror image, the other half turned about the tip by the whole dart. The cut line there is drawn
so that both layers end exactly where the cloth under them ends. Where the edge meets the legs so
aslant that this would make a long beak, the fold is cut away: an allowance is left beside each leg.
"""

from __future__ import annotations

from cmath import phase, rect
from math import inf

from cutwright.geometry.corner import to_line
from cutwright.geometry.crossing import line_parameters
from cutwright.geometry.curve import Line
from cutwright.geometry.draw import meeting
from cutwright.geometry.move import Move
from cutwright.geometry.path import (
    Path,
    end_direction,
    moved_path,
    path_length,
    point_at,
    reversed_path,
    split_path,
)
from cutwright.geometry.point import Point, dot, unit
from cutwright.geometry.solve import root_within
from cutwright.pattern.edge import EdgeKind
from cutwright.pattern.piece import Dart, Piece

Mouth = tuple[Path, Path, Path]
"""The cut line before the mouth, over it, and after it."""


def pressed_to_first(piece: Piece, dart: Dart, mouth: tuple[Point, Point]) -> bool:
    """Whether the intake is pressed towards the leg that comes first in the outline.

    Bust darts with their mouth at the side go down; all others go towards the centre: the fold
    or the centre seam where there is one, else the middle of the body by the layout (a front has
    its centre on the right, a back on the left).

    Parameters
    ----------
    piece : the paper, a front with its centre on the right, a back on the left
    dart : one of its darts with a mouth
    mouth : the two ends of the mouth on the stitch line, in outline order, cm

    Returns
    -------
    True for the leg that leads to the tip
    """
    before, after = mouth
    middle = (before + after) / 2
    out = middle - dart.tip
    if abs(out.real) > abs(out.imag):  # the mouth lies at a side: press down
        return before.imag > after.imag
    centre = _centre(piece)
    return abs(before.real - centre.real) < abs(after.real - centre.real)


def _centre(piece: Piece) -> Point:
    middles = [(edge.start + edge.end) / 2 for edge in piece.edges if edge.at_centre]
    if middles:
        return middles[0]
    sides = [(e.start + e.end) / 2 for e in piece.edges if e.kind is EdgeKind.SIDE]
    whole = sum((e.start for e in piece.edges), 0j) / len(piece.edges)
    if not sides:
        return whole
    side = sum(sides, 0j) / len(sides)
    return whole + (whole - side) * 10


def mouth_line(
    first: Path,
    second: Path,
    mouth: tuple[Point, Point],
    tip: Point,
    to_first: bool,
    kept: float = inf,
    limit: float = inf,
) -> Mouth:
    """The cut line over a dart's mouth. Own method, see above.

    Parameters
    ----------
    first, second : cut lines of the edge before and after the mouth, in outline order, cm
    mouth : the two ends of the mouth on the stitch line, in outline order, cm
    tip : where the dart ends, cm
    to_first : whether the intake is pressed towards the first edge
    kept : what is left beside each leg where the fold is cut away, cm; inf leaves the fold whole
    limit : how far from the mouth the cloth left beside a leg may reach, cm

    Returns
    -------
    the three lines, each beginning where the one before ends
    """
    if not to_first:
        flipped = (mouth[1], mouth[0])
        b, over, a = mouth_line(
            reversed_path(second), reversed_path(first), flipped, tip, True, kept, limit
        )
        return reversed_path(a), reversed_path(over), reversed_path(b)
    leg, other = mouth[0] - tip, mouth[1] - tip
    first = to_line(first, tip, leg)
    second = reversed_path(to_line(reversed_path(second), tip, other))
    opening = phase(other * leg.conjugate())
    under = _last_part(first, tip, leg * rect(1.0, -opening / 2))
    if kept < inf:
        under = _near_leg(under, mouth[0], leg, kept, limit)
    near = reversed_path(moved_path(under, Move.mirror(tip, mouth[0])))
    far = moved_path(under, Move.about(tip, opening))
    if kept < inf:
        over = (*near, *_cut_in(near[-1].end, far[0].start, leg, other), *far)
    else:
        over = (*near, *_joined(near[-1].end, far))
    if abs(over[-1].end - second[0].start) > 1e-9:  # the two edges do not meet when it is closed
        over = (*over, Line(over[-1].end, second[0].start))
    return first, over, second


def beak(first: Path, over: Path, second: Path, tip: Point) -> float:
    """How far the cut line over a mouth stands out beyond those on both sides of it.

    Parameters
    ----------
    first, over, second : the cut line before the mouth, over it and after it, cm
    tip : where the dart ends, cm

    Returns
    -------
    cm, read at nine places of each curve
    """
    a, b = first[-1].end, second[0].start
    out = unit(b - a) * 1j
    out = -out if dot(out, tip - a) > 0 else out
    return max(dot(out, c.at(i / 8) - a) for c in over for i in range(9))


def _near_leg(under: Path, end: Point, leg: Point, kept: float, limit: float) -> Path:
    """The last part of a cut line, from where it lies within `kept` of a leg and `limit` of its end."""
    size, across = path_length(under), unit(leg) * 1j

    def beyond(distance: float) -> float:
        p = point_at(under, distance) - end
        return max(abs(dot(across, p)) - kept, abs(p) - limit)

    if beyond(0.0) <= 0:
        return under
    start = root_within(beyond, 0.0, size, 1e-9)
    return split_path(under, size - 0.1 if start is None else start)[1]


def _cut_in(start: Point, end: Point, leg: Point, other: Point) -> Path:
    """Down beside one leg and up beside the other; straight across where they do not meet."""
    met = meeting(start, -leg, end, -other)
    if met is None or met[0] <= 1e-6 or met[1] <= 1e-6:
        return (Line(start, end),) if abs(end - start) > 1e-9 else ()
    place = start - leg * met[0]
    return (Line(start, place), Line(place, end))


def _joined(start: Point, path: Path) -> Path:
    """The path begun exactly where the one before it ended."""
    head = path[0]
    if isinstance(head, Line):
        return (Line(start, head.end), *path[1:])
    return (type(head)(start, head.first, head.second, head.end), *path[1:])


def _last_part(path: Path, tip: Point, ray: Point) -> Path:
    """The part of a line from where a ray from the tip crosses it to its end."""
    for index in range(len(path) - 1, -1, -1):
        curve = path[index]
        hits = [t for t in line_parameters(curve, tip, ray) if dot(ray, curve.at(t) - tip) > 0]
        if hits and max(hits) < 1 - 1e-9:
            return (curve.split(max(hits))[1], *path[index + 1 :])
    back = reversed_path(path)  # the edge is shorter than half the intake: run it on straight
    direction = end_direction(back)
    met = meeting(back[-1].end, direction, tip, unit(ray))
    if met is None or met[0] <= 0:
        return (Line(path[0].start, path[-1].end),)
    return (Line(back[-1].end + direction * met[0], path[0].start), *path)
