"""Where the book lies and how it is opened."""

from __future__ import annotations

import logging
import os
import sqlite3
import stat
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest

from cutwright.book import clients, documents
from cutwright.book.book import Book
from cutwright.book.errors import NewerBookError
from cutwright.book.migrations import HEAD
from cutwright.book.nouns import DocumentKind
from cutwright.book.opening import open_book
from cutwright.book.place import find_place
from cutwright.errors import StoreError
from tests.book.samples import style


def test_without_a_place_the_book_lies_in_the_users_own_folder(home_of_its_own: Path) -> None:
    place = find_place()
    assert place.path is not None
    assert place.path.is_relative_to(home_of_its_own)


@pytest.mark.skipif(os.name == "nt", reason="rights of files are another matter there")
def test_only_the_owner_can_read_the_book(tmp_path: Path) -> None:
    path = tmp_path / "new" / "shop" / "book.sqlite"
    before = os.umask(0)
    try:
        with open_book(path) as book:
            documents.add(book, DocumentKind.STYLE, style())
            rights = {one.name: stat.S_IMODE(one.stat().st_mode) for one in path.parent.iterdir()}
    finally:
        os.umask(before)
    assert rights == {"book.sqlite": 0o600, "book.sqlite-wal": 0o600, "book.sqlite-shm": 0o600}
    assert stat.S_IMODE(path.parent.stat().st_mode) == 0o700
    assert stat.S_IMODE(path.parent.parent.stat().st_mode) == 0o700


def test_what_is_confirmed_is_written_through(file_book: Book) -> None:
    with file_book.reading() as session:
        line = session.connection()
        rules = {
            rule: line.exec_driver_sql(f"PRAGMA {rule}").scalar_one()
            for rule in ("journal_mode", "synchronous", "foreign_keys", "secure_delete")
        }
    assert rules == {"journal_mode": "wal", "synchronous": 2, "foreign_keys": 1, "secure_delete": 1}


@pytest.mark.parametrize(
    ("where", "words"),
    [
        ("mysql://host/name", "cannot be kept in “mysql”"),
        ("sqlite://", "cannot be kept in"),
        ("://", "cannot be read"),
        ("nonsense://a b", "cannot be kept in"),
    ],
)
def test_a_place_that_is_none_is_named(where: str, words: str) -> None:
    with pytest.raises(StoreError, match=words):
        open_book(where)


def test_a_server_that_is_not_there_is_named_without_the_password(tmp_path: Path) -> None:
    with pytest.raises(StoreError, match="does not answer") as refused:
        open_book(f"postgresql://cutter:sesame@/shop?host={tmp_path}", wait=2)
    assert "sesame" not in str(refused.value)
    assert refused.value.__cause__ is None


def test_a_folder_that_cannot_be_made_is_named(tmp_path: Path) -> None:
    (tmp_path / "shop").write_text("a file where a folder should be")
    with pytest.raises(StoreError, match="cannot be read or written"):
        open_book(tmp_path / "shop" / "book.sqlite")
    with pytest.raises(StoreError, match="cannot be opened"):
        open_book(tmp_path)


def test_a_newer_book_is_left_alone(address: str) -> None:
    with open_book(address) as book, book.writing() as session:
        session.connection().exec_driver_sql("UPDATE cutwright_schema SET version_num = '9999'")
    try:
        with pytest.raises(NewerBookError, match=r"newer Cutwright.*9999"):
            open_book(address)
    finally:
        with book.writing() as session:
            session.connection().exec_driver_sql(
                f"UPDATE cutwright_schema SET version_num = '{HEAD}'"
            )
        book.close()


def test_a_database_of_another_program_is_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "other.sqlite"
    with closing(sqlite3.connect(path)) as line:
        line.execute("CREATE TABLE songs (name)")
        line.commit()
    before = path.read_bytes()
    with pytest.raises(StoreError, match="not a Cutwright book"):
        open_book(path)
    assert path.read_bytes() == before


def test_messages_and_logs_tell_nothing_private(
    book: Book, caplog: pytest.LogCaptureFixture, capfd: pytest.CaptureFixture[str]
) -> None:
    caplog.set_level(logging.DEBUG)
    made = clients.add(book, "Quillfeather", contact="by the bridge")
    with pytest.raises(StoreError) as refused, book.writing() as session:
        session.connection().exec_driver_sql(
            f"INSERT INTO client SELECT * FROM client WHERE id = '{made.id}'"
        )
    with pytest.raises(StoreError) as missing, book.writing() as session:
        session.connection().exec_driver_sql(
            f"UPDATE client SET notes = NULL WHERE id = '{made.id}'"
        )
    chain = [refused.value, refused.value.__cause__, missing.value, missing.value.__cause__]
    said = " ".join(map(str, chain)) + caplog.text + "".join(capfd.readouterr())
    assert "Quillfeather" not in said
    assert "bridge" not in said


def test_the_light_parts_do_not_load_the_database() -> None:
    program = (
        "import sys, cutwright.book, cutwright.book.errors, cutwright.book.nouns, "
        "cutwright.book.compare; "
        "sys.exit(any(name in sys.modules for name in ('sqlalchemy', 'alembic', 'sqlite3')))"
    )
    assert subprocess.run([sys.executable, "-c", program], check=False).returncode == 0
