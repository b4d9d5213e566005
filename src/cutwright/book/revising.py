"""How a document gets its revisions, inside a transaction that somebody else has begun.

A document stands at one place of its undo history, and at that place stands a revision. Every
change first claims the document by asking for the revision it starts from; whoever comes second
finds another one there and is told so. The claim also holds the row until the end.
"""

from __future__ import annotations

from datetime import date, datetime
from uuid import uuid4

from sqlalchemy import CursorResult, delete, func, select, update
from sqlalchemy.orm import Session

from cutwright.book.content import Says, freeze, line, same, says, thaw
from cutwright.book.errors import ConflictError, NotInBookError
from cutwright.book.fold import fold
from cutwright.book.nouns import Content, Document, Entry, Kind
from cutwright.book.tables import ClientRow, DocumentRow, HistoryRow, RevisionRow
from cutwright.errors import StoreError
from cutwright.words import _


def new_id() -> str:
    """A number for a new thing in the book, that tells nothing about it."""
    return uuid4().hex


def begin(
    session: Session,
    now: datetime,
    kind: Kind,
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
    session: Session,
    now: datetime,
    ident: str,
    content: Content,
    *,
    base: int,
    group: str | None = None,
    label: str = "",
) -> DocumentRow:
    """Save a new revision on top of `base`, as one more place of the undo history.

    Saves that follow one another under the same group key share one place. A save that changes
    nothing, and one that repeats what is there already, add nothing and are no conflict.
    """
    frozen = freeze(content)
    standing = session.get(DocumentRow, ident)
    if standing is not None and same(_content(session, standing), frozen):
        return standing
    row = claim(session, ident, base, content)
    parent = row.current
    row.last = row.current = row.last + 1
    _write_on(session, row, group)
    _say(row, says(content), now)
    session.add(_revision(row, parent, frozen, label, now))
    session.flush()
    return row


def claim(session: Session, ident: str, base: int, mine: Content | None = None) -> DocumentRow:
    """Take hold of a document that must stand at `base`; ConflictError when it does not.

    `mine` is what was to be saved; without it the document as it was at `base` is taken.
    """
    held = session.execute(
        update(DocumentRow)
        .where(DocumentRow.id == ident, DocumentRow.current == base)
        .values(current=DocumentRow.current)
        .execution_options(synchronize_session=False)
    )
    row = session.get(DocumentRow, ident, populate_existing=True)
    if row is None:
        raise not_there(_("document"), ident)
    if changed_rows(held) == 0:
        if mine is None:
            stood = session.get(RevisionRow, (ident, base))
            mine = thaw(stood.content) if stood else {}
        raise ConflictError(ident, base, row.current, mine, thaw(_content(session, row)))
    return row


def stand_at(session: Session, row: DocumentRow, position: int, now: datetime) -> None:
    """Let a claimed document stand at another place of its history. Groups end by this."""
    places = session.scalars(
        select(HistoryRow).where(
            HistoryRow.document_id == row.id, HistoryRow.position.in_([row.position, position])
        )
    )
    for place in places:
        place.group_key = None
        if place.position == position:
            row.current = place.number
    row.position = position
    _say(row, says(thaw(_content(session, row))), now)
    session.flush()


def as_document(session: Session, row: DocumentRow) -> Document:
    """The document as it stands, to hand out."""
    newest = newest_place(session, row.id)
    return Document(
        entry=as_entry(row),
        content=thaw(_content(session, row)),
        can_undo=row.position > 0,
        can_redo=row.position < newest,
    )


def as_entry(row: DocumentRow) -> Entry:
    """The line of the index for a document."""
    return Entry(
        id=row.id,
        kind=Kind(row.kind),
        title=row.title,
        client_id=row.client_id,
        dated=row.dated,
        revision=row.current,
        made_at=row.made_at,
        changed_at=row.changed_at,
        set_aside=row.set_aside_at is not None,
    )


def load(session: Session, ident: str, kind: Kind | None = None) -> DocumentRow:
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


def newest_place(session: Session, ident: str) -> int:
    """The last place of the undo history."""
    return session.scalar(
        select(func.max(HistoryRow.position)).where(HistoryRow.document_id == ident)
    ) or 0  # fmt: skip


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


def _content(session: Session, row: DocumentRow) -> str:
    return content_at(session, row.id, row.current)


def _write_on(session: Session, row: DocumentRow, group: str | None) -> None:
    """Put the new revision at the next place, or at this one while its group goes on.

    A group never goes on at a place that was come back to: undo and redo end it (`stand_at`).
    """
    here = session.get(HistoryRow, (row.id, row.position))
    if group and here and here.group_key == group:
        here.number = row.current
        return
    session.execute(
        delete(HistoryRow)
        .where(HistoryRow.document_id == row.id, HistoryRow.position > row.position)
        .execution_options(synchronize_session=False)
    )
    row.position += 1
    session.add(
        HistoryRow(
            document_id=row.id, position=row.position, number=row.current, group_key=group or None
        )
    )


def _say(row: DocumentRow, said: Says, now: datetime) -> None:
    """Take over what the document now says of itself; what it does not say stays."""
    row.title = line(said.title or row.title, _("The title"))
    row.dated = said.dated or row.dated
    row.sought = fold(row.title, said.notes)
    row.changed_at = now


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


def _check_client(session: Session, client_id: str, kind: Kind) -> None:
    if kind not in (Kind.BODY, Kind.ORDER):
        raise StoreError(
            _("A {kind} belongs to the workshop, not to a client.").format(kind=kind.value)
        )
    if session.get(ClientRow, client_id) is None:
        raise not_there(_("client"), client_id)
