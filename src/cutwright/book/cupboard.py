"""The cloths in the cupboard and how much of each is left."""

from __future__ import annotations

from math import isfinite

from sqlalchemy import select

from cutwright.book.book import Book
from cutwright.book.nouns import Cupboard, DocumentKind
from cutwright.book.revising import as_entry, load
from cutwright.book.tables import DocumentRow, StockRow
from cutwright.errors import StoreError
from cutwright.words import _


def cloths(book: Book) -> list[Cupboard]:
    """Every cloth that was not set aside, with the length left in cm where it was measured."""
    wanted = (
        select(DocumentRow, StockRow.length)
        .outerjoin(StockRow, StockRow.cloth_id == DocumentRow.id)
        .where(DocumentRow.kind == DocumentKind.CLOTH.value, DocumentRow.set_aside_at.is_(None))
        .order_by(DocumentRow.changed_at.desc(), DocumentRow.id)
    )
    with book.reading() as session:
        return [Cupboard(as_entry(row), length) for row, length in session.execute(wanted)]


def left(book: Book, cloth_id: str) -> float | None:
    """The length left of a cloth, in cm; None when it was never measured."""
    with book.reading() as session:
        load(session, cloth_id, DocumentKind.CLOTH)
        row = session.get(StockRow, cloth_id)
        return row.length if row else None


def measure(book: Book, cloth_id: str, length: float) -> Cupboard:
    """Note the length of a cloth as it was measured, in cm."""
    _check(length)
    with book.writing() as session:
        row = load(session, cloth_id, DocumentKind.CLOTH)
        session.merge(StockRow(cloth_id=cloth_id, length=length))
        return Cupboard(as_entry(row), length)


def take(book: Book, cloth_id: str, length: float) -> Cupboard:
    """Take a length off a cloth, in cm; refused when there is less than that."""
    _check(length)
    with book.writing() as session:
        row = load(session, cloth_id, DocumentKind.CLOTH)
        stock = session.get(StockRow, cloth_id, with_for_update=True)
        if stock is None or stock.length < length:
            found = _("{length:.1f} cm").format(length=stock.length) if stock else _("not measured")
            raise StoreError(
                _(
                    "{wanted:.1f} cm were to be taken, but what is left of this cloth is {found}."
                ).format(wanted=length, found=found)
            )
        stock.length -= length
        session.flush()
        return Cupboard(as_entry(row), stock.length)


def _check(length: float) -> None:
    if not isfinite(length) or length < 0:
        raise StoreError(
            _("A length of cloth cannot be {length} cm; it is 0 or more.").format(length=length)
        )
