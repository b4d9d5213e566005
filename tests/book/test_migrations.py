"""A book of the first Cutwright, as it was written then, opened by this one."""

from __future__ import annotations

import json
import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import column, insert, table, text

from cutwright.book import documents, fittings, orders
from cutwright.book.book import Book
from cutwright.book.dump import read_tables
from cutwright.book.engine import WRITING, make_engine
from cutwright.book.errors import NewerBookError
from cutwright.book.health import automatic_backups, look_over
from cutwright.book.migrations import HEAD, KNOWN
from cutwright.book.nouns import DocumentKind
from cutwright.book.opening import open_book
from cutwright.book.place import find_place, prepare_file
from cutwright.book.restore import restore
from cutwright.book.schema import bring_up_to_date
from cutwright.book.soundness import unsound
from cutwright.book.tables import Base

FIRST = Path(__file__).parent / "first" / "book-0001.json"
TABLES: dict[str, list[dict[str, Any]]] = json.loads(FIRST.read_text())["tables"]


def write_first(address: str) -> None:
    """A book of the first schema with everything in it, written row by row."""
    place = find_place(address)
    if place.path is not None:
        prepare_file(place.path)
    engine = make_engine(place)
    bring_up_to_date(engine, KNOWN[0])
    with engine.connect().execution_options(**{WRITING: True}) as line, line.begin():
        for each in Base.metadata.sorted_tables:
            rows = TABLES[each.name]
            line.execute(insert(table(each.name, *(column(one) for one in rows[0]))), rows)
    engine.dispose()


@pytest.fixture(params=["sqlite", "postgresql"])
def first(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[str]:
    """The address of a book of the first schema: once a file, once a server."""
    if request.param == "sqlite":
        address = str(tmp_path / "book.sqlite")
        write_first(address)
        yield address
        return
    server: str = request.getfixturevalue("server")
    place = find_place(server)
    engine = make_engine(place)

    def on_server(*words: str) -> None:
        with engine.connect().execution_options(isolation_level="AUTOCOMMIT") as line:
            for one in words:
                line.execute(text(one))

    on_server("DROP DATABASE IF EXISTS first", "CREATE DATABASE first")
    address = server.replace("/postgres?", "/first?")
    write_first(address)
    yield address
    on_server("DROP DATABASE first WITH (FORCE)")
    engine.dispose()


def is_whole(book: Book) -> None:
    """Everything that was written then is there, sealed, and goes on."""
    tables = read_tables(book)
    for name, rows in TABLES.items():
        found = [{k: v for k, v in row.items() if k != "seal"} for row in tables[name]]
        assert sorted(found, key=repr) == sorted(rows, key=repr), name
    assert unsound(tables) == []
    (line,) = orders.listed(book)
    order = orders.get(book, line.entry.id)
    (note,) = fittings.of_order(book, order.id)
    assert note.note == "hem dips"
    assert order.style is not None
    stands = documents.get(book, order.style.document_id)
    assert stands.revision == 2
    saved = documents.save(book, stands.id, stands.content | {"name": "later"}, base=2)
    assert saved.revision == 3
    assert unsound(read_tables(book)) == []


def test_a_book_of_the_first_schema_goes_forward_with_everything_in_it(first: str) -> None:
    with open_book(first) as book:
        is_whole(book)
        if book.place.path is not None:
            assert look_over(book.place.path, 5).schema == HEAD
            (kept,) = automatic_backups(book.place)
            assert look_over(kept, 5).schema == KNOWN[0], "the book as it was is kept"
    with open_book(first) as again:
        assert documents.entries(again, DocumentKind.ORDER)


@pytest.mark.parametrize("form", ["json", "sqlite"])
def test_a_backup_of_the_first_schema_is_restored(tmp_path: Path, form: str) -> None:
    backup = tmp_path / f"backup.{form}"
    if form == "json":
        shutil.copy(FIRST, backup)
    else:
        write_first(str(backup))
    restore(backup, tmp_path / "book.sqlite")
    with open_book(tmp_path / "book.sqlite") as book:
        is_whole(book)


def test_an_older_program_refuses_the_book_of_a_newer_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "book.sqlite"
    open_book(path).close()
    before = path.read_bytes()
    monkeypatch.setattr("cutwright.book.schema.KNOWN", KNOWN[:1])
    with pytest.raises(NewerBookError):
        open_book(path)
    assert path.read_bytes() == before
    with closing(sqlite3.connect(path)) as line:
        assert line.execute("SELECT version_num FROM cutwright_schema").fetchall() == [(HEAD,)]
