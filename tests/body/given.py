"""Measures as they are handed to the checks of a card, without a card that rounds them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from cutwright.body.tape import WOMEN


@dataclass(frozen=True)
class Given:
    """What was taped of somebody."""

    taped_values: Mapping[str, float]
    family: str = WOMEN
    estimated_values: Mapping[str, float] = field(default_factory=dict)
