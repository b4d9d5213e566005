"""Sentences from messages: the template in the reader's language, names told, numbers by custom."""

from __future__ import annotations

from datetime import date
from string import Formatter
from typing import Any

from cutwright.errors import CutwrightError
from cutwright.messages import Length, Message, Text, Typed
from cutwright.numerals import amount, day_words, decimal_sign, unit_name
from cutwright.wording.names import name_text
from cutwright.words import _, current_language, ngettext


def message_text(thing: Text | CutwrightError) -> str:
    """What is to be said, in the language in force.

    Parameters
    ----------
    thing : a message, an error that carries one, or what somebody typed, which stays as it is
    """
    if isinstance(thing, Typed):
        return str(thing)
    if isinstance(thing, CutwrightError):
        thing = thing.message
    if isinstance(thing.template, tuple):
        count = thing.values.get("count")
        template = ngettext(*thing.template, count if isinstance(count, int) else 0)
    else:
        template = _(thing.template)
    values = {name: _shown(value) for name, value in thing.values.items()}
    return _Custom().vformat(template, (), {"unit": unit_name(), **values})


def _shown(value: object) -> object:
    """A value as a template takes it: numbers as they are, everything else as words."""
    if isinstance(value, Length):
        return amount(value)
    if isinstance(value, int | float | Typed):
        return value
    if isinstance(value, Message):
        return message_text(value)
    if isinstance(value, tuple):
        return ", ".join(_Custom().format_field(_shown(part), "") for part in value)
    if isinstance(value, date):
        return day_words(value)
    return name_text(str(value))


class _Custom(Formatter):
    """Fills a template with the reader's decimal sign."""

    def format_field(self, value: Any, format_spec: str) -> str:
        """A number with its places, the sign in between as the language in force has it."""
        text = str(format(value, format_spec))
        if isinstance(value, int | float) and not isinstance(value, bool):
            return text.replace(".", decimal_sign(current_language()))
        return text
