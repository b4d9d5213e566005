"""Rule 3: the fold is one straight line on the grain, and what meets it meets it squarely."""

from __future__ import annotations

from math import degrees, pi

from cutwright.checks.case import Case
from cutwright.checks.corner import Corner, corners, wanted_point
from cutwright.checks.limits import Limits
from cutwright.checks.tally import Outcome, Tally, gather, together
from cutwright.geometry.path import is_straight
from cutwright.geometry.point import Point, angle_between, distance_to_line
from cutwright.memo import memoised
from cutwright.messages import N_, Message
from cutwright.pattern.edge import Edge, EdgeKind
from cutwright.pattern.piece import Piece
from cutwright.pattern.result import Severity

SQUARE = "fold-square"
GRAIN = "fold-on-grain"
WHAT_SQUARE = N_("edges meet the fold squarely: farthest from 90°")
WHAT_GRAIN = N_("folds lie on the grain: largest lean")


def fold(case: Case) -> Outcome:
    """Look at every edge that lies on the fold of the cloth."""
    square, grain = _blank(case.limits)
    gather((square, grain), (_of_piece(piece, case.limits) for piece in case.pattern.pieces))
    return together([square.outcome(), grain.outcome()])


def _blank(limits: Limits) -> tuple[Tally, Tally]:
    return (
        Tally(SQUARE, WHAT_SQUARE, limits.fold, "degrees"),
        Tally(GRAIN, WHAT_GRAIN, limits.grain, "degrees"),
    )


@memoised
def _of_piece(piece: Piece, limits: Limits) -> tuple[Tally, Tally]:
    square, grain = _blank(limits)
    folds = [edge for edge in piece.edges if edge.kind is EdgeKind.FOLD]
    if folds:
        _on_grain(limits, piece, folds, grain)
    for edge in folds:
        for corner in (corners(piece).beginning(edge), corners(piece).ending(edge)):
            _squarely(limits, piece, edge, corner, square)
    return square, grain


def _squarely(limits: Limits, piece: Piece, edge: Edge, corner: Corner, tally: Tally) -> None:
    other = corner.other(edge)
    if other.kind is EdgeKind.FOLD or wanted_point(piece, corner.at, other):
        return
    angle = degrees(corner.inside)
    off = abs(angle - 90)
    where = f"{piece.name}: {other.label} / {edge.label}"
    tally.see(off, where)
    if off > limits.fold + 1e-6:
        text = Message(
            "edge-meets-fold-unless-style",
            N_(
                "This edge meets the fold at {angle:.1f}°; unless the style asks for a point it meets "
                "it at 90° within {limit:g}°, or the opened piece has a peak or a dip there."
            ),
            angle=angle,
            limit=limits.fold,
        )
        tally.find(Severity.FAULT, where, text, off, corner.at)


def _on_grain(limits: Limits, piece: Piece, folds: list[Edge], tally: Tally) -> None:
    a, b = folds[0].start, folds[-1].end
    longest = max(folds, key=lambda edge: abs(edge.end - edge.start))
    along = longest.end - longest.start
    where = f"{piece.name}: {longest.label}"
    lean = _lean(along, piece.grain[1] - piece.grain[0])
    tally.see(lean, where)
    if lean > limits.grain + 1e-6:
        text = Message(
            "fold-leans-grain-line-fold",
            N_(
                "The fold leans {lean:.1f}° from the grain line; a fold lies on the straight grain, "
                "{limit:g}° is allowed."
            ),
            lean=lean,
            limit=limits.grain,
        )
        tally.find(Severity.FAULT, where, text, lean, a)
    gap = max(
        (distance_to_line(p, longest.start, longest.end) for e in folds for p in (e.start, e.end)),
        default=0.0,
    )
    straight = all(is_straight(edge.curves, limits.straight) for edge in folds)
    if not straight or gap > limits.straight:
        text = Message(
            "fold-not-straight-line-cloth",
            N_("The fold is not one straight line; cloth folds only along a straight line."),
        )
        tally.find(Severity.FAULT, where, text, gap or None, b)


def _lean(a: Point, b: Point) -> float:
    """The angle between two lines whatever way they run, degrees."""
    angle = abs(angle_between(a, b))
    return degrees(min(angle, pi - angle))
