"""Real women for trying drafts on: rows of the 2012 survey turned into body cards.

Source: 2012 US Army Anthropometric Survey (ANSUR II, public domain), reduced and renamed columns in
whole millimetres. What the survey took otherwise than a dressmaker does is brought over by the rules
in `card_of`; what it did not take at all is left to the estimates.
"""

from __future__ import annotations

import csv
import io
from codecs import BOM_UTF16_BE, BOM_UTF16_LE
from collections.abc import Iterable, Iterator, Mapping
from itertools import chain
from math import asin, degrees
from pathlib import Path

from pydantic import ValidationError

from cutwright.body.card import BodyCard
from cutwright.errors import DocumentError, StoreError
from cutwright.messages import N_, Message, Typed

MEAN_SLOPE = 26.637
"""Mean of asin((nape height - acromion height) / shoulder length) over the 993 women, in degrees."""

PLAIN = {
    "stature": "stature",
    "bust_girth": "bust_girth",
    "hip_girth": "hip_girth",
    "neck_girth": "neck_girth",
    "neck_base_girth": "neck_base_girth",
    "forearm_girth": "forearm_girth_flexed",
    "wrist_girth": "wrist_girth",
    "hand_girth": "hand_girth",
    "thigh_girth": "thigh_girth",
    "calf_girth": "calf_girth",
    "ankle_girth": "ankle_girth",
    "head_girth": "head_girth",
    "shoulder_length": "shoulder_length",
    "shoulder_breadth": "biacromial_breadth",
    "knee_height": "knee_height",
    "inside_leg": "crotch_height",
    "arm_length": "arm_length_acromion_wrist",
    "upper_arm_length": "acromion_radiale_length",
    "back_neck_to_wrist": "spine_elbow_wrist_length",
}
"""Measures that are taken over as they stand, and the survey's column for each."""

OTHERS = (
    "cervicale_height", "acromial_height", "chest_height", "tenth_rib_height",
    "iliocristale_height", "navel_waist_height", "buttock_height", "navel_waist_girth",
    "upper_arm_girth_flexed", "lower_thigh_girth", "interscye_1", "interscye_2",
    "back_navel_waist_length", "crotch_length_navel",
)  # fmt: skip
"""Further columns that are worked with."""

COLUMNS = frozenset(PLAIN.values()) | frozenset(OTHERS)


def card_of(row: Mapping[str, float], name: str) -> BodyCard:
    """One woman's body card from her row of the survey.

    Parameters
    ----------
    row : the survey's columns, in mm
    name : what to call her
    """
    cm = {column: row[column] / 10 for column in COLUMNS}
    iso = (cm["tenth_rib_height"] + cm["iliocristale_height"]) / 2
    waist = iso - (iso - cm["navel_waist_height"]) / 3  # the dressmaker's waist level
    above_navel = waist - cm["navel_waist_height"]
    measures = {name: cm[column] for name, column in PLAIN.items()}
    measures |= {
        # Heinz et al. 2003: natural waist from navel girth, 260 women, SD 4.2
        "waist_girth": 16.52 + 0.6362 * cm["navel_waist_girth"],
        "back_width": 2 * (2 * cm["interscye_1"] + cm["interscye_2"]) / 6,
        "back_waist_length": cm["back_navel_waist_length"] - above_navel,
        "waist_to_hip": waist - cm["buttock_height"],
        "waist_to_knee": waist - cm["knee_height"],
        "waist_to_floor": waist,
        # a seated tape over the hip is longer than the difference of heights: 2, an assumption
        "body_rise": waist - cm["crotch_height"] + 2,
        "crotch_length": cm["crotch_length_navel"] + 2 * above_navel,
        # nape above bust height, and 4.6 for the side neck point and the slant of the tape
        "bust_depth": cm["cervicale_height"] - cm["chest_height"] + 4.6,
        # the survey's arm is flexed and tensed; 1.5 less for a hanging one is an assumption
        "upper_arm_girth": cm["upper_arm_girth_flexed"] - 1.5,
        "knee_girth": (cm["lower_thigh_girth"] + cm["calf_girth"]) / 2,
        "shoulder_slope": _slope(cm),
    }
    return BodyCard(name=name, measures=measures)


def _slope(cm: Mapping[str, float]) -> float:
    """Slope of the shoulder seam in degrees.

    The acromion lies well below the seam's end, so only 0.6 of a woman's difference from the mean
    counts, about a mean of 19, within 11 to 27 (derived).
    """
    rise = (cm["cervicale_height"] - cm["acromial_height"]) / cm["shoulder_length"]
    measured = degrees(asin(max(-1.0, min(1.0, rise))))
    return max(11.0, min(27.0, 19 + 0.6 * (measured - MEAN_SLOPE)))


def read_survey(path: Path) -> Iterator[BodyCard]:
    """Body cards for all women in a survey file, in the file's order."""
    try:
        raw = path.read_bytes()
    except OSError as fault:
        raise StoreError(
            Message(
                "survey-unreadable",
                N_("The survey file “{path}” cannot be read: {reason}."),
                path=Typed(path),
                reason=Typed(fault.strerror),
            )
        ) from fault
    yield from cards_from(io.StringIO(decoded(raw), newline=""), path.name)


def decoded(raw: bytes) -> str:
    """The text of a table as spreadsheets write it: UTF-8, UTF-16 with its mark, or eight bits a letter."""
    coding = "utf-16" if raw.startswith((BOM_UTF16_LE, BOM_UTF16_BE)) else "utf-8-sig"
    try:
        return raw.decode(coding)
    except UnicodeDecodeError:
        return raw.decode("cp1252", errors="replace")


def _separator(head: str) -> str:
    """What stands between the columns: a comma, a semicolon or a tab, whichever the first line has most."""
    return max(",;\t", key=head.count)


def cards_from(lines: Iterable[str], title: str = "survey") -> Iterator[BodyCard]:
    """Body cards from the lines of a survey file; wrong columns are named before anything else."""
    told = Message("survey-file", N_("The survey file “{name}” cannot be used:"), name=Typed(title))
    rows = iter(lines)
    head = next(rows, "")
    table = csv.DictReader(chain([head], rows), delimiter=_separator(head))
    try:
        yield from _cards(table, told)
    except csv.Error:
        place = Message("at-line", N_("line {line}"), line=table.line_num + 1)
        raise DocumentError(
            told, [(place, Message("no-row", N_("this line cannot be read as part of a table.")))]
        ) from None


def _cards(table: csv.DictReader[str], told: Message) -> Iterator[BodyCard]:
    missing = sorted(COLUMNS - set(table.fieldnames or ()))
    if missing:
        text = Message(
            "columns-missing",
            N_("columns are missing: {columns}."),
            columns=Typed(", ".join(missing)),
        )
        raise DocumentError(told, [(Message("at-line", N_("line {line}"), line=1), text)])
    for number, row in enumerate(table, start=1):
        place = Message("at-line", N_("line {line}"), line=table.line_num)
        taped = {column: _millimetres(row[column], column, place, told) for column in COLUMNS}
        try:
            yield card_of(taped, f"survey woman {number}")
        except ValidationError:
            text = Message(
                "heights-not-of-one-body",
                N_("these heights do not belong to one body; compare them with the table."),
            )
            raise DocumentError(told, [(place, text)]) from None


def _millimetres(text: str | None, column: str, place: Message, title: Message) -> float:
    """One cell of the survey: whole millimetres."""
    cell = (text or "").strip()
    if not cell.isdecimal() or len(cell) > 4 or not int(cell):
        problem = Message(
            "whole-millimetres",
            N_("{column} must be whole millimetres, not “{found}”."),
            column=Typed(column),
            found=Typed((text or "")[:30]),
        )
        raise DocumentError(title, [(place, problem)])
    return float(cell)
