"""Run by Alembic: takes the steps over the line it was handed, inside its transaction."""

from __future__ import annotations

from alembic import context

from cutwright.book.health import VERSION_TABLE
from cutwright.book.tables import Base

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=Base.metadata,
    version_table=VERSION_TABLE,
    render_as_batch=True,
)
with context.begin_transaction():
    context.run_migrations()
