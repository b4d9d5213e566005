"""No label is cut at the edge of a picture, whatever typeface a browser puts in place of ours."""

from __future__ import annotations

import re

import pytest

from cutwright.drawing.primitives import Words
from cutwright.drawing.type import text_width, words_box
from cutwright.worksheet.html import html
from cutwright.worksheet.html_style import STYLE
from cutwright.worksheet.sheet import Beside, Picture, Pictures
from tests.worksheet.sheets import STYLES, sheet

WIDER = 1.12
"""How much wider common typefaces of browsers set these labels than the shipped one, at most."""


def _pictures(style: str) -> list[Picture]:
    out: list[Picture] = []
    for section in sheet(style, "the-rower").sections:
        for block in section.blocks:
            shown = block.pictures if isinstance(block, Beside) else block
            out += shown.row if isinstance(shown, Pictures) else ()
    return out


def _is_about(
    view: tuple[float, ...], middle: tuple[float, float], wide: float, high: float
) -> bool:
    """Whether a view shows a picture with the same room all round."""
    same = abs(view[0] + view[2] / 2 - middle[0]) + abs(view[1] + view[3] / 2 - middle[1]) < 0.01
    return same and abs((view[2] - wide) - (view[3] - high)) < 0.01


@pytest.mark.parametrize("style", STYLES)
def test_a_wider_typeface_still_fits(style: str) -> None:
    boxes = re.findall(r'viewBox="([-\d. ]+)" role="img"', html(sheet(style, "the-rower")))
    pictures = _pictures(style)
    seen = {tuple(float(part) for part in box.split()) for box in boxes}
    assert pictures
    for picture in pictures:
        left, top, right, bottom = picture.box
        middle = (left + right) / 2, (top + bottom) / 2
        wide, high = right - left, bottom - top
        view = next((v for v in seen if _is_about(v, middle, wide, high)), None)
        assert view is not None
        for item in picture.drawing.items:
            if isinstance(item, Words):
                x0, y0, x1, y1 = words_box(item)
                more = text_width(item.text, item.size, bold=item.bold) * (WIDER - 1)
                assert view[0] <= x0 - more
                assert x1 + more <= view[0] + view[2]
                assert view[1] <= y0
                assert y1 <= view[1] + view[3]


def test_a_picture_is_never_clipped_and_a_step_stays_with_it() -> None:
    assert "figure svg{overflow:visible}" in STYLE
    printed = STYLE.partition("@media print")[2]
    for kind in ("h2,.worksheet h3{", ".note{break-inside:avoid;"):
        assert "break-after:avoid" in printed.partition(kind)[2].partition("}")[0]
    assert ".beside{display:block;break-inside:auto}" in printed
