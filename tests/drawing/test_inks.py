"""Every ink has a look everywhere, and print stays readable without colour."""

from __future__ import annotations

import pytest

from cutwright.drawing.inks import PRINT, PROJECTOR, PROJECTOR_DARK, SCREEN, WARM, Pens
from cutwright.drawing.paint import rgb
from cutwright.drawing.primitives import Ink


def lightness(colour: str) -> float:
    """Relative luminance after WCAG 2: from 0 (black) to 1 (white)."""
    red, green, blue = (
        c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in rgb(colour)
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(a: str, b: str) -> float:
    low, high = sorted((lightness(a), lightness(b)))
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize("pens", [PRINT, SCREEN, PROJECTOR, PROJECTOR_DARK])
def test_every_ink_has_a_pen(pens: Pens) -> None:
    assert set(pens) == set(Ink)


@pytest.mark.parametrize(
    "ink", [Ink.CUT, Ink.STITCH, Ink.DART, Ink.FOLD, Ink.GRAIN, Ink.NOTCH, Ink.TEXT, Ink.FAULT]
)
def test_what_is_sewn_and_cut_by_is_dark_on_paper_and_clear_on_screen(ink: Ink) -> None:
    assert contrast(PRINT[ink].colour, "#ffffff") >= 7
    assert contrast(SCREEN[ink].colour, WARM) >= 4.5
    assert contrast(PROJECTOR_DARK[ink].colour, "#101010") >= 4.5


def test_cutting_is_solid_and_stitching_dashed() -> None:
    for pens in (PRINT, SCREEN, PROJECTOR, PROJECTOR_DARK):
        assert not pens[Ink.CUT].dash
        assert pens[Ink.STITCH].dash
        assert pens[Ink.CUT].width > pens[Ink.STITCH].width


def test_a_projector_has_thicker_lines() -> None:
    assert all(PROJECTOR[i].width >= 2 * PRINT[i].width for i in Ink if PRINT[i].width)
