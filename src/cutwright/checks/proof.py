"""The proof of a pattern: every check gone through, what was found and what was measured."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import partial

from cutwright.body.body import Body
from cutwright.checks.allowance_run import allowance_run
from cutwright.checks.band_ease import band_ease
from cutwright.checks.band_ends import band_ends
from cutwright.checks.case import Case, laid_seams
from cutwright.checks.darts import darts
from cutwright.checks.darts_meet import darts_meet
from cutwright.checks.edge_bend import edge_bend
from cutwright.checks.edge_flow import edge_flow
from cutwright.checks.edge_smooth import edge_smooth
from cutwright.checks.fold import fold
from cutwright.checks.limits import HOUSE, Limits
from cutwright.checks.notch_walk import notch_walk
from cutwright.checks.outline import outline_simple
from cutwright.checks.put_on import put_on
from cutwright.checks.ranges import ranges
from cutwright.checks.round_arm import round_arm
from cutwright.checks.round_body import round_body
from cutwright.checks.seam_walk import seam_walk
from cutwright.checks.side_balance import side_balance
from cutwright.checks.tally import Checked, Outcome, together
from cutwright.checks.turning import prove_stages
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.result import Finding, Severity
from cutwright.style.replay import Replay, Stage
from cutwright.unforeseen import foreseen

CHECKS: tuple[Callable[[Case], Outcome], ...] = (
    outline_simple,
    seam_walk,
    notch_walk,
    edge_flow,
    edge_smooth,
    edge_bend,
    side_balance,
    allowance_run,
    fold,
    darts,
    darts_meet,
    round_body,
    band_ease,
    band_ends,
    round_arm,
    put_on,
)
BROKEN = "check-broken"
"""The finding where a check itself broke; its place is the check."""
_ORDER = {Severity.FAULT: 0, Severity.WARNING: 1, Severity.NOTE: 2}


@dataclass(frozen=True, slots=True)
class Proof:
    """What the checks found, worst first, and what they measured.

    `checked` has a line for every check, also where all is well, so that a work sheet can say how
    many seams walk and by how much the widest is off.
    """

    findings: tuple[Finding, ...]
    checked: tuple[Checked, ...]

    @property
    def faults(self) -> tuple[Finding, ...]:
        """What must be put right before cutting."""
        return tuple(f for f in self.findings if f.level == Severity.FAULT)

    @property
    def sound(self) -> bool:
        """Whether there is no fault."""
        return not self.faults

    def measured(self, code: str) -> Checked:
        """The line of one check; a KeyError for a code there is not."""
        for row in self.checked:
            if row.code == code:
                return row
        raise KeyError(code)


def prove(
    pattern: Pattern,
    body: Body | None = None,
    stages: Sequence[Stage] = (),
    limits: Limits = HOUSE,
    allowances: Mapping[tuple[str, str], float] | None = None,
) -> Proof:
    """Prove a pattern by every rule.

    Without a body nothing is said about going round it and putting it on; without stages
    nothing about the turning of paper; without allowances (cm, by piece
    and edge label) nothing about them.
    """
    case = laid_seams(pattern, body, limits, allowances)
    every = together(
        [
            *(_gone_through(check.__name__, partial(check, case)) for check in CHECKS),
            _gone_through("turning", partial(prove_stages, stages, limits)),
            _gone_through("ranges", partial(ranges, stages, body)),
        ]
    )
    findings = tuple(sorted(every.findings, key=lambda f: _ORDER.get(f.level, 3)))
    return Proof(findings, every.checked)


def _gone_through(name: str, check: Callable[[], Outcome]) -> Outcome:
    """What a check brings back; one that breaks is a fault, and the others go on."""
    try:
        return check()
    except Exception as fault:
        return Outcome(
            (Finding(BROKEN, Severity.FAULT, name.replace("_", "-"), foreseen(fault).message),)
        )


def prove_replay(done: Replay, limits: Limits = HOUSE) -> Proof:
    """Prove the outcome of a style worked on a body, and its steps."""
    return prove(done.pattern, done.body, done.stages, limits)
