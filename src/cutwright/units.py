"""Lengths and angles as people write them: "68 cm", "68,5 см", "26 3/4 in", "5 ft 6 in".

Inside, a length is a number of centimetres; nothing else is ever stored.
"""

from __future__ import annotations

import re
from fractions import Fraction
from math import isfinite
from typing import Literal

from cutwright.errors import MeasureError
from cutwright.messages import N_, Message, Typed

LengthUnit = Literal["cm", "mm", "in"]

CM_PER_INCH = 2.54
_LONGEST = 40
_FACTOR: dict[str, float] = {"mm": 0.1, "cm": 1.0, "m": 100.0, "in": 2.54, "ft": 30.48}
_SPELLINGS = {
    "mm": "mm", "cm": "cm", "m": "m", "мм": "mm", "см": "cm", "м": "m",
    "in": "in", "ins": "in", "inch": "in", "inches": "in", '"': "in", "″": "in", "”": "in", "''": "in",
    "ft": "ft", "foot": "ft", "feet": "ft", "'": "ft", "′": "ft", "’": "ft",
}  # fmt: skip
_VULGAR = {
    "½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
    "⅓": "1/3", "⅔": "2/3",
}  # fmt: skip
_UNIT = r"""(?:mm|cm|m|мм|см|м|inches|inch|ins|in|feet|foot|ft|''|"|″|”|'|′|’)"""
_NUMBER = r"(?:\d+[ -]+\d+/\d+|\d+/\d+|\d+[.,]\d+|\d+|[.,]\d+)"
_PART = re.compile(rf"\s*(?P<number>{_NUMBER})\s*(?P<unit>{_UNIT}(?![a-z]))?\.?", re.ASCII)
_WHOLE = re.compile(
    rf"(?:{_PART.pattern.replace('?P<number>', '?:').replace('?P<unit>', '?:')})+\s*"
)


def parse_length(given: object, unit: LengthUnit = "cm", *, signed: bool = False) -> float:
    """A length in centimetres from a number or from what somebody typed.

    Parameters
    ----------
    given : a number, or text such as "68 cm", "26 3/4 in", "68,5" or "5 ft 6 in"
    unit : what a bare number means
    signed : whether the length may be below nothing ("-0.5 cm")
    """
    if isinstance(given, bool) or not isinstance(given, int | float | str):
        raise MeasureError(
            Message(
                "length-of-another-kind",
                N_("A length is a number or a text such as “68 cm”, not {given}."),
                given=_shown(given),
            )
        )
    value = _typed(given, unit) if isinstance(given, str) else _plain(given) * _FACTOR[unit]
    if not isfinite(value):
        raise MeasureError(
            Message("no-length", N_("{given} is not a length."), given=_shown(given))
        )
    if value < 0 and not signed:
        raise MeasureError(
            Message(
                "length-below-nothing",
                N_("A length here cannot be less than 0, but {given} was given."),
                given=_shown(given),
            )
        )
    return value


def parse_angle(given: object) -> float:
    """An angle in degrees from a number or from text such as "19", "19.5°" or "19 deg"."""
    number: object = given
    if isinstance(given, str):
        text = given.strip().removesuffix("°").removesuffix("degrees").removesuffix("deg").strip()
        text = text.replace(",", ".", 1)
        number = float(text) if re.fullmatch(r"-?\d{1,4}(\.\d{1,9})?", text, re.ASCII) else None
    if isinstance(number, bool) or not isinstance(number, int | float):
        raise MeasureError(
            Message(
                "angle-of-another-kind",
                N_("{given} is not an angle; write degrees, such as 19 or 19.5°."),
                given=_shown(given),
            )
        )
    value = _plain(number)
    if not isfinite(value):
        raise MeasureError(Message("no-angle", N_("{given} is not an angle."), given=_shown(given)))
    return value


def length_message(
    cm: float, unit: Literal["cm", "in"] = "cm", *, places: int = 1, parts: int = 8
) -> Message:
    """A length as a cutter writes it: "68.5 cm", or "26 3/4 in" in eighths or sixteenths.

    Parameters
    ----------
    cm : centimetres
    places : decimals when written in centimetres
    parts : into how many parts of an inch it is rounded
    """
    if unit == "cm":
        return Message("length-cm", N_("{number} cm"), number=trimmed(cm, places))
    return Message("length-inches", N_("{number} in"), number=Typed(inches(cm, parts)))


def inches(cm: float, parts: int = 8) -> str:
    """A length in inches without its unit, to the nearest part of an inch: "26 3/4"."""
    pieces = round(abs(cm) / CM_PER_INCH * parts)
    whole, rest = divmod(pieces, parts)
    words = [str(whole)] if whole or not rest else []
    if rest:
        words.append(str(Fraction(rest, parts)))
    return ("-" if cm < 0 and pieces else "") + " ".join(words)


def angle_message(degrees: float, places: int = 1) -> Message:
    """An angle in degrees as a cutter writes it: "19°"."""
    return Message("angle", "{number}°", number=trimmed(degrees, places))


def trimmed(value: float, places: int) -> float | int:
    """A number to so many places, without the noughts at its end."""
    rounded = round(value, places)
    return int(rounded) if rounded == int(rounded) else rounded


def _plain(number: float) -> float:
    """A number as a float; one too large for a float counts as endless."""
    try:
        return float(number)
    except OverflowError:
        return float("inf")


def _shown(given: object) -> Typed:
    """What was given, short enough to show."""
    text = given if isinstance(given, str) else repr(given)
    text = "".join(c if c.isprintable() else "?" for c in text[: _LONGEST + 1])
    return Typed(f"“{text[:_LONGEST]}…”" if len(text) > _LONGEST else f"“{text}”")


def _typed(given: str, unit: LengthUnit) -> float:
    """Centimetres from typed text."""
    text = given.strip()
    sign = 1.0
    if text[:1] in {"-", "−", "+"}:
        sign = 1.0 if text[0] == "+" else -1.0
        text = text[1:].lstrip()
    for vulgar, plain in _VULGAR.items():
        text = text.replace(vulgar, f" {plain}")
    text = re.sub(r"\s+", " ", text.replace("⁄", "/")).strip().lower()
    if len(given) > _LONGEST or not _WHOLE.fullmatch(text):
        raise MeasureError(
            Message(
                "length-unreadable",
                N_(
                    "{given} cannot be read as a length; write it like 68.5 cm, 26 3/4 in or 5 ft 6 in."
                ),
                given=_shown(given),
            )
        )
    parts = [(m["number"], m["unit"]) for m in _PART.finditer(text)]
    return sign * _summed(parts, unit, given)


def _summed(parts: list[tuple[str, str | None]], unit: LengthUnit, given: str) -> float:
    """Centimetres from one number with its unit, or from feet and inches."""
    units = [_SPELLINGS[u] if u else None for _number, u in parts]
    if len(parts) == 1:
        return _number_from(parts[0][0], given) * _FACTOR[units[0] or unit]
    if len(parts) == 2 and units[0] == "ft" and units[1] in {"in", None}:
        feet, inches = (_number_from(number, given) for number, _unit in parts)
        if inches < 12:
            return feet * _FACTOR["ft"] + inches * _FACTOR["in"]
    raise MeasureError(
        Message(
            "several-lengths",
            N_(
                "{given} holds more than one length; write one number with its unit, or feet and "
                "inches such as 5 ft 6 in."
            ),
            given=_shown(given),
        )
    )


def _number_from(text: str, given: str) -> float:
    """The number in "26 3/4", "3/4", "68,5" or "68"."""
    if "/" in text:
        *whole, part = re.split(r"[ -]+", text)
        above, below = (int(n) for n in part.split("/"))
        if not 2 <= below <= 64 or (whole and above >= below):
            raise MeasureError(
                Message(
                    "fraction-unreadable",
                    N_("The fraction in {given} cannot be read; write it like 3/4."),
                    given=_shown(given),
                )
            )
        return (int(whole[0]) if whole else 0) + above / below
    if re.fullmatch(r"[1-9]\d{0,2},\d{3}", text):
        raise MeasureError(
            Message(
                "length-two-meanings",
                N_("{given} could mean two things; write {small} or {large}."),
                given=_shown(given),
                small=Typed(text.replace(",", ".")),
                large=Typed(text.replace(",", "")),
            )
        )
    return float(text.replace(",", "."))
