"""Shaping the mouths of darts with the darts folded, so that the sewn edge runs on smoothly."""

from __future__ import annotations

from dataclasses import dataclass, replace

from cutwright.errors import StepError
from cutwright.geometry.crossing import line_distances
from cutwright.geometry.curve import Line
from cutwright.geometry.move import STAY, Move
from cutwright.geometry.path import (
    Path,
    end_direction,
    moved_path,
    path_length,
    point_at,
    split_path,
    start_direction,
)
from cutwright.geometry.point import Point, angle_between
from cutwright.geometry.solve import root_within
from cutwright.messages import N_, Message
from cutwright.pattern.edge import Edge
from cutwright.pattern.loop import Edges
from cutwright.pattern.piece import Dart, Piece
from cutwright.pattern.shaping.truing import bow

_NARROWEST = 0.6


@dataclass(frozen=True, slots=True)
class _Row:
    """One edge with its darts: segments, and between them the darts, in walking order."""

    segments: Edges
    darts: tuple[Dart, ...]

    @property
    def length(self) -> float:
        return sum(s.length for s in self.segments)


def shaped_mouths(piece: Piece, label: str) -> Piece:
    """The piece with one edge redrawn as a single bow over all its folded darts.

    The edge keeps its sewn length: the bow is shorter than the kinked line it replaces, so all
    darts are drawn narrower by one share (0.6 to 1) until the length is there again. Both legs of
    each dart stay equal, for they meet in one point of the bow. Own method, docs/how-it-works.md.

    Parameters
    ----------
    piece : the paper before
    label : name of the edge, over all its parts

    Returns
    -------
    the piece after; the very same where no dart divides the edge

    Raises
    ------
    LookupFailed : the piece has no such edge
    StepError : something other than darts divides the edge, or no bow meets the folded legs
    """
    row = _row(piece, label)
    if not row.darts:
        return piece
    target = row.length

    def miss(share: float) -> float:
        return path_length(_bow(_narrowed(row, share))) - target

    share = root_within(miss, _NARROWEST, 1.0, 1e-11) or 1.0
    return _with_row(piece, _unfolded(piece, _narrowed(row, share)))


def _row(piece: Piece, label: str) -> _Row:
    segments = piece.edge_parts(label)
    by_leg = {dart.name: dart for dart in piece.darts}
    between: list[Dart] = []
    for segment in segments[:-1]:
        after = piece.edges[(piece.edges.index(segment) + 1) % len(piece.edges)]
        if not after.taken_up or after.name not in by_leg:
            raise StepError(
                Message(
                    "broken-something-other-darts",
                    N_('"{edge}" of "{piece}" is broken by something other than darts.'),
                    edge=label,
                    piece=piece.name,
                )
            )
        between.append(by_leg[after.name])
    return _Row(segments, tuple(between))


def _narrowed(row: _Row, share: float) -> _Row:
    """The row with every mouth drawn narrower about its middle; segments become straight lines."""
    starts = [s.start for s in row.segments]
    ends = [s.end for s in row.segments]
    for k in range(len(row.darts)):
        middle = (ends[k] + starts[k + 1]) / 2
        ends[k], starts[k + 1] = (middle + (p - middle) * share for p in (ends[k], starts[k + 1]))
    if share == 1:
        return row
    segments = tuple(
        s.with_curves((Line(a, b),)) for s, a, b in zip(row.segments, starts, ends, strict=True)
    )
    return replace(row, segments=segments)


def _folds(row: _Row) -> list[Move]:
    """The move of each segment when every dart before it is folded shut about its tip."""
    moves = [STAY]
    for k, dart in enumerate(row.darts):
        a, b = row.segments[k].end, row.segments[k + 1].start
        turn = Move.about(dart.tip, angle_between(b - dart.tip, a - dart.tip))
        moves.append(turn.then(moves[-1]))
    return moves


def _bow(row: _Row) -> Path:
    """The smooth line over the folded darts."""
    first = moved_path(row.segments[0].curves, STAY)
    last = moved_path(row.segments[-1].curves, _folds(row)[-1])
    return bow(first[0].start, start_direction(first), last[-1].end, end_direction(last))


def _unfolded(piece: Piece, row: _Row) -> _Row:
    """Cut the bow at every fold and turn its parts back to where the paper lies open."""
    moves = _folds(row)
    rest, segments = _bow(row), list[Edge]()
    for k, dart in enumerate(row.darts):
        tip = moves[k](dart.tip)
        mouth = moves[k](row.segments[k].end)
        part, rest = split_path(rest, _crossing(piece, rest, tip, mouth))
        segments.append(row.segments[k].with_curves(moved_path(part, moves[k].inverse())))
    segments.append(row.segments[-1].with_curves(moved_path(rest, moves[-1].inverse())))
    return replace(row, segments=tuple(segments))


def _crossing(piece: Piece, path: Path, tip: Point, mouth: Point) -> float:
    hits = line_distances(path, tip, mouth - tip)
    ahead = [d for d in hits if ((point_at(path, d) - tip) * (mouth - tip).conjugate()).real > 0]
    if not ahead:
        raise StepError(
            Message(
                "mouths-darts-cannot-shaped-smooth",
                N_('The mouths of the darts of "{piece}" cannot be shaped to one smooth line.'),
                piece=piece.name,
            )
        )
    return min(ahead, key=lambda d: abs(point_at(path, d) - mouth))


def _with_row(piece: Piece, row: _Row) -> Piece:
    drawn = {segment.label: segment for segment in row.segments}
    for k, dart in enumerate(row.darts):
        first, last = row.segments[k].end, row.segments[k + 1].start
        one, other = piece.legs(dart)
        drawn[one.label] = one.with_curves((Line(first, dart.tip),))
        drawn[other.label] = other.with_curves((Line(dart.tip, last),))
    edges = [drawn.get(edge.label, edge) for edge in piece.edges]
    return replace(piece, edges=tuple(edges))
