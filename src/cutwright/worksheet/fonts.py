"""The type of a printed sheet: sizes and spaces for plain and for large print."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from cutwright.drawing.type import SANS

if TYPE_CHECKING:
    from reportlab.lib.styles import ParagraphStyle

MADDER = "#8c1d18"
"""The red of the numbers of the steps."""

LARGE = 1.5
"""How much larger the type of a large print is."""

TIGHT = 0.92
"""How much smaller the type is where long words would take a sheet over its pages."""


@dataclass(frozen=True, slots=True)
class Styles:
    """Paragraph styles by kind of text, the size of plain type in points, and whether it is large."""

    kinds: dict[str, ParagraphStyle]
    size: float
    large: bool = False

    def of(self, kind: str) -> ParagraphStyle:
        """The style of a kind of text; plain for one that has none of its own."""
        return self.kinds.get(kind, self.kinds["plain"])


def styles(large: bool, tight: bool = False) -> Styles:
    """The styles of a sheet: plain, large for those who see less, or a little tighter."""
    from reportlab.lib.colors import HexColor
    from reportlab.lib.styles import ParagraphStyle

    k = LARGE if large else TIGHT if tight else 1.0
    plain, bold = SANS[False], SANS[True]

    def style(kind: str, size: float, **more: Any) -> ParagraphStyle:
        options: dict[str, Any] = {
            "fontName": plain, "bulletFontName": plain, "bulletFontSize": size * k, "leading": size * 1.34 * k, "spaceAfter": 2.2 * k, "allowWidows": 0,
        }  # fmt: skip
        return ParagraphStyle(kind, fontSize=size * k, **(options | more))

    madder = HexColor(MADDER)
    kinds = {
        "plain": style("plain", 9),
        "title": style("title", 20, fontName=bold, leading=26 * k, spaceAfter=2 * k),
        "subtitle": style("subtitle", 11, textColor=HexColor("#4a4a4a"), spaceAfter=2 * k),
        "facts": style("facts", 9, textColor=HexColor("#4a4a4a"), spaceAfter=6 * k),
        "part": style("part", 13, fontName=bold, spaceBefore=9 * k, spaceAfter=4 * k),
        "step": style(
            "step",
            9,
            fontName=bold,
            textColor=madder,
            spaceBefore=7 * k,
            spaceAfter=0,
        ),
        "sentence": style(
            "sentence", 10.5, fontName=bold, leading=14.2 * k, spaceBefore=8 * k, spaceAfter=4 * k
        ),
        "sum": style("sum", 9, leftIndent=10 * k, spaceAfter=1.2 * k),
        "note": style("note", 8.2, textColor=HexColor("#4a4a4a")),
        "caution": style(
            "caution",
            9,
            leftIndent=10 * k,
            borderColor=madder,
            borderWidth=0,
            textColor=HexColor("#000000"),
        ),
        "task": style("task", 9, leftIndent=20 * k),
        "look": style("look", 9, leftIndent=30 * k, bulletIndent=20 * k, spaceAfter=0.6 * k),
        "caption": style("caption", 8, alignment=1, textColor=HexColor("#4a4a4a"), spaceAfter=0),
        "cell": style("cell", 8.4, spaceAfter=0, leading=11 * k),
        "head": style("head", 8, fontName=bold, spaceAfter=0, leading=10.4 * k),
        "number": style("number", 8.4, spaceAfter=0, leading=11 * k, alignment=2),
        "number head": style(
            "number head", 8, fontName=bold, spaceAfter=0, leading=10.4 * k, alignment=2
        ),
        "exercise": style("exercise", 10, leading=20 * k, leftIndent=10 * k, spaceAfter=2 * k),
    }
    return Styles(kinds, 9 * k, large)
