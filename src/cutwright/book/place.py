"""Where the book lies: a file in the user's own folder, or a database named by its address."""

from __future__ import annotations

import os
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from sqlalchemy.engine import URL, make_url
from sqlalchemy.exc import ArgumentError

from cutwright.errors import StoreError
from cutwright.words import _

FILE_NAME = "book.sqlite"


@dataclass(frozen=True, slots=True)
class BookPlace:
    """The address of a book; `path` is its file, None when a server keeps it."""

    url: URL
    path: Path | None

    @property
    def shown(self) -> str:
        """The place for a message: never with a password."""
        return str(self.path) if self.path else self.url.render_as_string(hide_password=True)

    @property
    def backups(self) -> Path | None:
        """The folder of the automatic backups of a book that is a file."""
        return self.path.parent / f"{self.path.stem}-backups" if self.path else None


def find_place(where: str | Path | None = None) -> BookPlace:
    """The place that was asked for: a path, an address, or the user's own folder for None."""
    if where is None:
        import platformdirs

        where = Path(platformdirs.user_data_path("cutwright", appauthor=False)) / FILE_NAME
    if isinstance(where, Path) or "://" not in where:
        return _file(Path(where))
    try:
        url = make_url(where)
    except ArgumentError:
        raise StoreError(
            _("The address of the book cannot be read; {hint}").format(hint=_hint())
        ) from None
    if url.get_backend_name() == "sqlite" and url.database and url.database != ":memory:":
        return _file(Path(url.database))
    if url.get_backend_name() in ("postgresql", "postgres"):
        return BookPlace(url.set(drivername="postgresql+psycopg"), None)
    raise StoreError(
        _("A book cannot be kept in “{kind}”; {hint}").format(kind=url.drivername, hint=_hint())
    )


def prepare_file(path: Path) -> None:
    """Make the folder (0700) and the empty file (0600) of a new book, for its owner only.

    A folder that is there already is left as it is, for it may serve other purposes.
    """
    make_private_folder(path.parent)
    with suppress(FileExistsError):
        os.close(os.open(path, os.O_CREAT | os.O_EXCL | os.O_RDWR, 0o600))


def make_private_folder(folder: Path) -> None:
    """Make a folder that only its owner can enter, unless there is one."""
    missing = [folder, *folder.parents]
    for one in reversed([each for each in missing if not each.exists()]):
        one.mkdir(mode=0o700, exist_ok=True)


def sync_folder(folder: Path) -> None:
    """Make sure that a name just written into a folder survives a power cut."""
    if os.name == "nt":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def _file(path: Path) -> BookPlace:
    full = Path.cwd() / path.expanduser()
    return BookPlace(URL.create("sqlite", database=str(full)), full)


def _hint() -> str:
    return _("give a file name, or postgresql://user@host/name.")
