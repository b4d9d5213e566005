"""Saying in plain words why the database refused, without quoting anything that was written."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager

from sqlalchemy.exc import DBAPIError, IntegrityError
from sqlalchemy.exc import TimeoutError as PoolTimeout

from cutwright.book.errors import BusyBookError, DamagedBookError
from cutwright.book.place import BookPlace
from cutwright.errors import CutwrightError, StoreError
from cutwright.words import N_, _

FULL = N_(
    "The disk that holds the book ({place}) is full: this change was not written, everything "
    "saved before is safe. Make room and save again."
)
READONLY = N_(
    "The book ({place}) cannot be written to: this change was not saved, everything saved before "
    "is safe. Check that the file and its folder belong to you and are not write-protected."
)
UNOPENED = N_(
    "The book ({place}) cannot be opened. Check that the file and its folder are there and may "
    "be read and written by you."
)
BUSY = N_(
    "Another program is holding the book ({place}): this change was not written. Try again in a "
    "moment, or close the other program."
)
DAMAGED = N_(
    "The book ({place}) is damaged. Close the program and open it again to see the backups."
)
DISK = N_(
    "The disk that holds the book ({place}) reports a fault ({code}): this change was not "
    "written. Check the disk, and make a backup elsewhere before anything else."
)
DANGLING = N_(
    "This change refers to something the book no longer holds, or would write it twice; nothing "
    "was written. Load it again and repeat the change."
)
UNREACHED = N_(
    "The database of the book ({place}) does not answer or closed the line ({code}): a change "
    "not yet confirmed may have to be repeated. Check that the server runs and the address is right."
)
OTHER = N_("The book ({place}) refused this ({code}); nothing was written.")

_SQLITE: tuple[tuple[str, str], ...] = (
    ("SQLITE_FULL", FULL),
    ("SQLITE_READONLY", READONLY),
    ("SQLITE_PERM", READONLY),
    ("SQLITE_AUTH", READONLY),
    ("SQLITE_CANTOPEN", UNOPENED),
    ("SQLITE_BUSY", BUSY),
    ("SQLITE_LOCKED", BUSY),
    ("SQLITE_CORRUPT", DAMAGED),
    ("SQLITE_NOTADB", DAMAGED),
    ("SQLITE_IOERR", DISK),
    ("SQLITE_CONSTRAINT", DANGLING),
)
_POSTGRES: tuple[tuple[str, str], ...] = (
    ("53100", FULL),
    ("25006", READONLY),
    ("42501", READONLY),
    ("40", BUSY),
    ("55P03", BUSY),
    ("53", BUSY),
    ("XX", DAMAGED),
    ("58", DISK),
    ("23", DANGLING),
    ("08", UNREACHED),
    ("28", UNREACHED),
    ("3D", UNREACHED),
    ("57", UNREACHED),
)


@contextmanager
def database_errors(place: BookPlace) -> Iterator[None]:
    """Turn what the database or the disk throws into a StoreError that a person can act on.

    The original is not chained: its text may quote what was written, and that is private.
    """
    try:
        yield
    except CutwrightError:
        raise
    except (DBAPIError, PoolTimeout, sqlite3.Error) as error:
        raise explained(error, place) from None
    except (OverflowError, UnicodeEncodeError):
        raise StoreError(
            _("A number or a text in this cannot be kept in the book; nothing was written.")
        ) from None
    except OSError as error:
        raise StoreError(
            _("The book ({place}) cannot be read or written: {reason}.").format(
                place=place.shown, reason=error.strerror or type(error).__name__
            )
        ) from None


def explained(error: Exception, place: BookPlace) -> StoreError:
    """The StoreError that says what this database error means."""
    if isinstance(error, ImportError):
        return StoreError(
            _("A book on a PostgreSQL server needs the package “psycopg”; install it first.")
        )
    if isinstance(error, PoolTimeout):
        return BusyBookError(_(BUSY).format(place=place.shown))
    cause = error.orig if isinstance(error, DBAPIError) else error
    text, code = _meaning(cause, isinstance(error, IntegrityError))
    message = _(text).format(place=place.shown, code=code)
    if text is BUSY:
        return BusyBookError(message)
    if text is DAMAGED:
        return DamagedBookError(message, place.path)
    return StoreError(message)


def _meaning(cause: BaseException | None, constraint: bool) -> tuple[str, str]:
    """The text for a fault and its code in the database's own naming."""
    if isinstance(cause, sqlite3.Error):
        code = getattr(cause, "sqlite_errorname", None) or type(cause).__name__
        table = _SQLITE
    else:
        code = getattr(cause, "sqlstate", None) or ""
        table = _POSTGRES
        if not code and type(cause).__name__ == "OperationalError":
            return UNREACHED, "no connection"
    for start, text in table:
        if code.startswith(start):
            return text, code
    return (DANGLING if constraint else OTHER), code or type(cause).__name__
