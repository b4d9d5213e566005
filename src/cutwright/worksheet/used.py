"""Which measures a style really asks for, found by working it once and watching."""

from __future__ import annotations

from functools import lru_cache

from cutwright.body.body import Body, Reading
from cutwright.style.replay import replay
from cutwright.style.step import Step


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
    replay(steps, watched)
    return frozenset(watched.asked)
