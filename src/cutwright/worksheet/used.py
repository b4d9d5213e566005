"""Which measures a style really asks for, found by working it once and watching."""

from __future__ import annotations

from functools import lru_cache

from cutwright.body.body import Body, Reading
from cutwright.pattern.edge import Kind
from cutwright.style.replay import replay
from cutwright.style.step import Step

UPPER = frozenset(
    {
        "bust_girth", "underbust_girth", "neck_girth", "neck_base_girth", "shoulder_length",
        "shoulder_slope", "shoulder_breadth", "back_width", "chest_width", "bust_point_width",
        "back_waist_length", "front_waist_length", "bust_depth", "armhole_depth",
    }
)  # fmt: skip
"""Measures above the waist: a block reads all its tapes together, a skirt shows none of these."""

_ABOVE = {Kind.SHOULDER, Kind.ARMHOLE, Kind.NECKLINE}


class _Watched(Body):
    """A body that remembers which of its measures were asked for; equal only to itself."""

    __slots__ = ("asked",)
    asked: set[str]

    def reading(self, name: str) -> Reading:
        """The measure, remembered as asked for."""
        self.asked.add(name)
        return super().reading(name)

    __eq__ = object.__eq__
    __hash__ = object.__hash__


@lru_cache(maxsize=32)
def measures_used(steps: tuple[Step, ...], body: Body) -> frozenset[str]:
    """The ids of the measures that the steps ask for on this body."""
    watched = _Watched(body.name, body.all_readings, body.notes)
    object.__setattr__(watched, "asked", set())
    done = replay(steps, watched)
    kinds = {e.kind for s in done.stages for p in s.after.pieces for e in p.edges}
    return frozenset(watched.asked if kinds & _ABOVE else watched.asked - UPPER)
