"""Looking a book's file over before trusting it."""

from __future__ import annotations

import re
import sqlite3
from contextlib import closing
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from sqlalchemy import Table

from cutwright.book.errors import DamagedBookError
from cutwright.book.migrations import HEAD
from cutwright.book.place import BookPlace
from cutwright.book.seal import seal_of, sealed
from cutwright.book.tables import Base
from cutwright.errors import StoreError
from cutwright.words import _

VERSION_TABLE = "cutwright_schema"
STAMP = "%Y%m%dT%H%M%S.%fZ"


@dataclass(frozen=True, slots=True)
class Look:
    """What a file turned out to be: its schema, None when it is still empty."""

    schema: str | None


def check_file(place: BookPlace, wait: float) -> Look:
    """Look the whole file over; an empty new file is sound.

    Errors: DamagedBookError when the file is damaged, or is gone or empty although there are
    automatic backups of it; StoreError when it is somebody else's database.
    """
    path = place.path
    if path is None:
        raise StoreError(_("Only a book that is a file can be looked over."))
    if (not path.exists() or path.stat().st_size == 0) and not _pending(path):
        if newest_backup(place):
            raise damaged(place, _("is missing or empty, although there are backups of it"))
        return Look(None)
    try:
        return look_over(path, wait)
    except sqlite3.DatabaseError as error:
        code = getattr(error, "sqlite_errorname", "") or ""
        if code.startswith(("SQLITE_CORRUPT", "SQLITE_NOTADB")):
            raise damaged(place, _("is damaged")) from None
        raise


def look_over(path: Path, wait: float) -> Look:
    """Check every page, link and seal of a file; sqlite3.DatabaseError (SQLITE_CORRUPT) if one fails.

    A trigger or a view is none of ours, and would act on what we write: it is damage, too.
    """
    with closing(sqlite3.connect(path, timeout=wait, isolation_level=None)) as line:
        line.text_factory = lambda raw: raw.decode(errors="replace")
        schema = _schema(line, path)
        verdict = line.execute("PRAGMA integrity_check(1)").fetchone()[0]
        if verdict != "ok" or any(line.execute(one).fetchone() for one in _STRAY):
            raise _corrupt()
        if schema == HEAD and not all(
            _seals_hold(line, one) for one in Base.metadata.sorted_tables
        ):
            raise _corrupt()
        return Look(schema)


_STRAY = (
    "PRAGMA foreign_key_check",
    "SELECT name FROM sqlite_master WHERE type NOT IN ('table', 'index')",
)


def _corrupt() -> sqlite3.DatabaseError:
    fault = sqlite3.DatabaseError("integrity")
    fault.sqlite_errorname = "SQLITE_CORRUPT"
    return fault


def _seals_hold(line: sqlite3.Connection, table: Table) -> bool:
    names = ", ".join(one.name for one in sealed(table))
    rows = line.execute(f"SELECT seal, {names} FROM {table.name}")
    return all(seal == seal_of(table.name, values) for seal, *values in rows)


def newest_backup(place: BookPlace) -> Path | None:
    """The newest automatic backup of a book, if there is any."""
    found = automatic_backups(place)
    return found[-1] if found else None


def automatic_backups(place: BookPlace) -> list[Path]:
    """The automatic backups of a book, oldest first."""
    if place.path is None or place.backups is None or not place.backups.is_dir():
        return []
    return sorted(
        place.backups.glob(f"{place.path.stem}-*Z.sqlite"),
        key=lambda one: (order_made(one), one.name),
    )


def order_made(backup: Path) -> int:
    """The how manieth automatic backup this is, from its name; 0 for those not yet numbered.

    The day in the name says nothing of the order: clocks go wrong.
    """
    found = re.search(r"-(\d{6,})-\d{8}T[\d.]+Z$", backup.stem)
    return int(found[1]) if found else 0


def damaged_copies(place: BookPlace) -> list[Path]:
    """Damaged books that a restore has put aside."""
    if place.path is None:
        return []
    return sorted(place.path.parent.glob(f"{place.path.stem}-damaged-*{place.path.suffix}"))


def forgetting_mark(place: BookPlace) -> Path | None:
    """The mark that stands beside a book while a client is being wiped out of it."""
    return place.path.with_name(f"{place.path.name}-forgetting") if place.path else None


def made_when(backup: Path) -> datetime | None:
    """The moment an automatic backup was made, from its name."""
    try:
        return datetime.strptime(backup.stem.rsplit("-", 1)[-1], STAMP).replace(tzinfo=UTC)
    except ValueError:
        return None


def damaged(place: BookPlace, what: str) -> DamagedBookError:
    """The error that tells what is wrong and how to come back to the newest backup."""
    backup = newest_backup(place)
    lines = [_("The book {book} {what}. Nothing was changed.").format(book=place.shown, what=what)]
    if backup is None:
        lines.append(
            _(
                "There is no automatic backup beside it. Restore a backup of your own with: "
                "cutwright book restore FILE. To begin an empty book instead, move the file away."
            )
        )
    else:
        when = made_when(backup)
        lines.append(
            _(
                "The newest automatic backup is of {when}. Restore it with: "
                'cutwright book restore "{backup}". The damaged file is kept beside it.'
            ).format(when=f"{when:%Y-%m-%d %H:%M} UTC" if when else "?", backup=backup)
        )
    return DamagedBookError("\n".join(lines), place.path, backup)


def _schema(line: sqlite3.Connection, path: Path) -> str | None:
    names = {
        row[0]
        for row in line.execute("SELECT name FROM sqlite_master WHERE type = 'table'").fetchall()
    }
    if VERSION_TABLE in names:
        row = line.execute(f"SELECT version_num FROM {VERSION_TABLE}").fetchone()
        return str(row[0]) if row else None
    if names:
        raise StoreError(
            _(
                "The file {path} is a database, but not a Cutwright book; choose another name."
            ).format(path=path)
        )
    return None


def _pending(path: Path) -> bool:
    """Whether a log beside the file still holds what was written."""
    log = path.with_name(path.name + "-wal")
    return path.exists() and log.exists() and log.stat().st_size > 0
