"""The list of all body measures, in the order in which a card shows them."""

from __future__ import annotations

from collections.abc import Mapping
from difflib import get_close_matches
from types import MappingProxyType

from cutwright.body.girths import GIRTHS
from cutwright.body.lengths import LENGTHS
from cutwright.body.measure import Measure
from cutwright.body.widths import WIDTHS
from cutwright.errors import MeasureError
from cutwright.messages import N_, Message, Typed, either_of

_FIRST = ("stature", "bust_girth", "waist_girth", "hip_girth")
_DECLARED = {m.id: m for m in (*GIRTHS, *WIDTHS, *LENGTHS)}
MEASURES: Mapping[str, Measure] = MappingProxyType(
    {key: _DECLARED[key] for key in (*_FIRST, *(k for k in _DECLARED if k not in _FIRST))}
)
"""Every measure by its id; the four that are always taped come first."""

NEEDED: tuple[str, ...] = _FIRST
"""The least a customer is asked to have taped; the rest can be estimated from these."""


def measure(name: str) -> Measure:
    """The declaration of a measure by its id; a `MeasureError` proposes near names."""
    found = MEASURES.get(name)
    if found is None:
        raise MeasureError(unknown_measure(name))
    return found


def unknown_measure(name: str) -> Message:
    """The sentence that says there is no such measure and what was perhaps meant."""
    word = name.strip().lower().replace(" ", "_").replace("-", "_")
    near = [key for key in MEASURES if word and f"_{key}_".find(f"_{word}_") >= 0][:3]
    near = near or get_close_matches(word, MEASURES, n=3, cutoff=0.6)
    if near:
        return Message(
            "no-such-measure-near",
            N_("There is no measure called “{name}”. Did you mean {near}?"),
            name=Typed(name),
            near=either_of([Typed(key) for key in near]),
        )
    return Message(
        "no-such-measure",
        N_("There is no measure called “{name}”; the list of measures names them all."),
        name=Typed(name),
    )
