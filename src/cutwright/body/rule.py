"""How a measure follows from others: the rule that estimates it, and the range in which it is believed."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from cutwright.body.fit import Fit


@dataclass(frozen=True, slots=True)
class Rule:
    """One way to work out a measure that was not taped.

    Parameters
    ----------
    needs : ids of the measures whose values are handed to `work`, in that order
    work : values in cm and degrees to the estimate, in the unit of the measure
    spread : two standard deviations when the needed values are exact, in the unit of the measure
    text : the rule in words, with its source
    taped : ids of measures that must have been taped for the rule to be used
    fit : the straight line behind it, where there is one
    """

    needs: tuple[str, ...]
    work: Callable[..., float]
    spread: float
    text: str
    taped: tuple[str, ...] = ()
    fit: Fit | None = None


@dataclass(frozen=True, slots=True)
class Range:
    """Where a measure is believed, in its unit."""

    lo: float
    hi: float

    @classmethod
    def about(cls, middle: float, reach: float) -> Range:
        """As far to either side of a middle.

        Parameters
        ----------
        middle : in the unit of the measure
        reach : to either side, in the same unit
        """
        return cls(middle - reach, middle + reach)

    def holds(self, value: float) -> bool:
        """Whether the value is believed.

        Parameters
        ----------
        value : in the unit of the measure
        """
        return self.lo <= value <= self.hi

    def strain(self, value: float) -> float:
        """How far off the middle the value is: 0 in the middle, 1 at the ends.

        Parameters
        ----------
        value : in the unit of the measure

        Returns
        -------
        a number without a unit; over 1 outside
        """
        return abs(2 * value - self.lo - self.hi) / (self.hi - self.lo)


@dataclass(frozen=True, slots=True)
class Expected:
    """Where a measure is believed, seen from others of the same body.

    Parameters
    ----------
    over : ids of the measures whose values are handed to `work`, in that order; one that was not
        taped is estimated
    work : values in cm and degrees to the range, in the unit of the measure
    needs : ids of measures that must have been taped, else nothing is expected
    """

    over: tuple[str, ...]
    work: Callable[..., Range]
    needs: tuple[str, ...]


def expected(
    over: tuple[str, ...],
    middle: Callable[..., float],
    reach: float,
    needs: tuple[str, ...] | None = None,
) -> Expected:
    """As far to either side of what a rule gives.

    Parameters
    ----------
    over : ids of the measures handed to `middle`
    middle : values in cm and degrees to the middle of the range
    reach : how far it goes to either side, in the unit of the measure
    needs : ids of measures that must have been taped; all of `over` if not given
    """
    return Expected(
        over, lambda *values: Range.about(middle(*values), reach), over if needs is None else needs
    )


def by_line(fit: Fit, text: str = "", taped: tuple[str, ...] = ()) -> Rule:
    """The rule that estimates by a straight line.

    Parameters
    ----------
    fit : the line
    text : the rule in words; those of the line's survey if not given
    taped : ids of measures that must have been taped
    """
    words = text or (fit.survey.text if fit.survey else "")
    return Rule(fit.over, fit.at, 2 * fit.scatter, words, taped, fit)


def about_line(fit: Fit, deviations: float) -> Expected:
    """The range of so many standard deviations about a line, wider beyond its survey.

    Parameters
    ----------
    fit : the line
    deviations : standard deviations to either side
    """

    def work(*values: float) -> Range:
        wider = fit.survey.widening(values) if fit.survey else 1.0
        return Range.about(fit.at(*values), deviations * fit.scatter * wider)

    return Expected(fit.over, work, fit.over)
