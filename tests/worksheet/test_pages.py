"""Printed pages as a reader's eye sees them: no words over others, none off the page, few pages."""

from __future__ import annotations

import subprocess
import sys
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
from tests.worksheet.sheets import EVERY, STYLES, printed, sheet, worked

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


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize(("style", "body"), EVERY)
def test_a_page_and_a_half_a_step(style: str, body: str, paper: str) -> None:
    """A page and a half a step, and two pages for what belongs to the whole garment."""
    steps = len(worked(style, body).replay.stages)
    _data, pages = printed(style, body, paper)
    assert pages <= 1.5 * steps + 2


HEADS = (20.0, 13.0, 10.5, 8.0)
"""Sizes in points of bold type that leads in to something: titles, parts, sentences, heads of tables."""


@cache
def stranded(data: bytes) -> tuple[str, ...]:
    """What stands last on a page, above its foot, though it leads in to what comes after."""
    out: list[str] = []
    with pdfplumber.open(BytesIO(data)) as pdf:
        for count, page in enumerate(pdf.pages, start=1):
            above = [c for c in page.chars if c["bottom"] < page.height - 40 and c["text"].strip()]
            low = max((c["bottom"] for c in above), default=0.0)
            low = max([low, *(x["bottom"] for x in page.lines + page.curves + page.rects)])
            last = [c for c in above if c["bottom"] > low - 6]
            if any("Bold" in c["fontname"] and _is_head(c["size"]) for c in last):
                out.append(f"page {count}: " + "".join(c["text"] for c in last))
    return tuple(out)


def _is_head(size: float) -> bool:
    return any(abs(size - head) < 0.02 for head in HEADS)


@pytest.mark.parametrize("style", STYLES)
def test_no_heading_is_the_last_thing_on_a_page(style: str) -> None:
    paper = tuple(PAPERS)[STYLES.index(style) % 2]
    assert not stranded(printed(style, "the-alto", paper)[0])


def test_no_heading_is_the_last_thing_on_a_page_of_a_lesson() -> None:
    assert not stranded(pdf_bytes(lesson_data(worked("market-dress", "the-rower")))[0])


def test_a_stranded_heading_would_be_found() -> None:
    from reportlab.pdfgen.canvas import Canvas

    from cutwright.drawing.type import SANS
    from cutwright.worksheet.pdf import register_fonts

    register_fonts()
    found = []
    for words_below in (False, True):
        out = BytesIO()
        canvas = Canvas(out, pagesize=(595, 842))
        canvas.setFont(SANS[True], 13)
        canvas.drawString(60, 90, "Measures")
        canvas.setFont(SANS[False], 9)
        canvas.drawString(60, 75 if words_below else 300, "The measures this style asks for.")
        canvas.save()
        found.append(len(stranded(out.getvalue())))
    assert found == [1, 0]


def test_the_lines_for_notes_fill_what_is_left() -> None:
    from cutwright.worksheet.painted import Lined

    lines = Lined(12, 2, 17.0, 0.8)
    heights = [lines.wrap(500, room)[1] / 72 * 2.54 for room in (0.0, 100.0, 1000.0)]
    assert heights == pytest.approx([1.6, 3.2, 9.6], abs=0.01)


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


RUN = """
import sys, time
from pathlib import Path
from cutwright.paper.targets import writer_for
from cutwright.worksheet.pdf import pdf_bytes
from cutwright.worksheet.whole import worksheet_data
from cutwright.workshop.gallery import load_body, load_style
from cutwright.workshop.packet import placed, title_of
from cutwright.workshop.work import work

done = work(load_style("orchard-dress"), load_body("the-alto"))
begin = time.perf_counter()
writer_for("a4")[1](placed(done), Path(sys.argv[1]) / "pattern.pdf", title_of(done))
pattern = time.perf_counter() - begin
begin = time.perf_counter()
data, _pages = pdf_bytes(worksheet_data(done))
own = time.perf_counter() - begin
assert data.startswith(b"%PDF")
print(f"sheet {own:.2f} s, pattern {pattern:.2f} s: {own / pattern:.2f} times")
"""


def test_time_against_the_pattern(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """Prints how long the sheet of the demo dress takes against its pattern, as one run makes both.

    A process of its own, so that neither finds what an earlier test has left ready. Asserts no time.
    """
    ran = subprocess.run(
        [sys.executable, "-c", RUN, str(tmp_path)], capture_output=True, text=True, check=False
    )
    assert ran.returncode == 0, ran.stderr
    assert "times" in ran.stdout
    with capsys.disabled():
        sys.stdout.write(f"\n{ran.stdout}")
