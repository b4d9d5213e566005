"""Drawing a facing: it copies an edge, takes a width of the neighbours and ends in an outer edge."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from cutwright.errors import GeometryError, StepError
from cutwright.geometry.crossing import path_distances
from cutwright.geometry.curve import Line
from cutwright.geometry.draw import hermite
from cutwright.geometry.offset import offset_path
from cutwright.geometry.outline import bounds
from cutwright.geometry.path import (
    Path,
    direction_at,
    distance_from,
    end_direction,
    path_length,
    point_at,
    reversed_path,
    split_path,
    start_direction,
)
from cutwright.geometry.point import Point, angle_between, unit
from cutwright.messages import N_, Message
from cutwright.pattern.edge import Edge, EdgeKind
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.parts.folded import FoldedStretch
from cutwright.pattern.piece import Cut, Mark, Piece, in_interfacing
from cutwright.pattern.role import PieceLayer
from cutwright.pattern.shaping.truing import bow

OUTER = "outer edge"
_SAME = 0.02
_SQUARE = 0.015
_ON = 0.02
_POINTED = 1.35
"""Under the point of a V the facing is this many widths deep at most."""


@dataclass(frozen=True, slots=True)
class Faced:
    """The four stretches of a facing in walking order, `outer` closing the loop."""

    before: Path
    after: Path
    outer: Path


def beside(piece: Piece, stretch: FoldedStretch, width: float) -> Faced:
    """The outer edge runs at an even width beside the copied edge, square to the centre.

    Under the point of a V it is at most 1.35 widths deep. Own method.

    Parameters
    ----------
    piece : the piece it finishes
    stretch : the edges it copies, darts folded
    width : cm

    Returns
    -------
    the lines of the facing

    Raises
    ------
    StepError : a neighbour of the edge is too short for the width
    """
    copied = tuple(c for e in stretch.copied for c in e.curves)
    line = offset_path(copied, -width)
    tail = reversed_path(stretch.before.curves)
    line, short = _fitted(piece, line, tail, stretch.before, width)
    back, long = _fitted(piece, reversed_path(line), stretch.after.curves, stretch.after, width)
    outer = back  # walked from the neighbour after to the neighbour before
    return Faced(reversed_path(short), long, outer)


def _fitted(
    piece: Piece, line: Path, neighbour: Path, edge: Edge, width: float
) -> tuple[Path, Path]:
    """Bring the start of a line to a neighbour (walked away from the copied edge).

    Gives the line anew and the stretch of the neighbour up to it.
    """
    if path_length(neighbour) < width * (1 if not edge.at_centre else 0.98):
        raise StepError(_too_wide(piece, edge, width))
    reach = Line(line[0].start - start_direction(line) * 8 * width, line[0].start)
    longer = (reach, *line)
    met = [
        (abs(at - 8 * width), at, by) for at, by in path_distances(longer, neighbour) if by > 1e-6
    ]
    at, by = min(met)[1:] if met else (8 * width, width)
    if met and abs(by - width) <= _SAME:
        turn = angle_between(direction_at(neighbour, by), direction_at(longer, at))
        if abs(abs(turn) - 1.5707963) <= _SQUARE:
            return split_path(longer, at)[1], split_path(neighbour, by)[0]
    depth = min(max(by, width), _POINTED * width) if edge.at_centre else width
    if depth > path_length(neighbour):
        raise StepError(_too_wide(piece, edge, width))
    return _bowed(line, neighbour, depth, width), split_path(neighbour, depth)[0]


def _bowed(line: Path, neighbour: Path, depth: float, width: float) -> Path:
    """The line with its start redrawn so that it leaves the neighbour square at a depth."""
    from_here = point_at(neighbour, depth)
    along = direction_at(neighbour, depth)
    cut = min(path_length(line) * 0.4, 1.5 * width)
    rest = split_path(line, cut)[1]
    towards = rest[0].start - from_here
    leaving = along * 1j if (towards * (along * 1j).conjugate()).real > 0 else along * -1j
    return (*bow(from_here, leaving, rest[0].start, start_direction(rest)), *rest)


def _too_wide(piece: Piece, edge: Edge, width: float) -> Message:
    return Message(
        "facing-cm-wide-not-fit",
        N_(
            'A facing {width:.1f} cm wide does not fit "{piece}": its "{edge}" is only {there:.1f} cm long.'
        ),
        width=width,
        piece=piece.name,
        edge=edge.name,
        there=edge.length,
    )


def swept(piece: Piece, stretch: FoldedStretch, width: float) -> Faced:
    """The outer edge sweeps from one neighbour to the other, square to both.

    Parameters
    ----------
    piece : the piece it finishes
    stretch : the edges it copies, darts folded
    width : along both neighbours, cm

    Returns
    -------
    the lines of the facing

    Raises
    ------
    StepError : a neighbour is shorter than the width, or the facing would be narrower than 0.4 of
        it (2 cm for a wide one) between
    """
    for edge in (stretch.before, stretch.after):
        if edge.length < width:
            raise StepError(_too_wide(piece, edge, width))
    before = reversed_path(split_path(reversed_path(stretch.before.curves), width)[0])
    after = split_path(stretch.after.curves, width)[0]
    leaving, arriving = end_direction(after) * 1j, start_direction(before) * -1j
    outer: Path = (hermite(after[-1].end, leaving, before[0].start, arriving),)
    copied = tuple(c for e in stretch.copied for c in e.curves)
    size = path_length(outer)
    gap = min(distance_from(copied, point_at(outer, size * i / 24)) for i in range(1, 24))
    if gap < min(0.4 * width, 2.0):
        raise StepError(
            Message(
                "facing-would-cm-wide-between",
                N_(
                    'The facing of "{piece}" would be only {gap:.1f} cm wide between armhole and neckline. Make it wider.'
                ),
                piece=piece.name,
                gap=gap,
            )
        )
    return Faced(before, after, outer)


def facing_piece(
    piece: Piece, name: str, stretch: FoldedStretch, faced: Faced, interfaced: bool = True
) -> Piece:
    """The facing as a piece of its own, cut like the piece it finishes, and in interfacing too if asked.

    Parameters
    ----------
    piece : the piece it finishes
    name : of the facing
    stretch : the edges it copies, darts folded
    faced : the lines of the facing
    interfaced : whether it is cut in interfacing too

    Returns
    -------
    the facing, with the points and corners that are marked on the copied edges

    Raises
    ------
    GeometryError : its outline does not close
    """
    edges = (
        stretch.before.with_curves(faced.before),
        *stretch.copied,
        stretch.after.with_curves(faced.after),
        Edge(OUTER, faced.outer, EdgeKind.FREE),
    )
    if any(abs(a.end - b.start) > 1e-6 for a, b in zip(edges, (*edges[1:], edges[0]), strict=True)):
        raise GeometryError(
            Message(
                "facing-not-close", N_("The facing of {piece} does not close."), piece=piece.name
            )
        )
    names = {e.name for e in stretch.copied}
    copied = tuple(c for e in stretch.copied for c in e.curves)
    marks = tuple(
        m
        for m in piece.marks
        if m.kind in (MarkKind.POINT, MarkKind.CORNER)
        and m.edge in names
        and distance_from(copied, m.at) < _ON
    )
    bends = tuple(Mark(MarkKind.CORNER, p, edge=OUTER) for p in _kinks(faced.outer))
    cut = _cut(piece, edges)
    return Piece(
        name,
        edges,
        _grain(edges, piece.grain[1] - piece.grain[0]),
        cut,
        marks=marks + bends,
        role=piece.role,
        layer=PieceLayer.FACING,
        side=piece.side,
        also=(in_interfacing(cut),) if interfaced else (),
    )


def _cut(piece: Piece, edges: tuple[Edge, ...]) -> Cut:
    """Cut as often as the garment piece; one that leaves the fold behind is cut twice."""
    if piece.on_fold and not any(e.kind is EdgeKind.FOLD for e in edges):
        return piece.cut.doubled()
    return piece.cut


def _kinks(path: Path) -> list[Point]:
    return [
        a.end
        for a, b in pairwise(path)
        if abs(angle_between(a.velocity(1.0), b.velocity(0.0))) > 0.05
    ]


def _grain(edges: tuple[Edge, ...], along: Point) -> tuple[Point, Point]:
    left, top, right, bottom = bounds(tuple(c for e in edges for c in e.curves))
    middle = complex((left + right) / 2, (top + bottom) / 2)
    half = unit(along) * 0.3 * min(bottom - top, 40.0)
    return middle - half, middle + half
