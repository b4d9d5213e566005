"""What a turn of paper did, as traces for pictures and for the proof."""

from __future__ import annotations

from itertools import pairwise
from math import sin

from cutwright.geometry.curve import Line
from cutwright.geometry.outline import flattened
from cutwright.geometry.path import Path
from cutwright.geometry.point import Point, angle_between
from cutwright.pattern.cutting.flare import Flared
from cutwright.pattern.loop import spot_point
from cutwright.pattern.piece import Piece
from cutwright.pattern.result import Trace, TraceKind


def turn_traces(piece: Piece, flared: Flared, share: float = 1.0) -> tuple[Trace, ...]:
    """The cuts, pivots, closed mouths, opened wedges and trued edges of a turn of paper.

    Parameters
    ----------
    piece : the paper before
    flared : the paper after
    share : of each dart that was meant to close, from 0 to 1

    Returns
    -------
    traces; places before the turn or after it as their kind says
    """
    out: list[Trace] = []
    for slash, wedge in zip(flared.slashes, flared.wedges, strict=True):
        far = spot_point(piece, slash.far)
        a, b = spot_point(piece, slash.leave), spot_point(piece, slash.enter)
        out.append(Trace(TraceKind.CUT, piece.name, (slash.hinge, far)))
        out.append(Trace(TraceKind.PIVOT, piece.name, (slash.hinge,)))
        if abs(b - a) > 1e-6:
            out.append(
                Trace(
                    TraceKind.CLOSED, piece.name, _closed(a, slash.hinge, b, share * flared.share)
                )
            )
        out.append(Trace(TraceKind.WEDGE, piece.name, wedge))
    out += [trued_trace(piece.name, before, after) for before, after in flared.trued]
    return tuple(out)


def _closed(a: Point, pivot: Point, b: Point, share: float) -> tuple[Point, ...]:
    """The part of a dart that closes, as a triangle of just that area."""
    angle = abs(angle_between(a - pivot, b - pivot))
    part = 1.0 if share >= 1 else (sin(angle) - sin((1 - share) * angle)) / sin(angle)
    return a, pivot, a + (b - a) * part


def trued_trace(piece: str, before: Path, after: Path) -> Trace:
    """An edge redrawn: its ring walks the new line and comes back along the old one.

    The signed area of the ring is the paper that truing gave (cm2, positive) or took.

    Parameters
    ----------
    piece : its name
    before, after : the edge in the paper after, as it was and redrawn; both walked the same way

    Returns
    -------
    one trace
    """
    ring = (*flattened(after), *reversed(flattened(before)))
    return Trace(TraceKind.TRUED, piece, ring, path=after)


def across_mouths(piece: Piece, label: str) -> Path:
    """An edge as one chain, straight across the mouths of its darts.

    Parameters
    ----------
    piece : the paper
    label : name of the edge

    Returns
    -------
    a chain without a gap, walked clockwise

    Raises
    ------
    LookupFailed : the piece has no such edge
    """
    parts = piece.edge_parts(label)
    out: list[Path] = [parts[0].curves]
    for before, after in pairwise(parts):
        out += [(Line(before.end, after.start),), after.curves]
    return tuple(c for path in out for c in path)
