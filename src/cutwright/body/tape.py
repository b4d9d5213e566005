"""How one measure stands on the figures of one family: its bounds, its estimate, what is expected."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from cutwright.body.fit import Fit
from cutwright.body.rule import Expected, Rule, about_line, by_line
from cutwright.body.way import Way

WOMEN = "women"
"""The family of a card that names none."""

Unit = Literal["cm", "degree"]
Extent = Literal["round", "across", "one side", "along", "angle"]


@dataclass(frozen=True, slots=True)
class Line:
    """A measure of the size chart as a straight line through the chart's middle size.

    Parameters
    ----------
    middle : the measure of the middle size, in cm
    per_girth : cm for each cm of the girth by which the chart goes
    per_stature : cm for each cm of height
    """

    middle: float
    per_girth: float
    per_stature: float = 0.0

    def at(self, girth: float, stature: float) -> float:
        """The measure of a size, in cm, so many cm of girth and height off the middle size.

        Parameters
        ----------
        girth, stature : off that of the middle size, cm

        Returns
        -------
        cm
        """
        return self.middle + self.per_girth * girth + self.per_stature * stature


BY_RULE: Literal["by rule"] = "by rule"
"""On the size chart a measure is what its rule gives from the size's other measures."""


@dataclass(frozen=True, slots=True)
class Column:
    """Where a survey's table holds a measure.

    Parameters
    ----------
    columns : names of the columns
    work : their values in cm to the measure, in its unit; None where one column is the measure
    """

    columns: tuple[str, ...]
    work: Callable[..., float] | None = None

    def at(self, *values: float) -> float:
        """The measure from the values of the columns.

        Parameters
        ----------
        values : one for each of `columns`, in their order, in cm

        Returns
        -------
        in the unit of the measure
        """
        return self.work(*values) if self.work else values[0]


@dataclass(frozen=True, slots=True)
class Tape:
    """A measure as it is taken on one family of figures.

    Parameters
    ----------
    lo, hi : what a grown body of the family can have, in the unit of the measure; beyond it the
        program stops and asks
    estimates : ways to work it out where it was not taped, the best first; the first whose wanted
        tapes are all there is used
    expected : where it is believed, seen from the body's other measures
    chart : how it follows on the family's size chart; None where a size has no such measure
    column : where the family's survey table holds it; None where it was not measured
    ask : the estimate is so poor that the program asks for the tape
    name, definition, how : in the family's own words, where they differ from those of the measure
    way : where the tape runs on the family's figure, where that differs
    id, extent : those of the measure, filled in where the tape is declared
    """

    lo: float
    hi: float
    estimates: tuple[Rule, ...]
    expected: Expected | None = None
    chart: Line | Literal["by rule"] | None = None
    column: Column | None = None
    ask: bool = False
    name: str = ""
    definition: str = ""
    how: str = ""
    way: Way | None = None
    id: str = ""
    extent: Extent = "along"

    @property
    def unit(self) -> Unit:
        """Degrees for an angle, centimetres for everything else."""
        return "degree" if self.extent == "angle" else "cm"

    def holds(self, value: float) -> bool:
        """Whether a body of the family can have this value at all.

        Parameters
        ----------
        value : in the unit of the measure
        """
        return self.lo <= value <= self.hi


def fitted(
    lo: float,
    hi: float,
    fit: Fit,
    deviations: float,
    *,
    chart: Line | None = None,
    column: Column | None = None,
    ask: bool = False,
) -> Tape:
    """A tape that is estimated and expected by one straight line.

    Parameters
    ----------
    lo, hi : what a body can have, in cm
    fit : the line
    deviations : standard deviations beyond which a value is asked about
    chart, column, ask : as in `Tape`
    """
    return Tape(lo, hi, (by_line(fit),), about_line(fit, deviations), chart, column, ask)
