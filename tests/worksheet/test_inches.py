"""In inches: eighths on cloth, sixteenths on paper, yards to buy, and a square of 4 inches."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

import pytest

from cutwright.drawing.piece import draw_piece
from cutwright.drawing.primitives import Drawing, Words
from cutwright.lay.search import Budget
from cutwright.numerals import bare, length_words, measure_in
from cutwright.paper.furniture import scale_square
from cutwright.style.document import parse_style
from cutwright.wording.labels import label_words
from cutwright.worksheet.lesson import lesson_data
from cutwright.worksheet.making_words import making_section
from cutwright.worksheet.sheet import Sheet, SheetTable, Text
from cutwright.worksheet.whole import worksheet_data
from cutwright.workshop.gallery import load_body
from cutwright.workshop.laying import LaidWork, lay_work, load_cloth
from cutwright.workshop.work import work
from tests.worksheet.sheets import STYLES, worked


@pytest.fixture(autouse=True)
def inches() -> Iterator[None]:
    """Lengths in inches for the time of a test."""
    measure_in("in")
    yield
    measure_in("cm")


def _inches(text: str) -> Fraction:
    """The number in "26 3/4"."""
    return sum((Fraction(part) for part in text.replace("−", "-").split()), Fraction(0))


def _table(sheet: Sheet, key: str) -> SheetTable:
    return list(sheet.section(key).tables())[-1]


def test_fractions_are_eighths_or_sixteenths() -> None:
    assert length_words(68.5) == "27 in"
    assert length_words(2.0) == "3/4 in"
    assert bare(2.0, parts=16) == "13/16"
    assert bare(-2.54) == "−1"
    measure_in("cm")
    assert length_words(68.5) == "68.5 cm"


@pytest.mark.parametrize("style", STYLES)
def test_the_whole_sheet_is_in_inches(style: str) -> None:
    sheet = worksheet_data(worked(style, "the-rower"))
    for row in _table(sheet, "measures").rows:
        body, ease, garment = (_inches(str(cell)) for cell in row[1:4])
        assert body + ease == garment
        assert garment.denominator in (1, 2, 4, 8)
    allowances = " ".join(str(row[4]) for row in _table(sheet, "cutting").rows)
    assert not re.search(r"\d[.,]\d", allowances)
    assert {Fraction(f).denominator for f in re.findall(r"\d+/\d+", allowances)} <= {2, 4, 8}
    made = [
        b.text
        for b in making_section(worked(style, "the-rower").finished.pattern).blocks
        if isinstance(b, Text)
    ]
    assert not re.search(r"\d cm", " ".join(made))
    ready = " ".join(str(cell) for row in _table(sheet, "ready").rows for cell in row)
    assert not re.search(r"\d cm", ready)


def test_what_a_step_asks_for_and_comes_to_is_in_inches() -> None:
    texts = list(worksheet_data(worked("orchard-dress", "the-rower")).texts())
    assert any("20\u00a01/2 in from the waist" in text for text in texts)
    assert any(re.search(r"Half bust: .*= 50\.0 \(19\u00a011/16 in\)", text) for text in texts)


def _words(drawing: Drawing) -> str:
    return " | ".join(item.text for item in drawing.items if isinstance(item, Words))


@pytest.mark.parametrize("style", STYLES)
def test_labels_and_marks_on_pieces_are_in_inches(style: str) -> None:
    finished = worked(style, "the-rower").finished
    on_paper = " | ".join(_words(draw_piece(piece)) for piece in finished.pieces)
    assert not re.search(r"\d cm", on_paper)
    labels = " | ".join(" | ".join(label_words(p.label).lines) for p in finished.pieces)
    assert re.search(r"Allowance included: 5/8.* in\b", labels)
    assert not re.search(r"\d[.,]\d", labels)


def test_zip_and_gathers_are_told_in_inches() -> None:
    pieces = worked("orchard-dress", "the-rower").finished.pieces
    on_paper = " | ".join(_words(draw_piece(piece)) for piece in pieces)
    assert re.search(r"zip end, \d+(\u00a0\d/8)? in", on_paper)
    measure_in("cm")
    on_paper = " | ".join(_words(draw_piece(piece)) for piece in pieces)
    assert re.search(r"zip end, \d+(\.\d+)? cm", on_paper)


def test_the_lay_its_captions_and_its_table_are_in_inches() -> None:
    laid = lay_work(
        worked("orchard-dress", "the-rower"), load_cloth("plain-cotton-140"), Budget(1000)
    )
    table = laid.table()
    told = " | ".join((*table.sentences, *table.head, *laid.captions()))
    assert not re.search(r"\bcm\b", told)
    assert re.search(r"\d in used", told)
    assert re.search(r"Buy \d+(\u00a0| )?.* yd", told)
    for row, placement in zip(table.rows, sorted_by_number(laid), strict=True):
        assert float(_inches(row[3])) * 2.54 == pytest.approx(placement, abs=0.16)
        assert not re.search(r"\d\.\d", " ".join(row[3:6]))
    drawn = _words(laid.drawing()).split(" | ")
    assert {"0 in", "18", "36"} <= set(drawn)


def sorted_by_number(laid: LaidWork) -> list[float]:
    """How far from the end of the cloth each piece begins, cm, as the table says it in centimetres."""
    measure_in("cm")
    begins = [float(row[3]) for row in laid.table().rows]
    measure_in("in")
    return begins


def test_a_lesson_gives_its_answers_in_inches_too() -> None:
    lesson = lesson_data(worked("orchard-dress", "the-rower"))
    answers = [
        b.text for b in lesson.section("answers").blocks if isinstance(b, Text) and b.kind == "sum"
    ]
    flounce = next(text for text in answers if text.startswith("Length of the hem flounce"))
    assert re.search(r"330\.0.* \(129\u00a015/16 in\)", flounce)
    assert lesson.section("measures").title == "Measures, in (and cm)"
    measured = " ".join(t for t in lesson.texts() if t.startswith("Measured on the reference"))
    assert "skirt front 18\u00a01/8 (" in measured
    for inch, cm in re.findall(r"([\d/\u00a0]+) \((\d+\.\d)\)", measured):  # the sums go on in cm
        assert float(_inches(inch)) * 2.54 == pytest.approx(float(cm), abs=0.13)


def test_a_style_takes_inches() -> None:
    def skirt(long: object) -> object:
        style = parse_style(
            {"format": 1, "name": "s", "steps": [{"do": "draft_skirt", "length": long}]}
        )
        return style.steps[0].length  # type: ignore[attr-defined]

    assert skirt("24 1/2 in") == pytest.approx(62.23)
    assert skirt("waist_to_hip + 40") == "waist_to_hip + 40"  # a sum stays one
    steps = [{"do": "draft_skirt", "length": "24 1/2 in"}]
    done = work(parse_style({"format": 1, "name": "s", "steps": steps}), load_body("the-rower"))
    assert done.trouble is None


def test_a_square_of_four_inches_stands_with_the_other() -> None:
    left, top, right, bottom = scale_square().box()
    assert right - left == pytest.approx(10.16)
    assert bottom - top == pytest.approx(10.16)
    measure_in("cm")
    left, _top, right, _bottom = scale_square().box()
    assert right - left == pytest.approx(10.0)
