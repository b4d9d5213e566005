"""The list of all body measures, in the order in which a card shows them, a file for each kind.

A new measure is one `Measure` in one of these files: its words, its way on the drawn figure and how it is
taken, estimated and believed on each family of figures. Clauses are those of ISO 8559-1:2017 as public texts
quote them; the standard itself was not seen. Bounds are generous limits of what a grown body has (common
practice, no source). The waist is the dressmaker's: where a tied tape rests, a little below the level midway
between lowest rib and hip bone, and well above the navel.
"""

from __future__ import annotations

from collections.abc import Mapping
from difflib import get_close_matches
from types import MappingProxyType

from cutwright.body.measure import Measure
from cutwright.body.measures.arm_lengths import ARM_LENGTHS
from cutwright.body.measures.leg_lengths import LEG_LENGTHS
from cutwright.body.measures.limb_girths import LIMB_GIRTHS
from cutwright.body.measures.trunk_girths import TRUNK_GIRTHS
from cutwright.body.measures.upper_lengths import UPPER_LENGTHS
from cutwright.body.measures.widths import WIDTHS
from cutwright.errors import MeasureError
from cutwright.messages import N_, Message, Typed, either_of

FIRST = ("stature", "bust_girth", "waist_girth", "hip_girth")
"""What stands first on a card."""

_DECLARED = {
    m.id: m
    for m in (
        *TRUNK_GIRTHS, *LIMB_GIRTHS, *WIDTHS, *UPPER_LENGTHS, *LEG_LENGTHS, *ARM_LENGTHS
    )
}  # fmt: skip
_KNOWN = {key: _DECLARED[key] for key in (*FIRST, *(k for k in _DECLARED if k not in FIRST))}

MEASURES: Mapping[str, Measure] = MappingProxyType(_KNOWN)
"""Every measure by its id; the four that are always taped come first."""


def measure(name: str) -> Measure:
    """The declaration of a measure by its id; a `MeasureError` proposes near names.

    Parameters
    ----------
    name : id of a measure, such as "bust_girth"

    Raises
    ------
    MeasureError : there is no such measure; near names are proposed
    """
    found = MEASURES.get(name)
    if found is None:
        raise MeasureError(unknown_measure(name))
    return found


def unknown_measure(name: str) -> Message:
    """The sentence that says there is no such measure and what was perhaps meant.

    Parameters
    ----------
    name : as it was written
    """
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
