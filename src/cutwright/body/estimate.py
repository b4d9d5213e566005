"""The measures that were not taped, worked out from those that were."""

from __future__ import annotations

from collections.abc import Container, Mapping
from dataclasses import dataclass
from math import sqrt
from typing import Literal

from cutwright.body.rule import Rule
from cutwright.body.tape import Tape
from cutwright.errors import MeasureError
from cutwright.messages import N_, Message

Source = Literal["taped", "estimated"]


@dataclass(frozen=True, slots=True)
class Reading:
    """One measure of one body.

    Parameters
    ----------
    measure : id of the measure
    value : cm, or degrees for an angle
    source : "taped" or "estimated"
    spread : two standard deviations of the estimate; None where it was taped
    rule : how it was estimated, in words; "" where it was taped
    """

    measure: str
    value: float
    source: Source
    spread: float | None = None
    rule: str = ""

    @property
    def taped(self) -> bool:
        """Whether a tape gave it."""
        return self.source == "taped"


def complete(taped: Mapping[str, float], tapes: Mapping[str, Tape]) -> dict[str, Reading]:
    """A reading for every measure of a family.

    Parameters
    ----------
    taped : values in cm and degrees, among them one of the family's `one_of`
    tapes : those of the family
    """
    found = {name: Reading(name, value, "taped") for name, value in taped.items()}
    for name in tapes:
        _find(name, found, tapes)
    return found


def estimated(name: str, taped: Mapping[str, float], tapes: Mapping[str, Tape]) -> float:
    """One measure as it follows from the taped ones, in its unit: what `complete` gives for it.

    Parameters
    ----------
    name : id of the measure
    taped : values in cm and degrees
    tapes : those of the family
    """
    if name in taped:
        return taped[name]
    rule = _rule_for(tapes[name], taped)
    return rule.work(*(estimated(need, taped, tapes) for need in rule.needs))


def _find(name: str, found: dict[str, Reading], tapes: Mapping[str, Tape]) -> Reading:
    """The reading of one measure, estimating first what it is estimated from."""
    if name not in found:
        taped = {each for each, reading in found.items() if reading.taped}
        rule = _rule_for(tapes[name], taped)
        inputs = [_find(need, found, tapes) for need in rule.needs]
        value = rule.work(*(reading.value for reading in inputs))
        found[name] = Reading(name, value, "estimated", _spread(rule, inputs, value), rule.text)
    return found[name]


def _rule_for(tape: Tape, taped: Container[str]) -> Rule:
    """The first rule of a measure whose wanted tapes are there."""
    for rule in tape.estimates:
        if all(want in taped for want in rule.taped):
            return rule
    raise MeasureError(
        Message(
            "not-to-be-estimated",
            N_("“{name}” cannot be estimated from what was measured; measure it."),
            name=tape.name,
        )
    )


def _spread(rule: Rule, inputs: list[Reading], value: float) -> float:
    """Two standard deviations: the rule's own and what its estimated inputs add.

    Errors of the inputs are taken as independent of each other.
    """
    total = rule.spread**2
    values = [reading.value for reading in inputs]
    for place, reading in enumerate(inputs):
        if reading.spread:
            moved = values.copy()
            moved[place] += reading.spread
            total += (rule.work(*moved) - value) ** 2
    return sqrt(total)
