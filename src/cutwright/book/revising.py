"""How a document gets its revisions, inside a transaction that somebody else has begun.

A document stands at one place of its undo history, and at that place stands a revision. Every
change first claims the document by asking for the revision it starts from; whoever comes second
finds another one there and is told so. The claim also holds the row until the end.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any
from uuid import uuid4

from sqlalchemy import (
    Connection,
    CursorResult,
    Table,
    bindparam,
    delete,
    func,
    insert,
    select,
    update,
)
from sqlalchemy.orm import Session

from cutwright.book.content import Says, freeze, line, same, says, thaw
from cutwright.book.errors import ConflictError, NotInBookError
from cutwright.book.fold import fold
from cutwright.book.nouns import Content, Document, DocumentKind, Entry
from cutwright.book.seal import with_seal
from cutwright.book.tables import Base, ClientRow, DocumentRow, HistoryRow, RevisionRow
from cutwright.errors import StoreError
from cutwright.words import _

_DOCUMENT: Table = Base.metadata.tables["document"]
_REVISION: Table = Base.metadata.tables["revision"]
_HISTORY: Table = Base.metadata.tables["history"]
_HERE = (_HISTORY.c.document_id == _DOCUMENT.c.id) & (_HISTORY.c.position == _DOCUMENT.c.position)
_EVERY = _HISTORY.alias()
_NEWEST = (
    select(func.max(_EVERY.c.position))
    .where(_EVERY.c.document_id == _DOCUMENT.c.id)
    .scalar_subquery()
)
_STANDING = (
    select(
        *_DOCUMENT.c,
        _REVISION.c.content.label("frozen"),
        _NEWEST.label("newest"),
        _HISTORY.c.group_key.label("group_key"),
    )
    .join(
        _REVISION,
        (_REVISION.c.document_id == _DOCUMENT.c.id) & (_REVISION.c.number == _DOCUMENT.c.current),
    )
    .join(_HISTORY, _HERE, isouter=True)
    .where(_DOCUMENT.c.id == bindparam("ident"))
)
_HOLD = select(_DOCUMENT.c.id).where(_DOCUMENT.c.id == bindparam("ident")).with_for_update()
_CHANGES = ("current", "last", "position", "title", "dated", "sought", "changed_at", "seal")
"""The columns of a document that a save writes."""
_WRITE_ANEW = update(_DOCUMENT).where(_DOCUMENT.c.id == bindparam("ident"))
_WRITE_PLACE = update(_HISTORY).where(
    _HISTORY.c.document_id == bindparam("ident"), _HISTORY.c.position == bindparam("place")
)
_DROP_LATER = delete(_HISTORY).where(
    _HISTORY.c.document_id == bindparam("ident"), _HISTORY.c.position > bindparam("place")
)


@dataclass(frozen=True, slots=True)
class Standing:
    """A document as it stands.

    `row` are its columns by name, `content` is frozen, `newest` the last place of its undo history,
    `group` the key under which the place it stands at was saved.
    """

    row: Mapping[str, Any]
    content: str
    newest: int
    group: str | None

    @property
    def current(self) -> int:
        """The revision it stands at."""
        return int(self.row["current"])

    @property
    def position(self) -> int:
        """The place of its undo history it stands at."""
        return int(self.row["position"])

    def document(self) -> Document:
        """The same to hand out, with a content of its own."""
        can_redo = self.position < self.newest
        return Document(_entry(self.row), thaw(self.content), self.position > 0, can_redo)


def new_id() -> str:
    """A number for a new thing in the book, that tells nothing about it."""
    return uuid4().hex


def begin(
    session: Session,
    now: datetime,
    kind: DocumentKind,
    content: Content,
    *,
    title: str | None = None,
    client_id: str | None = None,
    dated: date | None = None,
    label: str = "",
) -> DocumentRow:
    """Enter a new document at its first revision."""
    frozen, said = freeze(content), says(content)
    if client_id is not None:
        _check_client(session, client_id, kind)
    row = DocumentRow(
        id=new_id(),
        kind=kind.value,
        client_id=client_id,
        title=line(said.title or title or _("untitled"), _("The title")),
        dated=said.dated or dated,
        current=1,
        last=1,
        position=0,
        made_at=now,
        changed_at=now,
        set_aside_at=None,
        sought="",
    )
    row.sought = fold(row.title, said.notes)
    session.add(row)
    session.flush()
    session.add(_revision(row, None, frozen, label, now))
    session.add(HistoryRow(document_id=row.id, position=0, number=1, group_key=None))
    session.flush()
    return row


def append(
    connection: Connection,
    now: datetime,
    ident: str,
    content: Content,
    *,
    base: int,
    group: str | None = None,
    label: str = "",
    known: Standing | None = None,
) -> Standing:
    """Save a new revision on top of `base`, as one more place of the undo history.

    Saves that follow one another under the same group key share one place. A save that changes
    nothing, and one that repeats what is there already, add nothing and are no conflict. `known` is
    the document as it stands, for a caller who is sure of it.
    """
    frozen = freeze(content)
    stands = known or held(connection, ident)
    if same(stands.content, frozen):
        return stands
    if stands.current != base:
        raise _conflict(stands, base, content)
    number = stands.row["last"] + 1
    place, newest = _next_place(connection, stands, number, group)
    row = {**stands.row, "current": number, "last": number, "position": place}
    row = _written(connection, _told(row, says(content), now))
    revision = {
        "document_id": ident,
        "number": number,
        "parent": stands.current,
        "title": row["title"],
        "label": line(label, _("The label")),
        "content": frozen,
        "made_at": now,
    }
    _insert(connection, _REVISION, revision)
    return Standing(row, frozen, newest, group or None)


def claim(connection: Connection, ident: str, base: int) -> Standing:
    """Take hold of a document that must stand at `base`; ConflictError when it does not."""
    stands = held(connection, ident)
    if stands.current != base:
        stood = connection.scalar(_content_of(ident, base))
        raise _conflict(stands, base, thaw(stood) if stood else {})
    return stands


def held(connection: Connection, ident: str) -> Standing:
    """A document as it stands, held until the end: nobody else can change it meanwhile.

    Who writes to a file holds all of it already.
    """
    if connection.dialect.name != "sqlite":
        connection.execute(_HOLD, {"ident": ident})
    return standing(connection, ident)


def _conflict(stands: Standing, base: int, mine: Content) -> ConflictError:
    theirs = thaw(stands.content)
    return ConflictError(stands.row["id"], base, stands.current, mine, theirs)


def stand_at(connection: Connection, stands: Standing, position: int, now: datetime) -> Standing:
    """Let a claimed document stand at another place of its history. Groups end by this."""
    ident = stands.row["id"]
    for place in (stands.position, position):
        row = _place(connection, ident, place)
        number = row["number"]
        _write_place(connection, {**row, "group_key": None})
    frozen = connection.scalar(_content_of(ident, number))
    assert frozen is not None
    there = {**stands.row, "current": number, "position": position}
    written = _written(connection, _told(there, says(thaw(frozen)), now))
    return Standing(written, frozen, stands.newest, None)


def as_document(connection: Connection, ident: str) -> Document:
    """The document as it stands, to hand out."""
    return standing(connection, ident).document()


def as_entry(row: DocumentRow) -> Entry:
    """The line of the index for a document."""
    return _entry({one.key: getattr(row, one.key) for one in _DOCUMENT.c})


def _entry(row: Mapping[str, Any]) -> Entry:
    return Entry(
        id=row["id"],
        kind=DocumentKind(row["kind"]),
        title=row["title"],
        client_id=row["client_id"],
        dated=row["dated"],
        revision=row["current"],
        made_at=row["made_at"],
        changed_at=row["changed_at"],
        set_aside=row["set_aside_at"] is not None,
    )


def standing(connection: Connection, ident: str) -> Standing:
    """A document as it stands; NotInBookError if there is none. It is one question to the book."""
    found = connection.execute(_STANDING, {"ident": ident}).mappings().one_or_none()
    if found is None:
        raise not_there(_("document"), ident)
    row = dict(found)
    frozen, newest, group = row.pop("frozen"), row.pop("newest"), row.pop("group_key")
    return Standing(row, frozen, newest, group)


def load(session: Session, ident: str, kind: DocumentKind | None = None) -> DocumentRow:
    """The document of that number, of that kind; NotInBookError if there is none."""
    row = session.get(DocumentRow, ident)
    if row is None or (kind is not None and row.kind != kind.value):
        raise not_there(kind.value if kind else _("document"), ident)
    return row


def content_at(session: Session, ident: str, number: int) -> str:
    """The frozen content of one revision."""
    row = session.get(RevisionRow, (ident, number))
    if row is None:
        raise not_there(_("revision {number} of document").format(number=number), ident)
    return row.content


def not_there(what: str, ident: str) -> NotInBookError:
    """The error for a number that the book does not have."""
    return NotInBookError(
        _("The book has no {what} with the number {ident}; it may have been deleted.").format(
            what=what, ident=ident[:40]
        )
    )


def changed_rows(result: object) -> int:
    """How many rows a statement changed."""
    assert isinstance(result, CursorResult)
    return int(result.rowcount)


def _next_place(
    connection: Connection, stands: Standing, number: int, group: str | None
) -> tuple[int, int]:
    """Put a new revision at the next place, or at this one while its group goes on: (place, newest).

    A group never goes on at a place that was come back to: undo and redo end it (`stand_at`).
    """
    ident, here = stands.row["id"], stands.position
    place = {"document_id": ident, "position": here, "number": number, "group_key": group or None}
    if group and stands.group == group:
        _write_place(connection, place)
        return here, stands.newest
    if stands.newest > here:
        connection.execute(_DROP_LATER, {"ident": ident, "place": here})
    _insert(connection, _HISTORY, {**place, "position": here + 1})
    return here + 1, here + 1


def _place(connection: Connection, ident: str, position: int) -> dict[str, Any]:
    """One place of a history, its columns by name."""
    wanted = select(_HISTORY).where(
        _HISTORY.c.document_id == ident, _HISTORY.c.position == position
    )
    return dict(connection.execute(wanted).mappings().one())


def _write_place(connection: Connection, place: Mapping[str, Any]) -> None:
    row = with_seal(_HISTORY, place, connection.dialect)
    which = {"ident": row.pop("document_id"), "place": row.pop("position")}
    connection.execute(_WRITE_PLACE, {**row, **which})


def _insert(connection: Connection, table: Table, row: Mapping[str, Any]) -> None:
    connection.execute(insert(table), with_seal(table, row, connection.dialect))


def _written(connection: Connection, row: Mapping[str, Any]) -> dict[str, Any]:
    """Write a document's row anew; gives it with its seal."""
    sealed = with_seal(_DOCUMENT, row, connection.dialect)
    changes = {name: sealed[name] for name in _CHANGES}
    connection.execute(_WRITE_ANEW, {**changes, "ident": row["id"]})
    return sealed


def _told(row: Mapping[str, Any], said: Says, now: datetime) -> dict[str, Any]:
    """A row with what the document now says of itself; what it does not say stays."""
    title = line(said.title or row["title"], _("The title"))
    sought = fold(title, said.notes)
    dated = said.dated or row["dated"]
    return {**row, "title": title, "dated": dated, "sought": sought, "changed_at": now}


def _content_of(ident: str, number: int) -> Any:
    return select(_REVISION.c.content).where(
        _REVISION.c.document_id == ident, _REVISION.c.number == number
    )


def _revision(
    row: DocumentRow, parent: int | None, frozen: str, label: str, now: datetime
) -> RevisionRow:
    return RevisionRow(
        document_id=row.id,
        number=row.current,
        parent=parent,
        title=row.title,
        label=line(label, _("The label")),
        content=frozen,
        made_at=now,
    )


def _check_client(session: Session, client_id: str, kind: DocumentKind) -> None:
    if kind not in (DocumentKind.BODY, DocumentKind.ORDER):
        raise StoreError(
            _("A {kind} belongs to the workshop, not to a client.").format(kind=kind.value)
        )
    if session.get(ClientRow, client_id) is None:
        raise not_there(_("client"), client_id)
