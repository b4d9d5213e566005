"""A drawing on the screen: valid, escaped, curved, and easy to hit with a finger."""

from __future__ import annotations

from xml.etree import ElementTree

from hypothesis import given
from hypothesis import strategies as st

from cutwright.drawing.inks import SCREEN
from cutwright.drawing.primitives import Dot, Drawing, Ink, Layer, Stroke, Words
from cutwright.drawing.svg import path_data, screen_style, svg
from cutwright.geometry.curve import Cubic, Line

LINE = Stroke((Line(0j, 10 + 0j), Line(10 + 0j, 10 + 5j)), Ink.CUT, Layer.CUT, tag="skirt: hem")
BEND = Stroke((Cubic(0j, 1 + 1j, 2 + 1j, 3 + 0j),), Ink.STITCH, Layer.STITCH)


def test_each_item_says_its_ink_its_layer_and_its_tag() -> None:
    root = ElementTree.fromstring(svg(Drawing((LINE, BEND, Dot(1j, 0.2, Ink.MARK, Layer.MARKS)))))
    hem, bend, dot = list(root)
    assert hem.attrib["class"] == "i-cut l-cut-line"
    assert hem.attrib["data-tag"] == "skirt: hem"
    assert hem.attrib["d"] == "M0.000 0.000L10.000 0.000L10.000 5.000"
    assert "data-tag" not in bend.attrib
    assert bend.attrib["d"] == "M0.000 0.000C1.000 1.000 2.000 1.000 3.000 0.000"
    assert dot.attrib["class"] == "i-mark l-marks full"


def test_tagged_items_have_a_twin_to_touch_only_when_asked() -> None:
    plain = svg(Drawing((LINE, BEND)))
    touch = svg(Drawing((LINE, BEND)), touch=True)
    assert "touch" not in plain
    root = ElementTree.fromstring(touch)
    (twin,) = [e for e in root if e.attrib["class"] == "touch"]
    assert twin.attrib["data-tag"] == "skirt: hem"
    assert twin[0].text == "skirt: hem"
    assert ".touch" in screen_style()


def test_a_titled_drawing_is_read_out_and_an_untitled_one_passed_over() -> None:
    assert 'role="img" aria-label="Skirt &amp; top"' in svg(Drawing((LINE,)), title="Skirt & top")
    assert 'aria-hidden="true"' in svg(Drawing((LINE,)))


def test_the_view_is_the_drawing_and_its_margin() -> None:
    root = ElementTree.fromstring(svg(Drawing((LINE,)), margin=1.0))
    assert root.attrib["viewBox"] == "-1.000 -1.000 12.000 7.000"


@given(st.text(alphabet=st.characters(codec="utf-8", categories=["L", "N", "P", "S", "Zs"])))
def test_whatever_is_written_comes_back_as_text(text: str) -> None:
    item = Words(0j, text, 0.5, tag=text)
    root = ElementTree.fromstring(svg(Drawing((item,)), title=text, ident=text))
    assert (root[0].text or "") == text
    assert root[0].attrib.get("data-tag", "") == text
    assert root.attrib.get("aria-label", "") == text


def test_a_gap_in_a_chain_is_a_new_start() -> None:
    assert path_data((Line(0j, 1 + 0j), Line(2 + 0j, 3 + 0j))).count("M") == 2
    assert path_data(()) == ""


def test_the_style_sheet_knows_every_ink() -> None:
    sheet = screen_style()
    for ink in Ink:
        assert f".i-{ink.value}{{" in sheet
    assert SCREEN[Ink.CUT].colour in sheet
