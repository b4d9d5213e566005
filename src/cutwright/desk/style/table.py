"""The cutting table in memory: each style on each body as it was last laid out, and what to send."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Collection, Mapping, Sequence
from datetime import date
from threading import RLock
from typing import Any

from pydantic import BaseModel

from cutwright.body.body import Body
from cutwright.body.card import card_from
from cutwright.body.resolve import resolve
from cutwright.book.nouns import Document
from cutwright.desk.style.laid_out import LaidOut, rows_for, table_places
from cutwright.desk.style.piece_svg import outline_svg, words_svg
from cutwright.desk.style.sentences import Sentences
from cutwright.drawing.piece import draw_outlines
from cutwright.drawing.primitives import Drawing
from cutwright.errors import CutwrightError
from cutwright.finish.finished import CutPiece
from cutwright.style.document import stored_style
from cutwright.wording.message_text import message_text
from cutwright.wording.names import called
from cutwright.words import current_language
from cutwright.workshop.work import Sketch, finishing, sketch

MOST = 12
"""How many styles on bodies are kept laid out."""


class LayerShown(BaseModel):
    """A part of the picture of a piece; `svg` only when the page does not have it yet."""

    mark: str
    svg: str | None


class PieceShown(BaseModel):
    """A piece on the table: where it lies, its outlines, and what is written on them once that is placed."""

    name: str
    x: float
    y: float
    outline: LayerShown
    words: LayerShown | None = None


class SentenceShown(BaseModel):
    """A sentence of the letter; `html` only when the page does not have it yet."""

    mark: str
    html: str | None


class Picture(BaseModel):
    """The pieces as they lie on the table, and how wide and high they lie together, cm."""

    pieces: list[PieceShown]
    wide: float
    high: float
    trouble: str


class Shown(Picture):
    """Everything a page needs to show where a style stands now."""

    revision: int
    name: str
    can_undo: bool
    can_redo: bool
    letter: list[SentenceShown]
    went: list[int] | None = None
    """Where each sentence the page showed stands now, when others were written or taken out."""


class Table:
    """One style on one body. Its lock is held while it is changed."""

    def __init__(self) -> None:
        self.lock = RLock()
        self._sketch: Sketch | None = None
        self._laid: LaidOut | None = None
        self._letter = Sentences()
        self._rows: tuple[tuple[str, ...], list[list[str]]] = ((), [])
        self._content: tuple[Any, Any] = (None, None)

    def sketch(self, style: dict[str, Any], body: Document) -> Sketch:
        """Stitch and cut lines of a style on a body as both stand, reusing what did not change."""
        with self.lock:
            content = (style, body.content)
            if self._sketch is None or self._content != content:
                read, person = stored_style(style), self.person(body)
                options = finishing(read, person, date.today())
                self._sketch = sketch(read, person, options, self._sketch)
                self._laid = None
                self._content = content
            return self._sketch

    def lay(self, style: dict[str, Any], body: Document) -> LaidOut:
        """Lay a style out on a body as both stand, whole."""
        with self.lock:
            sketched = self.sketch(style, body)
            if self._laid is None:
                self._laid = LaidOut(sketched.work(words_svg))
            return self._laid

    def person(self, body: Document) -> Body:
        """The measured person of a body document; raises in plain words where nothing can be drafted."""
        with self.lock:
            if self._sketch is not None and self._content[1] == body.content:
                return self._sketch.replay.body
            return body_of(body)

    def picture(self, sketched: Sketch, have: Collection[str]) -> Picture:
        """The outlines alone, to send to a page that has what is marked in `have`."""
        return self._picture(sketched.cut.pieces, sketched.replay.trouble, have)

    def shown(self, laid: LaidOut, document: Document, have: Collection[str]) -> Shown:
        """What to send to a page that has what is marked in `have`."""
        finished = laid.finished.pieces
        picture = self._picture([piece.cut for piece in finished], laid.trouble, have)
        for piece, its in zip(picture.pieces, finished, strict=True):
            piece.words = _layer(words_svg(its), have)
        with self.lock:
            letter = self._letter.written(laid)
        return Shown(
            **dict(picture),
            revision=document.revision,
            name=called(laid.style.name),
            can_undo=document.can_undo,
            can_redo=document.can_redo,
            letter=[
                SentenceShown(mark=mark, html=None if mark in have else html)
                for mark, html in letter
            ],
        )

    def _picture(
        self, pieces: Sequence[CutPiece], trouble: CutwrightError | None, have: Collection[str]
    ) -> Picture:
        outlines = {piece.name: draw_outlines(piece) for piece in pieces}
        with self.lock:
            spots, (wide, high) = table_places(outlines, self._row_names(outlines))
        return Picture(
            pieces=[
                PieceShown(
                    name=piece.name,
                    x=round(spots[piece.name].x, 3),
                    y=round(spots[piece.name].y, 3),
                    outline=_layer(outline_svg(piece), have),
                )
                for piece in pieces
            ],
            wide=round(wide, 2),
            high=round(high, 2),
            trouble=message_text(trouble) if trouble else "",
        )

    def _row_names(self, outlines: Mapping[str, Drawing]) -> list[list[str]]:
        """The rows the pieces lie in; they stay while the pieces are the same ones."""
        names = tuple(outlines)
        if self._rows[0] != names:
            self._rows = (names, rows_for(outlines))
        return self._rows[1]


def _layer(layer: tuple[str, str], have: Collection[str]) -> LayerShown:
    mark, svg = layer
    return LayerShown(mark=mark, svg=None if mark in have else svg)


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
