"""Rule 1, second part: balance marks on both sides of a seam meet when it is sewn."""

from __future__ import annotations

from cutwright.checks.case import Case, Laid
from cutwright.checks.limits import Limits
from cutwright.checks.rows import Row
from cutwright.checks.tally import Outcome, Tally, gather
from cutwright.geometry.path import distance_at
from cutwright.keep import once
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.piece import Piece
from cutwright.words import N_, _

CODE = "notch-walk"
WHAT = N_("balance marks laid against each other: farthest apart")


def notch_walk(case: Case) -> Outcome:
    """Compare the notches of both rows of each seam, measured from the end where it begins.

    A seam where only one row carries notches is left alone; rows whose edges occur unequally
    often in the garment (one ring sewn to several parts) are compared only when both are single.
    """
    tally = Tally(CODE, _(WHAT), case.limits.notch, "cm")
    gather([tally], ([_of_seam(laid, case.limits)] for laid in case.seams))
    return tally.outcome()


@once
def _of_seam(laid: Laid, limits: Limits) -> Tally:
    tally = Tally(CODE, _(WHAT), limits.notch, "cm")
    if all(walked.times == 1 for walked in (*laid.a, *laid.b)):
        _compare(laid, tally, limits)
    return tally


def _compare(laid: Laid, tally: Tally, limits: Limits) -> None:
    (places_a, long_a), (places_b, long_b) = _places(laid.a), _places(laid.b)
    if not places_a or not places_b:
        return
    if len(places_a) != len(places_b):
        text = _("One side of this seam has {a} balance marks and the other {b}.").format(
            a=len(places_a), b=len(places_b)
        )
        tally.find("fault", laid.where, text, float(abs(len(places_a) - len(places_b))))
        return
    gathered = abs(laid.seam.ratio - 1) > 1e-6 or laid.seam.ease > limits.notch
    for a, b in zip(places_a, places_b, strict=True):
        gap = abs(a / long_a - b / long_b) * long_b if gathered else abs(a - b)
        limit = limits.notch_share * long_b if gathered else limits.notch
        tally.see(gap, laid.where)
        if gap > max(limit, limits.notch) + 1e-9:
            text = _(
                "Two balance marks do not meet: {a:.1f} cm and {b:.1f} cm from where the seam "
                "begins, {gap:.2f} cm apart; {limit:.2f} cm is allowed."
            ).format(a=a, b=b, gap=gap, limit=max(limit, limits.notch))
            tally.find("fault", laid.where, text, gap)


def _places(row: Row) -> tuple[list[float], float]:
    """Distances of all notches from the beginning of a row, in order, and its length."""
    found: list[float] = []
    walked_so_far = 0.0
    for walked in row:
        size = walked.edge.length
        for at in _notches(walked.piece).get(id(walked.edge), ()):
            found.append(walked_so_far + (size - at if walked.backwards else at))
        walked_so_far += size
    return sorted(found), walked_so_far


@once
def _notches(piece: Piece) -> dict[int, list[float]]:
    """For each edge of a piece, by identity, how far along it its notches lie."""
    found: dict[int, list[float]] = {}
    for mark in piece.marks:
        if mark.kind is not MarkKind.NOTCH or not mark.edge:
            continue
        for edge in piece.edges:
            if not edge.answers_to(mark.edge):
                continue
            at = distance_at(edge.curves, mark.at, 0.05)
            if at is not None:
                found.setdefault(id(edge), []).append(at)
    return found
