"""What was proved, and what is still doubtful."""

from __future__ import annotations

from cutwright.checks.proof import Proof
from cutwright.checks.tally import Checked
from cutwright.numerals import short
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.result import Finding, Severity
from cutwright.wording.message_text import message_text
from cutwright.wording.names import sentence_case
from cutwright.words import _
from cutwright.worksheet.sheet import Block, Section, SheetTable, Text


def proof_section(proof: Proof, pattern: Pattern, findings: tuple[Finding, ...] = ()) -> Section:
    """Every check with the largest deviation found, then the findings, faults first."""
    rows = tuple(_row(row, pattern) for row in proof.checked if row.count)
    head = (_("What was checked"), _("largest or least found"), _("allowed"))
    blocks: list[Block] = [SheetTable(head, rows, (0.69, 0.14, 0.17), frozenset({1, 2}))]
    order = {Severity.FAULT: 0, Severity.WARNING: 1, Severity.NOTE: 2}
    for finding in sorted(findings, key=lambda f: order.get(f.level, 3)):
        kind = "note" if finding.level == Severity.NOTE else "caution"
        blocks.append(Text(message_text(finding.message), kind))
    title = _("Proof") if proof.sound else _("Proof: this pattern does not sew together yet")
    return Section("proof", title, tuple(blocks))


def _row(row: Checked, pattern: Pattern) -> tuple[str, str, str]:
    what = sentence_case(_(row.what))
    limit = "" if row.limit is None else _value(row.limit, row.unit)
    if row.least and limit:
        limit = _("at least {limit}").format(limit=limit)
    worst = "–" if row.worst is None else _value(row.worst, row.unit)
    return what, worst, limit


def _value(value: float, unit: str) -> str:
    places = {"cm": 3, "degrees": 2, "cm2": 2}.get(unit, 2)
    if 0 < abs(value) < 0.5 * 10**-places:
        value = 0.0
    names = {"cm": _("cm"), "degrees": "°", "cm2": _("cm²")}
    text = f"{short(value, places)} {names.get(unit, '')}".strip()
    return text.replace(" °", "°")
