"""Documents that are known are handed out without asking again, and never once somebody else has written."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import event

from cutwright.book import documents, history
from cutwright.book.book import Book
from cutwright.book.errors import ConflictError, NotInBookError
from cutwright.book.nouns import DocumentKind
from cutwright.book.opening import open_book
from cutwright.errors import StoreError
from tests.book.samples import style


@contextmanager
def questions(book: Book) -> Iterator[list[str]]:
    """The statements that go to the database meanwhile."""
    asked: list[str] = []

    def note(_line: Any, _cursor: Any, statement: str, *_rest: Any) -> None:
        asked.append(statement)

    event.listen(book.engine, "before_cursor_execute", note)
    try:
        yield asked
    finally:
        event.remove(book.engine, "before_cursor_execute", note)


def test_what_is_known_is_not_asked_again(file_book: Book) -> None:
    ident = documents.add(file_book, DocumentKind.STYLE, style()).id
    documents.get(file_book, ident)
    with questions(file_book) as asked:
        documents.get(file_book, ident)
        history.stay_at(file_book, ident)
    assert asked == []
    documents.save(file_book, ident, style(5), base=1)
    with questions(file_book) as asked:
        found = documents.get(file_book, ident)
        assert (found.revision, found.content) == (2, style(5))
    assert asked == []
    with questions(file_book) as asked:
        documents.save(file_book, ident, style(6), base=2)
    assert [each.split()[0] for each in asked] == ["BEGIN", "INSERT", "UPDATE", "INSERT"]


def test_what_another_hand_writes_is_seen_at_once(address: str) -> None:
    with open_book(address) as one, open_book(address) as other:
        ident = documents.add(one, DocumentKind.STYLE, style()).id
        for number in range(1, 6):
            assert documents.get(one, ident).revision == number
            saved = documents.save(other, ident, style(4 + number), base=number, group="g")
            assert documents.get(one, ident) == saved
            with pytest.raises(ConflictError) as told:
                documents.save(one, ident, style(40), base=number)
            assert told.value.theirs == style(4 + number)
        assert documents.get(one, ident).content == style(9)
        history.undo(other, ident, base=6)
        assert (documents.get(one, ident).revision, history.stay_at(one, ident)) == (1, None)
        documents.destroy(other, ident)
        with pytest.raises(NotInBookError):
            documents.get(one, ident)
        with pytest.raises(NotInBookError):
            documents.save(one, ident, style(7), base=1)


def test_what_this_book_writes_by_other_ways_is_seen_at_once(book: Book) -> None:
    ident = documents.add(book, DocumentKind.STYLE, style()).id
    documents.save(book, ident, style(5), base=1)
    assert history.undo(book, ident, base=2) == documents.get(book, ident)
    assert documents.get(book, ident).can_redo
    assert history.redo(book, ident, base=1) == documents.get(book, ident)
    assert history.bring_back(book, ident, 1, base=2) == documents.get(book, ident)
    documents.set_aside(book, ident)
    assert documents.get(book, ident).entry.set_aside
    documents.save(book, ident, style(6), base=3)
    assert documents.get(book, ident).entry.set_aside


def test_a_bare_hand_on_the_file_is_seen_between_two_saves(
    file_book: Book, file_address: Path
) -> None:
    ident = documents.add(file_book, DocumentKind.STYLE, style()).id
    documents.save(file_book, ident, style(5), base=1)
    with sqlite3.connect(file_address) as bare:
        bare.execute("UPDATE document SET current = 1 WHERE id = ?", [ident])
    with pytest.raises(ConflictError):
        documents.save(file_book, ident, style(6), base=2)
    assert documents.get(file_book, ident).content == style()


def test_what_was_handed_out_may_be_written_in(book: Book) -> None:
    ident = documents.add(book, DocumentKind.STYLE, style()).id
    documents.get(book, ident).content["steps"].clear()
    documents.save(book, ident, style(5), base=1).content["steps"].clear()
    assert documents.get(book, ident).content == style(5)


def test_a_save_that_fails_leaves_nothing_known_that_is_not_there(
    file_book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    ident = documents.add(file_book, DocumentKind.STYLE, style()).id
    documents.get(file_book, ident)

    def full(*_given: Any) -> None:
        raise sqlite3.OperationalError("database or disk is full")

    for place in ("do_commit", "do_execute"):
        with monkeypatch.context() as patch:
            patch.setattr(file_book.engine.dialect, place, full)
            with pytest.raises(StoreError):
                documents.save(file_book, ident, style(5), base=1)
        assert documents.get(file_book, ident).content == style()
    assert documents.save(file_book, ident, style(6), base=1).revision == 2
