"""Rule 1, second part: balance marks on both sides of a seam meet when it is sewn."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import permutations

from cutwright.checks.case import Case
from cutwright.checks.limits import Limits
from cutwright.checks.tally import Outcome, Tally
from cutwright.geometry.path import distance_at
from cutwright.memo import memoised
from cutwright.messages import N_, Message
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Mark, Piece
from cutwright.pattern.result import Severity
from cutwright.pattern.seam import Seam
from cutwright.pattern.sewing.drawn_up import Sewn, meets_within
from cutwright.pattern.sewing.mark_pairs import NotchSpot, SeamMarks
from cutwright.pattern.sewing.seam_marks import seam_marks

CODE = "notch-walk"
WHAT = N_("balance marks laid against each other: farthest apart")
_SAME = 0.05


@dataclass(slots=True)
class _Met:
    """How a notch fares in the seams of its edge: the smallest gap, and where that was."""

    mark: Mark
    gap: float = float("inf")
    seams: list[Seam] = field(default_factory=list)
    limit: float = 0.0


_There = Mapping[str, Mapping[int, Sequence[tuple[float, Mark]]]]
"""For each piece by name, for each of its edges by identity: its notches, how far along they lie."""


@dataclass(frozen=True, slots=True)
class _Notched:
    """A row with its notches as they lie along the seam, on every copy that they are for.

    `stops` is what a notch of the other row may meet: ends, seams and folds, notches.
    """

    length: float
    places: Sequence[tuple[float, Mark, tuple[str, int]]]
    stops: Sequence[float]

    @staticmethod
    def of(row: Sewn, there: _There) -> _Notched:
        """Find all notches of a row."""
        places = [
            (row.along(turn.distance(own)), mark, (turn.stretch.piece.name, id(mark)))
            for turn in row.lap.turns
            for own, mark in there[turn.stretch.piece.name].get(id(turn.stretch.edge), ())
            if not mark.copies or turn.copy in mark.copies
        ]
        joints = [row.along(joint.at) for joint in row.lap.joints()]
        return _Notched(
            row.length, places, [0.0, row.length, *joints, *(along for along, _m, _k in places)]
        )


def notch_walk(case: Case) -> Outcome:
    """Find on the paper each notch that is declared, and lay each notch against the other row.

    Walked as sewn, a notch meets a notch, an edge's end, a seam or a fold of the other row,
    wherever its piece comes to lie in the garment. An edge may be sewn to several; its notch is
    then for one of the seams. A pattern without any notch is not marked yet and left alone.
    """
    tally = Tally(CODE, WHAT, case.limits.notch, "cm")
    if any(_notches(piece) for piece in case.pattern.pieces):
        whole = [laid.seam for laid in case.seams]
        seams = seam_marks(Pattern(case.pattern.pieces, tuple(whole)))
        there = {piece.name: _notches(piece) for piece in case.pattern.pieces}
        met: dict[tuple[str, int], _Met] = {}
        for marks in seams:
            _missing(marks, there, tally)
            rows = [_Notched.of(row, there) for row in marks.rows]
            for one, other in permutations(rows, 2):
                _lay(marks, one, other, case.limits, met)
        for found in met.values():
            _judge(found, tally)
    return tally.outcome()


def _missing(marks: SeamMarks, there: _There, tally: Tally) -> None:
    """Find the places that should be marked and are not."""
    for place in marks.balance:
        for spot in place.spots:
            if spot is not None and not _is_there(spot, there):
                text = Message(
                    "balance-mark-missing-cm-along",
                    N_(
                        'A balance mark is missing on "{piece}", {at:.1f} cm along "{edge}"; the other side of '
                        "this seam has its place there. Mark it by hand before you cut."
                    ),
                    piece=spot.piece.name,
                    at=spot.own,
                    edge=spot.edge.label,
                )
                tally.find(Severity.FAULT, marks.seam.name, text)


def _is_there(spot: NotchSpot, there: _There) -> bool:
    places = there[spot.piece.name].get(id(spot.edge), ())
    return any(abs(own - spot.own) <= _SAME for own, _mark in places)


def _lay(
    marks: SeamMarks,
    row: _Notched,
    other: _Notched,
    limits: Limits,
    met: dict[tuple[str, int], _Met],
) -> None:
    """Lay every notch of one row against what it meets on the other."""
    limit = meets_within(marks.seam, marks.rows, limits.notch, limits.notch_share)
    worst: dict[tuple[str, int], tuple[Mark, float]] = {}
    for along, mark, key in row.places:
        gap = min(abs(along - stop) for stop in other.stops)
        worst[key] = (mark, max(gap, worst.get(key, (mark, 0.0))[1]))
    for key, (mark, gap) in worst.items():
        found = met.setdefault(key, _Met(mark))
        found.seams.append(marks.seam)
        if gap < found.gap:
            found.gap, found.limit = gap, limit


def _judge(found: _Met, tally: Tally) -> None:
    where = found.seams[0].name
    tally.see(found.gap, where)
    if found.gap > found.limit + 1e-9:
        text = Message(
            "balance-mark-meets-nothing-nearest",
            N_(
                "A balance mark meets nothing: the nearest mark, seam or end of the other side is {gap:.2f} cm "
                "away; {limit:.2f} cm is allowed. Leave this mark out when you cut."
            ),
            gap=found.gap,
            limit=found.limit,
        )
        tally.find(Severity.FAULT, where, text, found.gap, found.mark.at)


@memoised
def _notches(piece: Piece) -> dict[int, list[tuple[float, Mark]]]:
    """For each edge of a piece, by identity, its notches and how far along they lie."""
    found: dict[int, list[tuple[float, Mark]]] = defaultdict(list)
    for mark in piece.marks:
        if mark.kind is not MarkKind.NOTCH or not mark.edge:
            continue
        for edge in piece.edges:
            if not edge.answers_to(mark.edge):
                continue
            at = distance_at(edge.curves, mark.at, _SAME)
            if at is not None:
                found[id(edge)].append((at, mark))
    return found
