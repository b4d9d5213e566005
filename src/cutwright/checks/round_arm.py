"""Rule 6 at the arm: an armhole goes round the upper arm with room to move."""

from __future__ import annotations

from cutwright.checks.case import Case
from cutwright.checks.tally import Outcome, Tally
from cutwright.messages import N_, Message
from cutwright.pattern.edge import EdgeKind
from cutwright.pattern.result import Severity

CODE = "goes-round-arm"
WHAT = N_("room round the upper arm in the armhole: least")


def round_arm(case: Case) -> Outcome:
    """Hold the sewn length of one armhole against the upper arm."""
    tally = Tally(CODE, WHAT, case.limits.ease_arm, "cm", least=True)
    found = [
        (piece, edge)
        for piece in case.pattern.pieces
        if piece.goes_round
        for edge in piece.edges
        if edge.kind is EdgeKind.ARMHOLE
    ]
    if case.body is None or not found:
        return tally.outcome()
    armhole = sum(edge.length * piece.times for piece, edge in found) / 2
    arm = case.body.value("upper_arm_girth")
    piece, edge = found[0]
    where = f"{piece.name}: {edge.name}"
    tally.see(armhole - arm, where)
    if armhole - arm < case.limits.ease_arm:
        text = Message(
            "armhole-cm-round-upper-arm",
            N_(
                "One armhole is {armhole:.1f} cm round and the upper arm {arm:.1f} cm: {ease:.1f} cm ease, at least "
                "{least:g} cm is needed. Make the armhole deeper."
            ),
            armhole=armhole,
            arm=arm,
            ease=armhole - arm,
            least=case.limits.ease_arm,
        )
        tally.find(Severity.FAULT, where, text, armhole - arm, edge.start)
    return tally.outcome()
