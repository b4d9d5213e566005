"""The people the workshop sews for, and how to forget one wholly."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from dataclasses import replace
from pathlib import Path

from sqlalchemy import delete, func, select, text, update
from sqlalchemy.exc import DBAPIError
from sqlalchemy.orm import Session

from cutwright.book.backup import drop_backups, keep_backup
from cutwright.book.book import Book
from cutwright.book.content import line
from cutwright.book.engine import WAIT, set_up_sqlite
from cutwright.book.errors import ConflictError
from cutwright.book.fold import fold
from cutwright.book.health import damaged_copies
from cutwright.book.nouns import Client, Forgotten, Kind
from cutwright.book.plain import said_plainly
from cutwright.book.revising import changed_rows, new_id, not_there
from cutwright.book.tables import Base, ClientRow, DocumentRow
from cutwright.errors import StoreError
from cutwright.words import _


def add(book: Book, name: str, *, contact: str = "", notes: str = "") -> Client:
    """Enter a client under a name or nickname."""
    moment = book.clock()
    row = ClientRow(id=new_id(), version=1, made_at=moment, changed_at=moment)
    _write(row, name, contact, notes)
    with book.writing() as session:
        session.add(row)
        session.flush()
        return _noun(row)


def change(
    book: Book,
    ident: str,
    *,
    base: int,
    name: str | None = None,
    contact: str | None = None,
    notes: str | None = None,
) -> Client:
    """Change what stands about a client; what is left out stays. `base` is the version seen.

    Errors: ConflictError when it was changed elsewhere in the meantime.
    """
    with book.writing() as session:
        held = session.execute(
            update(ClientRow)
            .where(ClientRow.id == ident, ClientRow.version == base)
            .values(version=base + 1, changed_at=book.clock())
        )
        row = _load(session, ident)
        there = _noun(row)
        if changed_rows(held) == 0:
            wish = replace(
                there,
                name=name if name is not None else there.name,
                contact=contact if contact is not None else there.contact,
                notes=notes if notes is not None else there.notes,
            )
            raise ConflictError(ident, base, row.version, _plain(wish), _plain(there))
        _write(
            row,
            row.name if name is None else name,
            row.contact if contact is None else contact,
            row.notes if notes is None else notes,
        )
        session.flush()
        return _noun(row)


def get(book: Book, ident: str) -> Client:
    """The client of that number."""
    with book.reading() as session:
        return _noun(_load(session, ident))


def listed(book: Book) -> list[Client]:
    """All clients by name."""
    with book.reading() as session:
        rows = session.scalars(select(ClientRow))
        return sorted((_noun(row) for row in rows), key=lambda one: (fold(one.name), one.id))


def forget(book: Book, ident: str) -> Forgotten:
    """Delete a client wholly: measure sets, orders with their frozen copies, fittings, history.

    Afterwards the file is rewritten so that nothing can be read out of its empty places, and
    automatic backups, which still hold the person, give way to a new one. Backups written
    elsewhere by hand are the owner's to delete. Styles and cloths stay.
    """
    with book.writing() as session:
        _load(session, ident)
        sets, orders = (_count(session, ident, kind) for kind in (Kind.BODY, Kind.ORDER))
        session.execute(delete(ClientRow).where(ClientRow.id == ident))
    swept = sweep(book)
    return Forgotten(
        measure_sets=sets,
        orders=orders,
        backups=_replace_backups(book),
        swept=swept,
        copies=tuple(damaged_copies(book.place)),
    )


def sweep(book: Book) -> bool:
    """Rewrite the files of the book without what was deleted; False while others hold them."""
    with said_plainly(book.place):
        try:
            if book.place.path is not None:
                return _sweep_file(book.place.path)
            line_ = book.engine.connect().execution_options(isolation_level="AUTOCOMMIT")
            with line_:
                for name in Base.metadata.tables:
                    line_.execute(text(f"VACUUM FULL {name}"))
        except (DBAPIError, sqlite3.OperationalError):
            return False
        return True


def _sweep_file(path: Path) -> bool:
    with closing(sqlite3.connect(path, isolation_level=None, timeout=WAIT)) as bare:
        set_up_sqlite(bare)
        bare.execute("VACUUM")
        return not bare.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()[0]


def _replace_backups(book: Book) -> int:
    """The old automatic backups go even if no new one can be made: the wish was to forget."""
    kept = None
    try:
        kept = keep_backup(book, even_if_recent=True)
    except StoreError as error:
        book.no_backup = error
    return drop_backups(book.place, kept)


def _write(row: ClientRow, name: str, contact: str, notes: str) -> None:
    row.name = line(name, _("The name"))
    if not row.name:
        raise StoreError(_("A client needs a name; a nickname will do."))
    row.contact = line(contact, _("The contact"))
    row.notes = line(notes, _("The notes"))
    row.sought = fold(row.name, row.contact, row.notes)


def _load(session: Session, ident: str) -> ClientRow:
    row = session.get(ClientRow, ident)
    if row is None:
        raise not_there(_("client"), ident)
    return row


def _count(session: Session, ident: str, kind: Kind) -> int:
    wanted = (
        select(func.count())
        .select_from(DocumentRow)
        .where(DocumentRow.client_id == ident, DocumentRow.kind == kind.value)
    )
    return session.scalar(wanted) or 0


def _noun(row: ClientRow) -> Client:
    return Client(
        id=row.id,
        name=row.name,
        contact=row.contact,
        notes=row.notes,
        version=row.version,
        made_at=row.made_at,
        changed_at=row.changed_at,
    )


def _plain(client: Client) -> dict[str, str]:
    return {"name": client.name, "contact": client.contact, "notes": client.notes}
