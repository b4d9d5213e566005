"""Rule 4: darts close, with equal legs and a smooth mouth, and stop short of the bust point."""

from __future__ import annotations

from collections.abc import Sequence
from math import degrees

from cutwright.checks.case import Case
from cutwright.checks.corner import corners, wanted_point
from cutwright.checks.limits import Limits
from cutwright.checks.tally import Outcome, Tally, gather, together
from cutwright.errors import LookupFailed
from cutwright.geometry.point import Point
from cutwright.memo import memoised
from cutwright.messages import N_, Message
from cutwright.pattern.edge import Edge, EdgeKind
from cutwright.pattern.mark import BUST_POINT, MarkKind
from cutwright.pattern.piece import Dart, Diamond, Piece
from cutwright.pattern.result import Severity

LEGS = "dart-legs"
MOUTH = "dart-mouth"
SHORT = "dart-short-of-bust-point"
INTAKE = "dart-intake"
WHAT_LEGS = N_("dart legs laid on each other: largest difference")
WHAT_MOUTH = N_("edges run on across a folded dart: largest bend")
WHAT_SHORT = N_("darts stop short of the bust point: least distance")
WHAT_INTAKE = N_("waist darts: largest intake")
_SHAPED = 0.15
"""A shaped mouth is a little wider than its dart is at the waist, cm."""
_AT_POINT = 0.5
"""A dart that turns about a place this near to the bust point is a bust dart, cm."""


def darts(case: Case) -> Outcome:
    """Look at every dart of every piece."""
    whole = _blank(case.limits)
    gather(whole, (_of_piece(piece, case.limits) for piece in case.pattern.pieces))
    return together(tally.outcome() for tally in whole)


def _blank(limits: Limits) -> tuple[Tally, Tally, Tally, Tally]:
    return (
        Tally(LEGS, WHAT_LEGS, limits.legs, "cm"),
        Tally(MOUTH, WHAT_MOUTH, limits.mouth, "degrees"),
        Tally(SHORT, WHAT_SHORT, limits.short_least, "cm", least=True),
        Tally(INTAKE, WHAT_INTAKE, limits.intake, "cm"),
    )


@memoised
def _of_piece(piece: Piece, limits: Limits) -> tuple[Tally, ...]:
    legs, mouth, short, intake = tallies = _blank(limits)
    busts = bust_points(piece)
    for dart in piece.darts:
        _legs(limits, piece, dart, legs, intake, _nearest(busts, dart))
    for diamond in piece.diamonds:
        _took(limits, intake, f"{piece.name}: {diamond.name}", diamond.intake, diamond.near)
    if busts:
        _short_of(limits, piece, busts, short)
    if piece.darts:
        _mouths(limits, piece, mouth)
    return tallies


def bust_points(piece: Piece) -> tuple[Point, ...]:
    """Where bust points are marked on a piece: none, one on a half, two on a whole front."""
    return tuple(m.at for m in piece.marks if m.kind is MarkKind.POINT and m.text == BUST_POINT)


def _nearest(busts: Sequence[Point], dart: Dart | Diamond) -> Point | None:
    """The bust point of the half on which a dart lies."""
    at = dart.pivot if isinstance(dart, Dart) else dart.top
    return min(busts, key=lambda bust: abs(bust - at), default=None)


def _legs(
    limits: Limits, piece: Piece, dart: Dart, tally: Tally, intake: Tally, bust: Point | None
) -> None:
    where = f"{piece.name}: {dart.name}"
    one = [e for e in piece.edges if e.name == dart.name and e.part[:1] == (1,)]
    two = [e for e in piece.edges if e.name == dart.name and e.part[:1] == (2,)]
    if not one or not two:
        text = Message(
            "dart-no-two-legs-outline",
            N_("This dart has no two legs on the outline, so it cannot be sewn."),
        )
        tally.find(Severity.FAULT, where, text, None, dart.tip)
        return
    a, b = sum(e.length for e in one), sum(e.length for e in two)
    gap = abs(a - b)
    tally.see(gap, where)
    if gap > limits.legs + 1e-9:
        text = Message(
            "legs-dart-cm-cm-they",
            N_(
                "The legs of this dart are {a:.2f} cm and {b:.2f} cm; they must be equal to "
                "{limit:.2f} cm."
            ),
            a=a,
            b=b,
            limit=limits.legs,
        )
        tally.find(Severity.FAULT, where, text, gap, dart.tip)
    missed = max(abs(one[-1].end - dart.tip), abs(two[0].start - dart.tip))
    if missed > limits.legs:
        text = Message(
            "legs-dart-miss-point-cm",
            N_("The legs of this dart miss its point by {gap:.2f} cm."),
            gap=missed,
        )
        tally.find(Severity.FAULT, where, text, missed, dart.tip)
    if _on_waist(piece, one[0]) and not _is_bust_dart(dart, bust):
        _took(limits, intake, where, abs(two[-1].end - one[0].start), one[0].start)


def _on_waist(piece: Piece, leg: Edge) -> bool:
    index = piece.edges.index(leg)
    return piece.edges[index - 1].kind is EdgeKind.WAIST


def _is_bust_dart(dart: Dart, bust: Point | None) -> bool:
    return bust is not None and abs(dart.pivot - bust) < _AT_POINT


def _took(limits: Limits, tally: Tally, where: str, took: float, at: Point) -> None:
    tally.see(took, where)
    if took > limits.intake + _SHAPED:
        text = Message(
            "waist-dart-takes-cm-over",
            N_(
                "This waist dart takes {took:.1f} cm; over {limit:g} cm it pokes, so make two of it."
            ),
            took=took,
            limit=limits.intake,
        )
        tally.find(Severity.WARNING, where, text, took, at)


def _short_of(limits: Limits, piece: Piece, busts: Sequence[Point], tally: Tally) -> None:
    every: tuple[Dart | Diamond, ...] = piece.darts + piece.diamonds
    for dart in every:
        tip = dart.tip if isinstance(dart, Dart) else dart.top
        bust = _nearest(busts, dart)
        assert bust is not None
        past = isinstance(dart, Dart) and _beyond(piece, dart, bust)
        short = -abs(tip - bust) if past else abs(tip - bust)
        where = f"{piece.name}: {dart.name}"
        tally.see(short, where)
        if short > limits.short - 0.005:
            continue
        level = Severity.FAULT if short < limits.short_least - 0.005 else Severity.NOTE
        text = Message(
            "dart-stops-cm-short-bust",
            N_(
                "This dart stops {short:.1f} cm short of the bust point; at least {least:g} cm is "
                "needed and {usual:g} cm is usual, or it pokes."
            ),
            short=short,
            least=limits.short_least,
            usual=limits.short,
        )
        tally.find(level, where, text, short, tip)


def _beyond(piece: Piece, dart: Dart, bust: Point) -> bool:
    """Whether a bust dart is sewn past the point it turns about."""
    if not _is_bust_dart(dart, bust):
        return False
    try:
        start, end = piece.mouth(dart)
    except LookupFailed:
        return False
    middle = (start + end) / 2
    return abs(dart.tip - middle) > abs(dart.pivot - middle) + 1e-6


def _mouths(limits: Limits, piece: Piece, tally: Tally) -> None:
    for corner in corners(piece).all():
        if not corner.darts or corner.before.name != corner.after.name:
            continue
        bend = abs(degrees(corner.turn))
        where = f"{piece.name}: {', '.join(corner.darts)}"
        if bend > limits.mouth and wanted_point(piece, corner.at, corner.before):
            continue
        tally.see(bend, where)
        if bend > limits.mouth + 1e-6:
            text = Message(
                "dart-folded-bends-mouth-allowed",
                N_(
                    "With this dart folded, {edge} bends by {bend:.1f}° at its mouth; {limit:g}° is "
                    "allowed. Shape the mouth with the dart folded."
                ),
                edge=corner.before.name,
                bend=bend,
                limit=limits.mouth,
            )
            tally.find(Severity.FAULT, where, text, bend, corner.at)
