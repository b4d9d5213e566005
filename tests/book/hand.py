"""Another pair of hands on the book, in a process of its own that may be killed at any moment.

Every command is announced before it begins and acknowledged, with what came of it, once it is
done: one JSON line each.
"""

from __future__ import annotations

import json
import random
import sys
from typing import Any

from cutwright.book import clients, documents, fittings, forgetting, history, orders
from cutwright.book.book import Book
from cutwright.book.errors import ConflictError, NoFurtherError
from cutwright.book.nouns import DocumentKind, OrderState, Used
from cutwright.book.opening import open_book
from cutwright.errors import CutwrightError


def say(**words: Any) -> None:
    sys.stdout.write(json.dumps(words) + "\n")
    sys.stdout.flush()


def random_commands(book: Book, seed: int, count: int) -> None:
    """Do one thing after another to the book."""
    chance = random.Random(seed)
    for number in range(count):
        choice = chance.choice(
            [_add, _save, _save, _save, _save, _turn, _turn, _client, _order, _forget]
        )
        choice(book, chance, f"{seed}.{number}")
    say(end=True)


def add_marks(book: Book, ident: str, name: str, times: int) -> None:
    """Add marks to the list in a document, one by one, against all other hands."""
    for number in range(times):
        while True:
            found = documents.get(book, ident)
            content = {"marks": [*found.content["marks"], f"{name}{number}"]}
            try:
                documents.save(book, ident, content, base=found.revision, group="g")
                break
            except ConflictError:
                continue


def _add(book: Book, chance: random.Random, mark: str) -> None:
    say(about=None)
    made = documents.add(
        book, DocumentKind.STYLE, {"mark": mark, "much": "x" * chance.randrange(6000)}
    )
    say(id=made.id, revision=made.revision, content=made.content)


def _save(book: Book, chance: random.Random, mark: str) -> None:
    entries = documents.entries(book, DocumentKind.STYLE)
    if not entries:
        return _add(book, chance, mark)
    entry = chance.choice(entries)
    say(about=entry.id)
    content = {"mark": mark, "much": "y" * chance.randrange(6000)}
    made = documents.save(
        book, entry.id, content, base=entry.revision, group=chance.choice([None, "drag"])
    )
    return say(id=made.id, revision=made.revision, content=made.content)


def _turn(book: Book, chance: random.Random, mark: str) -> None:
    entries = documents.entries(book, DocumentKind.STYLE)
    if not entries:
        return _add(book, chance, mark)
    entry = chance.choice(entries)
    say(about=entry.id)
    turn = chance.choice([history.undo, history.redo])
    try:
        made = turn(book, entry.id, base=entry.revision)
    except NoFurtherError:
        return None
    return say(id=made.id, revision=made.revision, content=made.content)


def _client(book: Book, chance: random.Random, mark: str) -> None:
    say(about=None)
    made = clients.add(book, f"client {mark}")
    say(client=made.id, name=made.name)


def _order(book: Book, chance: random.Random, mark: str) -> None:
    found = clients.listed(book)
    if not found:
        return _client(book, chance, mark)
    client = chance.choice(found)
    say(about=client.id)
    body = documents.add(book, DocumentKind.BODY, {"mark": mark}, client_id=client.id)
    order = orders.place(book, {"mark": mark}, body=Used(body.id, 1))
    fittings.note(book, order.id, f"note {mark}")
    order = orders.move(book, order.id, OrderState.CUT, base=order.version)
    return say(order=order.id, whose=client.id, mark=mark)


def _forget(book: Book, chance: random.Random, mark: str) -> None:
    found = clients.listed(book)
    if len(found) < 4:
        return _client(book, chance, mark)
    client = chance.choice(found)
    say(about=client.id)
    forgetting.forget(book, client.id)
    return say(forgotten=client.id)


def main() -> None:
    what, address, *rest = sys.argv[1:]
    try:
        with open_book(address, wait=60) as book:
            if what == "random":
                random_commands(book, int(rest[0]), int(rest[1]))
            else:
                say(ready=True)
                sys.stdin.readline()
                add_marks(book, rest[0], rest[1], int(rest[2]))
    except CutwrightError as error:
        say(error=str(error))
        sys.exit(1)


if __name__ == "__main__":
    main()
