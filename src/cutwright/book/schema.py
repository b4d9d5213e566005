"""Bringing a book to today's schema when it is opened."""

from __future__ import annotations

from pathlib import Path

from sqlalchemy import Connection, Engine, inspect, text

from cutwright.book.engine import WRITING
from cutwright.book.errors import NewerBookError
from cutwright.book.health import VERSION_TABLE
from cutwright.book.migrations import HEAD, KNOWN
from cutwright.book.tables import Base
from cutwright.errors import StoreError
from cutwright.words import _

_LOCK = 0x43757477  # any number of our own, for the server's advisory lock


def schema_of(connection: Connection) -> str | None:
    """The step a book stands at; None for an empty one.

    Errors: StoreError when there are tables of our names that no Cutwright made.
    """
    names = set(inspect(connection).get_table_names())
    if VERSION_TABLE in names:
        row = connection.execute(text(f"SELECT version_num FROM {VERSION_TABLE}")).first()
        return str(row[0]) if row else None
    if names & set(Base.metadata.tables):
        raise StoreError(
            _(
                "This database holds tables of another program by the names the book needs; use another."
            )
        )
    return None


def must_be_known(schema: str | None) -> None:
    """Refuse a book whose schema this program has never heard of."""
    if schema is not None and schema not in KNOWN:
        raise NewerBookError(
            _(
                "This book was written by a newer Cutwright (its schema is {found}, this program "
                "knows up to {known}). Nothing was changed; install the newer Cutwright to open it."
            ).format(found=schema, known=HEAD)
        )


def bring_up_to_date(engine: Engine, to: str = HEAD) -> None:
    """Take every step the book lacks, all or none; two programs may open it at the same time."""
    with engine.connect() as looking:
        standing = schema_of(looking)
    must_be_known(standing)
    if standing == to:
        return
    with engine.connect().execution_options(**{WRITING: True}) as writing, writing.begin():
        if engine.dialect.name == "postgresql":
            writing.execute(text("SELECT pg_advisory_xact_lock(:key)"), {"key": _LOCK})
        if schema_of(writing) != to:
            _take_steps(writing, to)


def _take_steps(connection: Connection, to: str) -> None:
    from alembic import command
    from alembic.config import Config

    config = Config()
    folder = Path(__file__).with_name("migrations")
    config.set_main_option("script_location", str(folder).replace("%", "%%"))
    config.attributes["connection"] = connection
    command.upgrade(config, to)
