"""A body card as the page shows it: what was taped, what is estimated, what looks like a slip."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Literal

from pydantic import BaseModel

from cutwright.body.card import BodyCard, card_from
from cutwright.body.family import Family
from cutwright.body.measures import MEASURES
from cutwright.body.plausibility import check
from cutwright.body.resolve import resolve
from cutwright.book.nouns import Document
from cutwright.errors import DocumentError, MeasureError, StepError
from cutwright.numerals import by_custom
from cutwright.units import angle_message, length_message, parse_length
from cutwright.wording.measures import MeasureRow, describe_measures
from cutwright.wording.message_text import message_text
from cutwright.wording.message_text import message_text as say
from cutwright.wording.names import called
from cutwright.words import N_, _

LengthUnit = Literal["cm", "in"]

GROUPS = {
    "round": N_("Round the body"),
    "along": N_("Lengths"),
    "across": N_("Across"),
    "one side": N_("Shoulder and arm"),
    "angle": N_("Slope"),
}


class MeasureShown(BaseModel):
    """A measure: what stands in its field, and what is estimated where nothing does."""

    value: str
    estimate: str
    doubt: str = ""
    suggestion: str = ""


class BodyShown(BaseModel):
    """Where a body card stands."""

    revision: int
    can_undo: bool
    can_redo: bool
    name: str
    measured_on: str
    notes: str
    measures: dict[str, MeasureShown]


@dataclass(frozen=True, slots=True)
class MeasureGroup:
    """Measures taken alike."""

    title: str
    rows: tuple[MeasureRow, ...]


def groups(kind: Family) -> list[MeasureGroup]:
    """The measures of a family in groups, in the order of a card."""
    rows = describe_measures(kind)
    alike = {
        title: tuple(row for row in rows if MEASURES[row.id].extent == extent)
        for extent, title in GROUPS.items()
    }
    return [MeasureGroup(_(title), found) for title, found in alike.items() if found]


def body_shown(document: Document, unit: LengthUnit) -> BodyShown:
    """A body card with its estimates and doubts, in the unit asked for."""
    card = card_from(document.content)
    body = resolve(card)
    doubts = {d.measure: d for d in check(card)}
    shown = {}
    for reading in body.readings():
        name = reading.measure
        doubt = doubts.get(name)
        guess = doubt.suggestion if doubt else None
        shown[name] = MeasureShown(
            value=_bare(name, reading.value, unit) if reading.taped else "",
            estimate="" if reading.taped else _estimate(name, reading.value, reading.spread, unit),
            doubt=say(doubt.message) if doubt else "",
            suggestion="" if guess is None else _bare(name, guess, unit),
        )
    return BodyShown(
        revision=document.revision,
        can_undo=document.can_undo,
        can_redo=document.can_redo,
        name=called(card.name),
        measured_on=card.measured_on.isoformat() if card.measured_on else "",
        notes=card.notes,
        measures=shown,
    )


def _bare(name: str, value: float, unit: LengthUnit) -> str:
    """A value as it stands in a field: without its unit in cm, as an inch text in inches."""
    if MEASURES[name].unit == "degree":
        return by_custom(f"{value:g}")
    return (
        by_custom(f"{round(value, 2):g}")
        if unit == "cm"
        else say(length_message(value, "in", parts=16))
    )


def _estimate(name: str, value: float, spread: float | None, unit: LengthUnit) -> str:
    angle = MEASURES[name].unit == "degree"
    text = say(angle_message(value) if angle else length_message(value, unit))
    if spread is None:
        return _("about {value}").format(value=text)
    off = say(angle_message(spread) if angle else length_message(spread, unit))
    return _("about {value}, ± {spread}").format(value=text, spread=off)


def line_of(content: dict[str, Any], name: str) -> Any:
    """What a card holds in one of its lines: a measure, or its name, date or notes."""
    return content.get("measures", {}).get(name) if name in MEASURES else content.get(name)


def changed_card(content: dict[str, Any], fields: dict[str, str], unit: LengthUnit) -> BodyCard:
    """A card with some of its lines as they were typed; every problem named at its measure."""
    row = {**content, "measures": dict(content.get("measures", {}))}
    problems: list[tuple[str, str]] = []
    for name, text in fields.items():
        if name in ("name", "notes"):
            row[name] = text
        elif name == "measured_on":
            row[name] = text or None
        elif name in MEASURES:
            _put(row["measures"], name, text, unit, problems)
        else:
            raise StepError(_("A body card has no line “{name}”.").format(name=name[:60]))
    if problems:
        raise DocumentError(_("This does not fit there:"), problems)
    card = card_from(row, _("This does not fit there:"))
    resolve(card)
    return card


def _put(
    measures: dict[str, Any],
    name: str,
    text: str,
    unit: LengthUnit,
    problems: list[tuple[str, str]],
) -> None:
    if not text.strip():
        measures.pop(name, None)
        return
    try:
        value: Any = text if MEASURES[name].unit == "degree" else parse_length(text, unit)
    except MeasureError as fault:
        problems.append((name, message_text(fault)))
        return
    measures[name] = value
