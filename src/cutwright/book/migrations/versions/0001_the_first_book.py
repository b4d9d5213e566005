"""The first book: clients, documents, orders, fittings."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the tables of an empty book."""
    _documents()
    _orders()
    _fittings()


def downgrade() -> None:
    """A book never goes back; an older program refuses it with a clear message."""
    raise NotImplementedError


def _documents() -> None:
    """Clients, and documents with their revisions and undo history."""
    op.create_table(
        "client",
        sa.Column("id", sa.String(32), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("contact", sa.Text(), nullable=False),
        sa.Column("notes", sa.Text(), nullable=False),
        sa.Column("made_at", sa.String(32), nullable=False),
        sa.Column("changed_at", sa.String(32), nullable=False),
        sa.Column("sought", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_client")),
    )
    op.create_table(
        "document",
        sa.Column("id", sa.String(32), nullable=False),
        sa.Column("kind", sa.String(16), nullable=False),
        sa.Column("client_id", sa.String(32), nullable=True),
        sa.Column("title", sa.Text(), nullable=False),
        sa.Column("dated", sa.String(10), nullable=True),
        sa.Column("current", sa.Integer(), nullable=False),
        sa.Column("last", sa.Integer(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("made_at", sa.String(32), nullable=False),
        sa.Column("changed_at", sa.String(32), nullable=False),
        sa.Column("set_aside_at", sa.String(32), nullable=True),
        sa.Column("sought", sa.Text(), nullable=False),
        sa.CheckConstraint(
            "client_id IS NULL OR kind IN ('body', 'order')", name=op.f("ck_document_whose")
        ),
        sa.CheckConstraint(
            "kind IN ('body', 'style', 'cloth', 'order')", name=op.f("ck_document_kind")
        ),
        sa.ForeignKeyConstraint(
            ["client_id"], ["client.id"], name=op.f("fk_document_client_id"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_document")),
    )
    op.create_index("ix_document_client_id", "document", ["client_id"])
    op.create_index("ix_document_kind_changed_at", "document", ["kind", "changed_at"])
    op.create_table(
        "revision",
        sa.Column("document_id", sa.String(32), nullable=False),
        sa.Column("number", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("parent", sa.Integer(), nullable=True),
        sa.Column("title", sa.Text(), nullable=False),
        sa.Column("label", sa.Text(), nullable=False),
        sa.Column("content", sa.Text(), nullable=False),
        sa.Column("made_at", sa.String(32), nullable=False),
        sa.ForeignKeyConstraint(
            ["document_id"],
            ["document.id"],
            name=op.f("fk_revision_document_id"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("document_id", "number", name=op.f("pk_revision")),
    )
    op.create_table(
        "history",
        sa.Column("document_id", sa.String(32), nullable=False),
        sa.Column("position", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("group_key", sa.Text(), nullable=True),
        sa.ForeignKeyConstraint(
            ["document_id"],
            ["document.id"],
            name=op.f("fk_history_document_id"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("document_id", "position", name=op.f("pk_history")),
    )


def _orders() -> None:
    """The cupboard, and orders with what they use."""
    op.create_table(
        "stock",
        sa.Column("cloth_id", sa.String(32), nullable=False),
        sa.Column("length", sa.Double(), nullable=False),
        sa.CheckConstraint("length >= 0", name=op.f("ck_stock_length")),
        sa.ForeignKeyConstraint(
            ["cloth_id"], ["document.id"], name=op.f("fk_stock_cloth_id"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("cloth_id", name=op.f("pk_stock")),
    )
    op.create_table(
        "orders",
        sa.Column("id", sa.String(32), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("state", sa.String(16), nullable=False),
        sa.Column("state_at", sa.String(32), nullable=False),
        sa.Column("due", sa.String(10), nullable=True),
        sa.Column("body_id", sa.String(32), nullable=True),
        sa.Column("body_revision", sa.Integer(), nullable=True),
        sa.Column("style_id", sa.String(32), nullable=True),
        sa.Column("style_revision", sa.Integer(), nullable=True),
        sa.Column("frozen", sa.Text(), nullable=False),
        sa.CheckConstraint(
            "state IN ('drafted', 'cut', 'fitted', 'finished')", name=op.f("ck_orders_state")
        ),
        sa.ForeignKeyConstraint(
            ["body_id"], ["document.id"], name=op.f("fk_orders_body_id"), ondelete="SET NULL"
        ),
        sa.ForeignKeyConstraint(
            ["id"], ["document.id"], name=op.f("fk_orders_id"), ondelete="CASCADE"
        ),
        sa.ForeignKeyConstraint(
            ["style_id"], ["document.id"], name=op.f("fk_orders_style_id"), ondelete="SET NULL"
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_orders")),
    )
    op.create_index("ix_orders_body_id", "orders", ["body_id"])
    op.create_index("ix_orders_due", "orders", ["due"])
    op.create_index("ix_orders_style_id", "orders", ["style_id"])
    op.create_table(
        "order_cloth",
        sa.Column("order_id", sa.String(32), nullable=False),
        sa.Column("position", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("cloth_id", sa.String(32), nullable=True),
        sa.Column("cloth_revision", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(
            ["cloth_id"], ["document.id"], name=op.f("fk_order_cloth_cloth_id"), ondelete="SET NULL"
        ),
        sa.ForeignKeyConstraint(
            ["order_id"], ["orders.id"], name=op.f("fk_order_cloth_order_id"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("order_id", "position", name=op.f("pk_order_cloth")),
    )
    op.create_index("ix_order_cloth_cloth_id", "order_cloth", ["cloth_id"])


def _fittings() -> None:
    """Fitting notes and the corrections they propose."""
    op.create_table(
        "fitting",
        sa.Column("id", sa.String(32), nullable=False),
        sa.Column("order_id", sa.String(32), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("held_on", sa.String(10), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.Column("made_at", sa.String(32), nullable=False),
        sa.Column("changed_at", sa.String(32), nullable=False),
        sa.Column("sought", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["order_id"], ["orders.id"], name=op.f("fk_fitting_order_id"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_fitting")),
    )
    op.create_index("ix_fitting_order_id", "fitting", ["order_id"])
    op.create_table(
        "correction",
        sa.Column("id", sa.String(32), nullable=False),
        sa.Column("fitting_id", sa.String(32), nullable=False),
        sa.Column("document_id", sa.String(32), nullable=False),
        sa.Column("base", sa.Integer(), nullable=False),
        sa.Column("proposed", sa.Text(), nullable=False),
        sa.Column("why", sa.Text(), nullable=False),
        sa.Column("state", sa.String(16), nullable=False),
        sa.Column("revision", sa.Integer(), nullable=True),
        sa.Column("made_at", sa.String(32), nullable=False),
        sa.Column("settled_at", sa.String(32), nullable=True),
        sa.CheckConstraint(
            "state IN ('proposed', 'accepted', 'refused')", name=op.f("ck_correction_state")
        ),
        sa.ForeignKeyConstraint(
            ["document_id"],
            ["document.id"],
            name=op.f("fk_correction_document_id"),
            ondelete="CASCADE",
        ),
        sa.ForeignKeyConstraint(
            ["fitting_id"],
            ["fitting.id"],
            name=op.f("fk_correction_fitting_id"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_correction")),
    )
    op.create_index("ix_correction_document_id", "correction", ["document_id"])
    op.create_index("ix_correction_fitting_id", "correction", ["fitting_id"])
