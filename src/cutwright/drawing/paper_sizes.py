"""The sizes of paper that a printer or a copy shop has, each declared once."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from cutwright.messages import N_


@dataclass(frozen=True, slots=True)
class PaperSize:
    """A size of paper, upright.

    Parameters
    ----------
    name : what it is called, in every language
    width, height : cm
    joined : whether sheets of it are joined to a pattern; a larger one is printed by a shop
    for_text : whether the work sheet is printed on it
    """

    name: str
    width: float
    height: float
    joined: bool = True
    for_text: bool = False


PAPER_SIZES: Mapping[str, PaperSize] = MappingProxyType(
    {
        size.name.casefold(): size
        for size in (
            PaperSize(N_("A4"), 21.0, 29.7, for_text=True),
            PaperSize(N_("Letter"), 21.59, 27.94, for_text=True),
            PaperSize("A3", 29.7, 42.0),
            PaperSize("A0", 84.1, 118.9, joined=False),
            PaperSize("A1", 59.4, 84.1, joined=False),
        )
    }
)
"""Every size by its name in small letters. ISO 216 for A sizes; US Letter is 8.5 by 11 inches."""
