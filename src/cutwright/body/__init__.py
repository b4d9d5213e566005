"""The measured person: measures, the card they are written on, and what is estimated from them."""

from __future__ import annotations

from cutwright.body.body import Body, Note
from cutwright.body.card import BodyCard, card_from, card_schema, read_card, write_card
from cutwright.body.estimate import Reading
from cutwright.body.families import FAMILIES, family_named
from cutwright.body.family import Family
from cutwright.body.measure import Measure
from cutwright.body.measures import MEASURES, measure
from cutwright.body.plausibility import Doubt, check
from cutwright.body.resolve import resolve

__all__ = [
    "FAMILIES",
    "MEASURES",
    "Body",
    "BodyCard",
    "Doubt",
    "Family",
    "Measure",
    "Note",
    "Reading",
    "card_from",
    "card_schema",
    "check",
    "family_named",
    "measure",
    "read_card",
    "resolve",
    "write_card",
]
