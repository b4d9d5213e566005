"""The body card: the document that holds one person's measures on one date."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Annotated, Any, Literal

from pydantic import (
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    StringConstraints,
    ValidationError,
)
from pydantic_core import InitErrorDetails, PydanticCustomError

from cutwright.body.families import FAMILIES, family_named, unknown_family
from cutwright.body.family import Family
from cutwright.body.measure import Measure
from cutwright.body.measures import MEASURES, unknown_measure
from cutwright.body.plausibility import check
from cutwright.body.tape import WOMEN
from cutwright.documents import read_document, validated, write_json
from cutwright.errors import DocumentError, MeasureError
from cutwright.messages import N_, Message, Typed
from cutwright.units import parse_angle, parse_length

FORMAT: Literal[1] = 1


class _MeasuresSchema:
    """JSON Schema of the measures: each by its id, a number or a text with its unit."""

    def __get_pydantic_json_schema__(self, *_given: object) -> dict[str, Any]:
        return {
            "type": "object",
            "additionalProperties": False,
            "properties": {m.id: _schema_of(m) for m in MEASURES.values()},
        }


def _schema_of(measure: Measure) -> dict[str, Any]:
    """One measure, within the bounds of the families that take it."""
    tapes = [f.tapes[measure.id] for f in FAMILIES.values() if measure.id in f.tapes]
    lo, hi = min(t.lo for t in tapes), max(t.hi for t in tapes)
    return {
        "title": measure.name,
        "description": f"{measure.definition} ({measure.unit}, {lo:g} to {hi:g})",
        "anyOf": [
            {"type": "number", "minimum": lo, "maximum": hi},
            {"type": "string", "maxLength": 40},
        ],
    }


class _FamilySchema:
    """JSON Schema of the family: one of those there are."""

    def __get_pydantic_json_schema__(self, *_given: object) -> dict[str, Any]:
        return {"type": "string", "enum": list(FAMILIES)}


def _read_one(name: str, given: object) -> float:
    """One measure as it was typed, in cm or degrees, to a hundredth of a millimetre."""
    if name not in MEASURES:
        raise MeasureError(unknown_measure(name))
    read = parse_angle if MEASURES[name].unit == "degree" else parse_length
    return round(read(given), 3)


def _read_measures(given: object) -> object:
    """Every measure as it was typed; all that cannot be read are named together."""
    if not isinstance(given, dict):
        return given
    read: dict[str, float] = {}
    problems: list[InitErrorDetails] = []
    for name, value in given.items():
        try:
            read[name] = _read_one(str(name), value)
        except MeasureError as fault:
            told = PydanticCustomError("measure", "{error}", {"error": fault.message})
            problems.append(InitErrorDetails(type=told, loc=(str(name),), input=value))
    if problems:
        raise ValidationError.from_exception_data("measures", problems)
    return {name: read[name] for name in MEASURES if name in read}


def _known_family(given: object) -> object:
    if isinstance(given, str) and given not in FAMILIES:
        raise PydanticCustomError("family", "{error}", {"error": unknown_family(given)})
    return given


def _one_line(name: object) -> object:
    if isinstance(name, str) and not name.strip().isprintable():
        text = Message("one-plain-line", N_("this must be one plain line."))
        raise PydanticCustomError("name", "{error}", {"error": text})
    return name


Measures = Annotated[
    dict[str, float],
    BeforeValidator(_read_measures),
    _MeasuresSchema(),
]
Name = Annotated[
    str,
    BeforeValidator(_one_line),
    StringConstraints(strip_whitespace=True, min_length=1, max_length=120),
]

FamilyId = Annotated[str, BeforeValidator(_known_family), _FamilySchema()]


class BodyCard(BaseModel):
    """One person's measures on a date; what is not there is estimated when a pattern is drafted."""

    model_config = ConfigDict(extra="forbid", frozen=True, title="Cutwright body card")

    format: Literal[1] = Field(FORMAT, description=N_("Number of this file format."))
    name: Name = Field(description=N_("Whose measures these are."))
    family: FamilyId = Field(
        WOMEN, description=N_("The kind of figure, whose measures and ranges apply.")
    )
    measured_on: date | None = Field(None, description=N_("The day on which they were taken."))
    measures: Measures = Field(
        description=N_(
            'Measures by name: centimetres, or text such as "36 1/2 in"; angles in degrees.'
        )
    )
    notes: str = Field(
        "", max_length=4000, description=N_("Anything worth knowing about the figure.")
    )

    @property
    def taped_values(self) -> dict[str, float]:
        """What was taped, by the id of the measure, in cm and degrees."""
        return self.measures

    @property
    def estimated_values(self) -> dict[str, float]:
        """Nothing: a card holds no estimates (cm and degrees, as on a body)."""
        return {}

    @property
    def kind(self) -> Family:
        """Its family of figures."""
        return family_named(self.family)


def read_card(path: Path) -> BodyCard:
    """Read a body card from the disk; a `DocumentError` names every problem at once.

    What is written wrongly and what no body can have are both problems; what is merely doubtful
    is left to `plausibility.check`.

    Parameters
    ----------
    path : a JSON file

    Raises
    ------
    DocumentError : every problem at once, each at its place
    """
    title = Message(
        "body-card-named", N_("The body card “{name}” cannot be used:"), name=Typed(path.name)
    )
    card = read_document(path, BodyCard, title)
    refuse_impossible(card, title)
    return card


def card_from(raw: object, title: Message | str | None = None) -> BodyCard:
    """A body card from its JSON value, with the same checks as one read from the disk.

    Parameters
    ----------
    raw : what the JSON of a card holds
    title : what stands over the problems

    Raises
    ------
    DocumentError : every problem at once, each at its place
    """
    words = title or Message("body-card", N_("This body card cannot be used:"))
    card = validated(raw, BodyCard, words)
    refuse_impossible(card, words)
    return card


def refuse_impossible(card: BodyCard, title: Message | str) -> None:
    """A `DocumentError` that names every measure beyond what a body can have.

    Parameters
    ----------
    card : the card
    title : what stands over the problems

    Raises
    ------
    DocumentError : a value lies beyond the bounds of its family
    """
    problems = [(f"measures, {d.measure}", d.message) for d in check(card) if d.stops]
    if problems:
        raise DocumentError(title, problems)


def write_card(path: Path, card: BodyCard) -> None:
    """Write a body card to the disk, whole or not at all.

    Parameters
    ----------
    path : the file to write
    card : the card

    Raises
    ------
    StoreError : the file cannot be written
    """
    write_json(path, card.model_dump(mode="json"))


def card_schema() -> dict[str, Any]:
    """The JSON Schema of a body card."""
    return BodyCard.model_json_schema()
