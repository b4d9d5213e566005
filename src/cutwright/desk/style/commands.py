"""What a page may ask of a style: one command at a time, each with the revision it starts from."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field, JsonValue

from cutwright.desk.style.typed import changed, checked
from cutwright.errors import StepError
from cutwright.style.document import Style
from cutwright.style.replay import MOST_STEPS
from cutwright.style.step import Step
from cutwright.wording.sentences import sentence
from cutwright.words import N_, _

Index = Annotated[int, Field(ge=0, le=MOST_STEPS)]


class _Command(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class Set(_Command):
    """Put something else into a word of a sentence."""

    do: Literal["set"]
    step: Index
    field: str = Field(min_length=1, max_length=60)
    value: JsonValue = None


class Write(_Command):
    """Write another sentence at a place."""

    do: Literal["write"]
    at: Index
    step: dict[str, JsonValue]


class TakeOut(_Command):
    """Take a sentence out."""

    do: Literal["take out"]
    step: Index


class MoveSentence(_Command):
    """Move a sentence to another place."""

    do: Literal["move"]
    step: Index
    to: Index


class Name(_Command):
    """Give the style another name."""

    do: Literal["name"]
    name: str = Field(max_length=120)


class Undo(_Command):
    """Go one step back."""

    do: Literal["undo"]


class Redo(_Command):
    """Go one step forward again."""

    do: Literal["redo"]


class BringBack(_Command):
    """Take up an earlier revision again."""

    do: Literal["bring back"]
    revision: int = Field(ge=1, le=2_000_000_000)


class Whole(_Command):
    """Save a whole document, as after a conflict."""

    do: Literal["whole"]
    content: dict[str, JsonValue]


Command = Annotated[
    Set | Write | TakeOut | MoveSentence | Name | Undo | Redo | BringBack | Whole,
    Field(discriminator="do"),
]


class Wish(_Command):
    """A command on a style, with what the page has already."""

    base: int = Field(ge=1, le=2_000_000_000, description=N_("the revision the page shows"))
    command: Command
    group: str = Field(default="", max_length=60, description=N_("one undo step for equal groups"))
    have: list[Annotated[str, Field(max_length=12)]] = Field(default_factory=list, max_length=1000)


Change = Set | Write | TakeOut | MoveSentence | Name
"""The commands that change a sentence, their order, or the name."""


def carried_out(style: Style, command: Change) -> tuple[Style, str]:
    """The style after a command, and a few words on it for the history."""
    steps = list(style.steps)
    if isinstance(command, Name):
        name = command.name.strip()
        if not name or not name.isprintable():
            raise StepError(_("A style needs a name of one plain line."))
        return Style(name, style.steps, style.about), _("named")
    if isinstance(command, Write):
        if len(steps) >= MOST_STEPS:
            raise StepError(_("A style may have at most {most} steps.").format(most=MOST_STEPS))
        new = checked(dict(command.step))
        steps.insert(min(command.at, len(steps)), new)
        return _with(style, steps), _("written: {what}").format(what=_short(new))
    old = _at(steps, command.step)
    if isinstance(command, Set):
        new = changed(old, command.field, command.value)
        steps[command.step] = new
        word = command.field.replace("_", " ")
        return _with(style, steps), _("{word} of: {what}").format(word=word, what=_short(new))
    del steps[command.step]
    if isinstance(command, MoveSentence):
        steps.insert(min(command.to, len(steps)), old)
        return _with(style, steps), _("moved: {what}").format(what=_short(old))
    return _with(style, steps), _("taken out: {what}").format(what=_short(old))


def _at(steps: Sequence[Step], index: int) -> Step:
    if index < len(steps):
        return steps[index]
    raise StepError(
        _("There is no sentence {number}; the page has {count}.").format(
            number=index + 1, count=len(steps)
        )
    )


def _with(style: Style, steps: Sequence[Step]) -> Style:
    return Style(style.name, tuple(steps), style.about)


def _short(step: Step) -> str:
    return sentence(step)[:120]


def content_of(command: Whole) -> dict[str, Any]:
    """The document a page wants saved as it is."""
    return dict(command.content)
