"""A packet, the lesson, the help and the desk speak one language, in words a dressmaker reads."""

from __future__ import annotations

import html
import os
import re
import subprocess
import sys
from collections.abc import Iterator

import pytest

from cutwright.wording.names import called
from cutwright.words import current_language, languages, set_language
from cutwright.worksheet.html import html as sheet_html
from cutwright.worksheet.lesson import lesson_data
from cutwright.worksheet.whole import SheetOptions, worksheet_data
from cutwright.workshop.gallery import load_body, load_style
from cutwright.workshop.work import Work, work
from tests.packet.shown import slips

_OUT = re.compile(r"<(script|style|textarea)\b.*?</\1>|<!--.*?-->", re.S)
_WRITTEN = re.compile(r'^\w+(?=\s?:)|^ +\w+(?=\s?:|  )|"[^"]*"|--[\w-]+|\b[A-Z]{3,}\b', re.M)
"""What is typed at the command line or written in a file; it is the same in every language."""

_TAG = re.compile(r"<[^>]*>")
# People of the gallery, the program, its files and its commands keep their names.
NAMES = ("cutwright", "html", "json", "style", "body", "cloth")


@pytest.fixture(params=languages())
def language(request: pytest.FixtureRequest) -> Iterator[str]:
    before = current_language()
    set_language(request.param)
    yield request.param
    set_language(before)


@pytest.fixture
def orchard(language: str) -> Work:
    assert language == current_language()
    return work(load_style("orchard-dress"), load_body("the-alto"))


def named(done: Work) -> SheetOptions:
    """What the sheet calls its style and its wearer, in the language in force."""
    return SheetOptions(style=called(done.style.name), who=called(done.body.name))


def seen(page: str) -> str:
    """The text of a page as it is read."""
    return html.unescape(_TAG.sub(" ", _OUT.sub(" ", page)))


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("Close the {darts} of front", "en"),
        ("your waist_girth", "en"),
        ("skirt front: hem", "en"),
        ("order 0123456789abcdef0123", "en"),
        ("Der Saum ist gathered", "de"),
        ("Низ: gathered", "ru"),
    ],
)
def test_a_slip_is_found(text: str, language: str) -> None:
    assert list(slips(text, language))


def test_sheet_and_lesson_have_no_slip(orchard: Work, language: str) -> None:
    options = named(orchard)
    for sheet in (worksheet_data(orchard, options), lesson_data(orchard, options)):
        text = seen(sheet_html(sheet))
        assert len(text) > 5000
        assert sorted(set(slips(text, language, NAMES))) == []


@pytest.mark.parametrize("wish", ["--help", "steps"])
def test_the_command_line_has_no_slip(wish: str, language: str) -> None:
    ran = subprocess.run(
        [sys.executable, "-m", "cutwright", "--lang", language, wish],
        capture_output=True, text=True, env={**os.environ, "COLUMNS": "200"}, check=True,
    )  # fmt: skip
    shown = _WRITTEN.sub(" ", ran.stdout)  # names that are typed stay as they are
    assert sorted(set(slips(shown, language, NAMES))) == []
