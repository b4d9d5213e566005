"""How each word of a sentence is edited: read from the declaration of its step, never typed twice."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from cutwright.style.step import Step
from cutwright.words import _


@dataclass(frozen=True, slots=True)
class Editor:
    """What may stand in a field.

    Parameters
    ----------
    field : its name in the document
    role : "length", "ratio", "count", "piece", "edge", "dart", "place", "choice", "flag", ...
    about : one line on it, untranslated
    low, high : bounds of a number, None where there are none
    choices : the words to choose from, for a choice
    optional : whether it may be left out
    """

    field: str
    role: str
    about: str
    low: float | None = None
    high: float | None = None
    choices: tuple[str, ...] = ()
    optional: bool = False

    @property
    def step(self) -> float:
        """How far one press of an arrow key goes, in the unit of the field."""
        if self.role == "count":
            return 1.0
        if self.role in ("ratio", "share"):
            return 0.05
        return 1.0 if self.role == "angle" else 0.5

    @property
    def numeric(self) -> bool:
        """Whether a number is typed there."""
        return self.role in ("length", "ratio", "count", "angle", "share")

    @property
    def words(self) -> str:
        """The line on it in the language in force, as it begins a label."""
        text = _(self.about) if self.about else self.field.replace("_", " ")
        return text[:1].upper() + text[1:].rstrip(".")


@cache
def editors(step: type[Step]) -> Mapping[str, Editor]:
    """An editor for every field of a step but its tag."""
    schema = step.model_json_schema()
    defs = schema.get("$defs", {})
    return {
        name: _editor(name, _opened(part, defs), defs)
        for name, part in schema["properties"].items()
        if name != "do"
    }


def _opened(part: Any, defs: Mapping[str, Any]) -> Any:
    """A reference followed to what it means."""
    if "$ref" in part:
        return {
            **defs[part["$ref"].rsplit("/", 1)[1]],
            **{k: v for k, v in part.items() if k != "$ref"},
        }
    return part


def _editor(name: str, part: Any, defs: Mapping[str, Any]) -> Editor:
    every = [part, *(_opened(each, defs) for each in part.get("anyOf", ()))]
    inner = [_opened(each, defs) for outer in every for each in outer.get("anyOf", ())]
    every += inner

    def first(*keys: str) -> Any:
        return next((e[k] for k in keys for e in every if k in e), None)

    optional = any(e.get("type") == "null" for e in every)
    choices = first("enum") or ()
    role = first("role") or ("choice" if choices else _plain_role(every))
    low, high = first("low", "minimum"), first("high", "maximum")
    return Editor(name, role, str(part.get("description", "")), low, high, tuple(choices), optional)


def _plain_role(every: list[Any]) -> str:
    kinds = {e.get("type") for e in every}
    if "boolean" in kinds:
        return "flag"
    if "number" in kinds or "integer" in kinds:
        return "length"
    return "list" if "array" in kinds else "text"
