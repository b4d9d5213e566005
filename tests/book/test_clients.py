"""Clients, their measures over the years, and forgetting them."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from sqlalchemy import text

from cutwright.book import (
    backup,
    clients,
    documents,
    fittings,
    forgetting,
    measures,
    orders,
    search,
)
from cutwright.book.book import Book
from cutwright.book.errors import ConflictError, NotInBookError
from cutwright.book.nouns import DocumentKind
from cutwright.book.opening import open_book
from cutwright.errors import StoreError
from tests.book.samples import body, full_order, style


def test_a_client_is_entered_changed_and_listed_by_name(book: Book) -> None:
    second = clients.add(book, "  zara of the mill ")
    first = clients.add(book, "Émile", contact="stall 4")
    changed = clients.change(book, second.id, base=1, notes="left shoulder lower")
    assert (changed.name, changed.notes, changed.version) == (
        "zara of the mill", "left shoulder lower", 2,
    )  # fmt: skip
    assert [one.id for one in clients.listed(book)] == [first.id, second.id]
    assert clients.get(book, second.id) == changed


def test_two_hands_on_one_client(book: Book) -> None:
    made = clients.add(book, "Ilse")
    clients.change(book, made.id, base=1, contact="first hand")
    with pytest.raises(ConflictError) as refused:
        clients.change(book, made.id, base=1, contact="second hand")
    assert refused.value.mine["contact"] == "second hand"
    assert refused.value.theirs["contact"] == "first hand"
    assert clients.get(book, made.id).contact == "first hand"


@pytest.mark.parametrize("name", ["", "   ", "a\x00b", "\udc80", "x" * 20_000])
def test_a_name_that_is_none_is_refused(book: Book, name: str) -> None:
    with pytest.raises(StoreError):
        clients.add(book, name)
    assert clients.listed(book) == []


def test_measures_are_followed_from_date_to_date(book: Book) -> None:
    client = clients.add(book, "Ilse")
    later = body(waist=76.0, wrist=16.0) | {"measured_on": "2033-01-01"}
    documents.add(book, DocumentKind.BODY, later, client_id=client.id)
    documents.add(book, DocumentKind.BODY, body(), client_id=client.id)
    undated = body(waist=70.0) | {"measured_on": None}
    documents.add(book, DocumentKind.BODY, undated, client_id=client.id, dated=date(2029, 1, 1))
    documents.add(book, DocumentKind.BODY, body(waist=1), client_id=clients.add(book, "Other").id)
    first, second = measures.changes(book, client.id)
    assert [one.dated for one in measures.measure_sets(book, client.id)] == [
        date(2029, 1, 1), date(2031, 3, 14), date(2033, 1, 1),
    ]  # fmt: skip
    assert [(one.place, one.by) for one in first.changes] == [(("waist",), 4.5)]
    assert [(one.place, one.how.value, one.by) for one in second.changes] == [
        (("waist",), "changed", 1.5), (("wrist",), "added", None),
    ]  # fmt: skip


def test_a_forgotten_client_leaves_nothing_behind(book: Book) -> None:
    client, order = full_order(book, "Quillfeather")
    kept, _other = full_order(book, "Moss")
    fitting = fittings.note(book, order.id, "Quillfeather stands straighter")
    assert order.style is not None
    proposed = fittings.propose(book, fitting.id, order.style.document_id, style(9), base=1)
    fittings.accept(book, proposed.id)

    gone = forgetting.forget(book, client.id)

    assert (gone.measure_sets, gone.orders, gone.swept) == (1, 1, True)
    assert [one.id for one in clients.listed(book)] == [kept.id]
    assert search.find(book, "quillfeather") == []
    with pytest.raises(NotInBookError):
        orders.get(book, order.id)
    assert documents.get(book, order.style.document_id).content == style(9)
    assert len(orders.listed(book)) == 1


def test_not_a_byte_of_a_forgotten_client_stays_in_the_folder(file_book: Book) -> None:
    full_order(file_book, "Moss")
    client, _order = full_order(file_book, "Quillfeather")
    documents.add(
        file_book, DocumentKind.BODY, body() | {"name": "Quillfeather"}, client_id=client.id
    )
    backup.keep_backup(file_book, even_if_recent=True)
    assert file_book.place.path
    folder = file_book.place.path.parent
    assert _files_with(folder, b"Quillfeather")

    gone = forgetting.forget(file_book, client.id)

    assert (gone.backups, gone.swept, gone.copies) == (1, True, ())
    assert _files_with(folder, b"Quillfeather") == []
    assert _files_with(folder, b"quillfeather") == []
    assert len(_files_with(folder, b"Moss")) == 2, "the book and one fresh backup"


def test_a_sweep_waits_for_nobody_for_ever(
    file_book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(forgetting, "WAIT", 0.2)
    client = clients.add(file_book, "Quillfeather")
    with open_book(file_book.place.path) as other, other.writing() as held:
        held.execute(text("SELECT 1"))
        assert forgetting.sweep(file_book) is False
    assert forgetting.sweep(file_book) is True
    assert clients.get(file_book, client.id) == client


def _files_with(folder: Path, text: bytes) -> list[Path]:
    return [one for one in folder.rglob("*") if one.is_file() and text in one.read_bytes()]


def test_a_forgetting_that_was_cut_off_is_finished_at_the_next_opening(
    file_book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    client, _order = full_order(file_book, "Quillfeather")
    backup.keep_backup(file_book, even_if_recent=True)
    path = file_book.place.path
    assert path

    def killed(_book: Book) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(forgetting, "finish", killed)
    with pytest.raises(KeyboardInterrupt):
        forgetting.forget(file_book, client.id)
    monkeypatch.undo()
    assert _files_with(path.parent, b"Quillfeather"), "still in the backup"
    file_book.close()

    with open_book(path) as again:
        assert clients.listed(again) == []
        assert _files_with(path.parent, b"Quillfeather") == []
    assert not list(path.parent.glob("*-forgetting"))
