"""A drawing painted on a page: lines as page operators, words through the page's own fonts.

The page is a protocol (a reportlab canvas fits it; its document keeps the letters of the fonts), so
that full-size paper, home tiles and the work sheet share one way of painting without this module
knowing any of them. Line operators are those of ISO 32000-1, 8.5: m, l, c, h and the painting
operators.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from math import sqrt
from typing import Any, Protocol

from cutwright.drawing.inks import Pen, Pens
from cutwright.drawing.primitives import Dot, Drawing, Stroke, Words
from cutwright.drawing.type import text_width, type_size
from cutwright.geometry.curve import Line
from cutwright.geometry.point import Point

POINTS_PER_CM = 72 / 2.54
_POINTS_PER_MM = 72 / 25.4
_ROUND = 4 / 3 * (sqrt(2) - 1)
"""Handle share of a quarter circle."""


class Page(Protocol):
    """What painting needs of a page; units are points, y up."""

    _doc: Any
    """The document of reportlab that counts which letters of a font are used."""

    def addLiteral(self, s: Any, escaped: Any = ...) -> Any: ...  # noqa: N802, D102


Fonts = Mapping[bool, Any]
"""A font of reportlab for plain words (False) and for bold ones (True)."""


def rgb(colour: str) -> tuple[float, float, float]:
    """Red, green and blue from 0 to 1 of a colour written #rrggbb."""
    red, green, blue = (int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    return red, green, blue


def paint(
    drawing: Drawing,
    page: Page,
    pens: Pens,
    fonts: Fonts,
    *,
    origin: Point = 0j,
    scale: float = 1.0,
) -> None:
    """Paint every item of a drawing in order.

    Parameters
    ----------
    fonts : the plain cut and the bold one, as reportlab knows them
    origin : where the drawing's own origin lies, in cm right and down from the page's origin
    scale : how large a centimetre of the drawing is on paper; lines keep their widths
    """
    brush = _Brush(scale * POINTS_PER_CM, origin * POINTS_PER_CM)
    page.addLiteral("1 J 1 j")
    last: Pen | None = None
    for item in drawing.items:
        pen = pens[item.ink]
        if pen is not last:
            page.addLiteral(_taking(pen))
            last = pen
        if isinstance(item, Words):
            _write(item, page, fonts, pen, brush)
        else:
            code = brush.code(item, pen)
            if code:
                page.addLiteral(code)


@cache
def _taking(pen: Pen) -> str:
    line = "{:.4g} {:.4g} {:.4g} RG".format(*rgb(pen.colour))
    inside = "{:.4g} {:.4g} {:.4g} rg".format(*rgb(pen.fill or pen.colour))
    dashes = " ".join(f"{part * _POINTS_PER_MM:.4f}" for part in pen.dash)
    return f"{line} {inside} {pen.width * _POINTS_PER_MM:.4f} w [{dashes}] 0 d"


class _Brush:
    """Turns items into operators at a scale and an origin."""

    def __init__(self, scale: float, origin: Point) -> None:
        self.scale = scale
        self.origin = origin

    def place(self, p: Point) -> tuple[float, float]:
        """A point of the drawing on the page."""
        q = p * self.scale + self.origin
        return q.real, -q.imag

    def code(self, item: Stroke | Dot, pen: Pen) -> str:
        """The operators of a line or a spot; empty if the pen shows nothing of it."""
        fill, line = item.fill and pen.fill != "", pen.width > 0
        if not fill and not line:
            return ""
        paths = self._spot(item) if isinstance(item, Dot) else self._chain(item)
        painting = {(True, True): "B", (True, False): "f", (False, True): "S"}[(fill, line)]
        return f"{paths} {painting}" if paths else ""

    def _chain(self, item: Stroke) -> str:
        if not item.path:
            return ""
        place, at = self.place, item.path[0].start
        out = ["%.4f %.4f m" % place(at)]  # noqa: UP031  (half the time of format)
        for curve in item.path:
            if curve.start != at and abs(curve.start - at) > 1e-6:
                out.append("%.4f %.4f m" % place(curve.start))  # noqa: UP031
            at = curve.end
            if isinstance(curve, Line):
                out.append("%.4f %.4f l" % place(at))  # noqa: UP031
            else:
                ends = (*place(curve.first), *place(curve.second), *place(at))
                out.append("%.4f %.4f %.4f %.4f %.4f %.4f c" % ends)  # noqa: UP031
        if item.closed:
            out.append("h")
        return " ".join(out)

    def _spot(self, item: Dot) -> str:
        x, y = self.place(item.at)
        r = item.radius * self.scale
        k = r * _ROUND
        return (
            f"{x + r:.4f} {y:.4f} m "
            f"{x + r:.4f} {y + k:.4f} {x + k:.4f} {y + r:.4f} {x:.4f} {y + r:.4f} c "
            f"{x - k:.4f} {y + r:.4f} {x - r:.4f} {y + k:.4f} {x - r:.4f} {y:.4f} c "
            f"{x - r:.4f} {y - k:.4f} {x - k:.4f} {y - r:.4f} {x:.4f} {y - r:.4f} c "
            f"{x + k:.4f} {y - r:.4f} {x + r:.4f} {y - k:.4f} {x + r:.4f} {y:.4f} c h"
        )


def _write(item: Words, page: Page, fonts: Fonts, pen: Pen, brush: _Brush) -> None:
    if not item.text:
        return
    at = item.at
    if item.anchor != "start":
        length = text_width(item.text, item.size, bold=item.bold)
        at -= item.along * length * (0.5 if item.anchor == "middle" else 1.0)
    x, y = brush.place(at)
    cos, sin = item.along.real, item.along.imag
    colour = "{:.4g} {:.4g} {:.4g} rg".format(*rgb(pen.colour)) if pen.fill else ""
    place = f"{cos:.6f} {-sin:.6f} {sin:.6f} {cos:.6f} {x:.4f} {y:.4f}"
    letters = _letters(item, page, fonts, type_size(item.size) * brush.scale)
    page.addLiteral(f"q {colour} {place} cm BT {letters} ET Q")


def _letters(item: Words, page: Page, fonts: Fonts, size: float) -> str:
    """The text operators of ISO 32000-1, 9.4; a font is set again for each subset of its letters."""
    font = fonts[item.bold]
    return " ".join(
        f"{font.getSubsetInternalName(subset, page._doc)} {size:.6f} Tf <{part.hex()}> Tj"
        for subset, part in font.splitString(item.text, page._doc)
    )
