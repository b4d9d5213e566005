"""Lines along which a cutter cuts a piece apart."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import radians, sin, tan

from cutwright.errors import GeometryError, StepError
from cutwright.geometry.crossing import line_distances
from cutwright.geometry.curve import Line
from cutwright.geometry.draw import corner_arc, hermite
from cutwright.geometry.path import Path, direction_at, nearest_distance, point_at, reversed_path
from cutwright.geometry.point import Point, angle_between, unit
from cutwright.messages import N_, Message
from cutwright.pattern.cutting.chop import ChopLine
from cutwright.pattern.edge import EdgeKind
from cutwright.pattern.loop import Spot, spot_point
from cutwright.pattern.piece import Piece

_NEAR = 1e-6
_BOW = 0.6
_ASLANT = radians(0.5)
"""So much may a level cut be off square at its ends and stay straight."""
_LEVEL_TO = 8.0
"""So near to its ends, cm, a cut that is bowed to the side runs level; own choice."""
_CLEAR = 0.01
"""So near to its own ends a cut may touch the outline, cm."""


def level_lines(
    pieces: Sequence[Piece], level: str, lower_by: float, edge: str, kind: EdgeKind
) -> list[ChopLine]:
    """Cuts at a body level, or so much below it, square to the sides.

    A cut is straight where it meets side and centre square. Where a side slants, all pieces between a
    side and a centre are cut in a bow to both, at the same distance along their sides (`points_line`).

    Parameters
    ----------
    pieces : those that are cut in one go
    level : name of the level, such as "waist"
    lower_by : how far below the level, along the grain, cm; above it where negative
    edge, kind : name and kind of the new edges

    Returns
    -------
    one line for each piece

    Raises
    ------
    StepError : a piece has no such level, or the cut does not cross it, would leave the paper or
        meet a side at a dart
    """
    straight = [level_line(piece, level, lower_by, edge, kind) for piece in pieces]
    bowed = [
        n
        for n, (piece, line) in enumerate(zip(pieces, straight, strict=True))
        if not line.through and _from_side_to_centre(piece, line)
    ]
    if all(_square(pieces[n], straight[n]) for n in bowed):
        return straight
    anchors = [_anchors(straight[n]) for n in bowed]
    bows = through_points([pieces[n] for n in bowed], anchors, edge)
    return [bows[bowed.index(n)] if n in bowed else line for n, line in enumerate(straight)]


def _from_side_to_centre(piece: Piece, line: ChopLine) -> bool:
    """Whether a level cut runs from a side to a centre."""
    met = [piece.edges[spot.index] for spot in (line.start, line.end)]
    a, b = _ends(line)
    return (
        any(edge.kind is EdgeKind.SIDE for edge in met)
        and any(edge.at_centre for edge in met)
        and abs((b - a).imag) < _NEAR
    )


def _ends(line: ChopLine) -> tuple[Point, Point]:
    return line.stretches[0][0].start, line.stretches[-1][-1].end


def _square(piece: Piece, line: ChopLine) -> bool:
    """Whether a level cut meets the outline square at both ends, or nearly."""
    a, b = _ends(line)
    for spot in (line.start, line.end):
        heading = direction_at(piece.edges[spot.index].curves, spot.distance)
        if abs((heading * unit(b - a).conjugate()).real) > sin(_ASLANT):
            return False
    return True


def _anchors(line: ChopLine) -> list[Point]:
    """Between which points a level cut stays level: a little before its ends, from left to right."""
    a, b = _ends(line)
    in_from_end = unit(b - a) * min(_LEVEL_TO, abs(b - a) / 3)
    return sorted((a + in_from_end, b - in_from_end), key=lambda p: p.real)


def level_line(piece: Piece, level: str, lower_by: float, edge: str, kind: EdgeKind) -> ChopLine:
    """A straight cut at a body level, or so much below it, from outline to outline.

    Two-point darts whose widest lies on the line are cut through.

    Parameters
    ----------
    piece : the paper before
    level : name of the level, such as "waist"
    lower_by : how far below the level, along the grain, cm; above it where negative
    edge, kind : name and kind of the new edges

    Returns
    -------
    the line, from left to right

    Raises
    ------
    StepError : the piece has no such level, or the cut does not cross it or would leave the paper
    """
    found = piece.level(level)
    if found is None:
        raise StepError(
            Message(
                "no-level-cut",
                N_('"{piece}" has no {level} level to cut at.'),
                piece=piece.name,
                level=level,
            )
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


def place_line(
    piece: Piece, start: Spot, end: Spot, edge: str, kind: EdgeKind = EdgeKind.SEAM
) -> ChopLine:
    """A straight cut between two spots; two-point darts whose widest lies on it are cut through.

    Parameters
    ----------
    piece : the paper before
    start, end : the two places on its outline
    edge, kind : name and kind of the new edges

    Raises
    ------
    StepError : the places lie less than 0.5 cm apart, or the cut would leave the paper between them
    """
    a, b = spot_point(piece, start), spot_point(piece, end)
    if abs(b - a) < 0.5:
        raise StepError(
            Message(
                "cut-across-no-length",
                N_('The cut across "{piece}" has no length.'),
                piece=piece.name,
            )
        )
    _refuse_leaving(piece, a, b)
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
    return ChopLine(start, end, tuple(stretches), tuple(through), edge, kind)


def _refuse_leaving(piece: Piece, a: Point, b: Point) -> None:
    """Refuse a straight cut that meets the outline between its ends, where it would leave the paper."""
    along = unit(b - a)
    for edge in piece.edges:
        for distance in line_distances(edge.curves, a, along):
            place = ((point_at(edge.curves, distance) - a) * along.conjugate()).real
            if _CLEAR < place < abs(b - a) - _CLEAR:
                raise StepError(
                    Message(
                        "cut-leaves-paper",
                        N_(
                            'The straight cut across "{piece}" would leave the paper at its "{edge}". Choose '
                            "other ends, or move the dart out of the way first."
                        ),
                        piece=piece.name,
                        edge=edge.name,
                    )
                )


def _on(a: Point, b: Point, p: Point) -> bool:
    along = unit(b - a)
    at = (p - a) * along.conjugate()
    return abs(at.imag) < 0.02 and -_NEAR < at.real < abs(b - a) + _NEAR


def _outline_spot(piece: Piece, a: Point, b: Point, first: bool) -> Spot:
    """Where the endless line through two points meets the outline, outermost on one side."""
    along = unit(b - a)
    found: list[tuple[float, Spot]] = []
    for index, edge in enumerate(piece.edges):
        if edge.taken_up:
            continue
        for distance in line_distances(edge.curves, a, along):
            at = ((point_at(edge.curves, distance) - a) * along.conjugate()).real
            found.append((at, Spot(index, distance)))
    if len(found) < 2:
        raise StepError(
            Message("cut-not-cross", N_('The cut does not cross "{piece}".'), piece=piece.name)
        )
    return (min if first else max)(found, key=lambda pair: pair[0])[1]


def points_line(pieces: Sequence[Piece], edge: str, lower_by: float) -> list[ChopLine]:
    """Cuts through the upper points of the two-point darts, level between them, square at the sides.

    All pieces are cut at the same distance along their sides, counted from the top, so that the
    side seams still meet. Own method, docs/how-it-works.md.

    Parameters
    ----------
    pieces : half pieces, each with two-point darts, a side and a centre
    edge : name of the new edges
    lower_by : how much lower than the points the cut meets the sides, cm

    Returns
    -------
    one line for each piece, from its centre to its side

    Raises
    ------
    StepError : a piece has no two-point dart, no side or no centre, or the side is open for a dart
        there
    """
    return through_points(pieces, [_tops(piece) for piece in pieces], edge, lower_by)


def through_points(
    pieces: Sequence[Piece], points: Sequence[list[Point]], edge: str, lower_by: float = 0.0
) -> list[ChopLine]:
    """Cuts level between points and square at centre and side; alike along the sides.

    Parameters
    ----------
    pieces : half pieces, each with a side and a centre
    points : for each piece the places its cut goes through, from left to right, on one level, cm
    edge : name of the new edges
    lower_by : how much lower than the points the cut meets the sides, cm

    Returns
    -------
    one line for each piece, from its centre to its side

    Raises
    ------
    StepError : a piece has no side or no centre, or the side is open for a dart there
    """
    from_top = min(
        _from_top(piece, own, lower_by) for piece, own in zip(pieces, points, strict=True)
    )
    return [
        _points_line(piece, _side_spot(piece, from_top), own, edge)
        for piece, own in zip(pieces, points, strict=True)
    ]


def _tops(piece: Piece) -> list[Point]:
    if not piece.diamonds:
        raise StepError(
            Message(
                "no-waist-dart-two-points",
                N_('"{piece}" has no waist dart with two points to cut through.'),
                piece=piece.name,
            )
        )
    return sorted((d.top for d in piece.diamonds), key=lambda p: p.real)


@dataclass(frozen=True, slots=True)
class _SidePart:
    """A part of the side, walked downwards: its place in the loop, its line, how far down it starts."""

    index: int
    down: Path
    above: float
    turned: bool


def _side(piece: Piece) -> list[_SidePart]:
    """The parts of the side from the top down; dart mouths between them do not count."""
    parts = [(i, e) for i, e in enumerate(piece.edges) if e.kind is EdgeKind.SIDE]
    if not parts:
        raise StepError(Message("no-side", N_('"{piece}" has no side.'), piece=piece.name))
    out: list[_SidePart] = []
    above = 0.0
    for index, edge in sorted(parts, key=lambda p: min(p[1].start.imag, p[1].end.imag)):
        turned = edge.end.imag < edge.start.imag
        out.append(
            _SidePart(index, reversed_path(edge.curves) if turned else edge.curves, above, turned)
        )
        above += edge.length
    return out


def _side_spot(piece: Piece, from_top: float) -> Spot:
    """The spot on the side at a distance from its top."""
    part = [p for p in _side(piece) if p.above <= from_top + _NEAR][-1]
    along = from_top - part.above
    return Spot(part.index, piece.edges[part.index].length - along if part.turned else along)


def _from_top(piece: Piece, tops: list[Point], lower_by: float) -> float:
    """How far below the top of the side the cut meets it: a little below the points where the side
    leans out, so that the arc from the last point ends square to it (fixed-point rounds).
    """
    side = _side(piece)
    level = tops[0].imag + lower_by
    outer = min(tops, key=lambda p: abs(p.real - side[0].down[0].start.real))
    height, found = level, 0.0
    for _round in range(30):
        hits = [(p, h) for p in side for h in line_distances(p.down, complex(0, height), 1 + 0j)]
        if not hits:
            raise StepError(
                Message(
                    "level-dart-points-side-open",
                    N_(
                        'At the level of the dart points the side of "{piece}" is open for a dart. Move that dart '
                        "first, or cut at another level."
                    ),
                    piece=piece.name,
                )
            )
        part, distance = hits[0]
        found = part.above + distance
        at, heading = point_at(part.down, distance), direction_at(part.down, distance)
        outward = 1 if at.real > outer.real else -1
        lean = angle_between(1j, heading) * -outward  # positive when the side runs outwards below
        after = level - abs(at.real - outer.real) * tan(lean / 2)
        if abs(after - height) < 1e-10:
            break
        height = after
    return found


def _points_line(piece: Piece, spot: Spot, tops: list[Point], edge: str) -> ChopLine:
    path, distance = piece.edges[spot.index].curves, spot.distance
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
    return ChopLine(centre_spot, spot, (whole,), (), edge, EdgeKind.SEAM)


def corner_or_line(start: Point, leaving: Point, end: Point, arriving: Point) -> Path:
    """A corner arc, or a straight line where the two directions are one.

    Where a plain arc would bend both ways it is a gentle curve (`hermite`).

    Parameters
    ----------
    start, end : places, cm
    leaving, arriving : directions of travel there, of any length

    Returns
    -------
    a chain of one curve
    """
    if (
        abs(angle_between(leaving, arriving)) < 1e-9
        and abs(angle_between(leaving, end - start)) < 1e-9
    ):
        return (Line(start, end),)
    try:
        return (corner_arc(start, leaving, end, arriving, _BOW),)
    except GeometryError:  # the two ends lie so that a plain arc would bend both ways
        return (hermite(start, leaving, end, arriving),)


def _centre_spot(piece: Piece, inner: Point, towards: Point) -> Spot:
    """Where a cut square to the centre meets it, level with the inner dart point or nearly."""
    for index, edge in enumerate(piece.edges):
        if not edge.at_centre:
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
    raise StepError(Message("no-centre", N_('"{piece}" has no centre.'), piece=piece.name))


def _square_to_outline(piece: Piece, spot: Spot, towards: Point) -> Point:
    heading = direction_at(piece.edges[spot.index].curves, spot.distance) * 1j
    return heading if (heading * towards.conjugate()).real > 0 else -heading
