"""Columns are wide enough for their words, in every language and both forms."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from reportlab.pdfbase.pdfmetrics import stringWidth

from cutwright.words import current_language, set_language
from cutwright.worksheet.columns import CM, LEFT, RIGHT, column_widths, kind_of
from cutwright.worksheet.fonts import styles
from cutwright.worksheet.lesson import lesson_data
from cutwright.worksheet.pdf import register_fonts
from cutwright.worksheet.sheet import SheetTable
from cutwright.worksheet.whole import worksheet_data
from cutwright.workshop.gallery import load_body, load_style
from cutwright.workshop.work import work

NARROW = 8.4
"""The least width a table is set in, cm: half a column, or beside a picture."""


@pytest.fixture(autouse=True)
def english_again() -> Iterator[None]:
    before = current_language()
    yield
    set_language(before)


def broken(table: SheetTable, width: float) -> list[str]:
    """Words that do not fit into their column."""
    looks = styles(large=False)
    widths = column_widths(table, width, looks)
    assert sum(widths) == pytest.approx(width)
    out = []
    for row, head in [(table.head, True), *((row, False) for row in table.rows)]:
        for column, cell in enumerate(row):
            style = looks.of(kind_of(table, column, head))
            for word in cell.split(" ") if isinstance(cell, str) else ():
                room = widths[column] * CM - LEFT - RIGHT
                if stringWidth(word, style.fontName, style.fontSize) > room + 0.01:
                    out.append(word)
    return out


@pytest.mark.parametrize("language", ["en", "de", "es", "fr", "lt", "ru"])
def test_no_word_is_broken_in_a_table(language: str) -> None:
    register_fonts()
    set_language(language)
    done = work(load_style("market-dress"), load_body("the-alto"))
    for sheet in (worksheet_data(done), lesson_data(done)):
        for section in sheet.sections:
            for table in section.tables():
                beside = table.across > 1 or section.key == "measures"
                assert not broken(table, NARROW if beside else 17.4)


def test_a_word_too_wide_takes_room_from_the_others() -> None:
    register_fonts()
    word = "Rückenmittelnahtzugabenbreite"
    table = SheetTable((word, "a"), (("b", "c"),), (0.1, 0.9))
    assert broken(table, 10.0) == []
    assert broken(table, 4.0) == [word]
    assert column_widths(table, 17.4, styles(False))[0] > 1.74
    even = SheetTable(("one", "two"), (("b", "c"),), (0.5, 0.5))
    assert column_widths(even, 10.0, styles(False)) == [5.0, 5.0]
