"""Sentences from messages: the template in the reader's language, names told, numbers by custom."""

from __future__ import annotations

from string import Formatter
from typing import Any

from cutwright.errors import CutwrightError
from cutwright.messages import Message, Typed
from cutwright.numerals import decimal_sign
from cutwright.pattern.vocabulary import told
from cutwright.words import _, ngettext, spoken


def said(thing: Message | CutwrightError) -> str:
    """What is to be said, in the language in force.

    Parameters
    ----------
    thing : a message, or an error that carries one
    """
    if isinstance(thing, CutwrightError):
        thing = thing.message
    if isinstance(thing.template, tuple):
        count = thing.values.get("count")
        template = ngettext(*thing.template, count if isinstance(count, int) else 0)
    else:
        template = _(thing.template)
    values = {name: _shown(value) for name, value in thing.values.items()}
    return _Custom().vformat(template, (), values)


def _shown(value: object) -> object:
    """A value as a template takes it: numbers as they are, everything else as words."""
    if isinstance(value, int | float | Typed):
        return value
    if isinstance(value, Message):
        return said(value)
    if isinstance(value, tuple):
        return ", ".join(str(_shown(part)) for part in value)
    return told(str(value))


class _Custom(Formatter):
    """Fills a template with the reader's decimal sign."""

    def format_field(self, value: Any, format_spec: str) -> str:
        """A number with its places, the sign in between as the language in force has it."""
        text = str(format(value, format_spec))
        if isinstance(value, int | float) and not isinstance(value, bool):
            return text.replace(".", decimal_sign(spoken()))
        return text
