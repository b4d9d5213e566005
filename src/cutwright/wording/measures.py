"""The list of measures as rows for a page or a terminal: what each is, how it is taken or estimated."""

from __future__ import annotations

from dataclasses import dataclass

from cutwright.body.families import family_named
from cutwright.body.family import Family
from cutwright.body.measures import MEASURES
from cutwright.body.rule import Rule
from cutwright.body.tape import Tape
from cutwright.wording.terms import inside
from cutwright.words import _


@dataclass(frozen=True, slots=True)
class MeasureRow:
    """One measure in words, ready to be shown."""

    id: str
    name: str
    unit: str
    bounds: str
    extent: str
    definition: str
    how: str
    standard: str
    estimate: str
    asks: bool
    needed: bool


def describe_measures(kind: Family | None = None) -> tuple[MeasureRow, ...]:
    """A row for every measure of a family (women if not given), in the order of a card, in the language in force."""
    kind = kind or family_named()
    return tuple(_row(tape, kind) for tape in kind.tapes.values())


def _row(tape: Tape, kind: Family) -> MeasureRow:
    clause = MEASURES[tape.id].clause
    return MeasureRow(
        id=tape.id,
        name=_(tape.name),
        unit="°" if tape.unit == "degree" else "cm",
        bounds=_("{lo:g} to {hi:g}").format(lo=tape.lo, hi=tape.hi),
        extent={
            "round": _("whole girth"),
            "across": _("whole width"),
            "one side": _("one side"),
            "along": _("length"),
            "angle": _("angle"),
        }[tape.extent],
        definition=_(tape.definition),
        how=_(tape.how),
        standard=(
            _("ISO 8559-1:2017, {clause} (as other texts quote it)").format(clause=clause)
            if clause
            else ""
        ),
        estimate="; ".join(_estimates(tape, kind)),
        asks=tape.ask,
        needed=tape.id in kind.needed,
    )


def _estimates(tape: Tape, kind: Family) -> list[str]:
    """How a measure is estimated, each way with how far it may be out, a line written out as a sum."""
    unit = "°" if tape.unit == "degree" else " cm"
    told: dict[str, None] = {}
    for rule in tape.estimates:
        told[
            _("{rule} (± {spread:.1f}{unit})").format(
                rule=_(rule.text), spread=rule.spread, unit=unit
            )
        ] = None
        if rule.fit is not None:
            told[_sum(rule, kind)] = None
    return list(told)


def _sum(rule: Rule, kind: Family) -> str:
    """A straight line written out as a sum."""
    assert rule.fit is not None
    terms = [
        f"{each:+.4f} × {inside(_(kind.tape(name).name))}"
        for each, name in zip(rule.fit.by, rule.fit.over, strict=True)
    ]
    return " ".join([*terms, f"{rule.fit.constant:+.2f}"])
