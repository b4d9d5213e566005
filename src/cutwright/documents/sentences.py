"""What a validator found wrong, as sentences a cutter understands."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from cutwright.messages import N_, Message, Text, Typed, either_of

if TYPE_CHECKING:
    from pydantic import ValidationError

Problem = tuple[Message | str, Message | str]
"""A place in a document and what is wrong there."""

_WHOLE = N_("this must be a whole number.")
_NUMBER = N_("this must be a number.")
_YES_NO = N_("this must be true or false.")
_NAMES = N_("this must be names and values in curly brackets.")
_LIST = N_("this must be a list in square brackets.")
_DATE = N_("this must be a date such as 2026-03-14.")
_ONE_OF = N_("this must be {bound}.")

_SENTENCES = {
    "missing": N_("this is missing."),
    "extra_forbidden": N_("there is nothing of this name here; check the spelling."),
    "string_type": N_("this must be text in quotes."),
    "string_pattern_mismatch": N_("this is not written the way it should be."),
    "int_type": _WHOLE,
    "int_parsing": _WHOLE,
    "int_from_float": _WHOLE,
    "float_type": _NUMBER,
    "float_parsing": _NUMBER,
    "finite_number": N_("this must be an ordinary number."),
    "int_parsing_size": _WHOLE,
    "json_invalid": N_("this is not written as JSON."),
    "bool_type": _YES_NO,
    "bool_parsing": _YES_NO,
    "dict_type": _NAMES,
    "model_type": _NAMES,
    "model_attributes_type": _NAMES,
    "list_type": _LIST,
    "tuple_type": _LIST,
    "date_type": _DATE,
    "date_parsing": _DATE,
    "date_from_datetime_parsing": _DATE,
    "date_from_datetime_inexact": _DATE,
}
_BOUNDED = {
    "string_too_short": ("min_length", N_("this must have at least {bound} letters.")),
    "string_too_long": ("max_length", N_("this may have at most {bound} letters.")),
    "too_short": ("min_length", N_("this must have at least {bound} entries.")),
    "too_long": ("max_length", N_("this may have at most {bound} entries.")),
    "greater_than": ("gt", N_("this must be more than {bound}.")),
    "greater_than_equal": ("ge", N_("this must be at least {bound}.")),
    "less_than": ("lt", N_("this must be less than {bound}.")),
    "less_than_equal": ("le", N_("this must be at most {bound}.")),
    "literal_error": ("expected", _ONE_OF),
    "enum": ("expected", _ONE_OF),
    "union_tag_invalid": ("expected_tags", N_("this must be one of {bound}.")),
}


_WRONG_KIND = ("_type", "_parsing", "_attributes")
"""Ends of the errors that only say that a value is of another kind."""

_KINDS = frozenset({"float", "int", "str", "bool", "date", "none", "dict", "list", "tuple"})
"""What a validator writes into a place for a value that may be of several kinds."""


def problems_of(fault: ValidationError) -> list[tuple[str, Text]]:
    """Each thing pydantic found wrong, as (place, sentence) in a user's words."""
    return told_problems(fault.errors(include_url=False))


def told_problems(errors: Iterable[Mapping[str, Any]]) -> list[tuple[str, Text]]:
    """Errors of a validator as (place, sentence), one for each place, the most telling."""
    found: dict[str, Mapping[str, Any]] = {}
    for error in errors:
        place = place_of(error["loc"])
        if place not in found or found[place]["type"].endswith(_WRONG_KIND):
            wrong_kind = error["type"].endswith(_WRONG_KIND)
            found[place] = found.get(place, error) if wrong_kind else error
    return [(place, _sentence(error)) for place, error in found.items()]


def place_of(loc: Sequence[int | str]) -> str:
    """A place in a document as people count: "steps 3, fullness"."""
    words: list[str] = []
    for part in loc:
        if isinstance(part, int) and words:
            words[-1] = f"{words[-1]} {part + 1}"
        elif not _of_validator(str(part)):
            words.append(str(part)[:60])
    return ", ".join(words)


def _of_validator(part: str) -> bool:
    """Whether a part of a place names no field but a kind of value: "constrained-str", "list[str]"."""
    return part in _KINDS or "[" in part or part.startswith("constrained-")


def _sentence(error: Mapping[str, Any]) -> Text:
    """One of pydantic's findings as a sentence, with what was found."""
    kind: str = error["type"]
    context: Mapping[str, Any] = error.get("ctx", {})
    if kind in _SENTENCES:
        text = Message(kind, _SENTENCES[kind])
    elif kind in _BOUNDED:
        name, template = _BOUNDED[kind]
        text = Message(kind, template, bound=_bound(context.get(name, "?")))
    elif "error" in context and kind != "json_invalid":
        return _own(context["error"])
    else:
        text = Message("cannot-be-used", N_("this cannot be used."))
    if kind in ("missing", "json_invalid"):
        return text
    return Message("found", N_("{text} Found: {found}"), text=text, found=_brief(error["input"]))


def _own(error: object) -> Text:
    """What a validator of ours said: the message itself, or in an error."""
    if isinstance(error, Exception) and error.args and isinstance(error.args[0], Message):
        error = error.args[0]
    return error if isinstance(error, Message) else Typed(error)


def _bound(bound: object) -> Text:
    """A bound, or the words to choose from."""
    if isinstance(bound, int | float):
        return Typed(f"{bound:g}")
    choices = re.findall("'([^']*)'", str(bound))
    if not choices:
        return Typed(bound)
    return either_of([Typed(choice) for choice in choices])


_BRIEF = 8
"""A list or a table of more entries is not written out."""


def _brief(value: object) -> Text:
    """What was found, on one line and not too long."""
    if isinstance(value, str):
        text = value
    elif isinstance(value, dict | list | tuple) and len(value) > _BRIEF:
        return Message("a-list", N_("a list of {count}"), count=len(value))
    else:
        text = json.dumps(value, ensure_ascii=False, default=repr)
    text = "".join(c if c.isprintable() else "?" for c in text[:61])
    if not text:
        return Message("nothing", N_("nothing"))
    return Typed(f"{text[:60]}…" if len(text) > 60 else text)
