"""The work sheet and the lesson on the desk."""

from __future__ import annotations

import re
from html import unescape
from io import BytesIO

import pikepdf
import pytest

from cutwright.desk.sheet.sheet_css import sheet_css
from cutwright.wording.sentences import sentence
from cutwright.worksheet.lesson import exercises, lesson_data
from tests.desk.conftest import Desk


def at(desk: Desk, what: str) -> str:
    return f"/table/{desk.style}/{desk.body}/{what}"


def seen(desk: Desk, what: str) -> str:
    answer = desk.web.get(at(desk, what))
    assert answer.status_code == 200, answer.text
    return str(answer.text)


def right_answers(desk: Desk) -> dict[str, str]:
    _table, laid, _style, _body = desk.web.app.state.shop.laid(desk.style, desk.body)  # type: ignore[attr-defined]
    rows = exercises(lesson_data(laid.work))
    return {blank.key: blank.answer for row in rows for blank in row.blanks}


def checked(desk: Desk, answers: dict[str, str], **more: object) -> dict[str, dict[str, str]]:
    answer = desk.web.post(f"{desk.api}/lesson", json={"answers": answers, **more})
    assert answer.status_code == 200, answer.text
    return {mark["key"]: mark for mark in answer.json()["marks"]}


def test_the_sheet_holds_every_sentence_as_it_stands_now(desk: Desk) -> None:
    text = unescape(seen(desk, "sheet"))
    _table, laid, _style, _body = desk.web.app.state.shop.laid(desk.style, desk.body)  # type: ignore[attr-defined]
    assert all(sentence(step) in text for step in laid.style.steps)
    assert text.count('class="step"') == len(laid.style.steps)
    assert "52 cm" in text
    desk.set(1, 0, "length", "63")
    assert "63 cm" in unescape(seen(desk, "sheet"))


def test_every_other_sheet_of_the_table_leads_there(desk: Desk) -> None:
    for what in ("", "/body", "/paper"):
        assert at(desk, "sheet") in desk.web.get(at(desk, "")[:-1] + what).text
    assert at(desk, "lesson") in seen(desk, "sheet")


@pytest.mark.parametrize("what", ["sheet", "lesson"])
def test_no_style_stands_in_an_element(desk: Desk, what: str) -> None:
    text = seen(desk, what)
    assert " style=" not in text
    assert "data-wide=" in text
    assert "<style" not in text


def test_the_style_sheet_uses_only_the_colours_of_the_desk() -> None:
    sheet = sheet_css()
    own = sheet[: sheet.index('[data-wide="1"]')]
    assert re.findall(r"#[0-9a-f]{3,6}\b", own.replace("#fff", "")) == []
    assert "html{" not in own
    assert sheet.count("{") == sheet.count("}")


@pytest.mark.parametrize(("what", "start"), [("pdf", b"%PDF"), ("html", b"<!doctype html>")])
@pytest.mark.parametrize("kind", ["sheet", "lesson"])
def test_it_is_taken_as_a_file_without_a_name_unless_asked(
    desk: Desk, kind: str, what: str, start: bytes
) -> None:
    for who in ("", "Mrs Wolanski"):
        answer = desk.web.post(at(desk, kind), data={"what": what, "paper": "letter", "who": who})
        assert answer.status_code == 200
        assert answer.content.startswith(start)
        assert (
            f'attachment; filename="{"lesson" if kind == "lesson" else "worksheet"}.'
            in (answer.headers["content-disposition"])
        )
        if what == "html":
            assert ("Mrs Wolanski" in answer.text) == bool(who)
            assert "the alto" not in answer.text


def test_the_paper_and_the_size_of_print_are_as_asked(desk: Desk) -> None:
    def pages(**form: str) -> tuple[int, int]:
        content = desk.web.post(at(desk, "sheet"), data={"what": "pdf", **form}).content
        with pikepdf.open(BytesIO(content)) as found:
            return round(float(found.pages[0].mediabox[2])), len(found.pages)

    plain, letter, large = pages(), pages(paper="letter"), pages(large="yes")
    assert (plain[0], letter[0]) == (595, 612)
    assert large[1] > plain[1]
    assert 'class="leaf large"' in seen(desk, "sheet?large=yes")
    assert desk.web.post(at(desk, "sheet"), data={"what": "stone"}).status_code == 422


def test_a_lesson_is_filled_in_and_looked_through(desk: Desk) -> None:
    text = seen(desk, "lesson")
    answers = right_answers(desk)
    assert set(re.findall(r'data-key="([^"]+)"', text)) == set(answers)
    assert {m["state"] for m in checked(desk, answers).values()} == {"right"}
    first, second, third, *_rest = answers
    off = str(float(answers[first]) + 2.5)
    marks = checked(desk, {first: off, second: "a lot", third: answers[third].replace(".", ",")})
    assert marks[first]["text"] == "2.5 too much"
    assert answers[first] in marks[first]["hint"]
    assert marks[second]["state"] == "unread"
    assert marks[third]["state"] == "right"
    assert {marks[key]["state"] for key in list(answers)[3:]} == {"empty"}


def test_the_whole_is_told_in_one_line(desk: Desk) -> None:
    answers = right_answers(desk)
    told = desk.web.post(f"{desk.api}/lesson", json={"answers": answers}).json()
    assert told["words"] == "All of it is right."
    key, *_rest = answers
    told = desk.web.post(f"{desk.api}/lesson", json={"answers": {key: "1000"}}).json()
    assert told["words"] == f"0 right, 1 to look at again, {len(answers) - 1} still empty."


def test_own_figures_are_held_to_their_own_sums(desk: Desk) -> None:
    answers = right_answers(desk)
    first = next(iter(answers))
    row = first.rsplit(".b", 1)[0]
    keys = [key for key in answers if key.startswith(f"{row}.b")]
    own = {keys[0]: str(float(answers[keys[0]]) + 4)}
    marks = checked(desk, {**{k: answers[k] for k in keys}, **own}, own=True)
    assert marks[keys[0]]["state"] == "own"
    assert "wrong" in {marks[k]["state"] for k in keys[1:]}


def test_nothing_a_student_wrote_is_kept(desk: Desk) -> None:
    before = desk.web.get(f"{desk.api}/revision").json()
    checked(desk, {next(iter(right_answers(desk))): "987.125"})
    assert desk.web.get(f"{desk.api}/revision").json() == before
    assert "987.125" not in seen(desk, "lesson")
    book = desk.web.app.state.shop.where  # type: ignore[attr-defined]
    assert all(b"987.125" not in file.read_bytes() for file in book.parent.glob("book.sqlite*"))


def test_a_lesson_that_is_behind_says_so(desk: Desk) -> None:
    now = desk.web.get(f"{desk.api}/revision").json()
    wish = {"answers": {}, "style_revision": now["style"], "body_revision": now["body"]}
    assert desk.web.post(f"{desk.api}/lesson", json=wish).json()["changed"] is False
    desk.set(1, 0, "length", "60")
    assert desk.web.post(f"{desk.api}/lesson", json=wish).json()["changed"] is True


def test_a_letter_that_cannot_be_carried_out_has_no_sheet_and_says_why(desk: Desk) -> None:
    desk.set(1, 0, "length", "3")
    for what in ("sheet", "lesson"):
        text = seen(desk, what)
        assert "from 15 to 180" in text
        assert 'class="step"' not in text
        assert desk.web.post(at(desk, what), data={"what": "pdf"}).status_code == 422
    assert desk.web.post(f"{desk.api}/lesson", json={"answers": {}}).status_code == 422


@pytest.mark.parametrize(
    "wish",
    [{}, {"answers": []}, {"answers": {"a": "1" * 61}}, {"answers": {"a" * 61: "1"}},
     {"answers": {str(n): "" for n in range(3001)}}, {"answers": {}, "more": 1}],
)  # fmt: skip
def test_what_is_no_lesson_is_refused(desk: Desk, wish: dict[str, object]) -> None:
    assert desk.web.post(f"{desk.api}/lesson", json=wish).status_code == 422


def test_odd_keys_and_figures_are_borne(desk: Desk) -> None:
    key = next(iter(right_answers(desk)))
    for odd in ("\u0000", "1e400", "--5", "٣", "<script>", "9" * 19, "="):
        assert checked(desk, {key: odd, "no.such": "5"})[key]["state"] in ("wrong", "unread")
        assert checked(desk, {key: odd}, own=True)[key]["state"] in ("wrong", "unread", "own")


def test_the_sheet_can_be_read_and_saved_in_inches(desk: Desk) -> None:
    shown = seen(desk, "sheet?unit=in")
    assert "Measures, in (and cm)" in shown
    assert 'name="unit" value="in"' in shown
    assert "Measures, in (and cm)" not in seen(desk, "sheet")
    wish = {"what": "html", "unit": "in"}
    saved = desk.web.post(at(desk, "sheet"), data=wish).text
    assert "Measures, in (and cm)" in saved
    assert desk.web.get(at(desk, "sheet?unit=ell")).status_code == 422
