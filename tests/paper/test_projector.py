"""The projector file: a page to calibrate by, a grid that can be switched off, light and dark."""

from __future__ import annotations

import itertools
from pathlib import Path

import pdfplumber
import pikepdf
import pytest

from cutwright.paper.projector import write_projector
from tests.paper.pieces import TITLE, garment
from tests.paper.raster import page_pictures, pictures, without_layers


def test_the_first_page_calibrates_in_squares_of_10_cm(tmp_path: Path) -> None:
    path = tmp_path / "out.pdf"
    assert write_projector(garment()[:3], path, TITLE) == 2
    with pdfplumber.open(path) as document:
        page = document.pages[0]
        frame = max(page.rects, key=lambda r: float(r["width"]))
        assert float(frame["width"]) * 25.4 / 72 == pytest.approx(1100, abs=0.05)
        assert float(frame["height"]) * 25.4 / 72 == pytest.approx(400, abs=0.05)
        upright = sorted(
            {round(float(x["x0"]) * 25.4 / 72, 2) for x in page.lines if x["x0"] == x["x1"]}
        )
    steps = {round(b - a, 1) for a, b in itertools.pairwise(upright)}
    assert steps == {100.0}


def test_dark_ground_is_dark_and_its_lines_are_light(tmp_path: Path) -> None:
    light, dark = tmp_path / "light.pdf", tmp_path / "dark.pdf"
    write_projector(garment()[:3], light, TITLE)
    write_projector(garment()[:3], dark, TITLE, dark=True)
    lamp, night = page_pictures(light, 4)[1], page_pictures(dark, 4)[1]
    assert (lamp > 200).mean() > 0.9
    assert (night < 60).mean() > 0.9
    assert (night > 200).sum() > 500


def test_the_grid_is_a_layer_of_its_own(tmp_path: Path) -> None:
    path = tmp_path / "out.pdf"
    write_projector(garment()[:3], path, TITLE)
    with pikepdf.Pdf.open(path) as pdf:
        assert "calibration grid" in [str(g.Name) for g in pdf.Root.OCProperties.OCGs]
    content = path.read_bytes()
    with_grid = (pictures(content, 4)[1] < 230).sum()
    assert (pictures(without_layers(content, "grid"), 4)[1] < 230).sum() < 0.8 * with_grid
