"""Entering a client from a file: everything gets new numbers, links follow."""

from __future__ import annotations

from collections.abc import Iterator

from sqlalchemy.orm import Session

from cutwright.book.book import Book
from cutwright.book.content import freeze, line, pack, same, says
from cutwright.book.exchange_format import (
    ClientFile,
    DocumentPart,
    FittingPart,
    OrderPart,
    UsedPart,
)
from cutwright.book.fold import fold
from cutwright.book.nouns import Client, DocumentKind
from cutwright.book.revising import new_id
from cutwright.book.tables import (
    ClientRow,
    CorrectionRow,
    DocumentRow,
    FittingRow,
    HistoryRow,
    OrderClothRow,
    OrderRow,
    RevisionRow,
)
from cutwright.book.unreadable import Placed, frozen_parts
from cutwright.errors import StoreError
from cutwright.words import _


class _Numbers:
    """New numbers for old ones, and a count of links that lead nowhere here."""

    def __init__(self, file: ClientFile) -> None:
        self.new = {one.id: new_id() for one in file.documents}
        self.left_out = 0


def contents(file: ClientFile) -> Iterator[Placed]:
    """Every body, style and cloth in a client file, with its place."""
    for number, part in enumerate(file.documents, 1):
        place = f"documents {number}"
        if part.order is None:
            for one in part.revisions:
                yield f"{place}, revisions {one.number}", DocumentKind.BODY, one.content
            continue
        for kind, content in frozen_parts(part.order.frozen):
            yield f"{place}, order, frozen, {kind.value}", kind, content
    measured = {one.id for one in file.documents}
    for number, fitting in enumerate(file.fittings, 1):
        for wish in fitting.corrections:
            kind = DocumentKind.BODY if wish.document in measured else DocumentKind.STYLE
            yield f"fittings {number}, proposed", kind, wish.proposed


def enter_client(book: Book, file: ClientFile) -> tuple[Client, int]:
    """Enter everything in one transaction; the client, and how many links were left out."""
    numbers = _Numbers(file)
    moment = book.clock()
    person = file.client
    row = ClientRow(
        id=new_id(),
        version=1,
        name=line(person.name, _("The name")) or _("unnamed"),
        contact=line(person.contact, _("The contact")),
        notes=line(person.notes, _("The notes")),
        made_at=moment,
        changed_at=moment,
        sought="",
    )
    row.sought = fold(row.name, row.contact, row.notes)
    with book.writing() as session:
        session.add(row)
        session.flush()
        for part in file.documents:
            _enter_document(session, part, numbers.new[part.id], row.id)
        for part in file.documents:
            if part.order is not None:
                _enter_order(session, part.order, numbers.new[part.id], numbers)
        for fitting in file.fittings:
            _enter_fitting(session, fitting, numbers)
        client = Client(
            row.id, row.name, row.contact, row.notes, row.version, row.made_at, row.changed_at
        )
    return client, numbers.left_out


def _enter_document(session: Session, part: DocumentPart, ident: str, client_id: str) -> None:
    current = next(one for one in part.revisions if one.number == part.current)
    title = line(current.title, _("The title"))
    session.add(
        DocumentRow(
            id=ident,
            kind=part.kind,
            client_id=client_id,
            title=title,
            dated=part.dated,
            current=part.current,
            last=max(one.number for one in part.revisions),
            position=0,
            made_at=min(one.made_at for one in part.revisions),
            changed_at=current.made_at,
            set_aside_at=part.set_aside_at,
            sought=fold(title, says(current.content).notes),
        )
    )
    session.flush()
    session.add(HistoryRow(document_id=ident, position=0, number=part.current, group_key=None))
    session.add_all(
        RevisionRow(
            document_id=ident,
            number=one.number,
            parent=one.parent,
            title=line(one.title, _("The title")),
            label=line(one.label, _("The label")),
            content=freeze(one.content),
            made_at=one.made_at,
        )
        for one in part.revisions
    )
    session.flush()


def _enter_order(session: Session, part: OrderPart, ident: str, numbers: _Numbers) -> None:
    frozen_cloths = part.frozen.get("cloths")
    cloths = frozen_cloths if isinstance(frozen_cloths, list) else []
    body = _link(session, part.body, part.frozen.get("body"), DocumentKind.BODY, numbers)
    style = _link(session, part.style, part.frozen.get("style"), DocumentKind.STYLE, numbers)
    session.add(
        OrderRow(
            id=ident,
            version=1,
            state=part.state.value,
            state_at=part.state_at,
            due=part.due,
            body_id=body.document if body else None,
            body_revision=body.revision if body else None,
            style_id=style.document if style else None,
            style_revision=style.revision if style else None,
            frozen=pack(part.frozen),
        )
    )
    session.flush()
    for position, used in enumerate(part.cloths):
        copy = cloths[position] if position < len(cloths) else None
        link = _link(session, used, copy, DocumentKind.CLOTH, numbers)
        session.add(
            OrderClothRow(
                order_id=ident,
                position=position,
                cloth_id=link.document if link else None,
                cloth_revision=used.revision,
            )
        )
    session.flush()


def _enter_fitting(session: Session, part: FittingPart, numbers: _Numbers) -> None:
    if part.order not in numbers.new:
        raise StoreError(_("A fitting in this file belongs to an order that is not in it."))
    note = line(part.note, _("The note"))
    row = FittingRow(
        id=new_id(),
        order_id=numbers.new[part.order],
        version=1,
        held_on=part.held_on,
        note=note,
        made_at=part.made_at,
        changed_at=part.made_at,
        sought=fold(note),
    )
    session.add(row)
    session.flush()
    for one in part.corrections:
        document_id = numbers.new.get(one.document, one.document)
        if not _may_correct(session, document_id, one.base, numbers):
            numbers.left_out += 1
            continue
        session.add(
            CorrectionRow(
                id=new_id(),
                fitting_id=row.id,
                document_id=document_id,
                base=one.base,
                proposed=freeze(one.proposed),
                why=line(one.why, _("The reason")),
                state=one.state.value,
                revision=one.revision,
                made_at=one.made_at,
                settled_at=one.settled_at,
            )
        )
    session.flush()


def _link(
    session: Session, used: UsedPart | None, copy: object, kind: DocumentKind, numbers: _Numbers
) -> UsedPart | None:
    """A link as it is in this book: only to a revision that says just what was frozen."""
    if used is None:
        return None
    ident = numbers.new.get(used.document, used.document)
    row = session.get(DocumentRow, ident)
    revision = session.get(RevisionRow, (ident, used.revision))
    theirs = kind is DocumentKind.BODY and used.document not in numbers.new
    if row is None or revision is None or row.kind != kind or theirs:
        numbers.left_out += 1
        return None
    if not isinstance(copy, dict) or not same(revision.content, freeze(copy)):
        numbers.left_out += 1
        return None
    return UsedPart(document=ident, revision=used.revision)


def _may_correct(session: Session, ident: str, base: int, numbers: _Numbers) -> bool:
    """Only what came in the same file, or a style of this book, can have been corrected."""
    if session.get(RevisionRow, (ident, base)) is None:
        return False
    row = session.get(DocumentRow, ident)
    return ident in numbers.new.values() or (row is not None and row.kind == DocumentKind.STYLE)
