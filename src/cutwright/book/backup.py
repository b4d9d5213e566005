"""Keeping the book twice: a backup in one file, and a few automatic ones beside the book."""

from __future__ import annotations

import os
import sqlite3
from contextlib import closing
from datetime import datetime, timedelta
from pathlib import Path

from cutwright.book.book import Book
from cutwright.book.database_errors import database_errors
from cutwright.book.dump import write_dump
from cutwright.book.engine import WAIT
from cutwright.book.errors import not_read_back
from cutwright.book.health import STAMP, automatic_backups, look_over, made_when, order_made
from cutwright.book.place import BookPlace, make_private_folder, sync_folder
from cutwright.book.scraps import scrap_file
from cutwright.errors import StoreError
from cutwright.words import _

EVERY = timedelta(hours=20)
KEPT = 7


def back_up(book: Book, to: Path, *, replace: bool = False) -> Path:
    """Write the whole book into one file, whole or not at all.

    A name ending in .json gives a text file that any Cutwright restores into either kind of
    database; any other name gives a copy in SQLite, which only a book that is a file can make.

    Errors: StoreError when the file is there already (unless `replace`) or cannot be written.
    """
    if to.exists() and not replace:
        raise StoreError(_("{path} is there already; choose another name.").format(path=to))
    if to.suffix.lower() == ".json":
        write_dump(book, to)
    elif book.place.path is None:
        raise StoreError(
            _("A book on a server is backed up as text: give a name that ends in .json.")
        )
    else:
        _copy_to(book.place.path, to)
    return to


def _copy_to(source: Path, to: Path) -> None:
    try:
        copy_file(source, to)
    except (OSError, sqlite3.Error) as error:
        code = getattr(error, "sqlite_errorname", None) or getattr(error, "strerror", None)
        reason = _("the disk is full") if code == "SQLITE_FULL" else code or type(error).__name__
        raise StoreError(
            _("The backup {path} was not written: {reason}. The book itself is untouched.").format(
                path=to, reason=reason
            )
        ) from None


def keep_backup(book: Book, *, even_if_recent: bool = False) -> Path | None:
    """Keep an automatic backup when the newest is a day old, and let the oldest go.

    Safe to call at any time, as often as one likes; returns the file if one was made.
    """
    place = book.place
    if place.path is None or _is_new(place.path):
        return None
    moment = book.clock()
    if not even_if_recent and not _due(place, moment):
        return None
    with database_errors(place):
        return keep_now(place, moment)


def keep_now(place: BookPlace, moment: datetime) -> Path:
    """Keep an automatic backup of a file at once."""
    assert place.path is not None
    assert place.backups is not None
    make_private_folder(place.backups)
    number = max(map(order_made, automatic_backups(place)), default=0) + 1
    to = place.backups / f"{place.path.stem}-{number:06d}-{moment.strftime(STAMP)}.sqlite"
    copy_file(place.path, to)
    for old in automatic_backups(place)[:-KEPT]:
        old.unlink(missing_ok=True)
    return to


def drop_backups(place: BookPlace, keep: Path | None) -> int:
    """Remove every automatic backup but one; the number removed."""
    gone = 0
    for one in automatic_backups(place):
        if one != keep:
            one.unlink(missing_ok=True)
            gone += 1
    return gone


def copy_file(source: Path, to: Path) -> None:
    """Copy a book that may be in use: into a new file first, then under its name at once.

    The copy is read back before it takes its name; StoreError when it is not what the book holds.
    """
    with scrap_file(to.parent) as part:
        with closing(sqlite3.connect(source, isolation_level=None, timeout=60)) as line:
            counts = _written_into(part, line)
        with part.open("rb+") as written:
            os.fsync(written.fileno())
        _read_back(part, counts, to)
        part.replace(to)
        sync_folder(to.parent)


def _written_into(part: Path, line: sqlite3.Connection) -> dict[str, int] | None:
    """Write the copy; how many rows it must have, None while others keep changing the book."""
    for _time in range(3):
        part.write_bytes(b"")
        before = line.execute("PRAGMA data_version").fetchone()
        counts = _counts(line)
        line.execute("VACUUM INTO ?", (str(part),))
        if line.execute("PRAGMA data_version").fetchone() == before:
            return counts
    return None


def _read_back(part: Path, counts: dict[str, int] | None, to: Path) -> None:
    try:
        look_over(part, WAIT)
        with closing(sqlite3.connect(part)) as line:
            whole = counts is None or _counts(line) == counts
    except sqlite3.DatabaseError:
        whole = False
    if not whole:
        raise not_read_back(to)


def _counts(line: sqlite3.Connection) -> dict[str, int]:
    names = line.execute("SELECT name FROM sqlite_master WHERE type = 'table'").fetchall()
    return {
        name: line.execute(f'SELECT count(*) FROM "{name}"').fetchone()[0]
        for (name,) in names
        if '"' not in name
    }


def _due(place: BookPlace, moment: datetime) -> bool:
    found = automatic_backups(place)
    made = made_when(found[-1]) if found else None
    return made is None or abs(moment - made) >= EVERY


def _is_new(path: Path) -> bool:
    return not path.exists() or path.stat().st_size == 0
