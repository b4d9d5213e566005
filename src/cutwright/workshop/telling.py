"""The lines in which a proof is told."""

from __future__ import annotations

from cutwright.checks.tally import Checked
from cutwright.numerals import short
from cutwright.words import _, ngettext


def figure(value: float, unit: str) -> str:
    """A measured value with its unit, as short as it can be told."""
    digits = {"cm": 3, "degrees": 2, "cm2": 2}.get(unit, 2)
    names = {"cm": _("cm"), "degrees": _("degrees"), "cm2": _("cm²")}
    return f"{short(value, digits)} {names.get(unit, '')}".strip()


def proof_line(row: Checked) -> str:
    """How many places were looked at, the worst of them, and what is allowed."""
    places = ngettext("{count} place", "{count} places", row.count).format(count=row.count)
    if row.worst is None:
        return places
    worst = figure(row.worst, row.unit)
    if row.limit is None:
        return _("{places}, {worst}").format(places=places, worst=worst)
    limit = figure(row.limit, row.unit)
    text = (
        _("{places}, least {worst} (at least {limit} wanted)")
        if row.least
        else _("{places}, largest {worst} ({limit} allowed)")
    )
    return text.format(places=places, worst=worst, limit=limit)
