"""From a card with some measures to a body with all of them."""

from __future__ import annotations

from collections.abc import Mapping
from math import sqrt

from cutwright.body.body import Body, Note, Reading
from cutwright.body.card import BodyCard
from cutwright.body.measures import MEASURES
from cutwright.body.plausibility import check
from cutwright.body.rules import RULES, Rule
from cutwright.errors import MeasureError
from cutwright.messages import N_, Message, Typed, lines_of


def resolve(card: BodyCard) -> Body:
    """Complete a card: taped measures are kept, the rest estimated from them.

    At least the bust or the hip must be there. Stops with a `MeasureError` where a taped value
    lies beyond what a body can have.
    """
    impossible = [doubt for doubt in check(card) if doubt.stops]
    if impossible:
        raise MeasureError(lines_of([doubt.message for doubt in impossible]))
    if not {"bust_girth", "hip_girth"} & card.measures.keys():
        raise MeasureError(
            Message(
                "neither-bust-nor-hip",
                N_("Neither bust nor hip was taken for {name}; take both, with height and waist."),
                name=Typed(card.name),
            )
        )
    found = complete(card.measures)
    readings = tuple(found[name] for name in MEASURES)
    return Body(card.name, readings, _notes(readings))


def complete(taped: Mapping[str, float]) -> dict[str, Reading]:
    """A reading for every measure, from taped values that include the bust or the hip."""
    found = {name: Reading(name, value, "taped") for name, value in taped.items()}
    for name in MEASURES:
        _find(name, found)
    return found


def _find(name: str, found: dict[str, Reading]) -> Reading:
    """The reading of one measure, estimating first what it is estimated from."""
    if name not in found:
        rule = _rule_for(name, found)
        inputs = [_find(need, found) for need in rule.needs]
        value = rule.work(*(reading.value for reading in inputs))
        found[name] = Reading(name, value, "estimated", _spread(rule, inputs, value), rule.text)
    return found[name]


def _rule_for(name: str, found: Mapping[str, Reading]) -> Rule:
    """The first rule of a measure whose wanted tapes are there."""
    for rule in RULES[name]:
        if all(want in found and found[want].taped for want in rule.taped):
            return rule
    raise MeasureError(
        Message(
            "not-to-be-estimated",
            N_("“{name}” cannot be estimated from what was measured; measure it."),
            name=MEASURES[name].name,
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


def _notes(readings: tuple[Reading, ...]) -> tuple[Note, ...]:
    """Ask for the tape where an estimate is poor, with how far it may be out."""
    text = N_("{name} is estimated at {value:.1f} ± {spread:.1f} cm; please measure it.")
    return tuple(
        Note(
            reading.measure,
            Message(
                "please-tape",
                text,
                name=MEASURES[reading.measure].name,
                value=reading.value,
                spread=reading.spread,
            ),
        )
        for reading in readings
        if MEASURES[reading.measure].ask and not reading.taped
    )
