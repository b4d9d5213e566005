"""What a body measure is: its name, where the tape runs, and how it stands on each family of figures.

A `Measure` is declared once, in a file of `measures`; everything else that needs to know about it (the
card, the form, the help, the checks, the estimates, the size charts, the survey tables, both drawn
figures) reads that one declaration.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from cutwright.body.tape import Extent, Tape, Unit
from cutwright.body.way import Way


@dataclass(frozen=True, slots=True)
class Measure:
    """One measure of the body, declared once.

    Parameters
    ----------
    id : snake case of the name in ISO 8559-1 where it has one there
    name : what a cutter calls it
    extent : "round" (the whole girth), "across" (the whole width; the draft halves it),
        "one side" (one shoulder, one arm), "along" (a length down the body), "angle"
    definition : one sentence, from where to where
    how : how to take it
    way : where the tape runs on the drawn figure
    tapes : how it is taken on each family of figures, by the family's id; a family that is added
        later brings its own (`Family.tapes_of_its_own`)
    clause : clause of ISO 8559-1:2017 as other public texts quote it (third party); "" if unknown
    """

    id: str
    name: str
    extent: Extent
    definition: str
    how: str
    way: Way
    tapes: Mapping[str, Tape]
    clause: str = ""

    def __post_init__(self) -> None:
        """Give each tape what it takes over from the measure."""
        own = {family: self.taken(tape) for family, tape in self.tapes.items()}
        object.__setattr__(self, "tapes", own)

    def taken(self, tape: Tape) -> Tape:
        """A tape of this measure, with the measure's words and way where it has none of its own.

        Parameters
        ----------
        tape : how the measure is taken on a family
        """
        return replace(
            tape,
            id=self.id,
            extent=self.extent,
            name=tape.name or self.name,
            definition=tape.definition or self.definition,
            how=tape.how or self.how,
            way=tape.way or self.way,
        )

    @property
    def unit(self) -> Unit:
        """Degrees for an angle, centimetres for everything else."""
        return "degree" if self.extent == "angle" else "cm"
