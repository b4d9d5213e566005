"""How much wider than the body a block is drafted, by the fit that is wished for.

The tables are common practice; every figure can be overridden in a step. The widths across back
and chest and the armhole depth are for the half body, the girths for the whole round.
"""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from typing import Literal

Fit = Literal["close", "easy", "loose"]


@dataclass(frozen=True, slots=True)
class Ease:
    """Ease in cm: bust, waist, hip and neck all round; across and armhole depth on the half."""

    bust: float
    waist: float
    hip: float
    neck: float
    across_back: float
    across_chest: float
    armhole_depth: float


EASES: dict[str, Ease] = {
    "close": Ease(7.0, 3.0, 5.0, 1.0, 0.5, 0.3, 0.0),
    "easy": Ease(10.0, 6.0, 8.0, 1.5, 0.8, 0.5, 0.7),
    "loose": Ease(16.0, 14.0, 14.0, 2.0, 1.5, 1.2, 1.5),
}


def ease_for(fit: str, **given: float | None) -> Ease:
    """The ease of a fit with some figures overridden (None leaves the table's).

    Parameters
    ----------
    fit : "close", "easy" or "loose"
    **given : ease by the name of its place, cm

    Returns
    -------
    cm
    """
    asked = {name: value for name, value in given.items() if value is not None}
    return replace(EASES[fit], **asked)


EASE_NAMES = tuple(field.name for field in fields(Ease))
"""The places that have an ease, in the order of the table."""
