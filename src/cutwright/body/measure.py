"""What a body measure is: its name, where the tape runs, and what a body can have.

A `Measure` is declared once, in `girths`, `lengths` or `widths`; everything else that needs to know
about it (the card, the form, the help, the checks) reads that one declaration.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Unit = Literal["cm", "degree"]
Extent = Literal["round", "across", "one side", "along", "angle"]


@dataclass(frozen=True, slots=True)
class Measure:
    """One measure of the body, declared once.

    Parameters
    ----------
    id : snake case of the name in ISO 8559-1 where it has one there
    name : what a cutter calls it
    extent : "round" (the whole girth), "across" (the whole width; the draft halves it),
        "one side" (one shoulder, one arm), "along" (a length down the body), "angle"
    lo, hi : what a grown body can have, in `unit`; beyond it the tool stops and asks
    definition : one sentence, from where to where
    how : how to take it
    clause : clause of ISO 8559-1:2017 as other public texts quote it (third party); "" if unknown
    ask : the estimate is so poor that the tool asks for the tape
    """

    id: str
    name: str
    extent: Extent
    lo: float
    hi: float
    definition: str
    how: str
    clause: str = ""
    ask: bool = False

    @property
    def unit(self) -> Unit:
        """Degrees for an angle, centimetres for everything else."""
        return "degree" if self.extent == "angle" else "cm"

    def holds(self, value: float) -> bool:
        """Whether a body can have this value at all."""
        return self.lo <= value <= self.hi
