"""Rule 2: where two pieces meet at the end of a seam, the outline runs on without dip or peak."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import chain, combinations, product
from math import degrees

from cutwright.checks.case import Case, LaidSeam
from cutwright.checks.corner import Corner, entered_at, left_at, wanted_point
from cutwright.checks.limits import Limits
from cutwright.checks.tally import Outcome, Tally, together
from cutwright.geometry.point import Point
from cutwright.memo import memoised
from cutwright.messages import N_, Message
from cutwright.pattern.edge import Edge, EdgeKind
from cutwright.pattern.result import Severity
from cutwright.pattern.sewing.rows import Stretch

CODE = "edge-flow"
TURNED = "corner-turned"
WHAT = N_("outlines run on across a seam: largest bend")
WHAT_TURNED = N_("armhole corners at the shoulder: farthest from square")
_FLOWS = (
    EdgeKind.HEM,
    EdgeKind.WAIST,
    EdgeKind.NECKLINE,
    EdgeKind.ARMHOLE,
    EdgeKind.SHOULDER,
    EdgeKind.SEAM,
    EdgeKind.GATHERED,
    EdgeKind.FREE,
)


def edge_flow(case: Case) -> Outcome:
    """Add the two corner angles at each end of each plain seam; they make a straight line.

    Only edges of the same kind run on into each other (hem into hem, armhole into armhole). A line
    of another kind that crosses a seam, such as a side seam at the waist, may bend and is only
    mentioned.
    """
    tally = Tally(CODE, WHAT, case.limits.flow, "degrees")
    turned = Tally(TURNED, WHAT_TURNED, case.limits.turned, "degrees")
    sewn = {pair for laid in case.seams for pair in _pairs(laid)}
    for laid in case.seams:
        for meeting in _meetings(laid):
            if meeting.pair not in sewn:
                _look(case.limits, laid, meeting, tally, turned)
    return together([tally.outcome(), turned.outcome()])


Pair = frozenset[tuple[str, int]]
"""Two edges that are sewn to each other, by piece and identity."""


@dataclass(frozen=True, slots=True)
class Meeting:
    """Two edges that go on into each other where a seam ends, with the angles of the paper there.

    `pair` is None for an edge that meets its own copy.
    """

    pair: Pair | None
    where: str
    at: Point
    inside: tuple[float, float]
    beyond: EdgeKind
    seam: EdgeKind


@memoised
def _pairs(laid: LaidSeam) -> tuple[Pair, ...]:
    pairs = (product(*rows) for rows in combinations(laid.rows, 2))
    return tuple(frozenset((a.key, b.key)) for a, b in chain.from_iterable(pairs))


@memoised
def _meetings(laid: LaidSeam) -> tuple[Meeting, ...]:
    """What goes on beyond both ends of a seam that is sewn flat."""
    if not laid.seam.on_one_level:
        return ()
    starts = [(row[0], entered_at(row[0])) for row in laid.rows]
    stops = [(row[-1], left_at(row[-1])) for row in laid.rows]
    ends = (_meeting(*two) for there in (starts, stops) for two in combinations(there, 2))
    return tuple(meeting for meeting in ends if meeting is not None)


def _meeting(a: tuple[Stretch, Corner], b: tuple[Stretch, Corner]) -> Meeting | None:
    next_a, next_b = a[1].other(a[0].edge), b[1].other(b[0].edge)
    if next_a.kind is not next_b.kind or next_a.kind not in (*_FLOWS, EdgeKind.SIDE):
        return None
    if any(wanted_point(w.piece, c.at, n) for (w, c), n in ((a, next_a), (b, next_b))):
        return None
    key_a, key_b = (a[0].piece.name, id(next_a)), (b[0].piece.name, id(next_b))
    return Meeting(
        frozenset((key_a, key_b)) if key_a != key_b else None,
        _where(a[0], next_a, b[0], next_b),
        a[1].at,
        (degrees(a[1].inside), degrees(b[1].inside)),
        next_a.kind,
        a[0].edge.kind,
    )


def _look(limits: Limits, laid: LaidSeam, meeting: Meeting, tally: Tally, turned: Tally) -> None:
    bend = abs(sum(meeting.inside) - 180)
    loose = meeting.beyond is EdgeKind.SIDE
    if not loose:
        tally.see(bend, meeting.where)
    if bend > limits.flow + 1e-6:
        level = Severity.WARNING if loose else Severity.FAULT
        text = Message(
            "edge-bends-where-seam-ends",
            N_(
                "The edge bends where this seam ends: the corners are {a:.1f}° and {b:.1f}°, together "
                "{bend:.1f}° from a straight line; {limit:g}° is allowed. Seam: {seam}."
            ),
            a=meeting.inside[0],
            b=meeting.inside[1],
            bend=bend,
            limit=limits.flow,
            seam=laid.where,
        )
        tally.find(level, meeting.where, text, bend, meeting.at)
    if meeting.seam is EdgeKind.SHOULDER and meeting.beyond is EdgeKind.ARMHOLE:
        _square_enough(limits, turned, meeting)


def _square_enough(limits: Limits, turned: Tally, meeting: Meeting) -> None:
    off = max(abs(angle - 90) for angle in meeting.inside)
    turned.see(off, meeting.where)
    if off > limits.turned + 0.05:
        text = Message(
            "armhole-meets-shoulder-corner-may",
            N_(
                "The armhole meets the shoulder at {a:.1f}° and {b:.1f}°; one corner may open by what "
                "the other closes, but at most {limit:g}°."
            ),
            a=meeting.inside[0],
            b=meeting.inside[1],
            limit=limits.turned,
        )
        turned.find(Severity.WARNING, meeting.where, text, off, meeting.at)


def _where(a: Stretch, next_a: Edge, b: Stretch, next_b: Edge) -> str:
    first = f"{a.piece.name}: {next_a.label} / {a.edge.label}"
    second = f"{b.piece.name}: {next_b.label} / {b.edge.label}"
    return first if first == second else f"{first} ~ {second}"
