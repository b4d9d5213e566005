"""How a document gets its revisions, inside a transaction that somebody else has begun.

A document stands at one place of its undo history, and at that place stands a revision. Every
change first claims the document by asking for the revision it starts from; whoever comes second
finds another one there and is told so. The claim also holds the row until the end.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from uuid import uuid4

from sqlalchemy import CursorResult, bindparam, delete, func, select, update
from sqlalchemy.orm import Session

from cutwright.book.content import Says, freeze, line, same, says, thaw
from cutwright.book.errors import ConflictError, NotInBookError
from cutwright.book.fold import fold
from cutwright.book.nouns import Content, Document, Entry, Kind
from cutwright.book.tables import ClientRow, DocumentRow, HistoryRow, RevisionRow
from cutwright.errors import StoreError
from cutwright.words import _

_NEWEST = (
    select(func.max(HistoryRow.position))
    .where(HistoryRow.document_id == DocumentRow.id)
    .scalar_subquery()
)
_STANDING = (
    select(DocumentRow, RevisionRow.content, _NEWEST)
    .join(
        RevisionRow,
        (RevisionRow.document_id == DocumentRow.id) & (RevisionRow.number == DocumentRow.current),
    )
    .where(DocumentRow.id == bindparam("ident"))
    .execution_options(populate_existing=True)
)
_CLAIM = (
    update(DocumentRow)
    .where(DocumentRow.id == bindparam("ident"), DocumentRow.current == bindparam("base"))
    .values(current=DocumentRow.current)
    .execution_options(synchronize_session=False)
)


@dataclass(frozen=True, slots=True)
class Standing:
    """A document as it stands: its frozen content, and the last place of its undo history."""

    row: DocumentRow
    content: str
    newest: int

    def document(self) -> Document:
        """The same to hand out."""
        return Document(
            entry=as_entry(self.row),
            content=thaw(self.content),
            can_undo=self.row.position > 0,
            can_redo=self.row.position < self.newest,
        )


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
) -> Standing:
    """Save a new revision on top of `base`, as one more place of the undo history.

    Saves that follow one another under the same group key share one place. A save that changes
    nothing, and one that repeats what is there already, add nothing and are no conflict.
    """
    frozen = freeze(content)
    claimed = _claimed(session, ident, base)
    stands = standing(session, ident)
    row = stands.row
    if same(stands.content, frozen):
        return stands
    if not claimed:
        raise _conflict(stands, base, content)
    parent = row.current
    row.last = row.current = row.last + 1
    _write_on(session, row, group)
    _say(row, says(content), now)
    session.add(_revision(row, parent, frozen, label, now))
    session.flush()
    return Standing(row, frozen, row.position)


def claim(session: Session, ident: str, base: int) -> Standing:
    """Take hold of a document that must stand at `base`; ConflictError when it does not."""
    claimed = _claimed(session, ident, base)
    stands = standing(session, ident)
    if not claimed:
        stood = session.get(RevisionRow, (ident, base))
        raise _conflict(stands, base, thaw(stood.content) if stood else {})
    return stands


def _claimed(session: Session, ident: str, base: int) -> bool:
    """Hold the document until the end, and tell whether it stands at `base`."""
    held = session.execute(_CLAIM, {"ident": ident, "base": base})
    return changed_rows(held) > 0


def _conflict(stands: Standing, base: int, mine: Content) -> ConflictError:
    return ConflictError(stands.row.id, base, stands.row.current, mine, thaw(stands.content))


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
    _say(row, says(thaw(content_at(session, row.id, row.current))), now)
    session.flush()


def as_document(session: Session, ident: str) -> Document:
    """The document as it stands, to hand out."""
    return standing(session, ident).document()


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


def standing(session: Session, ident: str) -> Standing:
    """A document as it stands; NotInBookError if there is none.

    It is one question to the book: one change of a word asks it several times.
    """
    found = session.execute(_STANDING, {"ident": ident}).one_or_none()
    if found is None:
        raise not_there(_("document"), ident)
    return Standing(*found)


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
