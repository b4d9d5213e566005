"""Where a draft sets a point, as a rule that can be followed on another body."""

from __future__ import annotations

from dataclasses import dataclass

from cutwright.pattern.sum import Term


@dataclass(frozen=True, slots=True)
class PointRule:
    """A point of a drafted piece by what goes into it, so that it can be set anew from other measures.

    It lies where the edges `meet`, or, with one edge and `level`, where that edge ends on a level. `across` counts from the
    centre towards the side, `down` from the nape or the waist, both cm; they go on from figures of the same step.
    """

    piece: str
    meet: frozenset[str]
    across: Term
    down: Term
    level: str = ""
