"""Where the tape runs on the drawn figure."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Spots = tuple[tuple[float, float], ...]
"""Places on the figure, in cm of a body 168 tall: x from the middle to the figure's left, y down from the crown."""

View = Literal["front", "back"]


@dataclass(frozen=True, slots=True)
class Way:
    """The way of the tape on the drawn figure.

    Parameters
    ----------
    view : from the front or from behind
    kind : "round" (drawn with a sag, as a tape that goes on behind), "across" (a straight line),
        "long" (a line with an arrow at each end)
    spots : the places it runs through, in cm of the figure
    """

    view: View
    kind: Literal["round", "across", "long"]
    spots: Spots
