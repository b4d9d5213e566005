"""Which step of a style did something: seams and used-up names remember it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class StepRef:
    """A step as others refer to it.

    Parameters
    ----------
    id : a word of its own in the style, such as "close_dart-2"
    number : its place in the style, from 1; 0 for no step
    label : what it is called, which several steps may share
    """

    id: str = ""
    number: int = 0
    label: str = ""


NO_STEP = StepRef()
