"""Finding a client, a document or a fitting by any part of what is written about it."""

from __future__ import annotations

from collections.abc import Iterator

from sqlalchemy import ColumnElement, or_, select
from sqlalchemy.orm import InstrumentedAttribute, Session

from cutwright.book.book import Book
from cutwright.book.fold import ESCAPE, patterns
from cutwright.book.nouns import Hit
from cutwright.book.tables import ClientRow, DocumentRow, FittingRow

CLIENT = "client"
FITTING = "fitting"
MOST = 100


def find(book: Book, words: str, *, most: int = MOST) -> list[Hit]:
    """Everything in which every one of the words occurs, what was changed last first.

    Searched are names, contacts and notes of clients, titles and notes of documents together
    with the name of their client, and fitting notes. Case and accents do not matter, in Greek
    and Cyrillic either.
    """
    wanted = patterns(words)
    if not wanted:
        return []
    with book.reading() as session:
        hits = [
            *_clients(session, wanted, most),
            *_documents(session, wanted, most),
            *_fittings(session, wanted, most),
        ]
    return sorted(hits, key=lambda hit: hit.changed_at, reverse=True)[:most]


def _clients(session: Session, wanted: list[str], most: int) -> Iterator[Hit]:
    query = select(ClientRow).where(*_all(wanted, ClientRow.sought))
    for row in session.scalars(query.order_by(ClientRow.changed_at.desc()).limit(most)):
        yield Hit(CLIENT, row.id, row.name, row.id, row.name, row.changed_at)


def _documents(session: Session, wanted: list[str], most: int) -> Iterator[Hit]:
    query = (
        select(DocumentRow, ClientRow.name)
        .outerjoin(ClientRow, ClientRow.id == DocumentRow.client_id)
        .where(DocumentRow.set_aside_at.is_(None))
        .where(*_all(wanted, DocumentRow.sought, ClientRow.sought))
        .order_by(DocumentRow.changed_at.desc())
        .limit(most)
    )
    for row, name in session.execute(query):
        yield Hit(row.kind, row.id, row.title, row.client_id, name, row.changed_at)


def _fittings(session: Session, wanted: list[str], most: int) -> Iterator[Hit]:
    query = (
        select(FittingRow, DocumentRow.client_id, ClientRow.name)
        .join(DocumentRow, DocumentRow.id == FittingRow.order_id)
        .outerjoin(ClientRow, ClientRow.id == DocumentRow.client_id)
        .where(*_all(wanted, FittingRow.sought))
        .order_by(FittingRow.changed_at.desc())
        .limit(most)
    )
    for row, client_id, name in session.execute(query):
        yield Hit(FITTING, row.id, row.note, client_id, name, row.changed_at)


def _all(wanted: list[str], *columns: InstrumentedAttribute[str]) -> list[ColumnElement[bool]]:
    """Every word in one of the columns."""
    return [or_(*(column.like(word, escape=ESCAPE) for column in columns)) for word in wanted]
