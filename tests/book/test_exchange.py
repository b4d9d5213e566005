"""Documents and clients on their way to another book."""

from __future__ import annotations

import copy
import json
import shutil
import tracemalloc
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from cutwright.book import (
    clients,
    documents,
    exchange,
    fittings,
    forgetting,
    history,
    measures,
    orders,
)
from cutwright.book.book import Book
from cutwright.book.nouns import CorrectionState, DocumentKind, OrderState
from cutwright.book.opening import open_book
from cutwright.errors import DocumentError, StoreError
from tests.book.samples import body, full_order, style


def any_content(kind: DocumentKind, content: object) -> None:
    """These tests are about the book; what stands in a document is not looked at."""


def test_a_document_goes_out_and_comes_in(book: Book, tmp_path: Path) -> None:
    made = documents.add(book, DocumentKind.STYLE, style())
    path = tmp_path / exchange.file_name(made.entry)
    exchange.export_document(book, made.id, path)
    assert json.loads(path.read_text()) == style()
    again = exchange.import_document(book, DocumentKind.STYLE, path)
    assert again.content == style()
    assert again.id != made.id


def test_a_file_name_tells_nothing_unless_asked(book: Book) -> None:
    made = documents.add(book, DocumentKind.BODY, body() | {"name": "Ελένη / Quill"})
    assert exchange.file_name(made.entry) == f"body-{made.id[:8]}.json"
    assert exchange.file_name(made.entry, named=True) == "body-ελενη-quill.json"


def history_of_a_client(book: Book) -> str:
    client, order = full_order(book, "Quillfeather")
    assert order.body is not None
    assert order.style is not None
    note = fittings.note(book, order.id, "waist too tight")
    for document_id, content in (
        (order.body.document_id, body(waist=76.0)), (order.style.document_id, style(5)),
    ):  # fmt: skip
        wish = fittings.propose(book, note.id, document_id, content, base=1, why="let out")
        fittings.accept(book, wish.id)
    documents.save(book, order.body.document_id, body(waist=80.0), base=2)
    history.undo(book, order.body.document_id, base=3)
    orders.move(book, order.id, OrderState.FITTED, base=1)
    return client.id


def test_a_client_goes_out_and_comes_in_whole(book: Book, tmp_path: Path) -> None:
    ident = history_of_a_client(book)
    exchange.export_client(book, ident, tmp_path / "client.json")

    came = exchange.import_client(book, tmp_path / "client.json", any_content)

    assert came.left_out == 0
    assert (came.client.name, came.client.contact) == ("Quillfeather", "by the bridge")
    (mine,) = measures.measure_sets(book, came.client.id)
    (theirs,) = measures.measure_sets(book, ident)
    assert mine.id != theirs.id
    assert documents.get(book, mine.id).content == body(waist=76.0)
    assert [one.made_at for one in documents.revisions(book, mine.id)] == [
        one.made_at for one in documents.revisions(book, theirs.id)
    ]
    (line,) = orders.listed(book, client_id=came.client.id)
    order = orders.get(book, line.entry.id)
    assert order.state is OrderState.FITTED
    assert order.frozen["body"] == body()
    assert order.body is not None
    assert order.body.document_id == mine.id
    (fitting,) = fittings.of_order(book, order.id)
    assert [(one.state, one.revision) for one in fitting.corrections] == [
        (CorrectionState.ACCEPTED, 2)
    ] * 2
    forgetting.forget(book, came.client.id)
    assert documents.get(book, theirs.id).content == body(waist=76.0)


def test_in_another_book_links_to_styles_and_cloths_are_left_out(
    book: Book, tmp_path: Path
) -> None:
    ident = history_of_a_client(book)
    exchange.export_client(book, ident, tmp_path / "client.json")
    with open_book(tmp_path / "other.sqlite") as other:
        came = exchange.import_client(other, tmp_path / "client.json", any_content)
        (line,) = orders.listed(other)
        order = orders.get(other, line.entry.id)
    assert came.left_out == 3
    assert (order.style, order.cloths, order.frozen["style"]) == (None, (), style())


def test_without_a_name_nothing_about_the_person_is_written(book: Book, tmp_path: Path) -> None:
    client = clients.add(book, "Quillfeather", contact="by the bridge", notes="likes pockets")
    documents.add(book, DocumentKind.BODY, body() | {"name": "figure 12"}, client_id=client.id)
    exchange.export_client(book, client.id, tmp_path / "client.json", with_name=False)
    written = (tmp_path / "client.json").read_text()
    assert not any(word in written for word in ("Quillfeather", "bridge", "pockets"))
    assert (
        exchange.import_client(book, tmp_path / "client.json", any_content).client.name == "unnamed"
    )


@pytest.fixture(scope="module")
def client_file(blank: Path, tmp_path_factory: pytest.TempPathFactory) -> Any:
    """A sound client file, as JSON."""
    folder = tmp_path_factory.mktemp("client")
    with open_book(shutil.copy(blank, folder), keep=False) as book:
        exchange.export_client(book, history_of_a_client(book), folder / "client.json")
    return json.loads((folder / "client.json").read_text())


def _set(*path: str | int, value: Any) -> Callable[[Any], None]:
    def harm(file: Any) -> None:
        for key in path[:-1]:
            file = file[key]
        file[path[-1]] = value

    return harm


@pytest.mark.parametrize(
    "harm",
    [
        _set("format", value=2),
        _set("client", value="Ilse"),
        _set("client", "name", value="\ud800"),
        _set("client", "name", value="x" * 50_000),
        _set("documents", 0, "current", value=77),
        _set("documents", 0, "current", value=2**80),
        _set("documents", 0, "kind", value="style"),
        _set("documents", 0, "id", value="x" * 99),
        _set("documents", 0, "revisions", 0, "made_at", value="yesterday"),
        _set("documents", 0, "revisions", 0, "number", value=2),
        _set("documents", 1, "order", value=None),
        _set("documents", 1, "order", "state", value="lost"),
        _set("fittings", 0, "order", value="nowhere"),
        _set("fittings", 0, "note", value="a\x00b"),
        lambda file: file["documents"].append(file["documents"][0]),
        lambda file: file.update(surprise=1),
    ],
)
def test_a_hostile_client_file_is_refused_whole(
    file_book: Book, tmp_path: Path, client_file: Any, harm: Callable[[Any], None]
) -> None:
    file = copy.deepcopy(client_file)
    harm(file)
    (tmp_path / "harmed.json").write_text(json.dumps(file))
    with pytest.raises((DocumentError, StoreError)):
        exchange.import_client(file_book, tmp_path / "harmed.json", any_content)
    assert clients.listed(file_book) == []
    assert documents.entries(file_book) == []


def test_what_a_fitting_proposed_is_looked_at_with_its_place(
    file_book: Book, tmp_path: Path, client_file: Any
) -> None:
    """Whoever reads documents may refuse it, as any body or style that comes in."""
    file = copy.deepcopy(client_file)
    wish = file["fittings"][0]["corrections"][0]
    wish["proposed"] = {**wish["proposed"], "name": "of no one"}
    (tmp_path / "client.json").write_text(json.dumps(file))

    def refuse(kind: DocumentKind, content: Any) -> None:
        if content.get("name") == "of no one":
            raise DocumentError(kind.value, [("name", "not this one")])

    with pytest.raises(DocumentError, match="not this one"):
        exchange.import_client(file_book, tmp_path / "client.json", refuse)
    assert clients.listed(file_book) == []


@pytest.mark.parametrize("text", ["", "{", "[" * 200_000, "[1]", '"x"', "\xff"])
def test_what_is_no_document_is_refused(file_book: Book, tmp_path: Path, text: str) -> None:
    path = tmp_path / "file.json"
    path.write_bytes(text.encode("latin-1"))
    with pytest.raises(DocumentError, match=r"file\.json"):
        exchange.import_document(file_book, DocumentKind.STYLE, path)
    with pytest.raises(DocumentError, match=r"file\.json"):
        exchange.import_client(file_book, path, any_content)
    with pytest.raises(StoreError):
        exchange.import_client(file_book, tmp_path / "missing.json", any_content)


def test_a_file_cannot_reach_into_another_clients_measures(file_book: Book, tmp_path: Path) -> None:
    victim = documents.add(
        file_book, DocumentKind.BODY, body(), client_id=clients.add(file_book, "Victim").id
    )
    ident = history_of_a_client(file_book)
    exchange.export_client(file_book, ident, tmp_path / "client.json")
    file = json.loads((tmp_path / "client.json").read_text())
    file["documents"][1]["order"]["body"] = {"document": victim.id, "revision": 1}
    file["fittings"][0]["corrections"][0] |= {"document": victim.id, "base": 1, "state": "proposed"}
    (tmp_path / "client.json").write_text(json.dumps(file))
    came = exchange.import_client(file_book, tmp_path / "client.json", any_content)
    assert came.left_out == 2
    assert orders.used_by(file_book, victim.id) == []


def test_a_document_that_could_not_be_read_afterwards_is_refused(
    file_book: Book, tmp_path: Path, client_file: Any
) -> None:
    seen: list[tuple[DocumentKind, object]] = []

    def check(kind: DocumentKind, content: object) -> None:
        seen.append((kind, content))
        if isinstance(content, dict) and content.get("measures", {}).get("waist") == 80.0:
            raise StoreError("unreadable")

    (tmp_path / "client.json").write_text(json.dumps(client_file))
    with pytest.raises(DocumentError, match="documents 1, revisions 3: unreadable"):
        exchange.import_client(file_book, tmp_path / "client.json", check)
    assert {kind for kind, _content in seen} == {
        DocumentKind.BODY,
        DocumentKind.STYLE,
        DocumentKind.CLOTH,
    }
    assert clients.listed(file_book) == []


@pytest.mark.parametrize(
    ("part", "count"),
    [("documents", 300_000), ("fittings", 300_000), ("documents", 6_000_000)],
)
def test_a_file_of_too_many_things_is_refused_in_little_memory(
    file_book: Book, tmp_path: Path, client_file: Any, part: str, count: int
) -> None:
    text = json.dumps({**client_file, part: "HERE"}).replace('"HERE"', "[" + "0," * count + "0]")
    path = tmp_path / "client.json"
    path.write_text(text)
    tracemalloc.start()
    try:
        with pytest.raises(DocumentError) as told:
            exchange.import_client(file_book, path, any_content)
        assert tracemalloc.get_traced_memory()[1] < 20 * len(text)
    finally:
        tracemalloc.stop()
    assert len(told.value.problems) == 1
