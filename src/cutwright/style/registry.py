"""All steps there are, by their tag."""

from __future__ import annotations

from typing import TypeVar, get_args

from cutwright.errors import StepError
from cutwright.messages import N_, Message
from cutwright.style.step import Step

_STEPS: dict[str, type[Step]] = {}
S = TypeVar("S", bound=type[Step])


def tag_of(step: type[Step]) -> str:
    """The tag a step class is written with in a style file."""
    return str(get_args(step.model_fields["do"].annotation)[0])


def register(step: S) -> S:
    """Class decorator: make a step known under its `do` tag."""
    _STEPS[tag_of(step)] = step
    return step


def all_steps() -> dict[str, type[Step]]:
    """Every known step by tag, sorted."""
    return dict(sorted(_STEPS.items()))


def step_class(tag: str) -> type[Step]:
    """The class for a tag; raises StepError naming what there is."""
    if tag in _STEPS:
        return _STEPS[tag]
    raise StepError(
        Message(
            "no-step",
            N_('There is no step "{tag}". There is: {there}.'),
            tag=tag,
            there=", ".join(sorted(_STEPS)),
        )
    )
