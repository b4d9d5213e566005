"""The whole book as text: rows as they stand in the tables, for any kind of database."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any, TypeGuard

from sqlalchemy import TableClause, column, delete, insert, inspect, select, table, text
from sqlalchemy.orm import Session

from cutwright.book.book import Book
from cutwright.book.errors import not_read_back
from cutwright.book.migrations import HEAD
from cutwright.book.schema import must_be_known
from cutwright.book.soundness import MOST_TOLD
from cutwright.book.tables import Base
from cutwright.documents import Problem, read_large, write_json
from cutwright.errors import StoreError
from cutwright.words import _

FORMAT = 1
KIND = "cutwright book"
Rows = Sequence[Mapping[str, Any]]


def write_dump(book: Book, to: Path) -> None:
    """Write every row of the book into one JSON file, all as of the same moment."""
    tables = read_tables(book)
    write_json(
        to,
        {
            "format": FORMAT,
            "kind": KIND,
            "schema": HEAD,
            "made_at": book.clock().isoformat(),
            "tables": tables,
        },
    )
    if read_dump(to) != (HEAD, tables):
        to.unlink()
        raise not_read_back(to)


def read_dump(path: Path) -> tuple[str, dict[str, Rows]]:
    """The schema and the rows of a dump; StoreError when the file is not a sound one."""
    refused = StoreError(_("{path} is not a backup of a Cutwright book.").format(path=path))
    found = read_large(path, str(refused))
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
    for each in plain:
        rows = [dict(row) for row in tables.get(each.name, ())]
        if rows:
            session.execute(insert(table(each.name, *(column(one) for one in rows[0]))), rows)


def misfits(session: Session, tables: Mapping[str, Rows]) -> list[Problem]:
    """What in these rows has no place in the tables of the book as they are, or is no plain value."""
    look = inspect(session.connection())
    found: list[Problem] = []
    for name in sorted(set(tables) - set(Base.metadata.tables)):
        found.append((name[:60], _("there is nothing of this name here; check the spelling.")))
    for name in Base.metadata.tables:
        columns = {one["name"] for one in look.get_columns(name)}
        for number, row in enumerate(tables.get(name, ()), 1):
            for one in sorted(columns - set(row)):
                found.append((f"{name} {number}, {one}", _("this is missing.")))
            for one in sorted(set(row) - columns):
                place = f"{name} {number}, {one[:60]}"
                found.append((place, _("there is nothing of this name here; check the spelling.")))
            if not all(isinstance(value, str | int | float | None) for value in row.values()):
                found.append((f"{name} {number}", _("this is no row of a book.")))
            if len(found) > MOST_TOLD:
                return found
    return found


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
