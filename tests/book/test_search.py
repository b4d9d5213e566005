"""Finding things again."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cutwright.book import clients, documents, fittings, search
from cutwright.book.book import Book
from cutwright.book.fold import fold
from cutwright.book.nouns import DocumentKind
from tests.book.samples import cloth, full_order, style


@pytest.mark.parametrize(
    ("written", "typed"),
    [
        ("Brackenridge", "BRACKEN"),
        ("Ελένη Ψαρού", "ΕΛΕΝΗ"),
        ("ΟΔΥΣΣΕΥΣ", "οδυσσευς"),
        ("Ольга Ёлкина", "ЕЛКИНА оль"),
        ("Zoë Straße", "zoe STRASSE"),
        ("50 % off_season!", "50 % f_s n!"),
        ("back\\slash", "K\\s"),
    ],
)
def test_a_client_is_found_however_typed(book: Book, written: str, typed: str) -> None:
    made = clients.add(book, written)
    clients.add(book, "Somebody else")
    assert [hit.id for hit in search.find(book, typed)] == [made.id]


def test_signs_with_a_meaning_in_sql_stand_for_themselves(book: Book) -> None:
    clients.add(book, "Somebody else")
    for sign in ("%", "_", "!", "\\", "'", "--"):
        assert search.find(book, sign) == []


def test_documents_are_found_by_title_notes_and_whose_they_are(book: Book) -> None:
    client, order = full_order(book, "Quillfeather")
    fitting = fittings.note(book, order.id, "Hem dips at the back")
    assert {hit.what for hit in search.find(book, "quill")} == {"client", "body", "order"}
    (wool,) = search.find(book, "WINTER sale")
    assert (wool.what, wool.title, wool.client_name) == ("cloth", cloth()["name"], None)
    (mine,) = search.find(book, "spring quillfeather")
    assert (mine.id, mine.client_id) == (order.id, client.id)
    (seen,) = search.find(book, "hem DIPS")
    assert (seen.what, seen.id, seen.client_name) == ("fitting", fitting.id, "Quillfeather")


def test_a_title_that_changed_is_found_under_the_new_one(book: Book) -> None:
    made = documents.add(book, DocumentKind.STYLE, style())
    documents.save(book, made.id, style() | {"name": "Bittern coat"}, base=1)
    assert search.find(book, "heron") == []
    assert [hit.id for hit in search.find(book, "bittern")] == [made.id]


def test_nothing_typed_finds_nothing_and_much_is_cut_short(book: Book) -> None:
    for number in range(4):
        clients.add(book, f"Ilse {number}")
    assert search.find(book, " \t ") == []
    assert [hit.title for hit in search.find(book, "ilse", most=2)] == ["Ilse 3", "Ilse 2"]


@pytest.mark.parametrize("typed", ["a\x00b", "\ud800", "x" * 100_000, "z " * 9000])
def test_odd_input_is_answered(book: Book, typed: str) -> None:
    clients.add(book, "Somebody else")
    assert search.find(book, typed) == []


@given(st.text())
def test_folding_forgets_case_and_is_done_after_one_go(text: str) -> None:
    assert fold(text.upper()) == fold(text.upper().lower())
    assert fold(fold(text)) == fold(text)
