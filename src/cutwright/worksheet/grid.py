"""Tables of a sheet as grids on paper: alone, or narrow ones side by side."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any
from xml.sax.saxutils import escape

from cutwright.worksheet.columns import CM, LEFT, RIGHT, column_widths, fits, kind_of
from cutwright.worksheet.fonts import Styles
from cutwright.worksheet.painted import Thumbnail
from cutwright.worksheet.sheet import Cell, Picture, SheetTable

if TYPE_CHECKING:
    from reportlab.lib.styles import ParagraphStyle
    from reportlab.platypus import Flowable

GAP = 0.5
"""Room between columns of a page, cm."""


def side_by_side(tables: Sequence[SheetTable], width: float, styles: Styles) -> Flowable:
    """Narrow tables in one grid, so that a page may end between any two rows."""
    across = max(tables[0].across, len(tables))
    each = (width - (across - 1) * GAP) / across
    grids = [_cells(table, each, styles) for table in tables]
    high = max(len(rows) for rows, _widths in grids)
    rows: list[list[Any]] = [[] for _row in range(high)]
    widths: list[float] = []
    look: list[Any] = list(PLAIN)
    for place, (cells, own) in enumerate(grids):
        if place:
            widths.append(GAP)
        first = len(widths)
        look += _look(tables[place], first, cells, styles)
        widths += own
        for index in range(high):
            rows[index] += [""] * (1 if place else 0)
            rows[index] += cells[index] if index < len(cells) else [""] * len(own)
    return grid(rows, widths, look)


def table_grid(table: SheetTable, width: float, styles: Styles) -> Flowable:
    """A table as wide as a column of a width in cm."""
    rows, widths = _cells(table, width, styles)
    look = [*PLAIN, *_look(table, 0, rows, styles)]
    if _has_picture(table):
        look.append(("VALIGN", (0, 0), (-1, -1), "MIDDLE"))
    return grid(rows, widths, look)


def _cells(table: SheetTable, width: float, styles: Styles) -> tuple[list[list[Any]], list[float]]:
    """The head and the rows of a table as flowables, and the widths of its columns in cm."""
    widths = column_widths(table, width, styles)
    every = [(table.head, True), *((row, False) for row in table.rows)]
    rows = [
        [_cell(cell, widths[i], styles.of(kind_of(table, i, head))) for i, cell in enumerate(row)]
        for row, head in every
    ]
    return rows, widths


def _cell(cell: Cell, width: float, style: ParagraphStyle) -> Any:
    from reportlab.platypus import Paragraph

    if isinstance(cell, Picture):
        return Thumbnail(cell, width - 0.2)
    return cell if fits(cell, style, width) else Paragraph(escape(cell), style)


def _look(
    table: SheetTable, first: int, cells: Sequence[Sequence[Any]], styles: Styles
) -> list[Any]:
    """Type and lines of a table that begins at a column of its grid.

    A cell of one line is set as it is; a paragraph would be broken into lines again and again.
    """
    last, end = first + len(table.head) - 1, len(cells) - 1
    look = _ruled(first, last, len(cells))
    for kind, top, bottom in (("head", 0, 0), ("cell", 1, end)):
        style = styles.of(kind)
        if bottom >= top:
            font = (style.fontName, style.fontSize, style.leading)
            look.append(("FONT", (first, top), (last, bottom), *font))
    look += [("ALIGN", (first + i, 0), (first + i, end), "RIGHT") for i in table.numbers]
    for row, own in enumerate(cells):
        for column, cell in enumerate(own):
            if not isinstance(cell, str):  # its first line stands lower than that of plain text
                place = (first + column, row)
                look += [
                    ("TOPPADDING", place, place, ABOVE - RISE),
                    ("BOTTOMPADDING", place, place, BELOW + RISE),
                ]
    return look


ABOVE, BELOW, RISE = 0.7, 1.7, 0.58
"""Room above and below the text of a cell, and how much lower a paragraph sets its line, points."""

PLAIN: tuple[Any, ...] = (
    ("VALIGN", (0, 0), (-1, -1), "TOP"),
    ("LEFTPADDING", (0, 0), (-1, -1), LEFT),
    ("RIGHTPADDING", (0, 0), (-1, -1), RIGHT),
    ("TOPPADDING", (0, 0), (-1, -1), ABOVE),
    ("BOTTOMPADDING", (0, 0), (-1, -1), BELOW),
)


def _ruled(first: int, last: int, rows: int) -> list[Any]:
    """Lines under the head and the rows of the columns from first to last."""
    from reportlab.lib.colors import HexColor

    look: list[Any] = [("LINEBELOW", (first, 0), (last, 0), 0.8, HexColor("#2b2926"))]
    if rows > 1:
        look.append(("LINEBELOW", (first, 1), (last, rows - 1), 0.3, HexColor("#b9b2a2")))
    return look


def grid(rows: list[list[Any]], widths: Sequence[float], look: Sequence[Any]) -> Flowable:
    """Rows of cells in columns of widths in cm, the first row repeated on every page."""
    from reportlab.platypus import Table as Grid

    return Grid(
        rows, colWidths=[w * CM for w in widths], repeatRows=1, style=list(look), hAlign="LEFT",
        spaceBefore=3, spaceAfter=5,
    )  # fmt: skip


def _has_picture(table: SheetTable) -> bool:
    return any(isinstance(cell, Picture) for row in table.rows for cell in row)
