"""Why a step is done, and what to choose for the cloth, in the language in force."""

from __future__ import annotations

from cutwright.style.step import Step
from cutwright.words import _


def reasons(step: type[Step]) -> tuple[str, ...]:
    """What a step is for and what goes wrong without it; then, where it matters, the cloth."""
    why = _("Why: {why}").format(why=_(step.WHY))
    return (why, _("Cloth: {cloth}").format(cloth=_(step.CLOTH))) if step.CLOTH else (why,)


def explained(step: type[Step]) -> str:
    """How a step is done and why, in one paragraph."""
    return " ".join([_(step.HELP), *reasons(step)])
