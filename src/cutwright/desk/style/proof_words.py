"""The proof in words for the foot of the sheet: what holds, what does not, by how much."""

from __future__ import annotations

from dataclasses import dataclass

from cutwright.checks.tally import Checked
from cutwright.desk.style.laid_out import LaidOut
from cutwright.numerals import by_custom
from cutwright.pattern.result import Finding, Severity
from cutwright.wording.names import name_text
from cutwright.words import _

_FOREMOST = (
    "seam-walk",
    "edge-flow",
    "fold-square",
    "dart-legs",
    "goes-round-bust",
    "goes-round-waist",
    "goes-round-hip",
    "can-be-put-on",
)


@dataclass(frozen=True, slots=True)
class ProofRow:
    """One line of the proof: `state` is "holds", "doubt" or "fault"."""

    state: str
    what: str
    count: int
    value: str
    limit: str
    where: str


@dataclass(frozen=True, slots=True)
class ProofShown:
    """The proof as the page shows it."""

    brief: tuple[str, ...]
    rows: tuple[ProofRow, ...]
    faults: tuple[Finding, ...]
    doubts: tuple[Finding, ...]
    notes: tuple[Finding, ...]


def proof_rows(laid: LaidOut) -> ProofShown:
    """Every check in words, and the findings sorted by weight."""
    findings = laid.work.findings
    by_level = {
        level: tuple(dict.fromkeys(f for f in findings if f.level == level)) for level in Severity
    }
    bad = {f.code for f in by_level[Severity.FAULT]}
    odd = {f.code for f in by_level[Severity.WARNING]}
    rows = tuple(_row(c, bad, odd) for c in laid.proof.checked if c.count)
    brief = tuple(
        text
        for code in _FOREMOST
        for c in laid.proof.checked
        if c.code == code and c.count and code not in bad and (text := _brief(c))
    )
    return ProofShown(
        brief, rows, by_level[Severity.FAULT], by_level[Severity.WARNING], by_level[Severity.NOTE]
    )


def _row(c: Checked, bad: set[str], odd: set[str]) -> ProofRow:
    state = "fault" if c.code in bad else "doubt" if c.code in odd else "holds"
    limit = "" if c.limit is None else _measure(c.limit, c.unit)
    if limit:
        limit = (_("at least {limit}") if c.least else _("at most {limit}")).format(limit=limit)
    what, _colon, rest = _(c.what).partition(":")
    value = "" if c.worst is None else _measure(c.worst, c.unit)
    value = f"{rest.strip()} {value}".strip() if rest else value
    return ProofRow(state, what, c.count, by_custom(value), by_custom(limit), name_text(c.where))


def _brief(c: Checked) -> str:
    worst = 0.0 if c.worst is None else c.worst
    texts = {
        "seam-walk": _("{count} seams walk, widest gap {mm:.1f} mm"),
        "edge-flow": _("edges flow within {value:.1f}°"),
        "fold-square": _("{count} corners square to the fold"),
        "dart-legs": _("{count} darts close"),
        "goes-round-bust": _("bust has {value:.1f} ease"),
        "goes-round-waist": _("waist has {value:.1f} ease"),
        "goes-round-hip": _("hip has {value:.1f} ease"),
        "can-be-put-on": _("can be put on, {value:.1f} to spare"),
    }
    return by_custom(
        texts[c.code].format(
            count=c.count, value=abs(worst) if not c.least else worst, mm=abs(worst) * 10
        )
    )


def _measure(value: float, unit: str) -> str:
    if unit == "degrees":
        return _("{value:.1f}°").format(value=value)
    if unit == "cm":
        return _("{value:.2f} cm").format(value=value + 0.0)
    if unit == "cm2":
        return _("{value:.1f} cm²").format(value=value)
    if unit == "share":
        return f"{value:.3f}"
    return f"{value:g}"
