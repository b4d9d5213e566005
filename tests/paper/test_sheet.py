"""Full-size sheets: layers, words, long rolls, faults in the corner, the same bytes twice."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pdfplumber
import pikepdf
import pytest

from cutwright.drawing.primitives import Drawing
from cutwright.paper.errors import PaperError
from cutwright.paper.pieces import PlacedPiece, Title
from cutwright.paper.sheet import LARGE, write_sheet
from tests.paper.pieces import TITLE, garment, piece, strip
from tests.paper.raster import pictures, without_layers


@pytest.fixture(scope="module")
def roll(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("sheet") / "roll.pdf"
    assert write_sheet(garment(), 90, path, TITLE) == 1
    return path


def test_layers_are_named_and_can_be_switched_off(roll: Path) -> None:
    content = roll.read_bytes()
    with pikepdf.Pdf.open(roll) as pdf:
        names = [str(group.Name) for group in pdf.Root.OCProperties.D.Order]
    assert names == ["stitch line", "cut line", "marks", "text", "title and scale square"]
    full = int((pictures(content, 8)[0] < 128).sum())
    left = full
    for layer in ("stitch line", "cut line", "marks", "text", "title"):
        now = int((pictures(without_layers(content, layer), 8)[0] < 128).sum())
        assert now < full, f"{layer} was drawn and is gone"
        left -= full - now
    assert abs(left) < 0.02 * full, "together the layers are the sheet"


def test_words_in_greek_and_cyrillic_can_be_found_in_the_file(roll: Path) -> None:
    with pdfplumber.open(roll) as document:
        text = "".join(page.extract_text() for page in document.pages)
    for words in ("γιακάς", "Κόψτε 2", "манжета", "Вырезать 4", "bodice front", "Harbour dress"):
        assert words in text


def test_print_dialogue_is_asked_not_to_scale_and_fonts_are_in_the_file(roll: Path) -> None:
    with pikepdf.Pdf.open(roll) as pdf:
        assert pdf.Root.ViewerPreferences.PrintScaling == "/None"
        fonts = [
            f
            for f in pdf.objects
            if isinstance(f, pikepdf.Dictionary) and f.get("/Type") == "/Font"
        ]
        assert {str(f.BaseFont)[8:] for f in fonts} == {"NotoSans-Regular", "NotoSans-Bold"}
        assert all("/FontFile2" in f.FontDescriptor for f in fonts)


def test_the_same_pieces_give_the_same_bytes(roll: Path, tmp_path: Path) -> None:
    write_sheet(garment(), 90, tmp_path / "again.pdf", TITLE)
    assert (tmp_path / "again.pdf").read_bytes() == roll.read_bytes()


def test_a_fault_of_the_pattern_stands_in_the_corner(tmp_path: Path) -> None:
    path = tmp_path / "out.pdf"
    title = replace(TITLE, faults=("skirt front: side is 1.2 cm longer than skirt back: side",))
    write_sheet(garment()[:2], 90, path, title)
    with pdfplumber.open(path) as document:
        text = document.pages[0].extract_text()
    assert "does not sew together" in text
    assert "1.2 cm longer" in text


def test_a_long_roll_breaks_between_pieces_below_5_m(tmp_path: Path) -> None:
    path = tmp_path / "out.pdf"
    panels = [piece(f"panel {i}", strip(70.0, 180.0)) for i in range(5)]
    assert write_sheet(panels, 90, path, TITLE) == 3
    with pdfplumber.open(path) as document:
        for page in document.pages:
            assert float(page.height) <= 14_400
        texts = [page.extract_text() for page in document.pages]
    for i in range(5):
        assert sum(f"panel {i}" in text for text in texts) == 1, "a piece stays whole"
    assert "Sheet 3 of 3" in texts[2]


def test_one_piece_longer_than_5_m_is_shown_on_pages_that_join(tmp_path: Path) -> None:
    path = tmp_path / "out.pdf"
    assert write_sheet([piece("train", strip(60.0, 780.0))], 90, path, TITLE) == 2
    with pdfplumber.open(path) as document:
        heights = [float(page.height) * 2.54 / 72 for page in document.pages]
        texts = [page.extract_text() for page in document.pages]
    assert all(height <= 500 for height in heights)
    assert sum(heights) - 2 * 2.0 - 1.0 == pytest.approx(780 + 10, abs=8), "once, and the overlap"
    assert "lay bean 1 up to the dashed line" in texts[0]
    assert "cut off along this line" in texts[1]


def test_a_piece_wider_than_the_roll_even_when_turned_is_shown_on_strips(tmp_path: Path) -> None:
    assert write_sheet([piece("cape", strip(130.0, 140.0))], 60, tmp_path / "out.pdf", TITLE) == 3


def test_a0_pages_hold_whole_pieces(tmp_path: Path) -> None:
    path = tmp_path / "out.pdf"
    assert write_sheet(garment(), LARGE["a0"], path, TITLE) <= 3
    with pdfplumber.open(path) as document:
        texts = [page.extract_text() for page in document.pages]
    for placed in garment():
        assert sum(placed.name in text for text in texts) == 1
    assert not any("dashed line" in text for text in texts)


@pytest.mark.parametrize("width", [3.0, 900.0])
def test_a_roll_of_no_use_is_refused_with_what_is_allowed(width: float, tmp_path: Path) -> None:
    with pytest.raises(PaperError, match="between 25 and 500"):
        write_sheet(garment()[:1], width, tmp_path / "out.pdf")
    assert not list(tmp_path.iterdir())


def test_nothing_to_print_is_told(tmp_path: Path) -> None:
    with pytest.raises(PaperError, match="no piece has a drawing"):
        write_sheet([PlacedPiece("empty", Drawing())], 90, tmp_path / "out.pdf", Title())
