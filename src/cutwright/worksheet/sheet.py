"""What a work sheet is made of before it is put on paper or on a screen: plain nouns.

A sheet is a row of sections; a section is a row of blocks. Drawings are in centimetres and know no
device, so that a page in the browser and a print come from the same source.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from cutwright.drawing.primitives import Drawing
from cutwright.wording.sums import SumLine

Box = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Text:
    """A paragraph. kind: "plain", "facts", "sentence" (of a step), "sum", "note",
    "caution", "task", "look" (what to look at under a task)."""

    text: str
    kind: str = "plain"


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing with what it shows; `box` (left, top, right, bottom, cm) bounds what is seen.

    `scale` is how large a centimetre of the drawing is on paper, at most.
    """

    drawing: Drawing
    box: Box
    alt: str
    caption: str = ""
    scale: float = 1.0

    @property
    def width(self) -> float:
        """Width on paper at full scale, cm."""
        return (self.box[2] - self.box[0]) * self.scale

    @property
    def height(self) -> float:
        """Height on paper at full scale, cm."""
        return (self.box[3] - self.box[1]) * self.scale


@dataclass(frozen=True, slots=True)
class Pictures:
    """Pictures side by side; `arrow` points from each to the next (before, after)."""

    row: tuple[Picture, ...]
    arrow: bool = False


Cell = str | Picture


@dataclass(frozen=True, slots=True)
class SheetTable:
    """Rows under a head. `widths` are shares of the page; `numbers` are columns set to the right.

    `across` tables of few narrow columns are set side by side.
    """

    head: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]
    widths: tuple[float, ...]
    numbers: frozenset[int] = frozenset()
    across: int = 1


@dataclass(frozen=True, slots=True)
class Beside:
    """Pictures with what belongs to them at their side, so that neither is looked for far away."""

    pictures: Pictures
    side: tuple[Text | SheetTable, ...]


@dataclass(frozen=True, slots=True)
class Lines:
    """Empty lines to write on: `count` at most, `least` where the page has no more room."""

    count: int
    least: int = 2


@dataclass(frozen=True, slots=True)
class Blank:
    """A place to write a figure: `key` names it, `answer` is what stands there when it is right.

    `place` is its place among the numbers of the sum.
    """

    key: str
    answer: str
    place: int = 0


@dataclass(frozen=True, slots=True)
class Exercise:
    """A sum with blanks: `parts` in the order they are read; `sum` is the whole line."""

    what: str
    parts: tuple[str | Blank, ...]
    sum: SumLine

    @property
    def worked(self) -> str:
        """The sum as it reads on the reference body."""
        return str(self.sum)

    @property
    def blanks(self) -> tuple[Blank, ...]:
        """The places to fill in."""
        return tuple(part for part in self.parts if isinstance(part, Blank))


Block = Text | Pictures | SheetTable | Beside | Lines | Exercise


@dataclass(frozen=True, slots=True)
class Section:
    """A titled part of the sheet. `together` blocks are not parted by the end of a page.

    `level` 1 is a part of the sheet, 2 a step within one; `new_page` begins a fresh page.
    """

    key: str
    title: str
    blocks: tuple[Block, ...] = ()
    level: int = 1
    together: bool = False
    new_page: bool = False

    def tables(self) -> Iterator[SheetTable]:
        """Every table of the section, those beside pictures too."""
        for block in self.blocks:
            if isinstance(block, SheetTable):
                yield block
            elif isinstance(block, Beside):
                yield from (part for part in block.side if isinstance(part, SheetTable))


@dataclass(frozen=True, slots=True)
class Sheet:
    """The whole sheet in one language. `foot` is printed at the foot of every page."""

    title: str
    subtitle: str
    sections: tuple[Section, ...]
    language: str
    foot: str = ""
    large: bool = False
    kind: str = field(default="sheet")

    def section(self, key: str) -> Section:
        """The section of that key; a KeyError for one there is not."""
        for section in self.sections:
            if section.key == key:
                return section
        raise KeyError(key)

    def texts(self) -> Iterator[str]:
        """Every text that is read, in order."""
        for section in self.sections:
            yield section.title
            for block in section.blocks:
                yield from _texts(block)


def _texts(block: Block) -> Iterator[str]:
    match block:
        case Text():
            yield block.text
        case Pictures():
            yield from (p.caption for p in block.row if p.caption)
        case Beside():
            for part in (block.pictures, *block.side):
                yield from _texts(part)
        case SheetTable():
            yield from block.head
            yield from (cell for row in block.rows for cell in row if isinstance(cell, str))
        case Exercise():
            yield block.what
            yield "".join(p if isinstance(p, str) else "____" for p in block.parts)
        case Lines():
            return
