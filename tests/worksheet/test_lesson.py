"""The lesson: blanks where a figure belongs to the body, answers that fill them, and the check."""

from __future__ import annotations

import pytest

from cutwright.worksheet.lesson import exercises, lesson_data
from cutwright.worksheet.lesson_check import check_lesson, read_number
from cutwright.worksheet.sheet import Blank, Sheet, Text
from cutwright.worksheet.whole import SheetOptions
from tests.worksheet.sheets import STYLES, worked


def lesson(style: str, body: str = "the-rower") -> Sheet:
    return lesson_data(worked(style, body))


@pytest.mark.parametrize("style", STYLES)
def test_blanks_filled_with_the_answers_give_the_worked_line(style: str) -> None:
    sheet = lesson(style)
    rows = exercises(sheet)
    assert rows
    keys = [blank.key for row in rows for blank in row.blanks]
    assert len(keys) == len(set(keys))
    answers = "\n".join(b.text for b in sheet.section("answers").blocks if isinstance(b, Text))
    for row in rows:
        filled = "".join(p.answer if isinstance(p, Blank) else p for p in row.parts)
        assert filled == row.worked
        assert f"{row.what}: {row.worked}" in answers


def test_what_belongs_to_the_style_stays_printed() -> None:
    rows = {row.what: row for row in exercises(lesson("orchard-dress"))}

    def plain(what: str) -> str:
        return "".join(p if isinstance(p, str) else "_" for p in rows[what].parts)

    assert "× 1.8" in plain("Length of the hem flounce")
    assert plain("Length of the hem flounce").count("_") == 3
    around = plain("Edges the hem flounce is sewn to, all round")
    assert "× 2 all round =" in around
    assert around.count("_") == 5
    assert not any(blank.answer == "1.8" for blank in rows["Length of the hem flounce"].blanks)


def test_right_answers_are_right_and_a_slip_is_told() -> None:
    sheet = lesson("orchard-dress")
    answers = {b.key: b.answer for row in exercises(sheet) for b in row.blanks}
    assert {m.state for m in check_lesson(sheet, answers)} == {"right"}
    commas = {key: text.replace(".", ",") for key, text in answers.items()}
    assert {m.state for m in check_lesson(sheet, commas)} == {"right"}
    key = next(iter(answers))
    bad = check_lesson(sheet, answers | {key: "12"})
    assert [m.key for m in bad if m.state == "wrong"] == [key]
    assert answers[key] in next(m.hint for m in bad if m.key == key)
    assert {m.state for m in check_lesson(sheet, {})} == {"empty"}
    assert check_lesson(sheet, {key: "many"})[0].state == "wrong"


def test_own_figures_are_held_to_their_own_sums() -> None:
    sheet = lesson("orchard-dress")
    row = exercises(sheet)[0]
    first, last = row.blanks[0].key, row.blanks[-1].key
    good = {m.key: m for m in check_lesson(sheet, {first: "90", last: "48.5"}, own=True)}
    assert good[first].state == "own"
    assert good[last].state == "right"
    bad = {m.key: m for m in check_lesson(sheet, {first: "90", last: "47.5"}, own=True)}
    assert bad[last].state == "wrong"
    assert "48.5" in bad[last].hint


@pytest.mark.parametrize(
    ("typed", "value"),
    [("12,5", 12.5), (" 12.5 cm", 12.5), ("−3", -3.0), ("", None), ("1e9", None), ("nan", None),
     ("twelve", None), ("1" * 400, None)],
)  # fmt: skip
def test_numbers_as_people_write_them(typed: str, value: float | None) -> None:
    assert read_number(typed) == value


def test_large_print_says_so() -> None:
    sheet = lesson_data(worked("close-skirt", "the-rower"), SheetOptions(large=True))
    assert sheet.large
    assert sheet.kind == "lesson"


def test_an_angle_among_the_measures_says_so() -> None:
    (table,) = lesson("orchard-dress").section("measures").tables()
    values = {str(row[1]): str(row[2]) for row in table.rows}
    assert values["Shoulder slope"].endswith("°")
    assert not values["Bust"].endswith("°")
