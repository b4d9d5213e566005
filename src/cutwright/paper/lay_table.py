"""The page that goes to the cutting table: in which order and where each piece is put down."""

from __future__ import annotations

from collections.abc import Sequence

from cutwright.drawing.lay_words import LayTable
from cutwright.drawing.paper_sizes import PAPER_SIZES
from cutwright.drawing.primitives import Drawing, Ink, Item, Words
from cutwright.drawing.type import wrapped
from cutwright.paper.furniture import line
from cutwright.paper.pdf import Leaf, Plate, PlatePart
from cutwright.paper.pieces import Title
from cutwright.words import _

LONG, SHORT, MARGIN = PAPER_SIZES["a4"].height, PAPER_SIZES["a4"].width, 1.2
"""A4 lying on its side, and its free edges; cm."""

_TEXT = 0.24
_LEAD = 0.52
_SHARES = (0.05, 0.19, 0.2, 0.13, 0.15, 0.13, 0.15)
_PAD = 0.3


def table_leaves(table: LayTable, title: Title) -> list[Leaf]:
    """The pages of the table, its head on each of them."""
    first, y = _sentences(table, title)
    leaves: list[Leaf] = []
    items, y = _started(table, title, first, y)
    for row in table.rows:
        cells = _cells(row, bold=False)
        if y + _high(cells) > SHORT - MARGIN:
            leaves.append(_leaf(items))
            items, y = _started(table, title, [], MARGIN)
        items += _placed(cells, y)
        y += _high(cells)
        items.append(line(complex(MARGIN, y), complex(LONG - MARGIN, y), Ink.LEVEL))
    return [*leaves, _leaf(items)]


def _leaf(items: Sequence[Item]) -> Leaf:
    return Leaf(LONG, SHORT, (PlatePart(Plate("title", Drawing(tuple(items))), 0j),))


def _sentences(table: LayTable, title: Title) -> tuple[list[Item], float]:
    """The heading and the sentences of the first page, and how far down they reach."""
    y = MARGIN + 0.3
    items: list[Item] = [Words(complex(MARGIN, y), _("How to lay the pieces"), 0.36, bold=True)]
    items.append(Words(complex(LONG - MARGIN, y), title.line(), _TEXT, ink=Ink.NOTE, anchor="end"))
    y += 0.4
    for sentence in table.sentences:
        for part in wrapped(sentence, _TEXT, LONG - 2 * MARGIN):
            y += _LEAD
            items.append(Words(complex(MARGIN, y), part, _TEXT))
    return items, y + 0.3


def _started(
    table: LayTable, title: Title, items: list[Item], y: float
) -> tuple[list[Item], float]:
    """A page with the head of the table on it."""
    cells = _cells(table.head, bold=True)
    low = y + _high(cells)
    rule = line(complex(MARGIN, low), complex(LONG - MARGIN, low), Ink.MARK)
    return [*items, *_placed(cells, y), rule], low


_Cells = list[tuple[list[str], bool]]


def _cells(texts: Sequence[str], bold: bool) -> _Cells:
    """Each text in lines that keep to its column."""
    widths = [share * (LONG - 2 * MARGIN) - _PAD for share in _SHARES]
    pairs = zip(texts, widths, strict=True)
    return [(wrapped(text, _TEXT, width, bold=bold), bold) for text, width in pairs]


def _high(cells: _Cells) -> float:
    return max(len(lines) for lines, _bold in cells) * _LEAD + 0.24


def _placed(cells: _Cells, y: float) -> list[Item]:
    items: list[Item] = []
    x = MARGIN
    for (lines, bold), share in zip(cells, _SHARES, strict=True):
        for k, text in enumerate(lines):
            items.append(Words(complex(x, y + (k + 0.85) * _LEAD), text, _TEXT, bold=bold))
        x += share * (LONG - 2 * MARGIN)
    return items
