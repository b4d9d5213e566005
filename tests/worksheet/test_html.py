"""The HTML sheet stands by itself, is well formed, and says all that the sheet says."""

from __future__ import annotations

import re
from html import escape
from html.parser import HTMLParser

import pytest

from cutwright.worksheet.html import body, html
from cutwright.worksheet.lesson import exercises, lesson_data
from tests.worksheet.sheets import STYLES, sheet, worked

VOID = {"meta", "input", "path", "circle", "br"}


class Balance(HTMLParser):
    """Follows the tags of a document and notes what is not closed in its turn."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.wrong: list[str] = []
        self.ids: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag not in VOID:
            self.open.append(tag)
        self.ids += [value or "" for name, value in attrs if name == "id"]

    def handle_endtag(self, tag: str) -> None:
        if tag in VOID:  # written as <path/>
            return
        if not self.open or self.open.pop() != tag:
            self.wrong.append(tag)


@pytest.mark.parametrize("style", STYLES)
def test_it_needs_nothing_else_and_is_well_formed(style: str) -> None:
    text = html(sheet(style, "the-alto"))
    assert not re.search(r"https?://(?!www\.w3\.org)|<script|src=|@import|url\(", text)
    parser = Balance()
    parser.feed(text)
    assert not parser.wrong
    assert not parser.open
    assert len(parser.ids) == len(set(parser.ids))
    assert 'name="viewport"' in text
    assert '<html lang="en"' in text


@pytest.mark.parametrize("style", STYLES)
def test_it_says_all_that_the_sheet_says(style: str) -> None:
    made = sheet(style, "the-alto")
    text = html(made)
    for words in made.texts():
        assert escape(words.partition("\t")[2] or words) in text
    for section in made.sections:
        assert f'id="{section.key}"' in text


def test_the_lesson_has_a_field_for_every_blank() -> None:
    lesson = lesson_data(worked("orchard-dress", "the-rower"))
    keys = [blank.key for row in exercises(lesson) for blank in row.blanks]
    shown = re.findall(r'data-key="([^"]+)"', body(lesson, inputs=True))
    assert shown == keys
    assert "<input" not in body(lesson)
    assert body(lesson).count('class="blank"') == len(keys)


def test_narrow_tables_that_follow_each_other_stand_in_a_row() -> None:
    text = body(sheet("close-skirt", "the-alto"))
    frames = re.findall(r'<div class="row">(.*?)</table></div></div>', text, re.S)
    assert frames
    assert all(frame.count("<thead>") >= 2 for frame in frames)
    assert text.count("<table>") == sum(
        1 for section in sheet("close-skirt", "the-alto").sections for _table in section.tables()
    )
