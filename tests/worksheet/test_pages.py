"""Printed pages as a reader's eye sees them: no words over others, none off the page, few pages."""

from __future__ import annotations

import sys
import time
from functools import cache
from io import BytesIO
from itertools import combinations
from pathlib import Path
from typing import Any

import pdfplumber
import pytest

from cutwright.worksheet.lesson import lesson_data
from cutwright.worksheet.pdf import PAPERS, pdf_bytes
from cutwright.worksheet.whole import SheetOptions, worksheet_data
from cutwright.workshop.packet import placed, title_of
from tests.worksheet.sheets import STYLES, printed, sheet, worked

LEAST_PAGES = 5
"""What the shortest sheet takes: measures, lists, order of making, proof and notes are always there."""

Word = dict[str, Any]
Leaf = tuple[float, float, list[Word]]


@cache
def read(data: bytes) -> tuple[Leaf, ...]:
    """Every page with its size and its words with their boxes."""
    with pdfplumber.open(BytesIO(data)) as pdf:
        return tuple(
            (page.width, page.height, page.extract_words(x_tolerance=1.5, use_text_flow=True))
            for page in pdf.pages
        )


def clashes(data: bytes) -> list[str]:
    """Words that lie over others or reach over the edge of their page."""
    out: list[str] = []
    for count, (width, height, words) in enumerate(read(data), start=1):
        for word in words:
            if min(word["x0"], word["top"]) < 10 or word["x1"] > width - 10:
                out.append(f"page {count}: {word['text']} runs off")
            if word["bottom"] > height - 10:
                out.append(f"page {count}: {word['text']} runs off below")
        out += [
            f"page {count}: {a['text']} over {b['text']}"
            for a, b in combinations(words, 2)
            if _over(a, b)
        ]
    return out


def _over(a: Word, b: Word) -> bool:
    """Whether two words share more than a sliver: the line box holds room that ink does not use."""
    wide = min(a["x1"], b["x1"]) - max(a["x0"], b["x0"])
    high = min(a["bottom"], b["bottom"]) - max(a["top"], b["top"])
    least = min(a["bottom"] - a["top"], b["bottom"] - b["top"])
    return bool(wide > 0.7 and high > 0.35 * least)


@pytest.mark.parametrize("style", STYLES)
def test_no_words_over_others_and_none_off_the_page(style: str) -> None:
    data, _pages = printed(style, "the-alto")
    assert not clashes(data)


def test_letter_and_large_print_and_the_lesson() -> None:
    work = worked("flared-skirt", "the-rower")
    large = worksheet_data(work, SheetOptions(large=True, date="2026-05-01", revision="2"))
    assert not clashes(pdf_bytes(large, "letter")[0])
    assert not clashes(pdf_bytes(lesson_data(work), "a4")[0])


def test_an_overlap_would_be_found() -> None:
    from reportlab.pdfgen.canvas import Canvas

    out = BytesIO()
    canvas = Canvas(out)
    canvas.drawString(100, 100, "skirt front")
    canvas.drawString(110, 103, "hem 46.0")
    canvas.drawString(2, 300, "off")
    canvas.save()
    found = clashes(out.getvalue())
    assert any("over" in text for text in found)
    assert any("off" in text for text in found)


@pytest.mark.parametrize("style", STYLES)
def test_a_page_and_a_half_a_step(style: str) -> None:
    """The whole sheet stays within a page and a half a step (five pages for the shortest)."""
    steps = len(worked(style, "the-alto").replay.stages)
    data, pages = printed(style, "the-alto")
    first, last = _page_of(data, "Steps"), _page_of(data, "Cutting list")
    assert last - first + 1 <= 1.5 * steps + 1
    assert pages <= max(1.5 * steps, LEAST_PAGES)


def _page_of(data: bytes, heading: str) -> int:
    """The page on which a heading stands: its words in large type."""
    wanted = heading.split()
    for count, (_width, _height, words) in enumerate(read(data)):
        large = [w["text"] for w in words if w["bottom"] - w["top"] > 12.5]
        if any(large[i : i + len(wanted)] == wanted for i in range(len(large))):
            return count
    raise AssertionError(f"{heading} is on no page")


def test_page_sizes_and_what_the_file_says_of_itself() -> None:
    for paper, (width, height) in PAPERS.items():
        data, pages = pdf_bytes(sheet("close-skirt", "the-alto"), paper)
        with pdfplumber.open(BytesIO(data)) as pdf:
            assert len(pdf.pages) == pages
            assert "Close skirt" in pdf.metadata["Title"]
            page = pdf.pages[0]
            assert page.width == pytest.approx(width / 2.54 * 72, abs=0.1)
            assert page.height == pytest.approx(height / 2.54 * 72, abs=0.1)
            assert all("NotoSans" in char["fontname"] for char in page.chars)
            assert f"page 1 of {pages}" in page.extract_text()


def test_the_same_sheet_gives_the_same_bytes() -> None:
    made = sheet("close-skirt", "the-alto")
    assert pdf_bytes(made)[0] == pdf_bytes(made)[0]


def test_time_against_the_pattern(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """Prints how long the sheet of the demo dress takes against its pattern; asserts no time."""
    from cutwright.paper.targets import writer_for

    work, folder = worked("orchard-dress", "the-alto"), tmp_path
    begin = time.perf_counter()
    writer_for("a4")[1](placed(work), folder / "pattern.pdf", title_of(work, None))
    pattern = time.perf_counter() - begin
    begin = time.perf_counter()
    data, pages = pdf_bytes(worksheet_data(work))
    own = time.perf_counter() - begin
    with capsys.disabled():
        sys.stdout.write(
            f"\nsheet {own:.2f} s, pattern {pattern:.2f} s: {own / pattern:.2f} times\n"
        )
    assert pages
    assert data.startswith(b"%PDF")
