"""The SVG file: true millimetres, layers as groups, curves kept, words escaped."""

from __future__ import annotations

import re
from pathlib import Path
from xml.etree import ElementTree

import pytest

from cutwright.drawing.primitives import Drawing
from cutwright.paper.pieces import PlacedPiece
from cutwright.paper.svg_file import svg_text, write_svg
from tests.paper.pieces import TITLE, garment, piece, strip

SVG = "{http://www.w3.org/2000/svg}"


def test_width_and_height_are_stated_in_mm_and_match_the_view() -> None:
    root = ElementTree.fromstring(svg_text(garment(), TITLE, 90.0))
    wide, high = root.attrib["width"], root.attrib["height"]
    assert wide == "900.000mm"
    assert high.endswith("mm")
    assert root.attrib["viewBox"] == f"0 0 {wide[:-2]} {high[:-2]}"


def test_a_line_of_half_a_metre_is_500_units_long() -> None:
    root = ElementTree.fromstring(svg_text([piece("ruler", strip(50.0, 12.0))], TITLE, 90.0))
    group = next(g for g in root.iter(f"{SVG}g") if g.attrib.get("id") == "cut-line")
    path = next(group.iter(f"{SVG}path"))
    numbers = [float(n) for n in re.findall(r"-?[\d.]+", path.attrib["d"])]
    xs, ys = numbers[::2], numbers[1::2]
    assert max(xs) - min(xs) == pytest.approx(500, abs=0.01)
    assert max(ys) - min(ys) == pytest.approx(120, abs=0.01)


def test_layers_are_groups_with_ids_and_pieces_are_named_in_them() -> None:
    root = ElementTree.fromstring(svg_text(garment(), TITLE, 90.0))
    idents = [g.attrib["id"] for g in root.findall(f"{SVG}g")]
    assert idents == ["stitch-line", "cut-line", "marks", "text", "title"]
    cut = root.findall(f"{SVG}g")[1]
    assert {g.attrib["data-piece"] for g in cut} == {p.name for p in garment()}


def test_curves_are_kept() -> None:
    text = svg_text(garment()[:1], TITLE, 90.0)
    cut = re.search(r'<g id="cut-line".*?</g>', text, re.DOTALL)
    assert cut
    assert cut[0].count("C") == 3


def test_words_are_escaped() -> None:
    base = piece('a < b & "c"', strip(20.0, 20.0), ("<script>",))
    root = ElementTree.fromstring(svg_text([base], TITLE, 90.0))
    texts = [t.text for t in root.iter(f"{SVG}text")]
    assert 'a < b & "c"' in texts
    assert "<script>" in texts


def test_file_is_written_and_the_same_twice(tmp_path: Path) -> None:
    for name in ("a.svg", "b.svg"):
        write_svg(garment(), tmp_path / name, TITLE)
    assert (tmp_path / "a.svg").read_bytes() == (tmp_path / "b.svg").read_bytes()


def test_a_piece_without_ink_on_a_layer_leaves_no_empty_group() -> None:
    bare = PlacedPiece("bare", Drawing(piece("x", strip(20.0, 20.0)).drawing.items[1:2]))
    root = ElementTree.fromstring(svg_text([bare], TITLE, 90.0))
    assert [g.attrib["id"] for g in root.findall(f"{SVG}g")] == ["cut-line", "title"]
