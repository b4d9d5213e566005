"""How two offset lines are brought together at a corner.

Every function takes the offset of the line that comes in and of the line that goes out, and the
corner itself, and gives both back so that the first ends where the second begins. What belongs to
neither line (the blunt end of a mitre, a step) is added to the first.
"""

from __future__ import annotations

from cutwright.geometry.crossing import curve_parameters, line_parameters
from cutwright.geometry.curve import Curve, Line
from cutwright.geometry.draw import meeting
from cutwright.geometry.move import Move
from cutwright.geometry.path import Path, end_direction, moved_path, reversed_path, start_direction
from cutwright.geometry.point import Point, angle_between, cross, dot, unit

Pair = tuple[Path, Path]
"""The line that comes in and the line that goes out, meeting in one place."""

_IN_LINE = 0.02
_SHALLOW = 0.8
_FAR = 1e4
_JOINED = 1e-9


def mitred(first: Path, second: Path, corner: Point, limit: float) -> Pair:
    """Both lines run on straight until they meet, or are cut back to where they cross.

    A point further than `limit` cm from the corner is cut off square to the line from the corner.
    Lines that run on in one direction at different distances are joined by a step.

    Parameters
    ----------
    first, second : the offset that comes in and the one that goes out, cm; neither empty
    corner : where their own lines meet, cm
    limit : how far from the corner the point may reach, cm

    Returns
    -------
    both lines, the first ending where the second begins
    """
    e1, e2 = first[-1].end, second[0].start
    if abs(e1 - e2) <= _JOINED:
        return first, _from(second, e1)
    d1, d2 = end_direction(first), start_direction(second)
    turn = angle_between(d1, d2)
    far = max(limit, abs(e1 - corner), abs(e2 - corner))
    met = meeting(e1, d1, e2, d2) if abs(turn) > 1e-6 else None
    if met is not None and met[0] < 0 < met[1] and (cut := crossed(first, second)):
        return cut
    if met is None or abs(turn) < _IN_LINE:
        return _stepped(first, second)
    ahead, behind = met
    if abs(turn) < _SHALLOW and max(abs(ahead), abs(behind)) > far:
        return _stepped(first, second)
    if ahead >= 0 >= behind:
        return _pointed(first, second, corner, (e1 + d1 * ahead), limit)
    if ahead >= 0:
        return _reach(first, second) or _stepped(first, second)
    if behind <= 0:
        return _reach_back(first, second) or _stepped(first, second)
    return _stepped(first, second)


def squared(first: Path, second: Path, corner: Point, along: Point, limit: float) -> Pair:
    """The first line ends square to its seam, at the place where the seam, run on, meets the second.

    Two pieces sewn along that seam then have ends that match. `along` is the direction in which
    the seam itself comes into the corner. Where they do not meet within `limit`: a mitre.

    Parameters
    ----------
    first, second : the offset that comes in and the one that goes out, cm; neither empty
    corner : where their own lines meet, cm
    along : direction in which the first seam comes into the corner, of any length
    limit : how far the seam may run on, cm

    Returns
    -------
    both lines, the first ending where the second begins; a mitre also where the first offset does
    not stand square to its seam
    """
    aside = first[-1].end - corner
    hit = _nearest_on(second, corner, along, limit)
    if hit is None or abs(dot(unit(along), aside)) > 1e-4 * max(1.0, abs(aside)):
        return mitred(first, second, corner, limit)
    place, rest = hit
    return (*_run_on(first, place + aside), Line(place + aside, place)), rest


def squared_to_second(first: Path, second: Path, corner: Point, along: Point, limit: float) -> Pair:
    """`squared`, the other way round: `along` is the direction in which the second seam leaves.

    Parameters
    ----------
    first, second, corner, limit : as of `squared`
    along : direction in which the second seam leaves the corner, of any length

    Returns
    -------
    both lines, the first ending where the second begins
    """
    b, a = squared(reversed_path(second), reversed_path(first), corner, -along, limit)
    return reversed_path(a), reversed_path(b)


def mirrored(first: Path, second: Path, corner: Point, along: Point) -> Pair:
    """What lies beyond the fold line is the mirror image of what lies before it.

    The second line belongs to an edge that is turned up along a fold line through the corner in
    the direction `along`; the first line is followed to the fold line and goes on as its own
    mirror image, so that the turned paper covers what it is turned onto.

    Parameters
    ----------
    first, second : the offset that comes in and the one of the edge that is turned up, cm
    corner : where their own lines meet, on the fold line, cm
    along : direction of the fold line, of any length

    Returns
    -------
    both lines, the first ending at the fold line, the second going on with the mirror image; a
    mitre where the image does not lead outwards or does not meet the second line
    """
    body = to_line(first, corner, along)
    fold = Move.mirror(corner, corner + along)
    image = reversed_path(moved_path(body, fold))
    leave = start_direction(image)
    outward = second[0].start - corner
    if abs(outward) < _JOINED or dot(leave, outward) <= 0:
        return mitred(first, second, corner, 4 * abs(outward))
    met = _first_crossed(image, second) or _reach_back(image, second) or _reach(image, second)
    if met is None:
        return mitred(first, second, corner, 4 * abs(outward))
    image, rest = met
    return body, image + rest


def mirrored_by_first(first: Path, second: Path, corner: Point, along: Point) -> Pair:
    """`mirrored`, the other way round: the first line belongs to the edge that is turned.

    Parameters
    ----------
    first, second : the offset of the edge that is turned up and the one that goes out, cm
    corner : where their own lines meet, on the fold line, cm
    along : direction of the fold line, of any length

    Returns
    -------
    both lines, the first ending where the second begins
    """
    b, a = mirrored(reversed_path(second), reversed_path(first), corner, along)
    return reversed_path(a), reversed_path(b)


def to_line(path: Path, p: Point, along: Point) -> Path:
    """The path cut off, or run on straight, where it meets the endless line through `p`.

    Parameters
    ----------
    path : a chain of curves, cm; not empty
    p : a place on the line, cm
    along : direction of the line, of any length but nought

    Returns
    -------
    the path ending on the line, as near to `p` as it meets it; unchanged where it does not meet the
    line
    """
    best: tuple[float, int, float] | None = None
    for index in range(len(path) - 1, -1, -1):
        for t in line_parameters(path[index], p, along):
            gap = abs(path[index].at(t) - p)
            if best is None or gap < best[0] - 1e-9:
                best = (gap, index, t)
        if best is not None:
            break
    d = end_direction(path)
    met = meeting(path[-1].end, d, p, along)
    if met is not None and met[0] >= 0:
        place = path[-1].end + d * met[0]
        if best is None or abs(place - p) <= best[0] + 1e-9:
            return _run_on(path, place)
    return path if best is None else _cut_after(path, best[1], best[2])


def crossed(first: Path, second: Path) -> Pair | None:
    """Both lines cut back to the crossing that is nearest to the end of the first.

    Parameters
    ----------
    first, second : the line that comes in and the one that goes out, cm

    Returns
    -------
    both lines, the first ending where the second begins; None where they do not cross
    """
    boxes = [_box(curve) for curve in second]
    for i in range(len(first) - 1, -1, -1):
        left, top, right, bottom = _box(first[i])
        for j, box in enumerate(boxes):
            if box[0] > right or box[2] < left or box[1] > bottom or box[3] < top:
                continue
            hits = _hits(first[i], second[j])
            if hits:
                t, u = max(hits)
                body = _cut_after(first, i, t)
                return body, _from(_cut_before(second, j, u), body[-1].end)
    return None


def _hits(a: Curve, b: Curve) -> list[tuple[float, float]]:
    """Parameter pairs at which two curves cross; straight lines are met directly."""
    if isinstance(a, Line):
        along = a.end - a.start
        size = abs(along) ** 2
        found = []
        for u in line_parameters(b, a.start, along) if size else []:
            t = dot(along, b.at(u) - a.start) / size
            if -1e-9 <= t <= 1 + 1e-9:
                found.append((min(max(t, 0.0), 1.0), u))
        return found
    if isinstance(b, Line):
        return [(t, u) for u, t in _hits(b, a)]
    return curve_parameters(a, b)


def _box(curve: Curve) -> tuple[float, float, float, float]:
    """A box that surely holds a curve, a hair wider: left, top, right, bottom."""
    xs, ys = [p.real for p in curve.controls], [p.imag for p in curve.controls]
    return min(xs) - 1e-6, min(ys) - 1e-6, max(xs) + 1e-6, max(ys) + 1e-6


def _first_crossed(first: Path, second: Path) -> Pair | None:
    """Both lines cut back to the crossing that is nearest to the start of the first."""
    other = crossed(reversed_path(second), reversed_path(first))
    return None if other is None else (reversed_path(other[1]), reversed_path(other[0]))


def _reach(first: Path, second: Path) -> Pair | None:
    """The first line run on straight until it meets the second, which is cut off there."""
    hit = _nearest_on(second, first[-1].end, end_direction(first), _FAR, backwards=False)
    if hit is None:
        return None
    place, rest = hit
    body = _run_on(first, place)
    return body, _from(rest, body[-1].end)


def _reach_back(first: Path, second: Path) -> Pair | None:
    """The second line run backwards until it meets the first, which is cut off there."""
    other = _reach(reversed_path(second), reversed_path(first))
    return None if other is None else (reversed_path(other[1]), reversed_path(other[0]))


def _nearest_on(
    path: Path, p: Point, along: Point, limit: float, *, backwards: bool = True
) -> tuple[Point, Path] | None:
    """Where the ray from `p` meets the path first, and the rest of the path from there.

    With `backwards` the path may be run on straight before its start to meet the ray.
    """
    ray = unit(along)
    if backwards:
        d = start_direction(path)
        met = meeting(p, ray, path[0].start, d)
        if met is not None and 0 < met[0] <= limit and met[1] <= 0:
            place = p + ray * met[0]
            return place, _started(path, place)
    for index, curve in enumerate(path):
        ahead = [(dot(ray, curve.at(t) - p), t) for t in line_parameters(curve, p, ray)]
        ahead = [pair for pair in ahead if 1e-12 < pair[0] <= limit]
        if ahead:
            _far, t = min(ahead)
            rest = _cut_before(path, index, t)
            return rest[0].start, rest
    return None


def _pointed(first: Path, second: Path, corner: Point, point: Point, limit: float) -> Pair:
    """Both lines run on to their meeting point, or to a blunt end at the limit."""
    out = point - corner
    if abs(out) <= limit:
        return _run_on(first, point), _started(second, point)
    ray = unit(out)
    blunt = corner + ray * limit
    a = _towards(first[-1].end, point, blunt, ray)
    b = _towards(second[0].start, point, blunt, ray)
    return (*_run_on(first, a), Line(a, b)), _started(second, b)


def _towards(start: Point, end: Point, blunt: Point, ray: Point) -> Point:
    """The place between two points that lies as far out as the blunt end; not before the start."""
    before, after = dot(ray, start - blunt), dot(ray, end - blunt)
    share = before / (before - after) if before < 0 < after else 0.0
    return start + (end - start) * share


def _stepped(first: Path, second: Path) -> Pair:
    return (*first, Line(first[-1].end, second[0].start)), second


def _run_on(path: Path, end: Point) -> Path:
    last = path[-1]
    if abs(last.end - end) <= _JOINED:
        return path
    if isinstance(last, Line) and abs(cross(unit(last.end - last.start), end - last.end)) < 1e-9:
        return (*path[:-1], Line(last.start, end))
    return (*path, Line(last.end, end))


def _started(path: Path, start: Point) -> Path:
    return reversed_path(_run_on(reversed_path(path), start))


def _cut_after(path: Path, index: int, t: float) -> Path:
    if t <= 1e-9 and index:
        return path[:index]
    return (*path[:index], path[index].split(t)[0])


def _cut_before(path: Path, index: int, t: float) -> Path:
    if t >= 1 - 1e-9 and index < len(path) - 1:
        return path[index + 1 :]
    return (path[index].split(t)[1], *path[index + 1 :])


def _from(path: Path, start: Point) -> Path:
    """The path begun exactly at a place that it already all but reaches."""
    first: Curve = path[0]
    if first.start == start:
        return path
    if isinstance(first, Line):
        return (Line(start, first.end), *path[1:])
    return (type(first)(start, first.first, first.second, first.end), *path[1:])
