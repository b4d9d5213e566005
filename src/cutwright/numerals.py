"""Numbers and days as a reader of the language in force writes them."""

from __future__ import annotations

import re
from datetime import date
from functools import lru_cache

from cutwright.words import _, spaced, spoken

_DECIMAL = re.compile(r"(?<![\w.])(\d+)\.(\d+)(?![\w.]*\d)")


@lru_cache(maxsize=16)
def decimal_sign(language: str) -> str:
    """What stands between whole and tenths in a language."""
    from babel.core import UnknownLocaleError
    from babel.numbers import get_decimal_symbol

    try:
        return get_decimal_symbol(language)
    except (UnknownLocaleError, ValueError):
        return "."


def by_custom(line: str) -> str:
    """A line of arithmetic with the decimal sign and the spaces of the language in force."""
    sign, line = decimal_sign(spoken()), spaced(line)
    return line if sign == "." else _DECIMAL.sub(rf"\1{sign}\2", line)


def number(value: float, places: int = 1) -> str:
    """A number with so many places, by the custom of the language in force."""
    text = f"{value:.{places}f}"
    text = text[1:] if text.startswith("-") and not float(text) else text.replace("-", "−")
    return text.replace(".", decimal_sign(spoken()))


def short(value: float, places: int = 2) -> str:
    """A number with no more places than it needs."""
    text = number(value, places)
    sign = decimal_sign(spoken())
    return text.rstrip("0").rstrip(sign) if sign in text else text


def cm(value: float, places: int = 1) -> str:
    """A length in centimetres."""
    return _("{number} cm").format(number=number(value, places))


def day_words(day: date) -> str:
    """A day in words: "11 February 2026"."""
    months = (
        _("January"), _("February"), _("March"), _("April"), _("May"), _("June"), _("July"),
        _("August"), _("September"), _("October"), _("November"), _("December"),
    )  # fmt: skip
    return _("{day} {month} {year}").format(day=day.day, month=months[day.month - 1], year=day.year)
