"""Blocks of a sheet turned into what platypus flows over pages."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING
from xml.sax.saxutils import escape

from cutwright.worksheet.fonts import MADDER, Styles
from cutwright.worksheet.grid import GAP, PLAIN, grid, side_by_side, table_grid
from cutwright.worksheet.painted import Lined, PictureRow
from cutwright.worksheet.sheet import (
    Beside,
    Block,
    Exercise,
    Lines,
    Pictures,
    Section,
    Sheet,
    SheetTable,
    Text,
)

if TYPE_CHECKING:
    from reportlab.platypus import Flowable

CM = 72 / 2.54
_TALL = 1e5
_FIRST_ROWS = 4
"""Rows of a table, the head among them, that stay with what leads in to it."""

_UNPARTED = 8
"""A table of no more rows is not parted."""

_NARROWEST, _HIGHEST = 6.5, 12.0
"""Least width of a column beside a picture, and how high it may always be, cm."""

_LEADING = ("part", "step", "sentence", "note", "title", "subtitle", "facts")
"""Kinds of text that are nothing without what follows."""


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
        from reportlab.platypus import KeepTogether, PageBreak, Paragraph

        style = self.styles.of("part" if section.level == 1 else "step")
        blocks = section.blocks
        words = escape(section.title)
        if blocks and isinstance(blocks[0], Text) and blocks[0].kind == "sentence":
            words = f'<font size="{self.styles.size:g}" color="{MADDER}">{words}</font>'
            words += f"&nbsp;&nbsp; {escape(blocks[0].text)}"
            style, blocks = self.styles.of("sentence"), blocks[1:]
        title = [*self._waiting, Paragraph(words, style)]
        self._waiting = []
        if not section.blocks:
            self._waiting = title
            return []
        out: list[Flowable] = [PageBreak()] if section.new_page else []
        if not section.together:
            return [*out, *self._held([*title, *self._set(blocks)])]
        held, rest = _split(blocks)
        return [*out, KeepTogether([*title, *self._set(held)]), *self._held(self._set(rest))]

    def _held(self, flow: Sequence[Flowable]) -> list[Flowable]:
        """Flowables with a new page before a title or a table whose beginning has no room left."""
        from reportlab.platypus import CondPageBreak
        from reportlab.platypus import Table as Grid

        out: list[Flowable] = []
        index = 0
        while index < len(flow):
            high, end = self._beginning(flow, index)
            if end - index > 1 or isinstance(flow[index], Grid):
                out.append(CondPageBreak(high))
            out += flow[index:end]
            index = end
        return out

    def _beginning(self, flow: Sequence[Flowable], index: int) -> tuple[float, int]:
        """How high, in points, what leads in to a block is with the beginning of the block."""
        high = 0.0
        for place in range(index, len(flow)):
            own, leads = self._least(flow[place])
            high += own
            if not leads:
                return high, place + 1
        return high, len(flow)

    def _least(self, flow: Flowable) -> tuple[float, bool]:
        """The height of the smallest beginning of a flowable, and whether it leads in to the next."""
        from reportlab.platypus import Paragraph
        from reportlab.platypus import Table as Grid

        if isinstance(flow, Lined):
            return flow.lowest, False
        high = flow.wrap(self.width * CM, _TALL)[1] + flow.getSpaceBefore()
        if isinstance(flow, Grid):
            rows: list[float] = flow._rowHeights  # type: ignore[attr-defined]
            few = len(rows) <= _UNPARTED
            return sum(rows if few else rows[:_FIRST_ROWS]) + flow.getSpaceBefore(), False
        leads = isinstance(flow, Paragraph) and flow.style.name in _LEADING
        return high + flow.getSpaceAfter(), leads

    def _set(self, blocks: Sequence[Block]) -> list[Flowable]:
        return [flow for block in self._grouped(blocks) for flow in block]

    def _grouped(self, blocks: Sequence[Block]) -> list[list[Flowable]]:
        """Each block set; narrow tables that follow each other side by side."""
        out: list[list[Flowable]] = []
        index = 0
        while index < len(blocks):
            block = blocks[index]
            if isinstance(block, SheetTable) and block.across > 1 and not self.styles.large:
                row = [b for b in blocks[index : index + block.across] if isinstance(b, SheetTable)]
                out.append([side_by_side(row, self.width, self.styles)])
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
            case SheetTable():
                return [table_grid(block, self.width, self.styles)]
            case Beside():
                return self._beside(block)
            case Lines():
                leading = self.styles.size / 9 * 0.8
                return [Lined(block.count, block.least, self.width, leading)]
            case Exercise():
                parts = [escape(p) if isinstance(p, str) else _blank(p.answer) for p in block.parts]
                text = f"{escape(block.what)}: {''.join(parts)}"
                return [Paragraph(text, self.styles.of("exercise"), bulletText="·")]

    def _text(self, block: Text) -> Flowable:
        from reportlab.platypus import Paragraph

        style = self.styles.of(block.kind)
        if block.kind == "task":
            head, _tab, rest = block.text.partition("\t")
            return Paragraph(escape(rest), style, bulletText=head)
        bullet = {"caution": "!", "sum": "·", "look": "·"}.get(block.kind)
        return Paragraph(escape(block.text), style, bulletText=bullet)

    def _beside(self, block: Beside) -> list[Flowable]:
        """Pictures on the left, the rest on the right; one below the other where that is too long."""
        row = block.pictures
        own = sum(p.width for p in row.row)
        rest = self.width - own - GAP
        if not self.styles.large and rest > _NARROWEST:
            side = [self._at_side(part, rest) for part in block.side]
            high = sum(f.wrap(rest * CM, _TALL)[1] + f.getSpaceAfter() for f in side) / CM
            if high < max(max(p.height for p in row.row) * 1.5, _HIGHEST):
                cells = [[PictureRow(row, own, self.styles), "", side]]
                bare = [(f"{where}PADDING", (0, 0), (-1, -1), 0) for where in ("LEFT", "RIGHT")]
                return [grid(cells, [own, GAP, rest], [*PLAIN, *bare])]
        return [
            PictureRow(row, self.width, self.styles),
            *(self._at_side(part, self.width) for part in block.side),
        ]

    def _at_side(self, part: Text | SheetTable, width: float) -> Flowable:
        return self._text(part) if isinstance(part, Text) else table_grid(part, width, self.styles)


def _split(blocks: Sequence[Block]) -> tuple[list[Block], list[Block]]:
    """What stays together on a page, and the tables after it that may run on."""
    index = next((i for i, b in enumerate(blocks) if isinstance(b, SheetTable)), len(blocks))
    while index > 0 and isinstance(blocks[index - 1], Text) and index < len(blocks):
        if getattr(blocks[index - 1], "kind", "") != "note":
            break
        index -= 1
    return list(blocks[:index]), list(blocks[index:])


def _blank(answer: str) -> str:
    """An empty place wide enough to write in."""
    return "<u>" + "&nbsp;" * max(12, 3 * len(answer)) + "</u>"
