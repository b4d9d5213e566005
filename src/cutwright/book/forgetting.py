"""Deleting a client wholly: from the book, from the empty places of its file, from the backups."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

from sqlalchemy import delete, func, select, text
from sqlalchemy.exc import DBAPIError
from sqlalchemy.orm import Session

from cutwright.book.backup import drop_backups, keep_backup
from cutwright.book.book import Book
from cutwright.book.clients import load_client
from cutwright.book.database_errors import database_errors
from cutwright.book.engine import WAIT, set_up_sqlite
from cutwright.book.health import damaged_copies, forgetting_mark
from cutwright.book.nouns import DocumentKind, Forgotten
from cutwright.book.scraps import clear_scraps
from cutwright.book.tables import Base, ClientRow, DocumentRow
from cutwright.errors import StoreError


def forget(book: Book, ident: str) -> Forgotten:
    """Delete a client wholly: measure sets, orders with their frozen copies, fittings, history.

    Afterwards the file is rewritten so that nothing can be read out of its empty places, and
    automatic backups, which still hold the person, give way to a new one. Where a kill or another
    program comes between, the next opening of the book finishes the work. Backups written
    elsewhere by hand are the owner's to delete. Styles and cloths stay.
    """
    with book.writing() as session:
        load_client(session, ident)
        sets, orders = (
            _count(session, ident, kind) for kind in (DocumentKind.BODY, DocumentKind.ORDER)
        )
        _mark(book)
        session.execute(delete(ClientRow).where(ClientRow.id == ident))
    backups, swept = finish(book)
    return Forgotten(
        measure_sets=sets,
        orders=orders,
        backups=backups,
        swept=swept,
        copies=tuple(damaged_copies(book.place)),
    )


def finish(book: Book) -> tuple[int, bool]:
    """Wipe out what a deletion left: how many backups gave way, and whether the file is clean."""
    book.known.forget()
    swept = sweep(book)
    clear_scraps(book.place)
    with database_errors(book.place):
        backups = _replace_backups(book)
        mark = forgetting_mark(book.place)
        if swept and mark is not None:
            mark.unlink(missing_ok=True)
    return backups, swept


def sweep(book: Book) -> bool:
    """Rewrite the files of the book without what was deleted; False while others hold them."""
    with database_errors(book.place):
        try:
            if book.place.path is not None:
                return _sweep_file(book.place.path)
            line = book.engine.connect().execution_options(isolation_level="AUTOCOMMIT")
            with line:
                for name in Base.metadata.tables:
                    line.execute(text(f"VACUUM FULL {name}"))
        except (DBAPIError, sqlite3.OperationalError):
            return False
        return True


def _sweep_file(path: Path) -> bool:
    with closing(sqlite3.connect(path, isolation_level=None, timeout=WAIT)) as bare:
        set_up_sqlite(bare)
        bare.execute("VACUUM")
        return not bare.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()[0]


def _mark(book: Book) -> None:
    """Leave a mark beside the book that something is to be wiped out."""
    mark = forgetting_mark(book.place)
    if mark is not None:
        mark.touch(mode=0o600)


def _replace_backups(book: Book) -> int:
    """The old automatic backups go even if no new one can be made: the wish was to forget."""
    kept = None
    try:
        kept = keep_backup(book, even_if_recent=True)
    except StoreError as error:
        book.no_backup = error
    return drop_backups(book.place, kept)


def _count(session: Session, ident: str, kind: DocumentKind) -> int:
    wanted = (
        select(func.count())
        .select_from(DocumentRow)
        .where(DocumentRow.client_id == ident, DocumentRow.kind == kind.value)
    )
    return session.scalar(wanted) or 0
