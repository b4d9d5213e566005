"""The people the workshop sews for; `forgetting` deletes one wholly."""

from __future__ import annotations

from sqlalchemy import select, update
from sqlalchemy.orm import Session

from cutwright.book.book import Book
from cutwright.book.content import line
from cutwright.book.errors import ConflictError
from cutwright.book.fold import fold
from cutwright.book.nouns import Client
from cutwright.book.revising import changed_rows, new_id, not_there
from cutwright.book.seal import reseal
from cutwright.book.tables import ClientRow
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
    given = {"name": name, "contact": contact, "notes": notes}
    wish = {key: value for key, value in given.items() if value is not None}
    with book.writing() as session:
        held = session.execute(
            update(ClientRow)
            .where(ClientRow.id == ident, ClientRow.version == base)
            .values(version=base + 1, changed_at=book.clock())
        )
        row = load_client(session, ident)
        there = _noun(row)
        if changed_rows(held) == 0:
            raise ConflictError(ident, base, row.version, _plain(there) | wish, _plain(there))
        reseal(row)
        words = _plain(there) | wish
        _write(row, words["name"], words["contact"], words["notes"])
        session.flush()
        return _noun(row)


def get(book: Book, ident: str) -> Client:
    """The client of that number."""
    with book.reading() as session:
        return _noun(load_client(session, ident))


def listed(book: Book) -> list[Client]:
    """All clients by name."""
    with book.reading() as session:
        rows = session.scalars(select(ClientRow))
        return sorted((_noun(row) for row in rows), key=lambda one: (fold(one.name), one.id))


def _write(row: ClientRow, name: str, contact: str, notes: str) -> None:
    row.name = line(name, _("The name"))
    if not row.name:
        raise StoreError(_("A client needs a name; a nickname will do."))
    row.contact = line(contact, _("The contact"))
    row.notes = line(notes, _("The notes"))
    row.sought = fold(row.name, row.contact, row.notes)


def load_client(session: Session, ident: str) -> ClientRow:
    """The client's row; NotInBookError if there is none."""
    row = session.get(ClientRow, ident)
    if row is None:
        raise not_there(_("client"), ident)
    return row


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
