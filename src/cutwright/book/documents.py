"""Bodies, styles, cloths and orders as documents: enter, save, look up, compare, set aside."""

from __future__ import annotations

from datetime import date
from typing import Any

from sqlalchemy import delete, select

from cutwright.book.book import Book
from cutwright.book.compare import Comparison, compare
from cutwright.book.content import thaw
from cutwright.book.database_errors import database_errors
from cutwright.book.nouns import Content, Document, DocumentKind, Entry, Revision
from cutwright.book.revising import (
    append,
    as_document,
    as_entry,
    begin,
    changed_rows,
    content_at,
    load,
    not_there,
)
from cutwright.book.tables import DocumentRow, RevisionRow
from cutwright.errors import StoreError
from cutwright.words import _


def add(
    book: Book,
    kind: DocumentKind,
    content: Content,
    *,
    title: str | None = None,
    client_id: str | None = None,
    dated: date | None = None,
    label: str = "",
) -> Document:
    """Enter a new body, style or cloth; its own name and date go before `title` and `dated`.

    An order is entered by `orders.place`, which also notes what it uses.
    """
    if kind is DocumentKind.ORDER:
        raise StoreError(_("An order is placed, with a body and a style; it is not entered bare."))
    with book.writing() as session:
        row = begin(
            session,
            book.clock(),
            kind,
            content,
            title=title,
            client_id=client_id,
            dated=dated,
            label=label,
        )
        return as_document(session.connection(), row.id)


def save(
    book: Book,
    ident: str,
    content: Content,
    *,
    base: int,
    group: str | None = None,
    label: str = "",
) -> Document:
    """Save a document as a new revision; when this returns it is on the disk.

    Parameters
    ----------
    base : the revision the change was made from
    group : a key used for no other drag; saves under one key become a single undo step
    label : a few words on what was done, for the history

    Errors: ConflictError with both documents when the book no longer stands at `base`.
    """
    with database_errors(book.place):
        with book.known.saving(ident) as saving:
            saving.stands = append(
                saving.line,
                book.clock(),
                ident,
                content,
                base=base,
                group=group,
                label=label,
                known=saving.known,
            )
        return saving.stands.document()


def get(book: Book, ident: str) -> Document:
    """The document as it stands now."""
    with database_errors(book.place):
        return book.known.standing(ident).document()


def at(book: Book, ident: str, number: int) -> dict[str, Any]:
    """The content of a document at one of its revisions."""
    with book.reading() as session:
        return thaw(content_at(session, ident, number))


def entries(
    book: Book,
    kind: DocumentKind | None = None,
    *,
    client_id: str | None = None,
    set_aside: bool = False,
) -> list[Entry]:
    """The index: what was changed last comes first. What was set aside is listed on its own."""
    wanted = select(DocumentRow).order_by(DocumentRow.changed_at.desc(), DocumentRow.id)
    if kind is not None:
        wanted = wanted.where(DocumentRow.kind == kind.value)
    if client_id is not None:
        wanted = wanted.where(DocumentRow.client_id == client_id)
    aside = DocumentRow.set_aside_at
    wanted = wanted.where(aside.is_not(None) if set_aside else aside.is_(None))
    with book.reading() as session:
        return [as_entry(row) for row in session.scalars(wanted)]


def revisions(book: Book, ident: str) -> list[Revision]:
    """Every revision of a document, oldest first, with none ever left out."""
    wanted = (
        select(
            RevisionRow.number,
            RevisionRow.parent,
            RevisionRow.title,
            RevisionRow.label,
            RevisionRow.made_at,
        )
        .where(RevisionRow.document_id == ident)
        .order_by(RevisionRow.number)
    )
    with book.reading() as session:
        load(session, ident)
        return [
            Revision(ident, number, parent, title, label, made_at)
            for number, parent, title, label, made_at in session.execute(wanted)
        ]


def compare_revisions(book: Book, ident: str, before: int, after: int) -> Comparison:
    """What changed in a document from one revision to another."""
    with book.reading() as session:
        return compare(
            thaw(content_at(session, ident, before)), thaw(content_at(session, ident, after))
        )


def duplicate(book: Book, ident: str, name: str | None = None) -> Document:
    """A new document that begins as this one stands, under another name if one is given."""
    with book.writing() as session:
        row = load(session, ident)
        if row.kind == DocumentKind.ORDER:
            raise StoreError(_("An order is not duplicated; place a new one."))
        content = thaw(content_at(session, ident, row.current))
        if name is not None:
            content["name"] = name
        new = begin(
            session,
            book.clock(),
            DocumentKind(row.kind),
            content,
            title=row.title,
            client_id=row.client_id,
            dated=row.dated,
        )
        return as_document(session.connection(), new.id)


def set_aside(book: Book, ident: str, aside: bool = True) -> Entry:
    """Take a document out of the lists without losing anything, or put it back."""
    with book.writing() as session:
        row = load(session, ident)
        row.set_aside_at = book.clock() if aside else None
        session.flush()
        return as_entry(row)


def destroy(book: Book, ident: str) -> None:
    """Delete one document with all its revisions, for good.

    Orders that used it keep their frozen copy.
    """
    with book.writing() as session:
        gone = session.execute(delete(DocumentRow).where(DocumentRow.id == ident))
        if changed_rows(gone) == 0:
            raise not_there(_("document"), ident)
