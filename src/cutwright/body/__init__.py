"""The measured person: measures, the card they are written on, and what is estimated from them."""

from __future__ import annotations

from cutwright.body.body import Body, Note, Reading
from cutwright.body.card import BodyCard, card_from, card_schema, read_card, write_card
from cutwright.body.measure import Measure
from cutwright.body.measures import MEASURES, NEEDED, measure
from cutwright.body.plausibility import Doubt, check
from cutwright.body.resolve import resolve

__all__ = [
    "MEASURES",
    "NEEDED",
    "Body",
    "BodyCard",
    "Doubt",
    "Measure",
    "Note",
    "Reading",
    "card_from",
    "card_schema",
    "check",
    "measure",
    "read_card",
    "resolve",
    "write_card",
]
