"""What a validator found wrong, as sentences a cutter understands."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from cutwright.words import N_, _

if TYPE_CHECKING:
    from pydantic import ValidationError
    from pydantic_core import ErrorDetails

Problem = tuple[str, str]
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


def problems_of(fault: ValidationError) -> list[Problem]:
    """Each thing pydantic found wrong, as (place, sentence) in a user's words."""
    return [(place_of(e["loc"]), _sentence(e)) for e in fault.errors(include_url=False)]


def place_of(loc: tuple[int | str, ...]) -> str:
    """A place in a document as people count: "steps 3, fullness"."""
    words: list[str] = []
    for part in loc:
        if isinstance(part, int) and words:
            words[-1] = f"{words[-1]} {part + 1}"
        elif part != "[key]":
            words.append(str(part))
    return ", ".join(words)


def _sentence(error: ErrorDetails) -> str:
    """One of pydantic's findings as a sentence, with what was found."""
    kind, context = error["type"], error.get("ctx", {})
    if kind in _SENTENCES:
        text = _(_SENTENCES[kind])
    elif kind in _BOUNDED:
        name, words = _BOUNDED[kind]
        text = _(words).format(bound=context.get(name, "?"))
    else:
        return str(context["error"]) if "error" in context else error["msg"]
    if kind == "missing":
        return text
    return _("{text} Found: {found}").format(text=text, found=_brief(error["input"]))


def _brief(value: object) -> str:
    """What was found, on one line and not too long."""
    text = value if isinstance(value, str) else json.dumps(value, ensure_ascii=False, default=repr)
    text = "".join(c if c.isprintable() else "?" for c in text[:61])
    return f"{text[:60]}…" if len(text) > 60 else text or _("nothing")
