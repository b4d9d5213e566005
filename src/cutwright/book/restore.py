"""Putting a backup in the place of the book, so that a power cut leaves the one or the other."""

from __future__ import annotations

import os
import shutil
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from time import monotonic

from cutwright.book.backup import copy_file, keep_now
from cutwright.book.book import Book, now
from cutwright.book.database_errors import BUSY, database_errors
from cutwright.book.dump import misfits, read_dump, read_tables, write_tables
from cutwright.book.engine import WAIT, make_engine, set_up_sqlite
from cutwright.book.errors import BusyBookError, DamagedBackupError, DamagedBookError
from cutwright.book.health import STAMP, check_file, look_over
from cutwright.book.opening import open_book
from cutwright.book.place import (
    BookPlace,
    find_place,
    make_private_folder,
    prepare_file,
    sync_folder,
)
from cutwright.book.schema import bring_up_to_date, must_be_known
from cutwright.book.scraps import clear_scraps, scrap_folder
from cutwright.book.soundness import unsound
from cutwright.book.unreadable import Check, in_tables, unreadable
from cutwright.errors import DocumentError, StoreError
from cutwright.words import _

_MAGIC = b"SQLite format 3\x00"


def restore(
    backup: Path,
    where: str | Path | None = None,
    *,
    check: Check | None = None,
    wait: float = WAIT,
) -> Path | None:
    """Put a backup in the place of the book.

    Either kind of backup goes into either kind of book. The book that was there is kept: a sound
    file as an automatic backup, a damaged one beside the new one under another name. Returns
    where it was kept, None when there was none or a server holds the book. With `check`, every document
    in the backup must be one that can be read.

    Errors: StoreError when the backup is no sound one, DocumentError that names what cannot be read;
    nothing is changed then.
    """
    place = find_place(where)
    with database_errors(place):
        if not backup.is_file():
            raise StoreError(_("There is no backup file {path}.").format(path=backup))
        if place.path is not None:
            make_private_folder(place.path.parent)
        folder = place.path.parent if place.path else None
        clear_scraps(place)
        with scrap_folder(folder) as scratch:
            fresh = scratch / "book.sqlite"
            _unpack(backup, fresh, wait, check)
            if place.path is None:
                _pour(fresh, place, wait)
                return None
            return _replace(fresh, place, wait)


@contextmanager
def looked_into(backup: Path, wait: float = WAIT) -> Iterator[Book]:
    """A backup as a book to read, on a copy that is thrown away; the backup stays as it is.

    Errors: StoreError when the backup is no sound one.
    """
    with scrap_folder(backup.parent) as scratch:
        fresh = scratch / "book.sqlite"
        _unpack(backup, fresh, wait)
        with open_book(fresh, wait=wait, keep=False) as book:
            yield book


def _unpack(backup: Path, fresh: Path, wait: float, check: Check | None = None) -> None:
    """Make a sound book of today's schema from a backup.

    A file is trusted only when it holds the very tables we make, for a trigger in it would act on
    what is written later. Then every row is looked at, as it stands after all migrations, and with
    `check` every document.
    """
    with backup.open("rb") as file:
        is_file = file.read(len(_MAGIC)) == _MAGIC
    if is_file:
        schema = _sound_schema(backup, wait)
        must_be_known(schema)
        if _drawn_up(backup) != _drawn_up(_empty_book(fresh.with_name("empty.sqlite"), schema)):
            raise _damaged(backup)
        copy_file(backup, fresh)
    else:
        _load_dump(backup, fresh, wait)
    try:
        with open_book(fresh, wait=wait, keep=False) as book:
            tables = read_tables(book)
    except DamagedBookError:
        raise _damaged(backup) from None
    if problems := unsound(tables):
        raise DocumentError(str(_damaged(backup)), problems)
    if check and (problems := unreadable(in_tables(tables), check)):
        text = _(
            "Some documents in {name} cannot be read; nothing was changed. Try another backup, or say that "
            "these are to be taken, too: they are kept as they are."
        )
        raise DocumentError(text.format(name=backup.name), problems)
    with closing(sqlite3.connect(fresh)) as line:
        line.execute("PRAGMA journal_mode = DELETE")


def _load_dump(backup: Path, fresh: Path, wait: float) -> None:
    """Make a book of the schema the dump was written in, fill it, and bring it up to date."""
    schema, tables = read_dump(backup)
    place = find_place(_empty_book(fresh, schema))
    engine = make_engine(place, wait)
    try:
        with Book(place, engine).writing() as session:
            problems = misfits(session, tables)
            if not problems:
                write_tables(session, tables)
    except StoreError:
        raise _damaged(backup) from None
    finally:
        engine.dispose()
    if problems:
        raise DocumentError(str(_damaged(backup)), problems)


def _empty_book(path: Path, schema: str) -> Path:
    """Make an empty book of an earlier schema, or of today's."""
    prepare_file(path)
    engine = make_engine(find_place(path))
    try:
        bring_up_to_date(engine, schema)
    finally:
        engine.dispose()
    return path


def _drawn_up(path: Path) -> set[tuple[str, str, str]]:
    """Everything a file declares: tables, indexes, and what else there may be."""
    with closing(sqlite3.connect(path, isolation_level=None)) as line:
        found = line.execute("SELECT type, name, sql FROM sqlite_master WHERE sql IS NOT NULL")
        return {(kind, name, " ".join(sql.split())) for kind, name, sql in found}


def _damaged(backup: Path) -> DamagedBackupError:
    return DamagedBackupError(
        _("The file {name} is damaged; nothing was changed. Try an older backup.").format(
            name=backup.name
        )
    )


def _sound_schema(backup: Path, wait: float) -> str:
    try:
        schema = look_over(backup, wait).schema
    except sqlite3.DatabaseError:
        raise _damaged(backup) from None
    if schema is None:
        raise StoreError(_("{path} is not a backup of a Cutwright book.").format(path=backup))
    return schema


def _pour(fresh: Path, place: BookPlace, wait: float) -> None:
    """Write a book into a server's database, in one transaction."""
    with open_book(fresh, wait=wait, keep=False) as source:
        tables = read_tables(source)
    address = place.url.render_as_string(hide_password=False)
    with open_book(address, wait=wait, keep=False) as book, book.writing() as session:
        write_tables(session, tables)


def _replace(fresh: Path, place: BookPlace, wait: float) -> Path | None:
    assert place.path is not None
    try:
        standing = check_file(place, wait)
    except DamagedBookError:
        return _instead_of_damaged(fresh, place.path)
    kept = None if standing.schema is None else keep_now(place, now())
    prepare_file(place.path)
    with (
        closing(sqlite3.connect(fresh, isolation_level=None)) as source,
        closing(sqlite3.connect(place.path, isolation_level=None, timeout=wait)) as target,
    ):
        set_up_sqlite(target)
        source.backup(target, progress=_no_longer_than(wait, place))
    return kept


def _no_longer_than(wait: float, place: BookPlace) -> Callable[[int, int, int], None]:
    """A watch over the copying: give up when another program does not let go of the book."""
    end = monotonic() + wait

    def look(status: int, remaining: int, total: int) -> None:
        del remaining, total
        if status in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED) and monotonic() > end:
            raise BusyBookError(_(BUSY).format(place=place.shown))

    return look


def _instead_of_damaged(fresh: Path, path: Path) -> Path | None:
    """Keep what is left of a damaged book under another name, then put the new one there."""
    aside = path.with_name(f"{path.stem}-damaged-{now().strftime(STAMP)}{path.suffix}")
    kept = None
    if path.exists():
        shutil.copy2(path, aside)
        kept = aside
    for end in ("-wal", "-shm"):
        log = path.with_name(path.name + end)
        if log.exists():
            shutil.copy2(log, aside.with_name(aside.name + end))
            log.unlink()
    with fresh.open("rb+") as file:
        os.fsync(file.fileno())
    fresh.replace(path)
    path.chmod(0o600)
    sync_folder(path.parent)
    return kept
