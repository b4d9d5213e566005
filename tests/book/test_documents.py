"""Documents and their revisions."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from cutwright.book import documents
from cutwright.book.book import Book
from cutwright.book.errors import ConflictError, NotInBookError
from cutwright.book.nouns import DocumentKind
from cutwright.book.opening import open_book
from cutwright.errors import StoreError
from tests.book.samples import body, cloth, style


def test_a_document_comes_back_as_it_was_saved(book: Book) -> None:
    content = style() | {
        "about": "Ελένη’s favourite \u0000 \U0001faa1",
        "deep": [[[1, 2.5, None]]],
    }
    made = documents.add(book, DocumentKind.STYLE, content)
    assert documents.get(book, made.id).content == content
    assert (made.entry.title, made.revision, made.can_undo) == ("Heron skirt", 1, False)


def test_a_book_on_the_disk_is_there_when_opened_again(address: str) -> None:
    with open_book(address) as first:
        made = documents.add(first, DocumentKind.BODY, body())
    with open_book(address) as again:
        found = documents.get(again, made.id)
    assert found == made
    assert found.entry.dated == date(2031, 3, 14)


def test_every_save_is_a_revision_that_never_changes(book: Book) -> None:
    made = documents.add(book, DocumentKind.STYLE, style(1))
    for ease in (2, 3, 4):
        made = documents.save(
            book, made.id, style(ease), base=made.revision, group="drag", label=f"ease {ease}"
        )
    found = documents.revisions(book, made.id)
    assert [(one.number, one.parent, one.label) for one in found] == [
        (1, None, ""), (2, 1, "ease 2"), (3, 2, "ease 3"), (4, 3, "ease 4"),
    ]  # fmt: skip
    assert [documents.at(book, made.id, n)["steps"][0]["ease"] for n in (1, 2, 3, 4)] == [
        1,
        2,
        3,
        4,
    ]


def test_a_stale_save_is_refused_with_both_documents(book: Book) -> None:
    made = documents.add(book, DocumentKind.STYLE, style(1))
    documents.save(book, made.id, style(2), base=1)
    with pytest.raises(ConflictError, match="revision 1, the book now holds revision 2") as refused:
        documents.save(book, made.id, style(3), base=1)
    assert (refused.value.mine, refused.value.theirs) == (style(3), style(2))
    assert (refused.value.base, refused.value.current) == (1, 2)
    assert documents.get(book, made.id).content == style(2)
    assert len(documents.revisions(book, made.id)) == 2


def test_saving_the_same_again_adds_nothing_and_is_no_conflict(book: Book) -> None:
    made = documents.add(book, DocumentKind.STYLE, style(1))
    documents.save(book, made.id, style(2), base=1)
    repeated = documents.save(book, made.id, dict(reversed(style(2).items())), base=1)
    assert repeated.revision == 2
    assert len(documents.revisions(book, made.id)) == 2


def test_true_is_not_one(book: Book) -> None:
    made = documents.add(book, DocumentKind.CLOTH, cloth() | {"folded": 1})
    assert documents.save(book, made.id, cloth() | {"folded": True}, base=1).revision == 2


def test_the_title_follows_the_document(book: Book) -> None:
    made = documents.add(book, DocumentKind.CLOTH, {"width": 140}, title="remnant")
    assert made.entry.title == "remnant"
    named = documents.save(book, made.id, {"width": 140, "name": "Ivory crêpe"}, base=1)
    assert named.entry.title == "Ivory crêpe"


def test_the_index_lists_by_kind_and_leaves_out_what_was_set_aside(book: Book) -> None:
    first = documents.add(book, DocumentKind.STYLE, style(1))
    second = documents.add(book, DocumentKind.STYLE, style(2))
    documents.add(book, DocumentKind.CLOTH, cloth())
    assert [one.id for one in documents.entries(book, DocumentKind.STYLE)] == [second.id, first.id]
    assert documents.set_aside(book, second.id).set_aside
    assert [one.id for one in documents.entries(book, DocumentKind.STYLE)] == [first.id]
    assert [one.id for one in documents.entries(book, set_aside=True)] == [second.id]
    assert not documents.set_aside(book, second.id, aside=False).set_aside
    assert len(documents.entries(book)) == 3


def test_a_duplicate_begins_where_the_other_stands_and_goes_its_own_way(book: Book) -> None:
    made = documents.add(book, DocumentKind.STYLE, style(1))
    made = documents.save(book, made.id, style(2), base=1)
    twin = documents.duplicate(book, made.id, "Heron skirt, long")
    documents.save(book, twin.id, style(9), base=1)
    assert twin.content == style(2) | {"name": "Heron skirt, long"}
    assert documents.get(book, made.id).content == style(2)


def test_two_revisions_are_compared_in_steps(book: Book) -> None:
    made = documents.add(book, DocumentKind.STYLE, style(1))
    documents.save(book, made.id, style(5), base=1)
    (step,) = documents.compare_revisions(book, made.id, 1, 2).steps
    assert [(one.place, one.before, one.after, one.by) for one in step.fields] == [
        (("ease",), 1, 5, 4.0)
    ]


def test_a_destroyed_document_is_gone(book: Book) -> None:
    made = documents.add(book, DocumentKind.STYLE, style())
    documents.destroy(book, made.id)
    for ask in (documents.get, documents.revisions, documents.destroy):
        with pytest.raises(NotInBookError, match=made.id):
            ask(book, made.id)


@pytest.mark.parametrize(
    ("content", "words"),
    [
        ({"a": float("nan")}, "cannot be kept as JSON"),
        ({"a": {1, 2}}, "cannot be kept as JSON"),
        ({"a": 10**5000}, "cannot be kept as JSON"),
        ({"a": "x" * 3_000_000}, "at most"),
        ([1, 2], "must be a JSON object"),
    ],
)
def test_what_is_no_sound_document_is_refused(book: Book, content: Any, words: str) -> None:
    with pytest.raises(StoreError, match=words):
        documents.add(book, DocumentKind.STYLE, content)
    assert documents.entries(book) == []


def test_a_document_that_nests_too_deeply_is_refused(book: Book) -> None:
    deep: dict[str, Any] = {}
    for _level in range(5000):
        deep = {"in": deep}
    with pytest.raises(StoreError, match="nests more than"):
        documents.add(book, DocumentKind.STYLE, deep)


@pytest.mark.parametrize("ident", ["", "x" * 500, "' OR 1=1 --", "a\x00b", "\ud800"])
def test_a_number_that_is_none_is_answered_in_plain_words(book: Book, ident: str) -> None:
    with pytest.raises(StoreError):
        documents.get(book, ident)


@pytest.mark.parametrize("base", [0, -1, 2**31, 2**70])
def test_a_base_that_never_was_is_a_conflict_or_refused(book: Book, base: int) -> None:
    made = documents.add(book, DocumentKind.STYLE, style(1))
    with pytest.raises(StoreError):
        documents.save(book, made.id, style(2), base=base)
    assert documents.get(book, made.id).content == style(1)


def test_a_style_belongs_to_no_client_and_a_body_to_one_that_exists(book: Book) -> None:
    with pytest.raises(StoreError, match="belongs to the workshop"):
        documents.add(book, DocumentKind.STYLE, style(), client_id="0" * 32)
    with pytest.raises(NotInBookError, match="client"):
        documents.add(book, DocumentKind.BODY, body(), client_id="0" * 32)
    with pytest.raises(StoreError, match="placed"):
        documents.add(book, DocumentKind.ORDER, {})
