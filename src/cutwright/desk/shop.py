"""The desk's hold on the book and on the tables; one for the whole program."""

from __future__ import annotations

import os
from pathlib import Path
from threading import RLock
from time import monotonic

from cutwright.body.body import Body
from cutwright.body.card import BodyCard
from cutwright.book import documents
from cutwright.book.book import Book
from cutwright.book.errors import NotInBookError
from cutwright.book.nouns import Document, DocumentKind
from cutwright.book.opening import keep_if_due, open_book
from cutwright.desk.cloth.searches import Jobs
from cutwright.desk.style.laid_out import LaidOut
from cutwright.desk.style.table import OpenTables, Table, body_of
from cutwright.style.document import Style
from cutwright.words import _

PLACE = "CUTWRIGHT_BOOK"
"""Names another book than the one in the user's own folder: a file or a database address."""


LOOK_AGAIN = 3600.0
"""Seconds after which a desk that stays open asks again whether a backup is due."""


class Shop:
    """The book, opened when it is first asked for, and what lies on the tables."""

    def __init__(self, where: str | Path | None = None) -> None:
        self.where = where if where is not None else os.environ.get(PLACE) or None
        self.tables = OpenTables()
        self.jobs = Jobs()
        self._book: Book | None = None
        self._lock = RLock()
        self._kept = 0.0

    @property
    def book(self) -> Book:
        """The open book; raises DamagedBookError, NewerBookError or StoreError in plain words."""
        with self._lock:
            if self._book is None:
                self._book = open_book(self.where)
                self._kept = monotonic()
            elif monotonic() - self._kept > LOOK_AGAIN:
                self._kept = monotonic()
                keep_if_due(self._book)
            return self._book

    @property
    def no_backup(self) -> str:
        """Why no automatic backup could be kept; empty when all is well."""
        fault = self._book.no_backup if self._book else None
        return str(fault) if fault else ""

    @property
    def altered(self) -> tuple[str, ...]:
        """What was altered in the book past this program, by title."""
        return self._book.altered if self._book else ()

    def close(self) -> None:
        """Let go of the book; the next question opens it again."""
        with self._lock:
            if self._book is not None:
                self._book.close()
                self._book = None
            self.forget()

    def forget(self) -> None:
        """Clear the tables, and stop whatever is still being searched for on them."""
        self.tables.clear()
        self.jobs.clear()

    def document(self, ident: str, kind: DocumentKind) -> Document:
        """A document of a kind; NotInBookError when there is none."""
        found = documents.get(self.book, ident)
        if found.entry.kind is not kind:
            raise NotInBookError(
                _("What has the number {ident} is not a {kind}.").format(
                    ident=ident[:40], kind=kind.value
                )
            )
        return found

    def laid(self, style_id: str, body_id: str) -> tuple[Table, LaidOut, Document, Document]:
        """A style laid out on a body as both stand in the book."""
        style = self.document(style_id, DocumentKind.STYLE)
        body = self.document(body_id, DocumentKind.BODY)
        table = self.tables.table(style_id, body_id)
        return table, table.lay(style.content, body), style, body

    def body(self, ident: str) -> Body:
        """A measured person from the book."""
        return body_of(self.document(ident, DocumentKind.BODY))

    def add_card(self, card: BodyCard, client_id: str | None = None) -> Document:
        """Enter a body card in the book."""
        content = card.model_dump(mode="json")
        return documents.add(self.book, DocumentKind.BODY, content, client_id=client_id)

    def add_style(self, style: Style) -> Document:
        """Enter a style in the book."""
        return documents.add(self.book, DocumentKind.STYLE, style.document())
