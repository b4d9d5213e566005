"""Every language is whole where a reader looks, keeps its placeholders, and tells sums that hold."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from string import Formatter

import pytest
from babel.messages.catalog import Catalog, Message
from babel.messages.pofile import read_po

from cutwright.numerals import by_custom, number
from cutwright.wording.sentences import sentence
from cutwright.words import LOCALES, _, current_language, set_language
from cutwright.worksheet.html import html
from cutwright.worksheet.lesson import exercises, lesson_data
from cutwright.worksheet.pdf import pdf_bytes
from cutwright.worksheet.whole import SheetOptions, worksheet_data
from cutwright.workshop.gallery import load_body, load_style
from cutwright.workshop.sheets import write_lesson, write_worksheet
from cutwright.workshop.work import Work, work
from tests.conftest import ROOT
from tests.printed_sums import equations, wrong
from tests.worksheet.test_pages import clashes
from tools.words import gather

LANGUAGES = ("de", "es", "fr", "lt", "ru")
WHOLE = ("worksheet", "steps", "blocks", "body", "checks", "finish", "style", "drawing")
"""Parts of the program whose every message a reader of a sheet may meet."""


@pytest.fixture(autouse=True)
def english_again() -> Iterator[None]:
    before = current_language()
    yield
    set_language(before)


@pytest.fixture(scope="module")
def template() -> Catalog:
    return gather(ROOT)


def catalogue(language: str) -> Catalog:
    path = LOCALES / language / "LC_MESSAGES" / "cutwright.po"
    with path.open("rb") as file:
        return read_po(file, locale=language)


def forms(message: Message) -> list[tuple[str, str]]:
    """Each translated form of a message beside the English it stands for."""
    if isinstance(message.id, tuple):
        return [(message.id[1], str(form)) for form in message.string or ()]
    return [(str(message.id), str(message.string))]


def fields(text: str) -> set[tuple[str, str]]:
    """The holes of a message with their formats; {1}-like and unnamed ones too."""
    found = {
        (name, spec or "") for _t, name, spec, _c in Formatter().parse(text) if name is not None
    }
    return found | {(name, "%") for name in re.findall(r"%\((\w+)\)", text)}


@pytest.mark.parametrize("language", LANGUAGES)
def test_no_placeholder_is_missing_or_new(language: str) -> None:
    faults = []
    for message in catalogue(language):
        if not message.id or not any(text for _english, text in forms(message)):
            continue
        for english, text in forms(message):
            one_form_less = isinstance(message.id, tuple) and fields(text) < fields(english)
            if fields(text) != fields(english) and not one_form_less:
                faults.append(f"{english!r}: {text!r}")
    assert not faults, "\n".join(faults)


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_message_a_sheet_may_hold_is_translated(language: str, template: Catalog) -> None:
    there = catalogue(language)
    missing = []
    for message in template:
        homes = {
            Path(place).relative_to("src/cutwright").parts[0] for place, _n in message.locations
        }
        if message.id and homes & set(WHOLE):
            own = there.get(message.id)
            if own is None or not all(text for _english, text in forms(own)):
                missing.append(str(message.id))
    assert not missing, f"{len(missing)} messages: " + "\n".join(missing)


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_forms_of_many_are_as_many_as_the_language_has(language: str) -> None:
    there = catalogue(language)
    for message in there:
        if isinstance(message.id, tuple):
            assert len(message.string or ()) == there.num_plurals


def test_a_lost_placeholder_would_be_found() -> None:
    assert fields("{a:.1f} of {b}") != fields("{a} of {b}")
    assert fields("%(count)s left") != fields("left")


def _worked(language: str, style: str = "orchard-dress") -> Work:
    set_language(language)
    done = work(load_style(style), load_body("the-alto"))
    assert done.trouble is None
    return done


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("style", ["orchard-dress", "shift"])
def test_a_sheet_is_told_in_the_language_and_its_sums_hold(language: str, style: str) -> None:
    done = _worked(language, style)
    assert not done.faults
    sheet = worksheet_data(done)
    lines = [text for text in sheet.texts() if "=" in text or "→" in text]
    plain = [re.sub(r"(\d),(\d)", r"\1.\2", text) for text in lines]
    assert not [fault for line in plain for fault in wrong(line)]
    assert sum(1 for line in plain for _equation in equations(line)) >= len(lines)
    text = html(sheet)
    assert f'<html lang="{language}"' in text
    english = {
        "skirt front",
        "centre back",
        "neckline",
        "armhole",
        "shoulder",
        "waist dart",
        "Step 1",
    }
    told = "\n".join(sheet.texts())
    assert not [name for name in english if re.search(rf"\b{name}\b", told)]


@pytest.mark.parametrize("language", ["de", "ru"])
def test_no_words_over_others_in_long_languages(language: str) -> None:
    data, _pages = pdf_bytes(worksheet_data(_worked(language, "flared-skirt")))
    assert not clashes(data)


def test_the_same_piece_is_drafted_in_every_language() -> None:
    """Names in documents do not depend on the reader's language."""
    plain = [p.name for p in _worked("en", "shift").finished.pattern.pieces]
    for language in LANGUAGES:
        assert [p.name for p in _worked(language, "shift").finished.pattern.pieces] == plain


def test_numbers_follow_the_custom_of_the_language() -> None:
    set_language("de")
    assert number(12.5) == "12,5"
    assert by_custom("a 1.5 × 2 = 3.0; waist.1") == "a 1,5 × 2 = 3,0; waist.1"
    assert "4,5" in sentence(load_style("orchard-dress").steps[6])
    set_language("en")
    assert number(12.5) == "12.5"


def test_answers_of_a_lesson_are_written_with_the_sign_of_the_language() -> None:
    sheet = lesson_data(_worked("fr"))
    assert any("," in blank.answer for row in exercises(sheet) for blank in row.blanks)
    assert _("Step {number}") != "Step {number}"


def test_what_ships_is_named_as_the_reader_is_told_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    done = _worked("ru", "close-skirt")
    monkeypatch.setattr("cutwright.workshop.sheets.called", lambda name: f"<{name}>")
    for write in (write_worksheet, write_lesson):
        written = [made.path for made in write(done, tmp_path, SheetOptions())]
        text = next(path for path in written if path.suffix == ".html").read_text("utf-8")
        assert "<h1>&lt;Close skirt&gt;</h1>" in text
        assert "&lt;the alto&gt;" in text
