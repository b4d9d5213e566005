"""The list of measures as rows for a page or a terminal: what each is, how it is taken or estimated."""

from __future__ import annotations

from dataclasses import dataclass

from cutwright.body.fits import FITS
from cutwright.body.measure import Measure
from cutwright.body.measures import MEASURES, NEEDED
from cutwright.body.rules import RULES
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


def describe_measures() -> tuple[MeasureRow, ...]:
    """A row for every measure, in the order of a card, in the language in force."""
    return tuple(_row(m) for m in MEASURES.values())


def _row(m: Measure) -> MeasureRow:
    return MeasureRow(
        id=m.id,
        name=_(m.name),
        unit="°" if m.unit == "degree" else "cm",
        bounds=_("{lo:g} to {hi:g}").format(lo=m.lo, hi=m.hi),
        extent={
            "round": _("whole girth"),
            "across": _("whole width"),
            "one side": _("one side"),
            "along": _("length"),
            "angle": _("angle"),
        }[m.extent],
        definition=_(m.definition),
        how=_(m.how),
        standard=(
            _("ISO 8559-1:2017, {clause} (as other texts quote it)").format(clause=m.clause)
            if m.clause
            else ""
        ),
        estimate="; ".join(_estimate(m)),
        asks=m.ask,
        needed=m.id in NEEDED,
    )


def _estimate(m: Measure) -> list[str]:
    """How a measure is estimated, each way with how far it may be out."""
    unit = "°" if m.unit == "degree" else " cm"
    told = {
        _("{rule} (± {spread:.1f}{unit})").format(rule=_(r.text), spread=r.spread, unit=unit): None
        for r in RULES[m.id]
    }
    return [*told, *([_sum(m.id)] if m.id in FITS else [])]


def _sum(name: str) -> str:
    """A fit written out as a sum."""
    fit = FITS[name]
    return _("{a:+.4f} × height {b:+.4f} × bust {c:+.4f} × hip {d:+.2f}").format(
        a=fit.stature, b=fit.bust, c=fit.hip, d=fit.constant
    )
