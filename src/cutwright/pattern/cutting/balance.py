"""Flare given to a half piece or taken out of it, in even slashes from its hem to its waist."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from cutwright.geometry.move import Move
from cutwright.geometry.path import path_length
from cutwright.geometry.point import Point, dot
from cutwright.pattern.cutting.flare import Flared, fixed_strip, opened, trued_flare
from cutwright.pattern.cutting.spreading import slash_lines
from cutwright.pattern.cutting.strips import Slash, hinge_moves, put_together, take_apart
from cutwright.pattern.loop import spot_point
from cutwright.pattern.piece import Level, Piece
from cutwright.pattern.result import Trace, TraceKind
from cutwright.pattern.shaping.truing import trued_far, trued_near
from cutwright.pattern.traces import trued_trace


@dataclass(frozen=True, slots=True)
class Swing:
    """Where a piece is slashed to swing its side out or in, and about what it hangs.

    `near` is the sewn edge that keeps its length, `far` the edge that opens or closes, `centre` the
    edge that stays in its place.
    """

    near: str
    far: str
    centre: str
    lines: int


def side_swung(piece: Piece, swing: Swing, turn: float) -> Flared:
    """The piece with its side swung out, or in, from the sewn edge.

    Every slash turns alike. The sewn edge is trued to its own length, the far edge is trued too.
    Own method, docs/how-it-works.md.

    Parameters
    ----------
    piece : a half piece
    swing : the edges and how many slashes
    turn : of the side against the centre, radians; outwards is positive

    Returns
    -------
    the paper after, with what was opened and trued

    Raises
    ------
    StepError : a slash would run through a dart or leave the paper
    """
    shares = [(i + 1) / (swing.lines + 1) for i in range(swing.lines)]
    slashes = slash_lines(piece, swing.near, swing.far, shares)
    strips = take_apart(piece, slashes)
    fixed = fixed_strip(strips, swing.centre)
    moves = hinge_moves(slashes, [-turn / swing.lines] * swing.lines, fixed)
    lengths = [part.length for part in piece.edge_parts(swing.near)]
    flared = opened(piece, put_together(piece, strips, moves), slashes, strips, moves)
    for part, length in zip(flared.piece.edge_parts(swing.near), lengths, strict=True):
        if len(part.curves) > 1:
            flared = trued_flare(flared, part, trued_near(part, length))
    flared = _far(flared, swing.far, turn)
    if turn < 0:
        levels = tuple(_lapped(level) for level in flared.piece.levels)
        flared = replace(flared, piece=replace(flared.piece, levels=levels))
    return flared


def _far(flared: Flared, far: str, turn: float) -> Flared:
    parts = flared.piece.edge_parts(far)
    if len(parts) != 1:
        return flared
    lapped = 2 * sum(flared.gaps) if turn < 0 else 0.0
    size = path_length(parts[0].curves) - lapped
    return trued_flare(flared, parts[0], trued_far(parts[0], flared.strips, flared.moves, size))


def _lapped(level: Level) -> Level:
    """A level whose steps back, where paper lies over paper, are left out at their middles."""
    along = level.points[-1] - level.points[0]
    points = list(level.points)
    place = 0
    while place < len(points) - 1:
        if dot(points[place + 1] - points[place], along) < 0:
            points[place : place + 2] = [(points[place] + points[place + 1]) / 2]
        place += 1
    return replace(level, points=tuple(points))


def swing_traces(piece: Piece, flared: Flared, turn: float) -> tuple[Trace, ...]:
    """The slashes with what they opened, or the wedges that were folded out, and the trued edges.

    Parameters
    ----------
    piece : the paper before
    flared : what `side_swung` made of it
    turn : as of `side_swung`, radians

    Returns
    -------
    traces for pictures; what was cut or folded in the paper before, what was opened or trued in the
    paper after
    """
    out: list[Trace] = []
    for slash, wedge in zip(flared.slashes, flared.wedges, strict=True):
        out.append(Trace(TraceKind.PIVOT, piece.name, (slash.hinge,)))
        if turn < 0:
            out.append(
                Trace(TraceKind.FOLDED, piece.name, _folded(piece, slash, turn, flared.slashes))
            )
        else:
            out.append(
                Trace(TraceKind.CUT, piece.name, (slash.hinge, spot_point(piece, slash.far)))
            )
            out.append(Trace(TraceKind.WEDGE, piece.name, wedge))
    out += [trued_trace(piece.name, before, after) for before, after in flared.trued]
    return tuple(out)


def _folded(piece: Piece, slash: Slash, turn: float, every: Sequence[Slash]) -> tuple[Point, ...]:
    """The wedge that a slash folds out, on the paper before: half on each side of the line."""
    far = spot_point(piece, slash.far)
    half = turn / len(every) / 2
    ends = [Move.about(slash.hinge, side * half)(far) for side in (1, -1)]
    return slash.hinge, ends[0], ends[1]
