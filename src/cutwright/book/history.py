"""Undo and redo without end, and going back to any revision there ever was."""

from __future__ import annotations

from sqlalchemy import select

from cutwright.book.book import Book
from cutwright.book.content import thaw
from cutwright.book.database_errors import database_errors
from cutwright.book.errors import NoFurtherError
from cutwright.book.nouns import Document, UndoStep
from cutwright.book.revising import (
    append,
    claim,
    content_at,
    load,
    stand_at,
)
from cutwright.book.tables import HistoryRow, RevisionRow
from cutwright.words import _


def undo(book: Book, ident: str, *, base: int) -> Document:
    """Go one step back. Errors: NoFurtherError at the first step, ConflictError."""
    return _step(book, ident, base, -1)


def redo(book: Book, ident: str, *, base: int) -> Document:
    """Go one step forward again. Errors: NoFurtherError at the last step, ConflictError."""
    return _step(book, ident, base, 1)


def bring_back(book: Book, ident: str, number: int, *, base: int) -> Document:
    """Save an old revision anew on top of what is there; it can be undone like any change."""
    with book.writing() as session:
        load(session, ident)
        content = thaw(content_at(session, ident, number))
        label = _("as in revision {number}").format(number=number)
        line = session.connection()
        return append(line, book.clock(), ident, content, base=base, label=label).document()


def timeline(book: Book, ident: str) -> list[UndoStep]:
    """The places undo and redo can reach, the first one first."""
    wanted = (
        select(HistoryRow.position, RevisionRow.number, RevisionRow.label, RevisionRow.made_at)
        .join(
            RevisionRow,
            (RevisionRow.document_id == HistoryRow.document_id)
            & (RevisionRow.number == HistoryRow.number),
        )
        .where(HistoryRow.document_id == ident)
        .order_by(HistoryRow.position)
    )
    with book.reading() as session:
        here = load(session, ident).position
        return [
            UndoStep(position, number, label, made_at, position == here)
            for position, number, label, made_at in session.execute(wanted)
        ]


def stay_at(book: Book, ident: str) -> str | None:
    """The group key under which a document was saved last; None where it was none, or undone."""
    with database_errors(book.place):
        return book.known.standing(ident).group


def _step(book: Book, ident: str, base: int, by: int) -> Document:
    with book.writing() as session:
        line = session.connection()
        stands = claim(line, ident, base)
        there = stands.position + by
        if there < 0:
            raise NoFurtherError(_("There is nothing left to undo."))
        if there > stands.newest:
            raise NoFurtherError(_("There is nothing left to redo."))
        return stand_at(line, stands, there, book.clock()).document()
