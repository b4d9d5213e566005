"""Blocks of a sheet turned into what platypus flows over pages."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any
from xml.sax.saxutils import escape

from cutwright.worksheet.fonts import Styles
from cutwright.worksheet.painted import Lined, PictureRow, Thumbnail
from cutwright.worksheet.sheet import (
    Block,
    Cell,
    Exercise,
    Lines,
    Picture,
    Pictures,
    Section,
    Sheet,
    Table,
    Text,
)

if TYPE_CHECKING:
    from reportlab.platypus import Flowable

CM = 72 / 2.54
_GAP = 0.5


def flowables(sheet: Sheet, styles: Styles, width: float) -> list[Flowable]:
    """The whole sheet as flowables for a column of a width in cm."""
    from reportlab.platypus import Paragraph

    out: list[Flowable] = [
        Paragraph(escape(sheet.title), styles.of("title")),
        Paragraph(escape(sheet.subtitle), styles.of("subtitle")),
    ]
    setter = _Setter(styles, width)
    for section in sheet.sections:
        out += setter.section(section)
    return out


class _Setter:
    """Sets blocks in a column of a width in cm."""

    def __init__(self, styles: Styles, width: float) -> None:
        self.styles, self.width = styles, width
        self._waiting: list[Flowable] = []

    def section(self, section: Section) -> list[Flowable]:
        """A section; the title of one that holds nothing waits for the next."""
        from reportlab.platypus import CondPageBreak, KeepTogether, PageBreak, Paragraph

        style = self.styles.of("part" if section.level == 1 else "step")
        title = [*self._waiting, Paragraph(escape(section.title), style)]
        self._waiting = []
        if not section.blocks:
            self._waiting = title
            return []
        out: list[Flowable] = [PageBreak()] if section.new_page else []
        if not section.together:
            return [*out, CondPageBreak(3.5 * CM), *title, *self._set(section.blocks)]
        held, rest = _split(section.blocks)
        return [*out, KeepTogether([*title, *self._set(held)]), *self._set(rest)]

    def _set(self, blocks: Sequence[Block]) -> list[Flowable]:
        return [flow for block in self._grouped(blocks) for flow in block]

    def _grouped(self, blocks: Sequence[Block]) -> list[list[Flowable]]:
        """Each block set; narrow tables that follow each other side by side."""
        out: list[list[Flowable]] = []
        index = 0
        while index < len(blocks):
            block = blocks[index]
            if isinstance(block, Table) and block.across > 1 and not self.styles.large:
                row = [b for b in blocks[index : index + block.across] if isinstance(b, Table)]
                out.append([self._side_by_side(row, block.across)])
                index += len(row)
                continue
            out.append(self._block(block))
            index += 1
        return out

    def _block(self, block: Block) -> list[Flowable]:
        from reportlab.platypus import Paragraph

        match block:
            case Text():
                return [self._text(block)]
            case Pictures():
                return [PictureRow(block, self.width, self.styles)]
            case Table():
                return [self._table(block, self.width)]
            case Lines():
                return [Lined(block.count, self.width, self.styles.size / 9 * 0.8)]
            case Exercise():
                parts = [escape(p) if isinstance(p, str) else _blank(p.answer) for p in block.parts]
                text = f"{escape(block.what)}: {''.join(parts)}"
                return [Paragraph(text, self.styles.of("exercise"))]

    def _text(self, block: Text) -> Flowable:
        from reportlab.platypus import Paragraph

        style = self.styles.of(block.kind)
        if block.kind == "task":
            head, _tab, rest = block.text.partition("\t")
            text = f"{escape(head)}&nbsp;&nbsp;{escape(rest)}"
            return Paragraph(text, style)
        bullet = {"caution": "!", "sum": "·"}.get(block.kind)
        return Paragraph(escape(block.text), style, bulletText=bullet)

    def _side_by_side(self, tables: Sequence[Table], across: int) -> Flowable:
        """Narrow tables in one grid, so that a page may end between any two rows."""
        each = (self.width - (across - 1) * _GAP) / across
        grids = [self._cells(table, each) for table in tables]
        high = max(len(rows) for rows, _widths in grids)
        rows: list[list[Any]] = [[] for _row in range(high)]
        widths: list[float] = []
        look: list[Any] = list(_PLAIN)
        for place, (cells, own) in enumerate(grids):
            if place:
                widths.append(_GAP)
            first = len(widths)
            look += _ruled(first, first + len(own) - 1, len(cells))
            widths += own
            for index in range(high):
                rows[index] += [""] * (1 if place else 0)
                rows[index] += cells[index] if index < len(cells) else [""] * len(own)
        return _grid(rows, widths, look)

    def _table(self, table: Table, width: float) -> Flowable:
        rows, widths = self._cells(table, width)
        look = [*_PLAIN, *_ruled(0, len(widths) - 1, len(rows))]
        if _has_picture(table):
            look.append(("VALIGN", (0, 0), (-1, -1), "MIDDLE"))
        return _grid(rows, widths, look)

    def _cells(self, table: Table, width: float) -> tuple[list[list[Any]], list[float]]:
        """The head and the rows of a table as flowables, and the widths of its columns in cm."""
        total = sum(table.widths)
        widths = [width * share / total for share in table.widths]
        every = [(table.head, "head"), *((row, "cell") for row in table.rows)]
        rows = [
            [self._cell(cell, i, widths[i], table, kind) for i, cell in enumerate(row)]
            for row, kind in every
        ]
        return rows, widths

    def _cell(self, cell: Cell, column: int, width: float, table: Table, kind: str) -> Any:
        from reportlab.platypus import Paragraph

        if isinstance(cell, Picture):
            return Thumbnail(cell, width - 0.2)
        if column in table.numbers:
            kind = {"head": "number head", "cell": "number"}[kind]
        return Paragraph(escape(cell), self.styles.of(kind))


_PLAIN: tuple[Any, ...] = (
    ("VALIGN", (0, 0), (-1, -1), "TOP"),
    ("LEFTPADDING", (0, 0), (-1, -1), 4),
    ("RIGHTPADDING", (0, 0), (-1, -1), 3),
    ("TOPPADDING", (0, 0), (-1, -1), 1.6),
    ("BOTTOMPADDING", (0, 0), (-1, -1), 2),
)


def _ruled(first: int, last: int, rows: int) -> list[Any]:
    """Lines under the head and the rows of the columns from first to last."""
    from reportlab.lib.colors import HexColor

    look: list[Any] = [("LINEBELOW", (first, 0), (last, 0), 0.8, HexColor("#2b2926"))]
    if rows > 1:
        look.append(("LINEBELOW", (first, 1), (last, rows - 1), 0.3, HexColor("#b9b2a2")))
    return look


def _grid(rows: list[list[Any]], widths: Sequence[float], look: Sequence[Any]) -> Flowable:
    from reportlab.platypus import Table as Grid

    return Grid(
        rows, colWidths=[w * CM for w in widths], repeatRows=1, style=list(look), hAlign="LEFT",
        spaceBefore=3, spaceAfter=5,
    )  # fmt: skip


def _has_picture(table: Table) -> bool:
    return any(isinstance(cell, Picture) for row in table.rows for cell in row)


def _split(blocks: Sequence[Block]) -> tuple[list[Block], list[Block]]:
    """What stays together on a page, and the tables after it that may run on."""
    index = next((i for i, b in enumerate(blocks) if isinstance(b, Table)), len(blocks))
    while index > 0 and isinstance(blocks[index - 1], Text) and index < len(blocks):
        if getattr(blocks[index - 1], "kind", "") != "note":
            break
        index -= 1
    return list(blocks[:index]), list(blocks[index:])


def _blank(answer: str) -> str:
    """An empty place wide enough to write in."""
    return "<u>" + "&nbsp;" * max(12, 3 * len(answer)) + "</u>"
