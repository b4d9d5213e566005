"""Home tiles: put together again they are the sheet; none is bare; neighbours agree."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from io import BytesIO
from pathlib import Path

import numpy as np
import pdfplumber
import pikepdf
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cutwright.drawing.inks import PRINT
from cutwright.paper.errors import PaperError
from cutwright.paper.grid import PAPERS, Grid, code
from cutwright.paper.joining import ARM, Sides, joining_lines
from cutwright.paper.pdf import Leaf, PlatePart, layer_plates, pdf_bytes
from cutwright.paper.pieces import PlacedPiece
from cutwright.paper.tiles import Tiling, leaves_of, tiling, write_tiles
from tests.paper.pieces import TITLE, garment, piece, skirt, strip
from tests.paper.raster import Picture, pictures, without_layers

PER_CM = 20


def whole(tiled: Tiling) -> Picture:
    """The arranged pieces on one large page."""
    grid = tiled.grid
    wide = grid.columns * grid.across + grid.overlap
    high = grid.rows * grid.down + grid.overlap
    box = (0.0, 0.0, wide, high)
    parts = [PlatePart(plate, 0j) for plate in layer_plates(tiled.spread.pieces(), box)]
    return pictures(pdf_bytes([Leaf(wide, high, tuple(parts))], PRINT, TITLE), PER_CM)[0]


def assembled(tiled: Tiling, paper: str, slip: complex = 0j) -> Picture:
    """The tiles' pictures trimmed and laid together; `slip` moves every second sheet (cm)."""
    size = PAPERS[paper]
    content = pdf_bytes(leaves_of(tiled, size, TITLE), PRINT, TITLE)
    pages = pictures(without_layers(content, "joining", "title"), PER_CM)[1:]
    grid = tiled.grid
    wide = round((grid.columns * grid.across + grid.overlap) * PER_CM)
    high = round((grid.rows * grid.down + grid.overlap) * PER_CM)
    table = np.full((high, wide), 255, dtype=np.uint8)
    margin = round(size.margin * PER_CM)
    for index, (place, page) in enumerate(zip(sorted(tiled.places), pages, strict=True)):
        at = grid.corner(place) + (slip if index % 2 else 0)
        x, y = round(at.real * PER_CM), round(at.imag * PER_CM)
        w, h = round(grid.wide * PER_CM), round(grid.high * PER_CM)
        table[y : y + h, x : x + w] = page[margin : margin + h, margin : margin + w][
            : high - y, : wide - x
        ]
    return table


def differing(a: Picture, b: Picture) -> float:
    """The share of points that differ clearly."""
    return float((np.abs(a.astype(int) - b.astype(int)) > 100).mean())


@pytest.mark.parametrize("paper", ["A4", "A3"])
def test_tiles_laid_together_are_the_sheet(paper: str) -> None:
    tiled = tiling(garment()[:6], PAPERS[paper])
    sheet = whole(tiled)
    assert (sheet < 128).sum() > 20_000
    assert differing(sheet, assembled(tiled, paper)) < 2e-5
    assert differing(sheet, assembled(tiled, paper, slip=0.1 + 0.1j)) > 1e-3, "a slip of 1 mm shows"


@settings(max_examples=12, deadline=None)
@given(
    st.lists(st.tuples(st.floats(4, 60), st.floats(4, 90), st.booleans()), min_size=1, max_size=5),
    st.sampled_from(["A4", "Letter"]),
)
def test_no_sheet_is_bare(sizes: list[tuple[float, float, bool]], paper: str) -> None:
    pieces = [
        piece(f"piece {i}", strip(w, h) if plain else skirt(w / 2, w, h))
        for i, (w, h, plain) in enumerate(sizes)
    ]
    tiled = tiling(pieces, PAPERS[paper])
    content = pdf_bytes(leaves_of(tiled, PAPERS[paper], TITLE), PRINT, TITLE)
    pages = pictures(without_layers(content, "joining", "title"), 10)
    assert len(pages) == 1 + len(tiled.places)
    assert all((page < 200).any() for page in pages[1:])


def test_only_what_is_shown_on_several_sheets_is_a_form() -> None:
    tiled = tiling(garment()[:3], PAPERS["A4"])
    leaves = leaves_of(tiled, PAPERS["A4"], TITLE)
    shown = Counter(part.plate for leaf in leaves for part in leaf.parts)
    shared = sum(count > 1 for count in shown.values())
    assert 0 < shared < len(shown)
    with pikepdf.Pdf.open(BytesIO(pdf_bytes(leaves, PRINT, TITLE))) as pdf:
        forms = [o for o in pdf.objects if isinstance(o, pikepdf.Stream) and "/BBox" in o]
        assert len(forms) == shared
        assert len({page.Resources.objgen for page in pdf.pages}) == 1


def test_a_bare_place_is_left_out_of_the_file_and_crossed_out_on_the_plan() -> None:
    large = PlacedPiece("frame", piece("frame", strip(70.0, 90.0)).drawing)
    outline = PlacedPiece("frame", type(large.drawing)(large.drawing.items[:2]))
    tiled = tiling([outline], PAPERS["A4"])
    inner = {
        (r, c) for r in range(1, tiled.grid.rows - 1) for c in range(1, tiled.grid.columns - 1)
    }
    assert inner
    assert not inner & tiled.places


def test_both_neighbours_have_the_same_crosses() -> None:
    grid = Grid.over(50.0, 50.0, 19.0, 27.7)
    printed = {(r, c) for r in range(grid.rows) for c in range(grid.columns)}
    marks = {place: _crosses(grid, place, printed) for place in printed}
    for row, column in printed:
        for other in ((row, column + 1), (row + 1, column)):
            if other not in printed:
                continue
            shared = marks[row, column] & marks[other]
            assert len(shared) >= 3, "two corners and the middle of the edge"


def _crosses(grid: Grid, place: tuple[int, int], printed: set[tuple[int, int]]) -> set[complex]:
    """Where the crosses of a sheet lie on the table: the places where two arms meet."""
    drawn = joining_lines(grid, Sides.of(place, printed)).items[-1]
    arms = drawn.path  # type: ignore[union-attr]
    corner = grid.corner(place)
    found = set()
    for level, upright in zip(arms[::2], arms[1::2], strict=True):
        at = complex(upright.start.real, level.start.imag)
        assert abs(level.end - level.start) <= 2 * ARM + 1e-9
        found.add(complex(round((at + corner).real, 6), round((at + corner).imag, 6)))
    return found


def test_sheets_say_what_they_are_and_who_lies_beside_them(tmp_path: Path) -> None:
    path = tmp_path / "out.pdf"
    count = write_tiles([piece("panel", strip(30.0, 40.0))], "A4", path, TITLE)
    assert count == 5
    with pdfplumber.open(path) as document:
        texts = [page.extract_text() for page in document.pages]
    for text, place in zip(texts[1:], [(0, 0), (0, 1), (1, 0), (1, 1)], strict=True):
        assert code(place) in text
    assert "lay bean 1 up to the dashed line" in texts[1]
    assert "Panel" in texts[0]
    assert "4 sheets of A4 and this one." in texts[0]
    assert "sheet 5 of 5" in texts[4]


def test_unknown_paper_is_told_with_what_there_is(tmp_path: Path) -> None:
    with pytest.raises(PaperError, match="A4, Letter, A3"):
        write_tiles(garment()[:1], "A5", tmp_path / "out.pdf")


def test_nothing_to_print_is_told(tmp_path: Path) -> None:
    with pytest.raises(PaperError, match="nothing"):
        write_tiles([], "A4", tmp_path / "out.pdf")


def test_many_faults_leave_room_for_the_plan(tmp_path: Path) -> None:
    path = tmp_path / "out.pdf"
    faults = tuple(
        f"panel: edge {i} is {i}.5 cm longer than its partner " * 2 for i in range(1, 40)
    )
    write_tiles([piece("panel", strip(30.0, 40.0))], "A4", path, replace(TITLE, faults=faults))
    with pdfplumber.open(path) as document:
        page = document.pages[0]
        text = page.extract_text()
        assert "panel" in text.splitlines()[-1] or "bean" in text.splitlines()[-1]
        assert all(float(c["bottom"]) < float(page.height) - 20 for c in page.chars)
    assert "edge 1 is 1.5 cm" in text
    assert "more faults" in text
