"""Lines along which a cutter cuts a piece apart."""

from __future__ import annotations

from collections.abc import Sequence
from math import tan

from cutwright.errors import StepError
from cutwright.geometry.crossing import line_distances
from cutwright.geometry.curve import Line
from cutwright.geometry.draw import corner_arc
from cutwright.geometry.path import Path, direction_at, nearest_distance, point_at
from cutwright.geometry.point import Point, angle_between, unit
from cutwright.pattern.chop import CutLine
from cutwright.pattern.edge import Kind
from cutwright.pattern.loop import Spot, spot_point
from cutwright.pattern.piece import Piece
from cutwright.words import _

_NEAR = 1e-6
_BOW = 0.6


def level_line(piece: Piece, level: str, lower_by: float, edge: str, kind: Kind) -> CutLine:
    """A straight cut at a body level, or so much below it, from outline to outline.

    Two-point darts whose widest lies on the line are cut through.
    """
    found = piece.level(level)
    if found is None:
        raise StepError(
            _('"{piece}" has no {level} level to cut at.').format(piece=piece.name, level=level)
        )
    a, b = found.points[0], found.points[-1]
    if a.real > b.real:
        a, b = b, a
    down = unit(piece.grain[1] - piece.grain[0])
    down = down if down.imag >= 0 else -down
    a, b = a + down * lower_by, b + down * lower_by
    return place_line(
        piece,
        _outline_spot(piece, a, b, first=True),
        _outline_spot(piece, a, b, first=False),
        edge,
        kind,
    )


def place_line(piece: Piece, start: Spot, end: Spot, edge: str, kind: Kind = Kind.SEAM) -> CutLine:
    """A straight cut between two spots; two-point darts whose widest lies on it are cut through."""
    a, b = spot_point(piece, start), spot_point(piece, end)
    if abs(b - a) < 0.5:
        raise StepError(_('The cut across "{piece}" has no length.').format(piece=piece.name))
    through = sorted(
        (d for d in piece.diamonds if _on(a, b, d.near) and _on(a, b, d.far)),
        key=lambda d: ((d.near - a) * (b - a).conjugate()).real,
    )
    stretches: list[Path] = []
    here = a
    for dart in through:
        first, last = sorted((dart.near, dart.far), key=lambda p: abs(p - here))
        stretches.append((Line(here, first),))
        here = last
    stretches.append((Line(here, b),))
    return CutLine(start, end, tuple(stretches), tuple(through), edge, kind)


def _on(a: Point, b: Point, p: Point) -> bool:
    along = unit(b - a)
    at = (p - a) * along.conjugate()
    return abs(at.imag) < 0.02 and -_NEAR < at.real < abs(b - a) + _NEAR


def _outline_spot(piece: Piece, a: Point, b: Point, first: bool) -> Spot:
    """Where the endless line through two points meets the outline, outermost on one side."""
    along = unit(b - a)
    found: list[tuple[float, Spot]] = []
    for index, edge in enumerate(piece.edges):
        if edge.kind is Kind.LEG:
            continue
        for distance in line_distances(edge.curves, a, along):
            at = ((point_at(edge.curves, distance) - a) * along.conjugate()).real
            found.append((at, Spot(index, distance)))
    if len(found) < 2:
        raise StepError(_('The cut does not cross "{piece}".').format(piece=piece.name))
    return (min if first else max)(found, key=lambda pair: pair[0])[1]


def points_line(pieces: Sequence[Piece], edge: str, lower_by: float) -> list[CutLine]:
    """Cuts through the upper points of the two-point darts, level between them, square at the sides.

    All pieces are cut at the same distance along their sides, counted from the top, so that the
    side seams still meet. Own method, docs/how-it-works.md.
    """
    tops = [_tops(piece) for piece in pieces]
    sides = [_side_index(piece) for piece in pieces]
    shared = [
        _side_distance(piece, side, points, lower_by)
        for piece, side, points in zip(pieces, sides, tops, strict=True)
    ]
    from_top = min(shared)
    return [
        _points_line(piece, side, points, from_top, edge)
        for piece, side, points in zip(pieces, sides, tops, strict=True)
    ]


def _tops(piece: Piece) -> list[Point]:
    if not piece.diamonds:
        raise StepError(
            _('"{piece}" has no waist dart with two points to cut through.').format(
                piece=piece.name
            )
        )
    return sorted((d.top for d in piece.diamonds), key=lambda p: p.real)


def _side_index(piece: Piece) -> int:
    for index, edge in enumerate(piece.edges):
        if edge.kind is Kind.SIDE:
            return index
    raise StepError(_('"{piece}" has no side.').format(piece=piece.name))


def _goes_down(piece: Piece, index: int) -> bool:
    return piece.edges[index].end.imag > piece.edges[index].start.imag


def _side_distance(piece: Piece, side: int, tops: list[Point], lower_by: float) -> float:
    """Where the cut meets the side, from the side's upper end: a little below the points where the
    side leans out, so that the arc from the last point ends square to it (fixed-point rounds).
    """
    path = piece.edges[side].curves
    size = piece.edges[side].length
    down = _goes_down(piece, side)
    level = tops[0].imag + lower_by
    outer = min(tops, key=lambda p: abs(p.real - piece.edges[side].start.real))
    height = level
    distance = 0.0
    for _round in range(30):
        hits = line_distances(path, complex(0, height), 1 + 0j)
        if not hits:
            raise StepError(
                _('The level of the dart points does not meet the side of "{piece}".').format(
                    piece=piece.name
                )
            )
        distance = hits[0]
        heading = direction_at(path, distance)
        heading = heading if heading.imag > 0 else -heading
        width = abs(point_at(path, distance).real - outer.real)
        outward = 1 if point_at(path, distance).real > outer.real else -1
        lean = angle_between(1j, heading) * -outward  # positive when the side runs outwards below
        after = level - width * tan(lean / 2)
        if abs(after - height) < 1e-10:
            break
        height = after
    return distance if down else size - distance


def _points_line(piece: Piece, side: int, tops: list[Point], from_top: float, edge: str) -> CutLine:
    path, size = piece.edges[side].curves, piece.edges[side].length
    distance = from_top if _goes_down(piece, side) else size - from_top
    side_point = point_at(path, distance)
    heading = direction_at(path, distance)
    leftwards = side_point.real < tops[0].real
    outer = tops[0] if leftwards else tops[-1]
    inner = tops[-1] if leftwards else tops[0]
    out = -1 + 0j if leftwards else 1 + 0j
    square = unit(heading) * 1j
    square = square if (square * out.conjugate()).real > 0 else -square
    arc = corner_or_line(outer, out, side_point, square)
    centre_spot = _centre_spot(piece, inner, -out)
    centre_point = spot_point(piece, centre_spot)
    toward = _square_to_outline(piece, centre_spot, -out)
    to_centre = corner_or_line(inner, -out, centre_point, toward)
    middle: Path = () if abs(outer - inner) < 1e-9 else (Line(inner, outer),)
    whole = (*tuple(c.reversed() for c in reversed(to_centre)), *middle, *arc)
    return CutLine(centre_spot, Spot(side, distance), (whole,), (), edge, Kind.SEAM)


def corner_or_line(start: Point, leaving: Point, end: Point, arriving: Point) -> Path:
    """A corner arc, or a straight line where the two directions are one."""
    if (
        abs(angle_between(leaving, arriving)) < 1e-9
        and abs(angle_between(leaving, end - start)) < 1e-9
    ):
        return (Line(start, end),)
    return (corner_arc(start, leaving, end, arriving, _BOW),)


def _centre_spot(piece: Piece, inner: Point, towards: Point) -> Spot:
    """Where a cut square to the centre meets it, level with the inner dart point or nearly."""
    for index, edge in enumerate(piece.edges):
        if edge.kind not in (Kind.FOLD, Kind.CENTRE):
            continue
        height = inner.imag
        for _round in range(30):
            hits = line_distances(edge.curves, complex(0, height), 1 + 0j)
            if not hits:
                break
            p, heading = point_at(edge.curves, hits[0]), direction_at(edge.curves, hits[0])
            heading = heading if heading.imag > 0 else -heading
            lean = angle_between(1j, heading) * (1 if towards.real < 0 else -1)
            after = inner.imag - abs(p.real - inner.real) * tan(lean / 2)
            if abs(after - height) < 1e-10:
                return Spot(index, hits[0])
            height = after
        else:
            return Spot(index, nearest_distance(edge.curves, complex(inner.real, height)))
    raise StepError(_('"{piece}" has no centre.').format(piece=piece.name))


def _square_to_outline(piece: Piece, spot: Spot, towards: Point) -> Point:
    heading = direction_at(piece.edges[spot.index].curves, spot.distance) * 1j
    return heading if (heading * towards.conjugate()).real > 0 else -heading
