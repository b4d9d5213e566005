"""The tables of the book: the one description of them, which the migrations must reach.

Only text, whole numbers and one length in cm are used, so that a backup of one kind of database
can be restored into another without any conversion.
"""

from __future__ import annotations

from datetime import date, datetime
from typing import Any

from sqlalchemy import (
    CheckConstraint,
    Connection,
    ForeignKey,
    Index,
    MetaData,
    String,
    Text,
    event,
    text,
)
from sqlalchemy.orm import DeclarativeBase, Mapped, mapped_column

from cutwright.book.columns import Day, Instant
from cutwright.book.seal import LENGTH, LOOSE, seal_row

NAMES = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_name)s",
    "pk": "pk_%(table_name)s",
}
ID = String(32)


class Base(DeclarativeBase):
    """The common root of all tables; every row has a seal."""

    metadata = MetaData(naming_convention=NAMES)
    seal: Mapped[str] = mapped_column(String(LENGTH), server_default=text("''"), sort_order=99)


@event.listens_for(Base, "before_insert", propagate=True)
@event.listens_for(Base, "before_update", propagate=True)
def _seal(_mapper: Any, connection: Connection, row: Base) -> None:
    seal_row(row, connection.dialect)


class ClientRow(Base):
    """A person; `sought` is the folded text the search looks in."""

    __tablename__ = "client"
    id: Mapped[str] = mapped_column(ID, primary_key=True)
    version: Mapped[int]
    name: Mapped[str] = mapped_column(Text)
    contact: Mapped[str] = mapped_column(Text)
    notes: Mapped[str] = mapped_column(Text)
    made_at: Mapped[datetime] = mapped_column(Instant)
    changed_at: Mapped[datetime] = mapped_column(Instant)
    sought: Mapped[str] = mapped_column(Text)


class DocumentRow(Base):
    """A document: where it stands (`current`, `position`) and the last number given (`last`)."""

    __tablename__ = "document"
    id: Mapped[str] = mapped_column(ID, primary_key=True)
    kind: Mapped[str] = mapped_column(String(16))
    client_id: Mapped[str | None] = mapped_column(
        ID, ForeignKey("client.id", ondelete="CASCADE"), index=True
    )
    title: Mapped[str] = mapped_column(Text)
    dated: Mapped[date | None] = mapped_column(Day)
    current: Mapped[int]
    last: Mapped[int]
    position: Mapped[int]
    made_at: Mapped[datetime] = mapped_column(Instant)
    changed_at: Mapped[datetime] = mapped_column(Instant)
    set_aside_at: Mapped[datetime | None] = mapped_column(Instant)
    sought: Mapped[str] = mapped_column(Text)
    __table_args__ = (
        CheckConstraint("kind IN ('body', 'style', 'cloth', 'order')", name="kind"),
        CheckConstraint("client_id IS NULL OR kind IN ('body', 'order')", name="whose"),
        Index(None, "kind", "changed_at"),
    )


class RevisionRow(Base):
    """One saved state of a document; rows are added and never changed."""

    __tablename__ = "revision"
    document_id: Mapped[str] = mapped_column(
        ID, ForeignKey("document.id", ondelete="CASCADE"), primary_key=True
    )
    number: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    parent: Mapped[int | None]
    title: Mapped[str] = mapped_column(Text)
    label: Mapped[str] = mapped_column(Text)
    content: Mapped[str] = mapped_column(Text)
    made_at: Mapped[datetime] = mapped_column(Instant)


class HistoryRow(Base):
    """One place in the undo history of a document, and the revision that stands there."""

    __tablename__ = "history"
    document_id: Mapped[str] = mapped_column(
        ID, ForeignKey("document.id", ondelete="CASCADE"), primary_key=True
    )
    position: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    number: Mapped[int]
    group_key: Mapped[str | None] = mapped_column(Text)


class StockRow(Base):
    """How much of a cloth is left in the cupboard, in cm."""

    __tablename__ = "stock"
    cloth_id: Mapped[str] = mapped_column(
        ID, ForeignKey("document.id", ondelete="CASCADE"), primary_key=True
    )
    length: Mapped[float]
    __table_args__ = (CheckConstraint("length >= 0", name="length"),)


class OrderRow(Base):
    """State, due date and links of an order document, and the frozen copy of what it used."""

    __tablename__ = "orders"
    id: Mapped[str] = mapped_column(
        ID, ForeignKey("document.id", ondelete="CASCADE"), primary_key=True
    )
    version: Mapped[int]
    state: Mapped[str] = mapped_column(String(16))
    state_at: Mapped[datetime] = mapped_column(Instant)
    due: Mapped[date | None] = mapped_column(Day, index=True)
    body_id: Mapped[str | None] = mapped_column(
        ID, ForeignKey("document.id", ondelete="SET NULL"), index=True, info=LOOSE
    )
    body_revision: Mapped[int | None]
    style_id: Mapped[str | None] = mapped_column(
        ID, ForeignKey("document.id", ondelete="SET NULL"), index=True, info=LOOSE
    )
    style_revision: Mapped[int | None]
    frozen: Mapped[str] = mapped_column(Text)
    __table_args__ = (
        CheckConstraint("state IN ('drafted', 'cut', 'fitted', 'finished')", name="state"),
    )


class OrderClothRow(Base):
    """A cloth of an order, in the order they were chosen."""

    __tablename__ = "order_cloth"
    order_id: Mapped[str] = mapped_column(
        ID, ForeignKey("orders.id", ondelete="CASCADE"), primary_key=True
    )
    position: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    cloth_id: Mapped[str | None] = mapped_column(
        ID, ForeignKey("document.id", ondelete="SET NULL"), index=True, info=LOOSE
    )
    cloth_revision: Mapped[int]


class FittingRow(Base):
    """A note made when an order was tried on."""

    __tablename__ = "fitting"
    id: Mapped[str] = mapped_column(ID, primary_key=True)
    order_id: Mapped[str] = mapped_column(
        ID, ForeignKey("orders.id", ondelete="CASCADE"), index=True
    )
    version: Mapped[int]
    held_on: Mapped[date] = mapped_column(Day)
    note: Mapped[str] = mapped_column(Text)
    made_at: Mapped[datetime] = mapped_column(Instant)
    changed_at: Mapped[datetime] = mapped_column(Instant)
    sought: Mapped[str] = mapped_column(Text)


class CorrectionRow(Base):
    """A change proposed by a fitting, and the revision that came of it."""

    __tablename__ = "correction"
    id: Mapped[str] = mapped_column(ID, primary_key=True)
    fitting_id: Mapped[str] = mapped_column(
        ID, ForeignKey("fitting.id", ondelete="CASCADE"), index=True
    )
    document_id: Mapped[str] = mapped_column(
        ID, ForeignKey("document.id", ondelete="CASCADE"), index=True
    )
    base: Mapped[int]
    proposed: Mapped[str] = mapped_column(Text)
    why: Mapped[str] = mapped_column(Text)
    state: Mapped[str] = mapped_column(String(16))
    revision: Mapped[int | None]
    made_at: Mapped[datetime] = mapped_column(Instant)
    settled_at: Mapped[datetime | None] = mapped_column(Instant)
    __table_args__ = (
        CheckConstraint("state IN ('proposed', 'accepted', 'refused')", name="state"),
    )
