"""The DXF file: read back by another library without complaint, each line on its layer."""

from __future__ import annotations

import itertools
import re
from typing import Any

import ezdxf
import pytest

from cutwright.drawing.primitives import Drawing, Ink, Layer, Stroke, Words
from cutwright.geometry.move import Move
from cutwright.geometry.path import nearest_distance, point_at
from cutwright.paper.dxf import block_names, dxf_text, escaped, write_dxf
from cutwright.paper.errors import PaperError
from cutwright.paper.pieces import PlacedPiece
from tests.paper.pieces import TITLE, bodice, garment, piece, strip


@pytest.fixture(scope="module")
def file(tmp_path_factory: pytest.TempPathFactory) -> Any:
    path = tmp_path_factory.mktemp("dxf") / "pieces.dxf"
    write_dxf(garment(), path, TITLE)
    return ezdxf.readfile(path)  # type: ignore[attr-defined]


def on_layer(block: Any, layer: int, kind: str) -> list[Any]:
    return [e for e in block if e.dxf.layer == str(layer) and e.dxftype() == kind]


def test_the_audit_finds_no_error_and_a_block_for_each_piece(file: Any) -> None:
    audit = file.audit()
    assert not audit.errors
    assert not audit.fixes
    assert file.dxfversion == "AC1009"
    inserts = [e.dxf.name for e in file.modelspace().query("INSERT")]
    assert inserts[:3] == ["BODICE_FRONT", "BODICE_BACK", "SKIRT_FRONT"]
    assert len(inserts) == 10
    assert {"PIECE_6", "PIECE_7"} <= set(inserts), "names in other alphabets get a number"


def test_the_boundary_is_the_cut_line_in_millimetres(file: Any) -> None:
    (ring,) = on_layer(file.blocks["BODICE_FRONT"], 1, "POLYLINE")
    assert ring.is_closed
    outline = bodice()
    points = [v.dxf.location for v in ring.vertices]
    assert len(points) > 60
    for x, y, _z in points:
        p = complex(x / 10, -y / 10)
        assert abs(point_at(outline, nearest_distance(outline, p)) - p) < 1e-3
    for curve in outline:
        corner = curve.start * 10
        assert min(abs(complex(x, -y) - corner) for x, y, _z in points) < 1e-3


def test_curves_stay_within_a_hundredth_of_a_millimetre(file: Any) -> None:
    (ring,) = on_layer(file.blocks["BODICE_FRONT"], 1, "POLYLINE")
    points = [complex(v.dxf.location.x, -v.dxf.location.y) / 10 for v in ring.vertices]
    outline = bodice()
    for a, b in itertools.pairwise(points):
        middle = (a + b) / 2
        assert abs(point_at(outline, nearest_distance(outline, middle)) - middle) <= 0.00101


def test_each_kind_of_line_has_its_layer(file: Any) -> None:
    block = file.blocks["BODICE_FRONT"]
    assert len(on_layer(block, 14, "POLYLINE")) == 1, "stitch line"
    assert len(on_layer(block, 7, "POLYLINE")) == 1, "grain"
    assert len(on_layer(block, 4, "POINT")) == 2, "notches"
    assert len(on_layer(block, 13, "POINT")) == 1, "drill hole"
    assert len(on_layer(block, 2, "POINT")) == 6, "six corners"
    (ring,) = on_layer(block, 1, "POLYLINE")
    assert len(on_layer(block, 3, "POINT")) == len(list(ring.vertices)) - 6
    texts = [t.dxf.text for t in on_layer(block, 15, "TEXT")]
    assert texts[0] == "bodice front"
    assert "PIECE NAME: bodice front" in [t.dxf.text for t in on_layer(block, 1, "TEXT")]


def test_notches_lie_on_the_boundary(file: Any) -> None:
    outline = bodice()
    for notch in on_layer(file.blocks["BODICE_FRONT"], 4, "POINT"):
        p = complex(notch.dxf.location.x, -notch.dxf.location.y) / 10
        assert abs(point_at(outline, nearest_distance(outline, p)) - p) < 1e-4


def test_other_alphabets_are_plain_ascii_in_the_file_and_whole_when_read(file: Any) -> None:
    text = dxf_text(garment(), TITLE)
    assert text.isascii()
    assert r"\U+03B3\U+03B9\U+03B1\U+03BA\U+03AC\U+03C2" in text
    assert escaped("Ö 𝛼\n") == r"\U+00D6 \U+D835\U+DEFC "
    found = [t.dxf.text for t in on_layer(file.blocks["PIECE_6"], 15, "TEXT")]
    decoded = [re.sub(r"\\U\+([0-9A-F]{4})", lambda m: chr(int(m[1], 16)), text) for text in found]
    assert "γιακάς" in decoded


def test_a_fold_and_a_cut_out_have_their_layers() -> None:
    base = piece("pocket", strip(16.0, 18.0)).drawing
    more = (
        Stroke(strip(16.0, 18.0)[:1], Ink.FOLD, Layer.MARKS),
        Stroke(strip(3.0, 3.0), Ink.CUT, Layer.CUT, closed=True),
        Words(1j, "", 0.5),
    )
    text = dxf_text([PlacedPiece("pocket", Drawing(base.items + more))], TITLE)
    assert len(re.findall("POLYLINE\r\n8\r\n6\r\n", text)) == 1
    assert len(re.findall("POLYLINE\r\n8\r\n11\r\n", text)) == 1
    assert len(re.findall("POLYLINE\r\n8\r\n1\r\n", text)) == 1


def test_block_names_never_come_twice() -> None:
    names = block_names(["sleeve", "Sleeve", "sleeve*", "x" * 60, "манжета", "manžeta"])
    assert len(set(names)) == 6
    assert all(re.fullmatch(r"[A-Z0-9_]{1,31}", name) for name in names)
    assert names[-1] == "MANZETA"


def test_a_piece_without_an_outline_is_told() -> None:
    empty = PlacedPiece("thread", Drawing((Stroke(strip(4.0, 4.0)[:1], Ink.MARK, Layer.MARKS),)))
    with pytest.raises(PaperError, match="thread"):
        dxf_text([empty], TITLE)


def test_the_same_pieces_give_the_same_text() -> None:
    assert dxf_text(garment(), TITLE) == dxf_text(garment(), TITLE)


def test_a_cut_line_drawn_edge_by_edge_on_the_outline_is_not_written_twice() -> None:
    outline = bodice()
    paper = Stroke(outline, Ink.PAPER, Layer.CUT, closed=True, fill=True)
    edges = tuple(Stroke((curve,), Ink.CUT, Layer.CUT) for curve in outline)
    slit = Stroke(strip(5.0, 5.0)[:1], Ink.CUT, Layer.CUT).moved(Move.by(10 + 20j))
    text = dxf_text([PlacedPiece("front", Drawing((paper, *edges, slit)))], TITLE)
    assert len(re.findall("POLYLINE\r\n8\r\n1\r\n", text)) == 1
    assert len(re.findall("POLYLINE\r\n8\r\n8\r\n", text)) == 1, "only the slit"
