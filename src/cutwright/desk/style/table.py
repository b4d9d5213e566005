"""The cutting table in memory: each style on each body as it was last laid out, and what to send."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Collection
from threading import RLock
from typing import Any

from pydantic import BaseModel

from cutwright.body.body import Body
from cutwright.body.card import card_from
from cutwright.body.resolve import resolve
from cutwright.book.nouns import Document
from cutwright.desk.style.laid_out import LaidOut, lay_out, rows_for, table_places
from cutwright.desk.style.piece_svg import piece_svg
from cutwright.desk.style.sentences import Sentences
from cutwright.style.document import stored_style
from cutwright.wording.message_text import message_text
from cutwright.wording.names import called
from cutwright.words import current_language

MOST = 12
"""How many styles on bodies are kept laid out."""


class PieceShown(BaseModel):
    """A piece on the table: where it lies; `svg` only when the page does not have it yet."""

    name: str
    mark: str
    x: float
    y: float
    svg: str | None


class SentenceShown(BaseModel):
    """A sentence of the letter; `html` only when the page does not have it yet."""

    mark: str
    html: str | None


class Shown(BaseModel):
    """Everything a page needs to show where a style stands now."""

    revision: int
    name: str
    can_undo: bool
    can_redo: bool
    letter: list[SentenceShown]
    pieces: list[PieceShown]
    wide: float
    high: float
    trouble: str
    went: list[int] | None = None
    """Where each sentence the page showed stands now, when others were written or taken out."""


class Table:
    """One style on one body. Its lock is held while it is changed."""

    def __init__(self) -> None:
        self.lock = RLock()
        self.laid: LaidOut | None = None
        self._letter = Sentences()
        self._rows: tuple[tuple[str, ...], list[list[str]]] = ((), [])
        self._content: tuple[Any, Any] = (None, None)

    def lay(self, style: dict[str, Any], body: Document) -> LaidOut:
        """Lay a style out on a body as both stand, reusing what did not change."""
        with self.lock:
            content = (style, body.content)
            if self.laid is None or self._content != content:
                self.laid = lay_out(stored_style(style), self.person(body), self.laid)
                self._content = content
            return self.laid

    def person(self, body: Document) -> Body:
        """The measured person of a body document; raises in plain words where nothing can be drafted."""
        with self.lock:
            if self.laid is not None and self._content[1] == body.content:
                return self.laid.body
            return body_of(body)

    def shown(self, laid: LaidOut, document: Document, have: Collection[str]) -> Shown:
        """What to send to a page that has what is marked in `have`."""
        with self.lock:
            spots, (wide, high) = table_places(laid.drawings, self._row_names(laid))
            letter = self._letter.written(laid)
        pieces = []
        for finished in laid.finished.pieces:
            mark, svg = piece_svg(finished)
            spot = spots[finished.name]
            pieces.append(
                PieceShown(
                    name=finished.name,
                    mark=mark,
                    x=round(spot.x, 3),
                    y=round(spot.y, 3),
                    svg=None if mark in have else svg,
                )
            )
        return Shown(
            revision=document.revision,
            name=called(laid.style.name),
            can_undo=document.can_undo,
            can_redo=document.can_redo,
            letter=[
                SentenceShown(mark=mark, html=None if mark in have else html)
                for mark, html in letter
            ],
            pieces=pieces,
            wide=round(wide, 2),
            high=round(high, 2),
            trouble=message_text(laid.trouble) if laid.trouble else "",
        )

    def _row_names(self, laid: LaidOut) -> list[list[str]]:
        """The rows the pieces lie in; they stay while the pieces are the same ones."""
        names = tuple(laid.drawings)
        if self._rows[0] != names:
            self._rows = (names, rows_for(laid.drawings))
        return self._rows[1]


class OpenTables:
    """The tables that were used last."""

    def __init__(self) -> None:
        self._lock = RLock()
        self._tables: OrderedDict[tuple[str, str, str], Table] = OrderedDict()

    def table(self, style_id: str, body_id: str) -> Table:
        """The table of a style on a body; one for each language, as its sums are told in words."""
        key = (style_id, body_id, current_language())
        with self._lock:
            table = self._tables.pop(key, None) or Table()
            self._tables[key] = table
            while len(self._tables) > MOST:
                self._tables.popitem(last=False)
            return table

    def clear(self) -> None:
        """Forget everything, as when another book is opened or a client is deleted."""
        with self._lock:
            self._tables.clear()


def body_of(document: Document) -> Body:
    """The measured person of a body document, missing measures estimated."""
    return resolve(card_from(document.content))
