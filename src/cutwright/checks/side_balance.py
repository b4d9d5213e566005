"""Front and back flare alike: at a side seam that runs to the hem both lean as much from the grain.

The limits are common practice, without a source.
"""

from __future__ import annotations

from itertools import combinations
from math import degrees

from cutwright.checks.case import Case, LaidSeam
from cutwright.checks.corner import Corner, entered_at, left_at
from cutwright.checks.limits import Limits
from cutwright.checks.tally import Outcome, Tally, gather
from cutwright.memo import memoised
from cutwright.messages import N_, Message
from cutwright.pattern.edge import EdgeKind
from cutwright.pattern.result import Severity
from cutwright.pattern.seam import SeamKind
from cutwright.pattern.sewing.rows import Stretch
from cutwright.pattern.shaping.leans import lean

CODE = "side-balance"
WHAT = N_("side seams hang plumb: largest difference of lean between their two sides")


def side_balance(case: Case) -> Outcome:
    """Compare the leans of both sides of each side seam that ends at a hem."""
    tally = _blank(case.limits)
    gather((tally,), ((_of_seam(laid, case.limits),) for laid in case.seams))
    return tally.outcome()


def _blank(limits: Limits) -> Tally:
    return Tally(CODE, WHAT, limits.balance, "degrees")


@memoised
def _of_seam(laid: LaidSeam, limits: Limits) -> Tally:
    tally = _blank(limits)
    if laid.seam.kind in (SeamKind.PLAIN, SeamKind.EASED):
        ends = [(w[0], entered_at(w[0])) for w in laid.rows]
        others = [(w[-1], left_at(w[-1])) for w in laid.rows]
        for one, other in (*combinations(ends, 2), *combinations(others, 2)):
            if all(_side_at_hem(walked, corner) for walked, corner in (one, other)):
                _compare(laid, one[0], other[0], limits, tally)
    return tally


def _side_at_hem(walked: Stretch, corner: Corner) -> bool:
    return walked.edge.kind is EdgeKind.SIDE and corner.other(walked.edge).kind is EdgeKind.HEM


def _compare(laid: LaidSeam, one: Stretch, other: Stretch, limits: Limits, tally: Tally) -> None:
    leans = [degrees(lean(walked.piece, walked.edge)) for walked in (one, other)]
    off = abs(leans[0] - leans[1])
    tally.see(off, laid.where)
    if off <= limits.balance + 0.05:
        return
    text = Message(
        "sides-seam-lean-grain-will",
        N_(
            "The sides of this seam lean {a:.1f}° ({first}) and {b:.1f}° ({second}) from the grain: it will "
            "swing {off:.1f}° out of plumb; up to {limit:g}° is usual. Balance the flare of these two pieces."
        ),
        a=leans[0],
        b=leans[1],
        first=one.piece.name,
        second=other.piece.name,
        off=off,
        limit=limits.balance,
    )
    level = Severity.WARNING if off > limits.unbalanced + 0.05 else Severity.NOTE
    tally.find(level, laid.where, text, off, one.edge.end)
