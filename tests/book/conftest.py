"""Every test of the store runs on a file and on a server: one set of tests, two kinds of book."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from cutwright.book.book import Book
from cutwright.book.dump import read_tables, write_tables
from cutwright.book.opening import open_book
from cutwright.book.soundness import unsound
from tests.book.server import private_server

CI = bool(os.environ.get("CI"))


class Clock:
    """A clock that goes on by a second with every look, and by as much as a test likes."""

    def __init__(self) -> None:
        self.time = datetime(2031, 5, 4, 9, 0, tzinfo=UTC)

    def __call__(self) -> datetime:
        self.time += timedelta(seconds=1)
        return self.time


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture(scope="session")
def server() -> Iterator[str]:
    """The address of a private PostgreSQL server, started for this run and thrown away after."""
    with private_server() as made:
        if made is None:
            _without_server()
        else:
            yield made.address


@pytest.fixture(scope="session")
def blank(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """An empty book to copy, for making one takes a while."""
    path = tmp_path_factory.mktemp("blank") / "book.sqlite"
    open_book(path).close()
    return path


@pytest.fixture(scope="session")
def server_book(server: str) -> Iterator[Book]:
    """The book on the server, kept open to empty it before each test."""
    with open_book(server) as opened:
        yield opened


@pytest.fixture
def file_address(tmp_path: Path, blank: Path) -> Path:
    """An empty book that is a file."""
    folder = tmp_path / "shop"
    folder.mkdir(mode=0o700)
    return Path(shutil.copy(blank, folder / "book.sqlite"))


@pytest.fixture(params=["sqlite", "postgresql"])
def address(request: pytest.FixtureRequest) -> str:
    """Where an empty book is: once a file, once a server."""
    if request.param == "sqlite":
        return str(request.getfixturevalue("file_address"))
    opened: Book = request.getfixturevalue("server_book")
    with opened.writing() as session:
        write_tables(session, {})
    return opened.place.url.render_as_string(hide_password=False)


@pytest.fixture
def book(address: str, clock: Clock) -> Iterator[Book]:
    with open_book(address, clock=clock, keep=False) as opened:
        yield opened
        assert unsound(read_tables(opened)) == [], "every row is as we write it, and sealed"


@pytest.fixture
def file_book(file_address: Path, clock: Clock) -> Iterator[Book]:
    """A book that is a file, for what concerns files only."""
    with open_book(file_address, clock=clock, keep=False) as opened:
        yield opened


def _without_server() -> None:
    reason = "no PostgreSQL that could be started; install postgresql to test a book on it"
    if CI:
        pytest.fail(reason)
    pytest.skip(reason)
