"""Mutated documents of every kind: read or refused in words, and what was taken in can be read again."""

from __future__ import annotations

import json
import tempfile
import time
from collections.abc import Callable, Iterable, Mapping
from pathlib import Path
from random import Random
from typing import Any

from cutwright.body.card import card_from
from cutwright.body.resolve import resolve
from cutwright.body.survey import read_survey
from cutwright.book import exchange, forgetting, orders
from cutwright.book.book import Book
from cutwright.book.dump import read_tables
from cutwright.book.nouns import DocumentKind
from cutwright.book.opening import open_book
from cutwright.book.restore import restore
from cutwright.book.seal import seal_of, sealed
from cutwright.book.tables import Base
from cutwright.checks.proof import BROKEN
from cutwright.desk.book.entering import checked_content
from cutwright.documents import parse_json
from cutwright.errors import CutwrightError
from cutwright.finish.read_document import read_document
from cutwright.style.document import parse_style
from cutwright.unforeseen import UnforeseenError
from cutwright.workshop.gallery import load_body, shipped
from cutwright.workshop.packet import document_of
from cutwright.workshop.work import work
from tests.attack.desk import Desk
from tests.attack.mutate import mutated
from tests.attack.tally import Tally

SAMPLE = Path(__file__).parents[1] / "survey" / "sample.csv"
Take = Callable[[bytes], None]
"""Takes a document in; CutwrightError when it is refused, AssertionError when something is wrong."""

SHARES = {
    "style": 25,
    "body": 20,
    "cloth": 15,
    "client": 15,
    "dump": 10,
    "survey": 10,
    "pattern": 5,
}
"""How many of a hundred documents are of which kind."""


class Papers:
    """The kinds of documents: sound ones to begin with, and how each is taken in."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.desk = Desk(folder / "book.sqlite")
        self.turn = 0
        self.takes: dict[str, Take] = {
            "style": self.style,
            "body": self.body,
            "cloth": self.cloth,
            "client": self.client,
            "dump": self.dump,
            "survey": self.survey,
            "pattern": self.pattern,
        }
        self.sound = self._sound()

    def style(self, raw: bytes) -> None:
        """A style: taken, it is worked on a body and drawn."""
        style = parse_style(parse_json(raw, "style"))
        again = parse_style(style.document())
        assert again.document() == style.document(), "a style is read back as another one"
        self.turn += 1
        done = work(style, load_body(("the-alto", "the-rower", "the-gardener")[self.turn % 3]))
        assert not isinstance(done.trouble, UnforeseenError), done.trouble
        assert not [one for one in done.findings if one.code == BROKEN]
        document_of(done)

    def body(self, raw: bytes) -> None:
        """A body card."""
        content = checked_content(DocumentKind.BODY, parse_json(raw, "body"))
        assert checked_content(DocumentKind.BODY, content) == content
        resolve(card_from(content))

    def cloth(self, raw: bytes) -> None:
        """A cloth."""
        content = checked_content(DocumentKind.CLOTH, parse_json(raw, "cloth"))
        assert checked_content(DocumentKind.CLOTH, content) == content

    def client(self, raw: bytes) -> None:
        """A client file: taken in, every page about her opens, and she can be exported again."""
        path = self.folder / "client.json"
        path.write_bytes(raw)
        book = self.desk.book
        ident = exchange.import_client(book, path, checked_content).client.id
        try:
            self.desk.pages_of_client(ident)
            exchange.export_client(book, ident, self.folder / "again.json")
            again = exchange.import_client(book, self.folder / "again.json", checked_content)
            forgetting.forget(book, again.client.id)
        finally:
            forgetting.forget(book, ident)

    def dump(self, raw: bytes) -> None:
        """A whole book as text: restored, it holds just what the text says and every page of it opens."""
        path, place = self.folder / "dump.json", self.folder / "restored" / "book.sqlite"
        path.write_bytes(raw)
        restore(path, place, check=checked_content)
        with open_book(place, keep=False) as book:
            held = read_tables(book)
        for name, rows in json.loads(raw)["tables"].items():
            assert _plain(held[name]) == _plain(rows), f"{name} silently altered"
        with Desk(place) as desk:
            desk.every_page()

    def survey(self, raw: bytes) -> None:
        """A table of measured bodies."""
        path = self.folder / "survey.csv"
        path.write_bytes(raw)
        for card in read_survey(path):
            resolve(card)

    def pattern(self, raw: bytes) -> None:
        """A pattern document, as another program would read it."""
        from pydantic import ValidationError

        value = parse_json(raw, "pattern")
        if not isinstance(value, dict):
            return
        try:
            read_document(value)
        except ValidationError as fault:
            raise CutwrightError("refused") from fault

    def _sound(self) -> dict[str, list[bytes]]:
        styles = [path.read_bytes() for path in shipped("styles").values()]
        done = work(parse_style(json.loads(styles[0])), load_body("the-alto"))
        book: Book = self.desk.book
        whose = orders.listed(book)[0].entry.client_id
        assert whose
        exchange.export_client(book, whose, self.folder / "sound.json")
        from cutwright.book.backup import back_up

        back_up(book, self.folder / "sound-dump.json")
        return {
            "style": styles,
            "body": [path.read_bytes() for path in shipped("bodies").values()],
            "cloth": [path.read_bytes() for path in shipped("cloths").values()],
            "client": [(self.folder / "sound.json").read_bytes()],
            "dump": [(self.folder / "sound-dump.json").read_bytes()],
            "survey": [b"\n".join(SAMPLE.read_bytes().splitlines()[:9]) + b"\n"],
            "pattern": [document_of(done).model_dump_json().encode()],
        }


def _plain(rows: Iterable[Mapping[str, Any]]) -> list[str]:
    """Rows to compare: a number may have been written in quotes."""
    return sorted(str([(name, _number(row[name])) for name in sorted(row)]) for row in rows)


def _number(value: Any) -> Any:
    try:
        return float(value)
    except (TypeError, ValueError, OverflowError):
        return value


def resealed(raw: bytes) -> bytes:
    """A dump whose every row has the seal that fits it, as somebody would write who knows how."""
    try:
        dump = json.loads(raw)
        for name, rows in dump["tables"].items():
            columns = [one.name for one in sealed(Base.metadata.tables[name])]
            for row in rows:
                row["seal"] = seal_of(name, [row.get(one) for one in columns])
        return json.dumps(dump).encode()
    except (ValueError, KeyError, TypeError, AttributeError):
        return raw


def try_one(tally: Tally, kind: str, take: Take, raw: bytes) -> None:
    """Take one document in and note how that ended."""
    began = time.perf_counter()
    try:
        take(raw)
        tally.count(f"{kind} taken")
    except (CutwrightError, MemoryError) as told:
        if isinstance(told, MemoryError | UnforeseenError):
            tally.stumbled(repr(told), kind, raw)
        tally.count(f"{kind} refused")
    except Exception as fault:
        tally.stumbled(f"{type(fault).__name__}: {fault}", kind, raw)
    tally.took(time.perf_counter() - began, kind)


def attack(count: int, seed: int, only: str = "") -> Tally:
    """So many mutated documents, of all kinds in their shares or of one kind."""
    tally, chance = Tally("documents"), Random(seed)
    kinds = [only] if only else list(SHARES)
    weights = [SHARES[kind] for kind in kinds]
    with tempfile.TemporaryDirectory(prefix="cutwright-attack-") as name:
        papers = Papers(Path(name))
        for kind, sound in papers.sound.items():
            for raw in sound:  # what is sound is taken, or the attack shows nothing
                papers.takes[kind](raw)
        for _n in range(count):
            (kind,) = chance.choices(kinds, weights)
            raw = mutated(chance, chance.choice(papers.sound[kind]))
            if kind == "dump" and chance.random() < 0.7:
                raw = resealed(raw)
            try_one(tally, kind, papers.takes[kind], raw)
        papers.desk.close()
    return tally
