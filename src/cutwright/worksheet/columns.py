"""How wide the columns of a table are: by their shares, but no word is broken where it can be helped."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from cutwright.worksheet.fonts import Styles
from cutwright.worksheet.sheet import Picture, SheetTable

CM = 72 / 2.54
LEFT, RIGHT = 4, 3
"""Room beside the text of a cell, points."""

SPARE = 0.5


def column_widths(table: SheetTable, width: float, styles: Styles) -> list[float]:
    """The widths of the columns in cm: shares of the whole, taken from those with room to spare."""
    total = sum(table.widths)
    wanted = [width * share / total for share in table.widths]
    least = [_widest_word(table, column, styles) for column in range(len(wanted))]
    lacking = sum(max(need - have, 0.0) for have, need in zip(wanted, least, strict=True))
    if not lacking:
        return wanted
    spare = [max(have - need, 0.0) for have, need in zip(wanted, least, strict=True)]
    taken = min(lacking / sum(spare), 1.0) if any(spare) else 0.0
    given = min(sum(spare) / lacking, 1.0)
    return [
        have - room * taken + max(need - have, 0.0) * given
        for have, need, room in zip(wanted, least, spare, strict=True)
    ]


def fits(text: str, style: Any, width: float) -> bool:
    """Whether a text takes no more than one line of a column of a width in cm."""
    from reportlab.pdfbase.pdfmetrics import stringWidth

    room = width * CM - LEFT - RIGHT
    return "\n" not in text and stringWidth(text, style.fontName, style.fontSize) <= room


def kind_of(table: SheetTable, column: int, head: bool) -> str:
    """The style of the cells of a column."""
    if column in table.numbers:
        return "number head" if head else "number"
    return "head" if head else "cell"


def _widest_word(table: SheetTable, column: int, styles: Styles) -> float:
    """Width in cm that holds the widest word of a column, with the room beside it."""
    words = _widest([table.head[column]], styles.of(kind_of(table, column, head=True)))
    cells = [row[column] for row in table.rows if column < len(row)]
    texts = [cell for cell in cells if not isinstance(cell, Picture)]
    body = _widest(texts, styles.of(kind_of(table, column, head=False)))
    return (max(words, body) + LEFT + RIGHT + SPARE) / CM


def _widest(texts: Sequence[str], style: Any) -> float:
    from reportlab.pdfbase.pdfmetrics import stringWidth

    words = {word for text in texts for word in text.split(" ")}
    longest = sorted(words, key=len)[-4:]  # the widest is among the longest
    return max((stringWidth(w, style.fontName, style.fontSize) for w in longest), default=0.0)
