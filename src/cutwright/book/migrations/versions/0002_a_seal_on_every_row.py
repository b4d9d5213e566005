"""A seal on every row, so that an altered letter is seen."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from cutwright.book.seal import seal_of

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None

# Of each table the columns of its key, and the other columns that the seal covers.
SEALED = {
    "client": (
        ["id"],
        ["version", "name", "contact", "notes", "made_at", "changed_at", "sought"],
    ),
    "document": (
        ["id"],
        [
            "kind",
            "client_id",
            "title",
            "dated",
            "current",
            "last",
            "position",
            "made_at",
            "changed_at",
            "set_aside_at",
            "sought",
        ],
    ),
    "revision": (
        ["document_id", "number"],
        ["parent", "title", "label", "content", "made_at"],
    ),
    "history": (["document_id", "position"], ["number", "group_key"]),
    "stock": (["cloth_id"], ["length"]),
    "orders": (
        ["id"],
        ["version", "state", "state_at", "due", "body_revision", "style_revision", "frozen"],
    ),
    "order_cloth": (["order_id", "position"], ["cloth_revision"]),
    "fitting": (
        ["id"],
        ["order_id", "version", "held_on", "note", "made_at", "changed_at", "sought"],
    ),
    "correction": (
        ["id"],
        [
            "fitting_id",
            "document_id",
            "base",
            "proposed",
            "why",
            "state",
            "revision",
            "made_at",
            "settled_at",
        ],
    ),
}


def upgrade() -> None:
    """Give every row its seal."""
    line = op.get_bind()
    for name, (key, others) in SEALED.items():
        op.add_column(
            name, sa.Column("seal", sa.String(16), nullable=False, server_default=sa.text("''"))
        )
        columns = [*key, *others]
        table = sa.table(name, *(sa.column(one) for one in [*columns, "seal"]))
        wanted = sa.and_(*(table.c[one] == sa.bindparam(f"key_{one}") for one in key))
        write = sa.update(table).where(wanted).values(seal=sa.bindparam("its_seal"))
        rows = line.execute(sa.select(*(table.c[one] for one in columns))).all()
        for row in rows:
            found = dict(zip(columns, row, strict=True))
            given = {f"key_{one}": found[one] for one in key}
            line.execute(write, given | {"its_seal": seal_of(name, list(row))})


def downgrade() -> None:
    """A book never goes back; an older program refuses it with a clear message."""
    raise NotImplementedError
