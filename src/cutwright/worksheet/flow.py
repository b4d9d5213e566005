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


def flowables(sheet: Sheet, styles: Styles, width: float, height: float) -> list[Flowable]:
    """The whole sheet as flowables for a frame of a width and height in cm."""
    from reportlab.platypus import Paragraph

    out: list[Flowable] = [
        Paragraph(escape(sheet.title), styles.of("title")),
        Paragraph(escape(sheet.subtitle), styles.of("subtitle")),
    ]
    setter = _Setter(styles, width, height)
    for section in sheet.sections:
        out += setter.section(section)
    return out


class _Setter:
    """Sets blocks in a column of a width in cm."""

    def __init__(self, styles: Styles, width: float, height: float) -> None:
        self.styles, self.width, self.height = styles, width, height

    def section(self, section: Section) -> list[Flowable]:
        from reportlab.platypus import CondPageBreak, KeepTogether, PageBreak, Paragraph

        out: list[Flowable] = [PageBreak()] if section.new_page else []
        title = Paragraph(
            escape(section.title), self.styles.of("part" if section.level == 1 else "step")
        )
        body = [flow for block in self._grouped(section.blocks) for flow in block]
        if section.together:
            held, rest = _split(section.blocks)
            first = [flow for block in self._grouped(held) for flow in block]
            out.append(KeepTogether([title, *first]))
            out += [flow for block in self._grouped(rest) for flow in block]
            return out
        out.append(CondPageBreak(3.5 * CM))
        return [*out, title, *body]

    def _grouped(self, blocks: Sequence[Block]) -> list[list[Flowable]]:
        """Each block set; narrow tables that follow each other side by side."""
        out: list[list[Flowable]] = []
        index = 0
        while index < len(blocks):
            block = blocks[index]
            if isinstance(block, Table) and block.across > 1:
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
        from reportlab.platypus import Table as Grid

        each = (self.width - (across - 1) * _GAP) / across
        cells: list[Any] = []
        widths: list[float] = []
        for place in range(across):
            cells.append(self._table(tables[place], each) if place < len(tables) else "")
            widths.append(each * CM)
            if place < across - 1:
                cells.append("")
                widths.append(_GAP * CM)
        plain = [("LEFTPADDING", (0, 0), (-1, -1), 0), ("RIGHTPADDING", (0, 0), (-1, -1), 0)]
        plain += [("VALIGN", (0, 0), (-1, -1), "TOP")]  # type: ignore[list-item]
        return Grid([cells], colWidths=widths, style=plain, hAlign="LEFT")

    def _table(self, table: Table, width: float) -> Flowable:
        from reportlab.lib.colors import HexColor
        from reportlab.platypus import Table as Grid

        total = sum(table.widths)
        widths = [width * share / total for share in table.widths]
        head = [self._cell(c, i, widths[i], table, "head") for i, c in enumerate(table.head)]
        rows = [
            [self._cell(c, i, widths[i], table, "cell") for i, c in enumerate(row)]
            for row in table.rows
        ]
        line = HexColor("#b9b2a2")
        look: list[Any] = [
            ("LINEBELOW", (0, 0), (-1, 0), 0.8, HexColor("#2b2926")),
            ("LINEBELOW", (0, 1), (-1, -1), 0.3, line),
            ("VALIGN", (0, 0), (-1, -1), "MIDDLE" if _has_picture(table) else "TOP"),
            ("LEFTPADDING", (0, 0), (-1, -1), 4),
            ("RIGHTPADDING", (0, 0), (-1, -1), 3),
            ("TOPPADDING", (0, 0), (-1, -1), 1.6),
            ("BOTTOMPADDING", (0, 0), (-1, -1), 2),
        ]
        return Grid(
            [head, *rows], colWidths=[w * CM for w in widths], repeatRows=1, style=look,
            hAlign="LEFT", spaceBefore=3, spaceAfter=5,
        )  # fmt: skip

    def _cell(self, cell: Cell, column: int, width: float, table: Table, kind: str) -> Any:
        from reportlab.platypus import Paragraph

        if isinstance(cell, Picture):
            return Thumbnail(cell, width - 0.2)
        if column in table.numbers:
            kind = {"head": "number head", "cell": "number"}[kind]
        return Paragraph(escape(cell), self.styles.of(kind))


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
