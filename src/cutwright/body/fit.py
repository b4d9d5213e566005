"""Straight lines through what a survey measured."""

from __future__ import annotations

from dataclasses import dataclass

WIDER = 0.02
"""By how much a range widens for each centimetre beyond what was measured (judgement)."""


@dataclass(frozen=True, slots=True)
class Survey:
    """Many people measured alike: what the lines through their measures may be trusted for.

    Parameters
    ----------
    text : what stands behind an estimate, in words
    over : ids of the measures that its lines run over
    within : for each of these the smallest and the largest hundredth of the people, in cm
    """

    text: str
    over: tuple[str, ...]
    within: tuple[tuple[float, float], ...]

    def line(self, *by: float, constant: float, scatter: float) -> Fit:
        """A line over the survey's own measures.

        Parameters
        ----------
        by : cm of the measure for each cm of those in `over`
        constant, scatter : cm; the residual standard deviation
        """
        return Fit(self.over, by, constant, scatter, self)

    def widening(self, values: tuple[float, ...]) -> float:
        """How much wider ranges are for a body than within the survey: 1 within, 2 % more a cm beyond.

        Parameters
        ----------
        values : the body's measures of `over`, in cm
        """
        beyond = 0.0
        for value, (lo, hi) in zip(values, self.within, strict=True):
            if value > hi:
                beyond = max(beyond, value - hi)
            elif value < lo:
                beyond = max(beyond, lo - value)
        return 1 + WIDER * beyond


@dataclass(frozen=True, slots=True)
class Fit:
    """A straight line: the sum of `by` times the measures of `over`, and a constant.

    Parameters
    ----------
    over : ids of the measures it runs over, in cm
    by : cm for each cm of these
    constant : cm
    scatter : residual standard deviation, cm
    survey : the people behind it; beyond them a range widens. None where a range does not
    """

    over: tuple[str, ...]
    by: tuple[float, ...]
    constant: float
    scatter: float
    survey: Survey | None = None

    def at(self, *values: float) -> float:
        """What the line expects of a body.

        Parameters
        ----------
        values : the body's measures of `over`, in their order, in cm

        Returns
        -------
        cm
        """
        total = 0.0
        for each, value in zip(self.by, values, strict=True):
            total += each * value
        return total + self.constant
