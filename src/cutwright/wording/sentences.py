"""The sentence of a step, its values written as the reader writes them."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache
from string import Formatter

from pydantic import BaseModel

from cutwright.body.measures import MEASURES
from cutwright.numerals import bare, by_custom, in_inches
from cutwright.pattern.vocabulary import EDGES
from cutwright.style.parameter import Place
from cutwright.style.step import Step
from cutwright.wording.message_text import message_text
from cutwright.wording.names import name_text, retold
from cutwright.words import _, current_language, ngettext


@lru_cache(maxsize=4)
def _any_of(names: tuple[str, ...]) -> re.Pattern[str]:
    """Finds the ids of measures in a sum, the longest first."""
    return re.compile(r"\b(" + "|".join(sorted(names, key=len, reverse=True)) + r")\b")


def sentence(step: Step) -> str:
    """The sentence of a step with its values in the language in force."""
    parts = list(sentence_parts(step))
    if in_inches():
        parts = list(_inch_parts(step, parts))
    return "".join(value_words(text) if field else text for text, field in parts)


def _inch_parts(step: Step, parts: list[tuple[str, str]]) -> Iterator[tuple[str, str]]:
    """The parts of a sentence with the lengths of the style in inches, where its words follow with "cm"."""
    unit = " " + _("cm")
    for at, (text, field) in enumerate(parts):
        value = getattr(step, field) if field else None
        behind = parts[at + 1][0] if at + 1 < len(parts) else ""
        before = parts[at - 1] if at else ("", "")
        if isinstance(value, int | float) and behind.startswith(unit):
            yield bare(value), ""
        elif (
            not field
            and text.startswith(unit)
            and before[1]
            and not isinstance(getattr(step, before[1]), str)
        ):
            yield f" {_('in')}{text[len(unit) :]}", ""
        else:
            yield text, field


def sentence_parts(step: Step) -> Iterator[tuple[str, str]]:
    """The sentence in parts: (text, "") for plain words, (shown value, field) for a value.

    A value is what the step holds; `value_words` writes it for the reader.
    """
    for index, template in enumerate(step.clauses()):
        if index:
            yield " ", ""
        for text, field, _spec, _conv in Formatter().parse(_worded(step, template)):
            if text:
                yield text, ""
            if field:
                yield shown(getattr(step, field)), field


def _worded(step: Step, template: str | tuple[str, str]) -> str:
    """A template in the language in force, in the form for as many as there are."""
    if isinstance(template, str):
        return _(template)
    count = getattr(step, step.COUNTS)
    return ngettext(*template, count)


def shown(value: object) -> str:
    """A value of a step as it is shown in a sentence."""
    if isinstance(value, bool):
        return _("yes") if value else _("no")
    if isinstance(value, float | int):
        return f"{value:g}"
    if isinstance(value, tuple | list):
        parts = [shown(v) for v in value]
        if len(parts) > 1 and not isinstance(value[0], int | float):
            parts[-2:] = [f"{parts[-2]} and {parts[-1]}"]
        return ", ".join(parts)
    if isinstance(value, Place):
        return message_text(value.message)
    if isinstance(value, BaseModel):
        return str(value)
    return "" if value is None else str(value)


def value_words(text: str) -> str:
    """A value of a sentence, as `sentence_parts` gives it, in the language in force."""
    measure = _any_of(tuple(MEASURES))
    if measure.search(text):
        text = measure.sub(lambda m: _lower(_(MEASURES[m.group()].name)), text)
        text = text.replace("*", "×")
    return by_custom(retold(name_text(text), EDGES))


def _lower(name: str) -> str:
    """A name as it stands inside a sentence; German keeps its capitals."""
    return name if current_language().startswith("de") else name[:1].lower() + name[1:]
