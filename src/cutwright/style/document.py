"""The style document: a name and its steps, read from JSON with every problem named at once."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from pydantic import ValidationError

from cutwright.documents import Problem, more_values_than, problems_of
from cutwright.errors import DocumentError, StepError
from cutwright.messages import N_, Message, Typed
from cutwright.style.registry import all_steps, step_class
from cutwright.style.replay import MOST_STEPS
from cutwright.style.step import Step
from cutwright.style.unread import Unread

FORMAT = 1
_LONGEST_NAME = 120
_MOST_IN_ROW = 500


@dataclass(frozen=True, slots=True)
class Style:
    """A page of sentences. `about` is a line for the gallery; no measures of any person."""

    name: str
    steps: tuple[Step, ...]
    about: str = ""

    def document(self) -> dict[str, Any]:
        """The JSON document; fields left at their default are left out."""
        return {
            "format": FORMAT,
            "name": self.name,
            "about": self.about,
            "steps": [step.row() for step in self.steps],
        }


def parse_style(data: Any, source: str = "style") -> Style:
    """Read a style document; raises DocumentError with every problem and its place."""
    title = Message(
        "style-cannot-be-used", N_("The style in {source} cannot be used:"), source=Typed(source)
    )
    if not isinstance(data, dict):
        raise DocumentError(
            title,
            [
                (
                    "",
                    Message(
                        "style-no-object", N_("a style is written as an object in braces {{ }}")
                    ),
                )
            ],
        )
    problems: list[Problem] = []
    if data.get("format") != FORMAT:
        problems.append(
            ("format", Message("reads-format", N_("this program reads format {n}"), n=FORMAT))
        )
    for key in sorted(set(data) - {"format", "name", "about", "steps"}):
        problems.append((str(key)[:60], Message("unknown-here", N_("is not known here"))))
    name, about, rows = data.get("name"), data.get("about", ""), data.get("steps")
    if not isinstance(name, str) or not 0 < len(name.strip()) <= _LONGEST_NAME:
        problems.append(
            ("name", Message("name-needed", N_("a name of 1 to 120 letters is needed")))
        )
    if not isinstance(about, str) or len(about) > 2000:
        problems.append(
            ("about", Message("text-too-long", N_("must be text of at most 2000 letters")))
        )
    steps: list[Step] = []
    if not isinstance(rows, list) or len(rows) > MOST_STEPS:
        problems.append(
            (
                "steps",
                Message(
                    "too-many-steps",
                    N_("a list of at most {most} steps is needed"),
                    most=MOST_STEPS,
                ),
            )
        )
    else:
        for index, row in enumerate(rows):
            _read_step(row, index, steps, problems)
    if problems:
        raise DocumentError(title, problems)
    return Style(str(name).strip(), tuple(steps), str(about))


def stored_style(data: Any) -> Style:
    """A style that the book holds: what cannot be read of it any more stands in it as `Unread`.

    A document always opens, so that it can be mended, undone or taken back to an earlier state. Of more
    sentences than a style may have (none was ever saved so) the first are read.
    """
    held = data if isinstance(data, dict) else {}
    name, about, rows = held.get("name"), held.get("about"), held.get("steps")
    named = isinstance(name, str) and 0 < len(name.strip()) <= _LONGEST_NAME
    return Style(
        str(name).strip() if named else N_("unnamed"),
        tuple(map(_stored_step, rows[:MOST_STEPS] if isinstance(rows, list) else ())),
        about if isinstance(about, str) else "",
    )


def _stored_step(row: Any) -> Step:
    try:
        return parse_step(row)
    except DocumentError as fault:
        return Unread.of(row, fault.problems[0][1])


def parse_step(row: Any) -> Step:
    """Read one step; raises DocumentError."""
    steps: list[Step] = []
    problems: list[Problem] = []
    _read_step(row, 0, steps, problems)
    if problems:
        raise DocumentError(
            Message("step-cannot-be-used", N_("This step cannot be used:")), problems
        )
    return steps[0]


def _read_step(row: Any, index: int, steps: list[Step], problems: list[Problem]) -> None:
    place = Message("step-number", N_("step {number}"), number=index + 1)
    if not isinstance(row, dict) or not isinstance(row.get("do"), str):
        problems.append(
            (place, Message("step-no-object", N_('every step is an object with a "do"')))
        )
        return
    if more_values_than(row, _MOST_IN_ROW):
        problems.append(
            (
                place,
                Message(
                    "more-values-than", N_("it holds more than {most} values."), most=_MOST_IN_ROW
                ),
            )
        )
        return
    try:
        steps.append(step_class(row["do"]).model_validate(row))
    except StepError as fault:
        problems.append((place, fault.message))
    except ValidationError as fault:
        tag = str(row["do"])
        for where, text in problems_of(fault):
            inside = Message(
                "place-in-step",
                "{step} ({do}) {where}" if where else "{step} ({do})",
                step=place,
                do=Typed(tag),
                where=Typed(where),
            )
            problems.append((inside, text))


def style_schema() -> dict[str, Any]:
    """The JSON Schema of the style document."""
    defs: dict[str, Any] = {}
    choices = []
    for step in all_steps().values():
        schema = step.model_json_schema(ref_template="#/$defs/{model}")
        defs.update(schema.pop("$defs", {}))
        defs[step.__name__] = schema
        choices.append({"$ref": f"#/$defs/{step.__name__}"})
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Cutwright style",
        "type": "object",
        "required": ["format", "name", "steps"],
        "additionalProperties": False,
        "properties": {
            "format": {"const": FORMAT},
            "name": {"type": "string", "minLength": 1, "maxLength": 120},
            "about": {"type": "string", "maxLength": 2000},
            "steps": {"type": "array", "maxItems": MOST_STEPS, "items": {"oneOf": choices}},
        },
        "$defs": defs,
    }
