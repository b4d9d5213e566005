"""Flowables that draw: pictures side by side, thumbnails in a table, lines to write on."""

from __future__ import annotations

from typing import Any
from xml.sax.saxutils import escape

from reportlab.pdfbase.pdfmetrics import getFont
from reportlab.platypus import Flowable, Paragraph

from cutwright.drawing.paint import paint
from cutwright.drawing.type import SANS
from cutwright.worksheet.fonts import Styles
from cutwright.worksheet.looks import SHEET
from cutwright.worksheet.sheet import Picture, Pictures

CM = 72 / 2.54
_ARROW = 0.9


class PictureRow(Flowable):
    """Pictures side by side with their captions under them and an arrow between."""

    def __init__(self, pictures: Pictures, width: float, styles: Styles) -> None:
        super().__init__()
        self.pictures, self.room, self.styles = pictures, width, styles
        self.spaceAfter = 4
        row = pictures.row
        gap = _ARROW if pictures.arrow else 0.6
        wanted = sum(p.width for p in row) + gap * (len(row) - 1)
        self.shrink = min(1.0, width / wanted) if wanted else 1.0
        self.gap = gap * self.shrink
        self.tall = max((p.height for p in row), default=0.0) * self.shrink
        self.spots: list[tuple[float, float]] = []
        self.captions: list[Any] = []

    def wrap(self, _width: float, _height: float) -> tuple[float, float]:
        """Find where each picture stands, the row spread over the column."""
        row = self.pictures.row
        widths = [p.width * self.shrink for p in row]
        spare = max(self.room - sum(widths) - self.gap * (len(row) - 1), 0.0) / len(row)
        x = spare / 2
        self.spots, self.captions = [], []
        for picture, wide in zip(row, widths, strict=True):
            self.spots.append((x, wide))
            column = wide + spare - 0.2
            caption = Paragraph(escape(picture.caption), self.styles.of("caption"))
            _w, high = caption.wrap(max(column, 3.0) * CM, 100 * CM)
            self.captions.append((caption, x + wide / 2 - max(column, 3.0) / 2, high))
            x += wide + self.gap + spare
        below = max((h for c, _x, h in self.captions if c.text), default=0.0)
        self.below = below
        return self.room * CM, self.tall * CM + below + 4

    def draw(self) -> None:
        """Draw pictures, arrows and captions."""
        canvas = self.canv
        for (x, _wide), picture, (caption, left, high) in zip(
            self.spots, self.pictures.row, self.captions, strict=True
        ):
            scale = picture.scale * self.shrink
            drop = self.tall - picture.height * self.shrink
            _paint(canvas, picture, x, self.below / CM + 0.1 + self.tall - drop / 2, scale)
            if caption.text:
                caption.drawOn(canvas, left * CM, self.below - high)
        if self.pictures.arrow:
            for (x, wide), (after, _w) in zip(self.spots, self.spots[1:], strict=False):
                self._arrow((x + wide + after) / 2)

    def _arrow(self, middle: float) -> None:
        canvas = self.canv
        y = self.below + self.tall / 2 * CM
        x, half = middle * CM, 0.32 * CM
        canvas.saveState()
        canvas.setStrokeColorRGB(0.17, 0.16, 0.15)
        canvas.setFillColorRGB(0.17, 0.16, 0.15)
        canvas.setLineWidth(1.2)
        canvas.line(x - half, y, x + half * 0.4, y)
        path = canvas.beginPath()
        path.moveTo(x + half, y)
        path.lineTo(x + half * 0.25, y + half * 0.4)
        path.lineTo(x + half * 0.25, y - half * 0.4)
        path.close()
        canvas.drawPath(path, stroke=0, fill=1)
        canvas.restoreState()


class Thumbnail(Flowable):
    """One picture made to fit a cell."""

    def __init__(self, picture: Picture, width: float) -> None:
        super().__init__()
        self.picture = picture
        self.shrink = min(1.0, width / picture.width) if picture.width else 1.0

    def wrap(self, _width: float, _height: float) -> tuple[float, float]:
        """Its size on paper."""
        return self.picture.width * self.shrink * CM, self.picture.height * self.shrink * CM

    def draw(self) -> None:
        """Draw it."""
        scale = self.picture.scale * self.shrink
        _paint(self.canv, self.picture, 0.0, self.picture.height * self.shrink, scale)


class Lined(Flowable):
    """Empty lines to write on, as many as there is room for on the page."""

    def __init__(self, count: int, least: int, width: float, leading: float) -> None:
        super().__init__()
        self.count, self.least, self.room, self.leading = count, least, width, leading

    @property
    def lowest(self) -> float:
        """The least height it asks for, points."""
        return self.least * self.leading * CM

    def wrap(self, _width: float, height: float) -> tuple[float, float]:
        """As many lines as the page still holds, no fewer than the least."""
        fitting = int(height / (self.leading * CM))
        self.drawn = max(min(self.count, fitting), self.least)
        return self.room * CM, self.drawn * self.leading * CM

    def draw(self) -> None:
        """Draw them."""
        self.canv.setStrokeGray(0.6)
        self.canv.setLineWidth(0.4)
        for k in range(self.drawn):
            y = (self.drawn - k - 1) * self.leading * CM + 2
            self.canv.line(0, y, self.room * CM, y)


def _paint(canvas: Any, picture: Picture, x: float, top: float, scale: float) -> None:
    """Paint a picture with its upper left corner at a place, cm from the flowable's corner."""
    canvas.saveState()
    canvas.translate(x * CM, top * CM)
    origin = complex(-picture.box[0], -picture.box[1]) * scale
    fonts = {bold: getFont(name) for bold, name in SANS.items()}
    paint(picture.drawing, canvas, SHEET, fonts, origin=origin, scale=scale)
    canvas.restoreState()
