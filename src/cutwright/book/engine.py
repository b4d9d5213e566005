"""The line to the database, set up so that what is confirmed is on the disk."""

from __future__ import annotations

import sqlite3
from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event

from cutwright.book.place import BookPlace

WAIT = 15.0
WRITING = "cutwright_writing"


def make_engine(place: BookPlace, wait: float = WAIT) -> Engine:
    """An engine for the place; nothing is opened yet. `wait` is how long to wait for others, in s."""
    if place.path is None:
        return _postgres(place, wait)
    engine = create_engine(
        place.url, hide_parameters=True, connect_args={"isolation_level": None, "timeout": wait}
    )
    event.listen(engine, "connect", _set_up_sqlite)
    event.listen(engine, "begin", _begin_sqlite)
    return engine


def set_up_sqlite(line: sqlite3.Connection) -> None:
    """The rules every line to a file follows.

    A write-ahead log written through to the disk at every commit, links checked, and what is
    deleted is overwritten with zeros.
    """
    for rule in (
        "journal_mode = WAL",
        "synchronous = FULL",
        "fullfsync = ON",
        "foreign_keys = ON",
        "secure_delete = ON",
        "trusted_schema = OFF",
        "cell_size_check = ON",
    ):
        line.execute(f"PRAGMA {rule}")


def _set_up_sqlite(line: Any, _record: Any) -> None:
    set_up_sqlite(line)


def _begin_sqlite(connection: Connection) -> None:
    """Begin at once as a writer where one will write: waiting works then, upgrading does not."""
    writing = connection.get_execution_options().get(WRITING, False)
    connection.exec_driver_sql("BEGIN IMMEDIATE" if writing else "BEGIN")


def _postgres(place: BookPlace, wait: float) -> Engine:
    milliseconds = int(wait * 1000)
    return create_engine(
        place.url,
        hide_parameters=True,
        pool_pre_ping=True,
        connect_args={
            "connect_timeout": max(2, int(wait)),
            "options": f"-c lock_timeout={milliseconds} -c timezone=UTC",
        },
    )
