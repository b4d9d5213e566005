"""Waist darts of bodice and skirt run on into each other over the waist seam."""

from __future__ import annotations

from itertools import combinations, pairwise

from cutwright.checks.case import Case, LaidSeam
from cutwright.checks.corner import left_at
from cutwright.checks.tally import Outcome, Tally, gather
from cutwright.memo import memoised
from cutwright.messages import N_, Message
from cutwright.pattern.edge import EdgeKind
from cutwright.pattern.result import Severity
from cutwright.pattern.seam import SeamKind
from cutwright.pattern.sewing.rows import Row

CODE = "darts-meet"
WHAT = N_("waist darts meet at the waist seam: farthest apart")


def darts_meet(case: Case) -> Outcome:
    """Compare the places of the darts on both sides of every plain waist seam."""
    limit = case.limits.meet
    tally = Tally(CODE, WHAT, limit, "cm")
    gather((tally,), ((_of_seam(laid, limit=limit),) for laid in case.seams))
    return tally.outcome()


@memoised
def _of_seam(laid: LaidSeam, *, limit: float) -> Tally:
    tally = Tally(CODE, WHAT, limit, "cm")
    waists = all(walked.edge.kind is EdgeKind.WAIST for walked in laid)
    if not waists or laid.seam.kind != SeamKind.PLAIN or abs(laid.seam.ratio - 1) > 1e-6:
        return tally
    for first, second in combinations(laid.rows, 2):
        _compare(laid, (first, second), limit, tally)
    return tally


def _compare(laid: LaidSeam, rows: tuple[Row, Row], limit: float, tally: Tally) -> None:
    one, other = map(dart_places, rows)
    if not one or not other:  # darts on one side only have nothing to meet
        return
    at = rows[1][0].edge.start
    if len(one) != len(other):
        text = Message(
            "side-waist-seam-darts-other",
            N_(
                "On one side of this waist seam there are {a} darts, on the other {b}; they should run on into "
                "each other. Draft the bodice first and the skirt after it, with the same ease at the waist."
            ),
            a=len(one),
            b=len(other),
        )
        tally.find(Severity.WARNING, laid.where, text, abs(len(one) - len(other)), at)
        return
    apart = max(abs(a - b) for a, b in zip(one, other, strict=True))
    tally.see(apart, laid.where)
    if apart > limit:
        text = Message(
            "darts-both-sides-waist-seam",
            N_(
                "The darts on both sides of this waist seam lie {apart:.1f} cm apart; they should run on into "
                "each other. Draft the bodice first and the skirt after it, with the same ease at the waist."
            ),
            apart=apart,
        )
        tally.find(Severity.WARNING, laid.where, text, apart, at)


def dart_places(row: Row) -> tuple[float, ...]:
    """How far along a row each of its darts lies, from where the seam begins, cm."""
    return tuple(
        walked.end
        for walked, after in pairwise(row)
        if walked.piece is after.piece and left_at(walked).darts
    )
