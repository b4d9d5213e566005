"""Looking through what a student filled in: against the reference body, or as sums of their own."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from cutwright.numerals import short
from cutwright.wording.sums import Amount
from cutwright.words import _
from cutwright.worksheet.lesson import exercises
from cutwright.worksheet.sheet import Exercise, Sheet

TOLERANCE = 0.15
"""How far a figure may lie from the reference: a millimetre of measuring and half of rounding, cm."""

WORKED = 0.051
"""How far a result may lie from the sum before it: a result may be rounded to a millimetre, cm."""

State = Literal["right", "wrong", "empty", "own"]


@dataclass(frozen=True, slots=True)
class Marked:
    """One blank looked through.

    state: "right", "wrong", "empty", or "own" for a measure that only its owner can check;
    `hint` says what to look at where it is wrong; `off` is how much too large it is (below
    nothing: too small), None where it is not a number.
    """

    key: str
    state: State
    hint: str = ""
    off: float | None = None


def check_lesson(
    sheet: Sheet, answers: Mapping[str, str], *, own: bool = False
) -> tuple[Marked, ...]:
    """Look through every blank of a lesson.

    Parameters
    ----------
    answers : what was written, by the key of its blank; commas and points both part tenths
    own : the figures are the student's own, so only the sums themselves are held to be right
    """
    look = _as_sum if own else _as_reference
    return tuple(marked for exercise in exercises(sheet) for marked in look(exercise, answers))


def _as_reference(exercise: Exercise, answers: Mapping[str, str]) -> list[Marked]:
    out: list[Marked] = []
    for blank in exercise.blanks:
        typed = answers.get(blank.key, "").strip()
        value, wanted = read_number(typed), read_number(blank.answer)
        if not typed:
            out.append(Marked(blank.key, "empty"))
        elif value is None or wanted is None:
            out.append(Marked(blank.key, "wrong", _("Write a number.")))
        elif abs(value - wanted) <= TOLERANCE:
            out.append(Marked(blank.key, "right"))
        else:
            hint = _("The reference body has {number} here.").format(number=blank.answer)
            out.append(Marked(blank.key, "wrong", hint, value - wanted))
    return out


def _as_sum(exercise: Exercise, answers: Mapping[str, str]) -> list[Marked]:
    """Each result against the sum before it, worked again with what was written there."""
    amounts = exercise.sum.amounts
    values = [amount.value for amount in amounts]
    blanks = {blank.place: blank for blank in exercise.blanks}
    out: list[Marked] = []
    for place, amount in enumerate(amounts):
        blank = blanks.get(place)
        if (
            amount.made is not None
        ):  # goes on from what was written before, where nothing is written here
            values[place] = amount.made.again(values)
        if blank is None:
            continue
        typed = answers.get(blank.key, "").strip()
        value = read_number(typed)
        if value is None:
            hint = _("Write a number.") if typed else ""
            out.append(Marked(blank.key, "wrong" if typed else "empty", hint))
            continue
        values[place] = value * amount.sign
        out.append(_held(blank.key, amount, values, place))
    return out


def _held(key: str, amount: Amount, values: list[float], place: int) -> Marked:
    """A result worked out again; a measure is only its owner's to check."""
    if amount.made is None:
        return Marked(key, "own")
    right = amount.made.again(values)
    off = values[place] - right
    if abs(off) <= WORKED:
        return Marked(key, "right")
    hint = _("By the figures before it this comes to {number}.").format(number=short(right))
    return Marked(key, "wrong", hint, off)


def read_number(text: str) -> float | None:
    """A number as somebody writes it, or None."""
    plain = text.strip().replace("−", "-").replace(",", ".")
    plain = plain.removesuffix("cm").removesuffix("см").strip()
    if len(plain) > 20 or not plain.replace(".", "", 1).removeprefix("-").isascii():
        return None
    try:
        value = float(plain)
    except ValueError:
        return None
    return value if abs(value) < 1e6 else None
