"""Orders: a style for a body in some cloths, how far it has come, and what exactly it used."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime
from typing import Any

from sqlalchemy import delete, select, update
from sqlalchemy.orm import Session

from cutwright.book.book import Book
from cutwright.book.content import pack, thaw
from cutwright.book.errors import ConflictError
from cutwright.book.nouns import Content, DocumentKind, Order, OrderLine, OrderState, Used
from cutwright.book.revising import (
    as_document,
    as_entry,
    begin,
    changed_rows,
    content_at,
    load,
    not_there,
)
from cutwright.book.seal import reseal
from cutwright.book.tables import DocumentRow, OrderClothRow, OrderRow
from cutwright.errors import StoreError
from cutwright.words import _


def place(
    book: Book,
    content: Content,
    *,
    body: Used | None = None,
    style: Used | None = None,
    cloths: Sequence[Used] = (),
    client_id: str | None = None,
    due: date | None = None,
    title: str | None = None,
) -> Order:
    """Enter an order as drafted, with a frozen copy of the revisions it uses.

    `content` is the order document with its options. Where no client is named, it is the one
    the body belongs to.
    """
    with book.writing() as session:
        moment = book.clock()
        whose = _whose(session, body, client_id)
        row = begin(session, moment, DocumentKind.ORDER, content, title=title, client_id=whose)
        order = OrderRow(
            id=row.id,
            version=1,
            state=OrderState.DRAFTED.value,
            state_at=moment,
            due=due,
            frozen="{}",
        )
        session.add(order)
        session.flush()
        _use(session, order, body, style, cloths)
        return as_order(session, order)


def get(book: Book, ident: str) -> Order:
    """The order of that number."""
    with book.reading() as session:
        return as_order(session, load_order(session, ident))


def listed(
    book: Book,
    *,
    state: OrderState | None = None,
    client_id: str | None = None,
    due_by: date | None = None,
) -> list[OrderLine]:
    """Orders by due date, those without one last; what was set aside is left out."""
    wanted = (
        select(DocumentRow, OrderRow.state, OrderRow.due)
        .join(OrderRow, OrderRow.id == DocumentRow.id)
        .where(DocumentRow.set_aside_at.is_(None))
        .order_by(OrderRow.due.is_(None), OrderRow.due, DocumentRow.made_at, DocumentRow.id)
    )
    if state is not None:
        wanted = wanted.where(OrderRow.state == state.value)
    if client_id is not None:
        wanted = wanted.where(DocumentRow.client_id == client_id)
    if due_by is not None:
        wanted = wanted.where(OrderRow.due <= due_by)
    with book.reading() as session:
        return [
            OrderLine(as_entry(row), OrderState(stands), due)
            for row, stands, due in session.execute(wanted)
        ]


def move(book: Book, ident: str, state: OrderState, *, base: int) -> Order:
    """Note how far an order has come; it may go back too, as after a fitting."""
    with book.writing() as session:
        order = _claim(session, ident, base, {"state": state.value})
        order.state = state.value
        order.state_at = book.clock()
        return _done(session, order, order.state_at)


def set_due(book: Book, ident: str, due: date | None, *, base: int) -> Order:
    """Note the day an order is due, or that there is none."""
    with book.writing() as session:
        order = _claim(session, ident, base, {"due": due.isoformat() if due else None})
        order.due = due
        return _done(session, order, book.clock())


def use(
    book: Book,
    ident: str,
    *,
    base: int,
    body: Used | None,
    style: Used | None,
    cloths: Sequence[Used] = (),
) -> Order:
    """Let an order use other documents or other revisions, and freeze those anew."""
    with book.writing() as session:
        wish = {"body": _plain(body), "style": _plain(style), "cloths": [_plain(c) for c in cloths]}
        order = _claim(session, ident, base, wish)
        row = load(session, ident, DocumentKind.ORDER)
        row.client_id = _whose(session, body, row.client_id)
        _use(session, order, body, style, cloths)
        return _done(session, order, book.clock())


def used_by(book: Book, document_id: str) -> list[OrderLine]:
    """The orders that use a body, a style or a cloth."""
    in_cloths = select(OrderClothRow.order_id).where(OrderClothRow.cloth_id == document_id)
    wanted = (
        select(DocumentRow, OrderRow.state, OrderRow.due)
        .join(OrderRow, OrderRow.id == DocumentRow.id)
        .where(
            (OrderRow.body_id == document_id)
            | (OrderRow.style_id == document_id)
            | OrderRow.id.in_(in_cloths)
        )
        .order_by(DocumentRow.made_at, DocumentRow.id)
    )
    with book.reading() as session:
        return [
            OrderLine(as_entry(row), OrderState(stands), due)
            for row, stands, due in session.execute(wanted)
        ]


def load_order(session: Session, ident: str) -> OrderRow:
    """The order's row; NotInBookError if there is none."""
    row = session.get(OrderRow, ident)
    if row is None:
        raise not_there(_("order"), ident)
    return row


def as_order(session: Session, order: OrderRow) -> Order:
    """The order as it stands, to hand out."""
    return Order(
        document=as_document(session.connection(), order.id),
        state=OrderState(order.state),
        state_at=order.state_at,
        due=order.due,
        body=_used(order.body_id, order.body_revision),
        style=_used(order.style_id, order.style_revision),
        cloths=tuple(
            Used(row.cloth_id, row.cloth_revision)
            for row in _cloths(session, order.id)
            if row.cloth_id is not None
        ),
        frozen=thaw(order.frozen),
        version=order.version,
    )


def _claim(session: Session, ident: str, base: int, wish: dict[str, Any]) -> OrderRow:
    held = session.execute(
        update(OrderRow)
        .where(OrderRow.id == ident, OrderRow.version == base)
        .values(version=base + 1)
    )
    order = load_order(session, ident)
    if changed_rows(held) == 0:
        stands = as_order(session, order)
        theirs = {
            "state": stands.state.value,
            "due": stands.due.isoformat() if stands.due else None,
            "body": _plain(stands.body),
            "style": _plain(stands.style),
            "cloths": [_plain(cloth) for cloth in stands.cloths],
        }
        raise ConflictError(ident, base, order.version, {**theirs, **wish}, theirs)
    reseal(order)
    return order


def _done(session: Session, order: OrderRow, moment: datetime) -> Order:
    load(session, order.id).changed_at = moment
    session.flush()
    return as_order(session, order)


def _use(
    session: Session, order: OrderRow, body: Used | None, style: Used | None, cloths: Sequence[Used]
) -> None:
    """Link an order to what it uses and freeze a copy of it."""
    frozen: dict[str, Any] = {
        "body": _content(session, body, DocumentKind.BODY),
        "style": _content(session, style, DocumentKind.STYLE),
        "cloths": [_content(session, cloth, DocumentKind.CLOTH) for cloth in cloths],
    }
    order.body_id, order.body_revision = _link(body)
    order.style_id, order.style_revision = _link(style)
    order.frozen = pack(frozen)
    session.execute(delete(OrderClothRow).where(OrderClothRow.order_id == order.id))
    for position, cloth in enumerate(cloths):
        session.add(
            OrderClothRow(
                order_id=order.id,
                position=position,
                cloth_id=cloth.document_id,
                cloth_revision=cloth.revision,
            )
        )
    session.flush()


def _whose(session: Session, body: Used | None, client_id: str | None) -> str | None:
    """The client of an order; a body of one client is not used for another."""
    owner = load(session, body.document_id, DocumentKind.BODY).client_id if body else None
    if owner is not None and client_id is not None and owner != client_id:
        raise StoreError(_("These measures belong to another client than the order."))
    return client_id or owner


def _content(session: Session, used: Used | None, kind: DocumentKind) -> dict[str, Any] | None:
    if used is None:
        return None
    load(session, used.document_id, kind)
    return thaw(content_at(session, used.document_id, used.revision))


def _cloths(session: Session, ident: str) -> Sequence[OrderClothRow]:
    wanted = select(OrderClothRow).where(OrderClothRow.order_id == ident)
    return session.scalars(wanted.order_by(OrderClothRow.position)).all()


def _link(used: Used | None) -> tuple[str | None, int | None]:
    return (used.document_id, used.revision) if used else (None, None)


def _used(document_id: str | None, revision: int | None) -> Used | None:
    return Used(document_id, revision) if document_id and revision else None


def _plain(used: Used | None) -> dict[str, Any] | None:
    return {"document": used.document_id, "revision": used.revision} if used else None
