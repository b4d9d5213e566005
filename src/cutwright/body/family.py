"""A family of figures (women, men, children): all that the program knows of bodies that are alike.

A family is one file in `families`. It owns which measures are taken and how they are described, their
bounds, estimates and believed ranges, the chart of sizes, the usual figures of a block, the demo body and
the drawn figure. Whoever reads one of these asks the family of the body.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from cutwright.body.measures import MEASURES, measure
from cutwright.body.outline import STANDING, Outline
from cutwright.body.tape import Tape
from cutwright.errors import MeasureError
from cutwright.messages import N_, Message


@dataclass(frozen=True, slots=True)
class Chart:
    """The sizes of a family: smooth sums of one girth and the height, no table behind them.

    How each measure follows stands with its tape (`Tape.chart`).

    Parameters
    ----------
    girth : id of the measure by which the sizes go
    middle : that girth and the height of the middle size, in cm
    girths : the girths of the chart, in cm; the last is the largest that can be asked for
    rows : height of each row of sizes, in cm; the first girth and row named are shown first
    shown : what each row is called
    heights : least and greatest height that can be asked for beside the rows, in cm
    named_by_row, named_by_height : what a size is called, of {girth} and {row} or {height}
    off : what is said of a girth that is not on the chart, of {girth}, {lo} and {hi}
    offered : girth and row that are proposed
    """

    girth: str
    middle: tuple[float, float]
    girths: tuple[int, ...]
    rows: Mapping[str, float]
    shown: Mapping[str, str]
    heights: tuple[float, float]
    named_by_row: str
    named_by_height: str
    off: str
    offered: tuple[int, str]


@dataclass(frozen=True, slots=True)
class UsualFigure:
    """From where to where a figure of a block is usual, in its unit; `per_girth` moves it with the bust."""

    lo: float
    hi: float
    per_girth: float = 0.0


@dataclass(frozen=True, slots=True)
class Usual:
    """What a practised eye expects of a close block for a body near the middle one.

    Parameters
    ----------
    body : the middle body: measures by id, in cm
    near : how far a body may be off in each of these, in cm
    ease : least and most ease round the bust of the block, in cm
    figures : by the code of the figure (`checks.ranges`)
    """

    body: Mapping[str, float]
    near: float
    ease: tuple[float, float]
    figures: Mapping[str, UsualFigure]


@dataclass(frozen=True, slots=True)
class Family:
    """Bodies that are measured, estimated and fitted alike.

    Parameters
    ----------
    id : as a body card writes it
    name : what its people are called, in the plural
    person : one of them, in English, for the names of survey bodies
    needed : ids of the measures that are asked for first; the rest can be estimated from them
    one_of : ids of which one at least must have been taped
    without : what is said where none of these was, of the {name} of the body
    demo : name of the shipped body that the demo is made for
    pictured : name of the shipped body on which styles are pictured
    chart : its sizes; None where there is no chart
    usual : what is usual of a block; None where nothing is known
    outline : the drawn figure
    tapes_of_its_own : tapes of measures whose declaration does not know this family, by their id
    """

    id: str
    name: str
    person: str
    needed: tuple[str, ...]
    one_of: tuple[str, ...]
    without: str
    demo: str
    pictured: str
    chart: Chart | None = None
    usual: Usual | None = None
    outline: Outline = STANDING
    tapes_of_its_own: Mapping[str, Tape] = field(default_factory=lambda: MappingProxyType({}))

    def __post_init__(self) -> None:
        """Give each tape of its own what it takes over from its measure."""
        own = {name: MEASURES[name].taken(tape) for name, tape in self.tapes_of_its_own.items()}
        object.__setattr__(self, "tapes_of_its_own", own)

    @property
    def tapes(self) -> dict[str, Tape]:
        """The tapes that are taken on it, by the id of their measure, in the order of a card."""
        found = ((m.id, m.tapes.get(self.id)) for m in MEASURES.values())
        return {
            name: taken
            for name, declared in found
            if (taken := self.tapes_of_its_own.get(name) or declared) is not None
        }

    def tape(self, name: str) -> Tape:
        """The tape of a measure by its id.

        Parameters
        ----------
        name : id of a measure, such as "bust_girth"

        Raises
        ------
        MeasureError : there is no such measure, or it is not taken on this family
        """
        found = self.tapes_of_its_own.get(name) or measure(name).tapes.get(self.id)
        if found is None:
            raise MeasureError(self.not_taken(name))
        return found

    def not_taken(self, name: str) -> Message:
        """The sentence that says that a measure is not taken on this family.

        Parameters
        ----------
        name : id of a measure, such as "bust_girth"

        Raises
        ------
        MeasureError : there is no such measure
        """
        return Message(
            "not-taken-on-family",
            N_("{measure} is not a measure of this kind of figure ({family}); leave it out."),
            measure=measure(name).name,
            family=self.name,
        )
