"""The proof that matters most: what is printed has the size it says."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

import pdfplumber
import pytest

from cutwright.paper.pieces import PlacedPiece, Title
from cutwright.paper.projector import write_projector
from cutwright.paper.sheet import LARGE, write_sheet
from cutwright.paper.tiles import write_tiles
from tests.paper.pieces import TITLE, garment, piece, strip

Write = Callable[[Sequence[PlacedPiece], Path, Title], int]
PAPERS: dict[str, Write] = {
    "roll 60": lambda p, path, t: write_sheet(p, 60, path, t),
    "roll 91.4": lambda p, path, t: write_sheet(p, 91.4, path, t),
    "A0": lambda p, path, t: write_sheet(p, LARGE["a0"], path, t),
    "A1": lambda p, path, t: write_sheet(p, LARGE["a1"], path, t),
    "A4": lambda p, path, t: write_tiles(p, "A4", path, t),
    "Letter": lambda p, path, t: write_tiles(p, "Letter", path, t),
    "A3": lambda p, path, t: write_tiles(p, "A3", path, t),
    "projector": lambda p, path, t: write_projector(p, path, t),
}
TO_MM = 25.4 / 72


def rectangles(path: Path) -> list[list[tuple[float, float]]]:
    """Width and height in mm of every rectangle, page by page."""
    with pdfplumber.open(path) as document:
        return [
            [(float(r["width"]) * TO_MM, float(r["height"]) * TO_MM) for r in page.rects]
            for page in document.pages
        ]


def squares(path: Path, side: float = 100.0) -> list[int]:
    """How many squares of a side (mm, to 0.05) each page has."""
    return [
        sum(abs(w - side) < 0.05 and abs(h - side) < 0.05 for w, h in page)
        for page in rectangles(path)
    ]


@pytest.mark.parametrize("paper", PAPERS)
def test_the_square_measures_100_mm(paper: str, tmp_path: Path) -> None:
    path = tmp_path / "out.pdf"
    PAPERS[paper](garment()[-3:], path, TITLE)
    found = squares(path)
    if paper == "projector":
        assert found[1:] == [1] * (len(found) - 1)
    elif paper in ("A4", "Letter", "A3"):
        assert found[0] == 1, "the plan carries a square"
        assert sum(found[1:]) == 1, "and one of the sheets"
    else:
        assert found == [1] * len(found)


def test_half_a_metre_is_right_to_a_tenth_of_a_millimetre(tmp_path: Path) -> None:
    path = tmp_path / "out.pdf"
    write_sheet([piece("ruler", strip(50.0, 20.0))], 90, path, TITLE)
    assert any(
        abs(w - 500) < 0.01 and abs(h - 200) < 0.01 for page in rectangles(path) for w, h in page
    )


def test_a_page_has_the_size_of_its_paper(tmp_path: Path) -> None:
    sizes = {"A4": (210, 297), "Letter": (215.9, 279.4), "A3": (297, 420), "A0": (841, 1189)}
    for paper, (wide, high) in sizes.items():
        path = tmp_path / f"{paper}.pdf"
        PAPERS[paper](garment()[-2:], path, TITLE)
        with pdfplumber.open(path) as document:
            for page in document.pages:
                assert float(page.width) * TO_MM == pytest.approx(wide, abs=0.01)
                assert float(page.height) * TO_MM == pytest.approx(high, abs=0.01)


def test_the_check_sees_a_shrunk_page(tmp_path: Path) -> None:
    path = tmp_path / "out.pdf"
    write_sheet([piece("ruler", strip(50.0, 20.0))], 90, path, TITLE)
    assert squares(path, side=97.0) == [0]
