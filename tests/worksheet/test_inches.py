"""In inches: eighths on cloth, sixteenths on paper, yards to buy, and a square of 4 inches."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

import pytest

from cutwright.numerals import bare, length, measure_in
from cutwright.paper.furniture import scale_square
from cutwright.style.document import parse_style
from cutwright.worksheet.making_words import making_section
from cutwright.worksheet.sheet import Sheet, Table, Text
from cutwright.worksheet.whole import worksheet_data
from cutwright.workshop.gallery import load_body
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


def _table(sheet: Sheet, key: str) -> Table:
    return list(sheet.section(key).tables())[-1]


def test_fractions_are_eighths_or_sixteenths() -> None:
    assert length(68.5) == "27 in"
    assert length(2.0) == "3/4 in"
    assert bare(2.0, parts=16) == "13/16"
    assert bare(-2.54) == "−1"
    measure_in("cm")
    assert length(68.5) == "68.5 cm"


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
