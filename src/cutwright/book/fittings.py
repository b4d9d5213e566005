"""Fittings: a note, the change of a body or a style that it asks for, the revision that came of it."""

from __future__ import annotations

from datetime import date

from sqlalchemy import select, update
from sqlalchemy.orm import Session

from cutwright.book.book import Book
from cutwright.book.content import freeze, line, thaw
from cutwright.book.errors import ConflictError
from cutwright.book.fold import fold
from cutwright.book.nouns import (
    Content,
    Correction,
    CorrectionState,
    Document,
    DocumentKind,
    Fitting,
)
from cutwright.book.orders import load_order
from cutwright.book.revising import (
    append,
    changed_rows,
    content_at,
    load,
    new_id,
    not_there,
)
from cutwright.book.seal import reseal
from cutwright.book.tables import CorrectionRow, FittingRow
from cutwright.errors import StoreError
from cutwright.words import _


def note(book: Book, order_id: str, text: str, *, held_on: date | None = None) -> Fitting:
    """Note what was seen when an order was tried on; today unless a day is given."""
    moment = book.clock()
    words = _note(text)
    row = FittingRow(
        id=new_id(),
        order_id=order_id,
        version=1,
        held_on=held_on or moment.date(),
        note=words,
        made_at=moment,
        changed_at=moment,
        sought=fold(words),
    )
    with book.writing() as session:
        load_order(session, order_id)
        session.add(row)
        session.flush()
        return _noun(session, row)


def rewrite(book: Book, ident: str, text: str, *, base: int) -> Fitting:
    """Write a note anew; `base` is the version that was seen."""
    words = _note(text)
    with book.writing() as session:
        held = session.execute(
            update(FittingRow)
            .where(FittingRow.id == ident, FittingRow.version == base)
            .values(version=base + 1, changed_at=book.clock())
        )
        row = _load(session, ident)
        if changed_rows(held) == 0:
            raise ConflictError(ident, base, row.version, {"note": words}, {"note": row.note})
        row.note, row.sought = words, fold(words)
        reseal(row)
        session.flush()
        return _noun(session, row)


def remove(book: Book, ident: str) -> None:
    """Delete a note and what it proposed; revisions that came of it stay."""
    with book.writing() as session:
        session.delete(_load(session, ident))


def get(book: Book, ident: str) -> Fitting:
    """The fitting of that number."""
    with book.reading() as session:
        return _noun(session, _load(session, ident))


def of_order(book: Book, order_id: str) -> list[Fitting]:
    """The fittings of an order, the first one first."""
    wanted = (
        select(FittingRow)
        .where(FittingRow.order_id == order_id)
        .order_by(FittingRow.held_on, FittingRow.made_at, FittingRow.id)
    )
    with book.reading() as session:
        load_order(session, order_id)
        return [_noun(session, row) for row in session.scalars(wanted)]


def propose(
    book: Book, fitting_id: str, document_id: str, proposed: Content, *, base: int, why: str = ""
) -> Correction:
    """Propose how a body or a style should read after a fitting; nothing is changed yet."""
    frozen = freeze(proposed)
    with book.writing() as session:
        order_id = _load(session, fitting_id).order_id
        document = load(session, document_id)
        if document.kind not in (DocumentKind.BODY, DocumentKind.STYLE):
            raise StoreError(
                _("A fitting corrects a body or a style, not a {kind}.").format(kind=document.kind)
            )
        if document.client_id not in (None, load(session, order_id).client_id):
            raise StoreError(_("These measures belong to another client than the order."))
        content_at(session, document_id, base)
        row = CorrectionRow(
            id=new_id(),
            fitting_id=fitting_id,
            document_id=document_id,
            base=base,
            proposed=frozen,
            why=line(why, _("The reason")),
            state=CorrectionState.PROPOSED.value,
            made_at=book.clock(),
        )
        session.add(row)
        session.flush()
        return _correction(row)


def accept(book: Book, correction_id: str) -> Document:
    """Save what was proposed as a new revision, linked to the note it came from.

    Errors: ConflictError when the document went on since; propose again from where it stands.
    """
    with book.writing() as session:
        row = _open(session, correction_id, CorrectionState.ACCEPTED, book)
        stands = append(
            session.connection(),
            book.clock(),
            row.document_id,
            thaw(row.proposed),
            base=row.base,
            label=_("from a fitting"),
        )
        row.revision = stands.current
        session.flush()
        return stands.document()


def refuse(book: Book, correction_id: str) -> Correction:
    """Note that a proposed change will not be made."""
    with book.writing() as session:
        row = _open(session, correction_id, CorrectionState.REFUSED, book)
        session.flush()
        return _correction(row)


def came_of(book: Book, document_id: str) -> dict[int, Correction]:
    """For each revision that a fitting brought about, the correction it came from."""
    wanted = select(CorrectionRow).where(
        CorrectionRow.document_id == document_id, CorrectionRow.revision.is_not(None)
    )
    with book.reading() as session:
        found = [_correction(row) for row in session.scalars(wanted)]
    return {one.revision: one for one in found if one.revision is not None}


def _open(session: Session, ident: str, state: CorrectionState, book: Book) -> CorrectionRow:
    """Settle a correction that nobody has settled yet."""
    row = session.get(CorrectionRow, ident, with_for_update=True)
    if row is None:
        raise not_there(_("correction"), ident)
    if row.state != CorrectionState.PROPOSED.value:
        raise StoreError(_("This correction was settled before: {state}.").format(state=row.state))
    row.state, row.settled_at = state.value, book.clock()
    return row


def _load(session: Session, ident: str) -> FittingRow:
    row = session.get(FittingRow, ident)
    if row is None:
        raise not_there(_("fitting"), ident)
    return row


def _note(text: str) -> str:
    words = line(text, _("The note"))
    if not words:
        raise StoreError(_("The note is empty; write what was seen at the fitting."))
    return words


def _noun(session: Session, row: FittingRow) -> Fitting:
    wanted = (
        select(CorrectionRow)
        .where(CorrectionRow.fitting_id == row.id)
        .order_by(CorrectionRow.made_at, CorrectionRow.id)
    )
    return Fitting(
        id=row.id,
        order_id=row.order_id,
        held_on=row.held_on,
        note=row.note,
        version=row.version,
        corrections=tuple(_correction(one) for one in session.scalars(wanted)),
    )


def _correction(row: CorrectionRow) -> Correction:
    return Correction(
        id=row.id,
        fitting_id=row.fitting_id,
        document_id=row.document_id,
        base=row.base,
        proposed=thaw(row.proposed),
        why=row.why,
        state=CorrectionState(row.state),
        revision=row.revision,
    )
