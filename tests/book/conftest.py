"""Every test of the store runs on a file and on a server: one set of tests, two kinds of book."""

from __future__ import annotations

import os
import pwd
import shutil
import subprocess
import tempfile
from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from cutwright.book.book import Book, open_book
from cutwright.book.dump import write_tables

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
    programs = _find_programs()
    if programs is None:
        _without_server("no PostgreSQL programs found; install postgresql to test a book on it")
        return
    as_user = _unprivileged()
    if as_user is None:
        _without_server("PostgreSQL does not run as root and there is no user “postgres” to run it")
        return
    with tempfile.TemporaryDirectory(prefix="cutwright-pg-") as name:
        folder = Path(name)
        if as_user:
            account = pwd.getpwnam("postgres")
            os.chown(folder, account.pw_uid, account.pw_gid)
        run = _runner(as_user)
        run(f"{programs}/initdb", "-D", f"{name}/cluster", "-A", "trust", "-U", "cutter", "-E", "UTF8",
            "--locale=C.UTF-8", "--no-sync")  # fmt: skip
        options = f"-k {name} -c listen_addresses='' -c fsync=off"
        run(f"{programs}/pg_ctl", "-D", f"{name}/cluster", "-w", "-l", f"{name}/log", "-o", options,
            "start")  # fmt: skip
        try:
            yield f"postgresql://cutter@/postgres?host={name}"
        finally:
            run(f"{programs}/pg_ctl", "-D", f"{name}/cluster", "-m", "immediate", "stop")


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


@pytest.fixture
def file_book(file_address: Path, clock: Clock) -> Iterator[Book]:
    """A book that is a file, for what concerns files only."""
    with open_book(file_address, clock=clock, keep=False) as opened:
        yield opened


def _find_programs() -> str | None:
    folders = sorted(Path("/usr/lib/postgresql").glob("*/bin"), key=lambda one: one.parent.name)
    found = shutil.which("initdb")
    if found:
        folders.append(Path(found).parent)
    return next((str(one) for one in reversed(folders) if (one / "pg_ctl").exists()), None)


def _unprivileged() -> list[str] | None:
    """How to run a program as somebody who is not root; None where that cannot be."""
    if os.geteuid() != 0:
        return []
    try:
        pwd.getpwnam("postgres")
    except KeyError:
        return None
    return ["runuser", "-u", "postgres", "--"] if shutil.which("runuser") else None


def _runner(as_user: list[str]) -> Callable[..., None]:
    def run(*words: str) -> None:
        subprocess.run(
            [*as_user, *words], check=True, cwd="/", stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL, stderr=subprocess.STDOUT, timeout=60,
        )  # fmt: skip

    return run


def _without_server(reason: str) -> None:
    if CI:
        pytest.fail(reason)
    pytest.skip(reason)
