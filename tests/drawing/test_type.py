"""The table of widths says what the shipped fonts say."""

from __future__ import annotations

import pytest
from reportlab.pdfbase import pdfmetrics

from cutwright.drawing.primitives import Drawing, Ink, Layer, Stroke, Words
from cutwright.drawing.type import (
    CAPITALS,
    FONTS,
    SANS,
    text_width,
    type_size,
    whole_box,
    words_box,
    wrapped,
)
from cutwright.geometry.curve import Line
from cutwright.paper.pdf import register_fonts

TEXTS = [
    "Skirt front · 26.5 cm",
    "γιακάς ψηλός",
    "Вырезать 4 детали",
    "½ × 3 ≤ 45° → №",
    "Ärmelkugel",
]


@pytest.mark.parametrize("bold", [False, True])
@pytest.mark.parametrize("text", TEXTS)
def test_widths_are_those_of_the_font(text: str, bold: bool) -> None:
    register_fonts()
    wide = pdfmetrics.stringWidth(text, SANS[bold], type_size(10.0))
    assert text_width(text, 10.0, bold=bold) == pytest.approx(wide, rel=1e-3)


def test_fonts_come_with_their_licence() -> None:
    assert "SIL OPEN FONT LICENSE" in (FONTS / "OFL.txt").read_text(encoding="utf-8")
    files = {path.stem for path in FONTS.glob("*.ttf")}
    assert files == {*SANS.values(), "NotoSerif-Regular", "NotoSerif-Italic"}
    assert sum(path.stat().st_size for path in FONTS.glob("*.ttf")) < 900_000


def test_capitals_have_the_height_that_was_asked_for() -> None:
    ttfont = pytest.importorskip("fontTools.ttLib")
    for name in SANS.values():
        font = ttfont.TTFont(FONTS / f"{name}.ttf")
        assert font["OS/2"].sCapHeight / font["head"].unitsPerEm == CAPITALS
        assert font["glyf"]["H"].yMax == font["OS/2"].sCapHeight


def test_lines_are_broken_between_words_and_keep_to_the_width() -> None:
    text = "Walk the side seam of the skirt front against that of the skirt back once more"
    lines = wrapped(text, 0.3, 5.0)
    assert " ".join(lines) == text
    assert len(lines) > 2
    assert all(text_width(line, 0.3) <= 5.0 for line in lines)
    assert wrapped("", 0.3, 5.0) == []
    assert wrapped("unbreakable", 0.3, 0.1) == ["unbreakable"]


def test_the_box_of_words_turns_with_them() -> None:
    level = words_box(Words(10 + 10j, "front", 1.0))
    upright = words_box(Words(10 + 10j, "front", 1.0, along=-1j))
    wide = text_width("front", 1.0)
    assert level[2] - level[0] == pytest.approx(wide)
    assert upright[3] - upright[1] == pytest.approx(wide)
    assert upright[1] == pytest.approx(10 - wide)
    middle = words_box(Words(10 + 10j, "front", 1.0, anchor="middle"))
    assert middle[0] + middle[2] == pytest.approx(20)


def test_a_whole_box_holds_words_that_stick_out() -> None:
    stroke = Stroke((Line(0j, 1 + 1j),), Ink.CUT, Layer.CUT)
    box = whole_box(Drawing((stroke, Words(0.5 + 0.5j, "a long word", 0.5))))
    assert box[2] > 3
    assert whole_box(Drawing()) == (0.0, 0.0, 0.0, 0.0)
