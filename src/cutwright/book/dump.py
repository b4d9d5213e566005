"""The whole book as text: rows as they stand in the tables, for any kind of database."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any, TypeGuard

from sqlalchemy import TableClause, column, delete, insert, select, table, text
from sqlalchemy.orm import Session

from cutwright.book.book import Book
from cutwright.book.migrations import HEAD
from cutwright.book.schema import must_be_known
from cutwright.book.tables import Base
from cutwright.documents import write_json
from cutwright.errors import StoreError
from cutwright.words import _

FORMAT = 1
KIND = "cutwright book"
Rows = Sequence[Mapping[str, Any]]


def write_dump(book: Book, to: Path) -> None:
    """Write every row of the book into one JSON file, all as of the same moment."""
    write_json(
        to,
        {
            "format": FORMAT,
            "kind": KIND,
            "schema": HEAD,
            "made_at": book.clock().isoformat(),
            "tables": read_tables(book),
        },
    )


def read_dump(path: Path) -> tuple[str, dict[str, Rows]]:
    """The schema and the rows of a dump; StoreError when the file is not a sound one."""
    refused = StoreError(_("{path} is not a backup of a Cutwright book.").format(path=path))
    try:
        found = json.loads(path.read_bytes())
    except (ValueError, RecursionError):
        raise refused from None
    if not isinstance(found, dict) or found.get("kind") != KIND:
        raise refused
    if found.get("format") != FORMAT:
        must_be_known(f"backup format {found.get('format')}")
    schema, tables = found.get("schema"), found.get("tables")
    if not isinstance(schema, str) or not _are_rows(tables):
        raise refused
    must_be_known(schema)
    return schema, tables


def read_tables(book: Book) -> dict[str, Rows]:
    """Every row of every table, as of one moment."""
    with book.reading() as session:
        if book.place.path is None:
            session.connection(execution_options={"isolation_level": "REPEATABLE READ"})
        return {
            each.name: [dict(row) for row in session.execute(select(each)).mappings()]
            for each in _plain_tables()
        }


def write_tables(session: Session, tables: Mapping[str, Rows]) -> None:
    """Put these rows in the place of everything the book holds."""
    plain = _plain_tables()
    if session.get_bind().dialect.name == "postgresql":
        names = ", ".join(each.name for each in plain)
        session.execute(text(f"LOCK TABLE {names} IN ACCESS EXCLUSIVE MODE"))
    else:
        session.execute(text("PRAGMA defer_foreign_keys = ON"))
    for each in reversed(plain):
        session.execute(delete(each))
    order = [each.name for each in plain]
    for name in sorted(tables, key=lambda one: order.index(one) if one in order else len(order)):
        rows = [dict(row) for row in tables[name]]
        if rows:
            session.execute(insert(table(name, *(column(one) for one in rows[0]))), rows)


def _plain_tables() -> list[TableClause]:
    """The tables, parents first, with columns that hand over exactly what is stored."""
    return [
        table(each.name, *(column(one.name) for one in each.columns))
        for each in Base.metadata.sorted_tables
    ]


def _are_rows(tables: object) -> TypeGuard[dict[str, Rows]]:
    return isinstance(tables, dict) and all(
        isinstance(rows, list) and all(isinstance(row, dict) for row in rows)
        for rows in tables.values()
    )
