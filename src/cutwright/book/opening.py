"""Opening the book: where it lies is looked at first, then a backup is kept and what was left is finished."""

from __future__ import annotations

from pathlib import Path

from sqlalchemy import Engine

from cutwright.book.backup import keep_backup, keep_now
from cutwright.book.book import Book, Clock, now
from cutwright.book.database_errors import database_errors, explained
from cutwright.book.dump import read_tables
from cutwright.book.engine import WAIT, make_engine
from cutwright.book.forgetting import finish
from cutwright.book.health import check_file, forgetting_mark
from cutwright.book.migrations import HEAD
from cutwright.book.place import BookPlace, find_place, prepare_file
from cutwright.book.schema import bring_up_to_date, must_be_known
from cutwright.book.scraps import clear_scraps
from cutwright.book.soundness import altered
from cutwright.errors import StoreError


def open_book(
    where: str | Path | None = None, *, clock: Clock = now, wait: float = WAIT, keep: bool = True
) -> Book:
    """Open the workshop's book, making it if there is none yet.

    Parameters
    ----------
    where : a file, an address such as postgresql://user@host/name, or None for the user's own
        folder
    clock : what tells the time
    wait : how long to wait for another program that is writing, in seconds
    keep : whether to keep an automatic backup when the last one is a day old

    Errors
    ------
    DamagedBookError, NewerBookError, or StoreError for a place that cannot be used.
    """
    place = find_place(where)
    with database_errors(place):
        if place.path is not None:
            _look_first(place, wait)
        book = Book(place, _engine(place, wait), clock)
    try:
        with database_errors(place):
            if keep:
                keep_if_due(book)
            bring_up_to_date(book.engine)
            if keep:
                _finish_forgetting(book)
                _look_after(book)
    except BaseException:
        book.close()
        raise
    return book


def _look_first(place: BookPlace, wait: float) -> None:
    """Check a file before anything may write to it."""
    assert place.path is not None
    clear_scraps(place)
    found = check_file(place, wait)
    must_be_known(found.schema)
    prepare_file(place.path)
    if found.schema is not None and found.schema != HEAD:
        keep_now(place, now())


def _look_after(book: Book) -> None:
    """Look for rows that were altered on a server; of a file every seal was looked at before it was opened.

    A server keeps no backups of ours that one could go back to, so that it is told, and nobody is locked out.
    """
    if book.place.path is None:
        book.altered = altered(read_tables(book))


def _engine(place: BookPlace, wait: float) -> Engine:
    try:
        return make_engine(place, wait)
    except ImportError as error:
        raise explained(error, place) from None


def keep_if_due(book: Book) -> None:
    """Keep a daily backup; one that cannot be kept is told in `no_backup`, and the book goes on."""
    try:
        keep_backup(book)
        book.no_backup = None
    except StoreError as error:
        book.no_backup = error


def _finish_forgetting(book: Book) -> None:
    """Finish wiping out a client where a kill came between."""
    mark = forgetting_mark(book.place)
    if mark is not None and mark.exists():
        finish(book)
