"""Rule 7: every number is explained, and the explanation holds when it is reckoned again."""

from __future__ import annotations

from functools import lru_cache

from cutwright.checks.case import Case
from cutwright.checks.sums import claims
from cutwright.checks.tally import Outcome, Tally, together
from cutwright.pattern.result import Figure
from cutwright.words import N_, _

UNEXPLAINED = "figure-unexplained"
WRONG = "figure-wrong"
WHAT_UNEXPLAINED = N_("figures that say how they came about")
IN_WORDS = "figure-in-words"
WHAT_IN_WORDS = N_("figures that are explained in words, without a sum")
WHAT_WRONG = N_("printed sums reckoned again: largest miss beyond the last digit")


def figures(case: Case) -> Outcome:
    """Look at the arithmetic of every step."""
    told = Tally(UNEXPLAINED, _(WHAT_UNEXPLAINED), 0, "")
    right = Tally(WRONG, _(WHAT_WRONG), 0.0, "")
    worded = Tally(IN_WORDS, _(WHAT_IN_WORDS), None, "")
    for figure in case.figures:
        told.count += 1
        where = f"{figure.step}: {figure.what}" if figure.step else figure.what
        if not figure.how.strip():
            text = _("Nothing says how this figure of {value:g} {unit} came about.").format(
                value=figure.value, unit=figure.unit
            )
            told.find("warning", where, text, figure.value)
            continue
        _reckon(figure, where, right, worded)
    if told.count:
        told.worst = float(len(told.findings))
    if told.count:
        worded.see(float(worded.count), worded.where)
        worded.count = told.count
    return together([told.outcome(), right.outcome(), worded.outcome()])


def _reckon(figure: Figure, where: str, tally: Tally, worded: Tally) -> None:
    misses, sums, lands = _again(figure.how, figure.value)
    if not sums:
        worded.count, worded.where = worded.count + 1, where
    for miss in misses or ((0.0,) if sums else ()):
        tally.see(miss, where)
    if misses and max(misses) > 0:
        text = _('The sum "{how}" does not come out as printed; it misses by {miss:.3g}.').format(
            how=figure.how, miss=max(misses)
        )
        tally.find("fault", where, text, max(misses))
    elif not lands:
        text = _('"{how}" does not come to the figure itself, {value:.3f} {unit}.').format(
            how=figure.how, value=figure.value, unit=figure.unit
        )
        tally.find("warning", where, text, figure.value)


@lru_cache(maxsize=4096)
def _again(how: str, value: float) -> tuple[tuple[float, ...], int, bool]:
    """How far each sum misses, how many there are, and whether one of them comes to the figure.

    Two units of the last digit, a tenth of a millimetre or a ten-thousandth of the figure are
    forgiven there, because a sum of rounded parts is printed as the sum of what is printed.
    """
    found = list(claims(how))
    lands = not found or any(
        abs(abs(n.value) - abs(value)) <= max(2 * n.last, 0.01, 1e-4 * abs(value))
        for n in (claim.right for claim in found)
    )
    return tuple(claim.off for claim in found), len(found), lands
