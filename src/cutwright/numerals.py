"""Numbers and days as a reader of the language in force writes them."""

from __future__ import annotations

import re
from contextvars import ContextVar
from datetime import date
from functools import lru_cache
from math import ceil
from typing import Literal

from cutwright.units import CM_PER_INCH, inches
from cutwright.words import _, current_language, spaced

CLOTH, PAPER = 8, 16
"""Into how many parts of an inch a length is read: on cloth, and on paper."""

CM_PER_YARD = 36 * CM_PER_INCH

Tape = Literal["cm", "in"]
_tape: ContextVar[Tape] = ContextVar("cutwright_tape", default="cm")
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
    sign, line = decimal_sign(current_language()), spaced(line)
    return line if sign == "." else _DECIMAL.sub(rf"\1{sign}\2", line)


def number(value: float, places: int = 1) -> str:
    """A number with so many places, by the custom of the language in force."""
    text = f"{value:.{places}f}"
    text = text[1:] if text.startswith("-") and not float(text) else text.replace("-", "−")
    return text.replace(".", decimal_sign(current_language()))


def short(value: float, places: int = 2) -> str:
    """A number with no more places than it needs."""
    text = number(value, places)
    sign = decimal_sign(current_language())
    return text.rstrip("0").rstrip(sign) if sign in text else text


def cm(value: float, places: int = 1) -> str:
    """A length in centimetres."""
    return _("{number} cm").format(number=number(value, places))


def yards(value: float) -> str:
    """A length of cloth in yards, rounded up to eighths, without its unit: "2 3/8"."""
    return inches(ceil(value / CM_PER_YARD * 8 - 1e-6) / 8 * CM_PER_INCH)


def day_words(day: date) -> str:
    """A day in words: "11 February 2026"."""
    months = (
        _("January"), _("February"), _("March"), _("April"), _("May"), _("June"), _("July"),
        _("August"), _("September"), _("October"), _("November"), _("December"),
    )  # fmt: skip
    return _("{day} {month} {year}").format(day=day.day, month=months[day.month - 1], year=day.year)


def measure_in(unit: Tape) -> None:
    """Choose the unit in which this task prints lengths from now on; inside they stay centimetres."""
    _tape.set(unit)


def in_inches() -> bool:
    """Whether lengths are printed in inches."""
    return _tape.get() == "in"


def unit_name() -> str:
    """The unit in which lengths are printed, as it stands in the head of a column."""
    return _("in") if in_inches() else _("cm")


def bare(value: float, places: int = 1, *, parts: int = CLOTH) -> str:
    """A length without its unit: "68.5", or "26 3/4" in eighths of an inch, kept on one line.

    Parameters
    ----------
    value : cm
    places : decimals when printed in centimetres
    parts : into how many parts of an inch it is rounded
    """
    return (
        inches(value, parts).replace("-", "−").replace(" ", "\u00a0")
        if in_inches()
        else number(value, places)
    )


def amount(value: float, places: int = 2, *, parts: int = CLOTH) -> str:
    """A length without its unit and with no more places than it needs: "1.5", or "5/8" in eighths of an inch."""
    return bare(value, parts=parts) if in_inches() else short(value, places)


def amount_with_unit(value: float) -> str:
    """The same with its unit: "1.5 cm", or "5/8 in"."""
    words = _("{number} in") if in_inches() else _("{number} cm")
    return words.format(number=amount(value))


def length_words(value: float, places: int = 1, *, parts: int = CLOTH) -> str:
    """A length with its unit: "68.5 cm", or "27 in"."""
    if in_inches():
        return _("{number} in").format(number=bare(value, parts=parts))
    return cm(value, places)
