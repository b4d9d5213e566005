"""Every address of the desk, asked anything its description allows, about what is really in the book."""

from __future__ import annotations

import tempfile
import time
import warnings
from pathlib import Path
from random import Random
from typing import Any

from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import seed as seeded

from cutwright.book import clients, documents, orders
from cutwright.book.errors import NotInBookError
from cutwright.book.nouns import DocumentKind
from tests.attack.desk import Desk, fill
from tests.attack.tally import Tally

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    import schemathesis

NAMED = {"style": "style", "body": "body", "other": "body", "cloth": "cloth", "client_id": "client"}
"""Which kind of thing a name in an address means, where it means one."""


class Asking:
    """One desk that is asked again and again; what leaves the book is put into it anew."""

    def __init__(self, desk: Desk, seed: int, tally: Tally) -> None:
        self.desk, self.chance, self.tally = desk, Random(seed), tally
        self.cookies = dict([desk.app.state.house.cookie])

    def ask(self, case: Any) -> None:
        """Ask one thing, mostly about something that is there and stands where we say."""
        held = self.desk.numbers()
        if not all(held.get(kind) for kind in ("style", "body", "order", "client")):
            fill(self.desk.book)
            held = self.desk.numbers()
        self._aim(case, held)
        began = time.perf_counter()
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            answer = case.call(headers={"host": "127.0.0.1"}, cookies=self.cookies)
        what = f"{case.method} {case.operation.path}"
        self.tally.took(time.perf_counter() - began, what)
        self.tally.count(str(answer.status_code))
        if answer.status_code >= 500 or b"Traceback" in answer.content:
            self.tally.stumbled(
                f"{what}: {answer.status_code}", "requests", repr((what, case.path_parameters, case.query, case.body)).encode()
            )  # fmt: skip

    def _aim(self, case: Any, held: dict[str, list[str]]) -> None:
        for name in list(case.path_parameters or {}):
            if self.chance.random() < 0.85:
                kind = NAMED.get(name) or self._kind_of(case.operation.path)
                if held.get(kind):
                    case.path_parameters[name] = self.chance.choice(held[kind])
        if isinstance(case.body, dict):
            for name, kind in NAMED.items():
                if name in case.body and held.get(kind) and self.chance.random() < 0.8:
                    case.body[name] = self.chance.choice(held[kind])
            if "base" in case.body and self.chance.random() < 0.8:
                case.body["base"] = self._stands(case.path_parameters or {})

    def _kind_of(self, path: str) -> str:
        for word in ("client", "order", "style", "cloth", "body", "fitting"):
            if word in path:
                return word
        return self.chance.choice(["style", "cloth", "order", "body"])

    def _stands(self, parameters: dict[str, Any]) -> int:
        """Where the thing that is asked about stands now."""
        book = self.desk.book
        for ident in map(str, parameters.values()):
            try:
                entry = documents.get(book, ident).entry
            except NotInBookError:
                try:
                    return clients.get(book, ident).version
                except NotInBookError:
                    continue
            return (
                orders.get(book, ident).version
                if entry.kind is DocumentKind.ORDER
                else entry.revision
            )
        return 1


def attack(count: int, seed: int) -> Tally:
    """So many requests, evenly over all addresses."""
    tally = Tally("requests")
    with (
        tempfile.TemporaryDirectory(prefix="cutwright-attack-") as name,
        Desk(Path(name) / "book.sqlite") as desk,
    ):
        asking = Asking(desk, seed, tally)
        told = {"host": "127.0.0.1", "cookie": "=".join(desk.app.state.house.cookie)}
        schema = schemathesis.openapi.from_asgi("/openapi.json", desk.app, headers=told)
        operations: list[Any] = [one.ok() for one in schema.get_all_operations()]  # type: ignore[union-attr]
        Random(seed).shuffle(operations)
        each, more = divmod(count, len(operations))
        for number, operation in enumerate(operations):
            examples = each + (number < more)
            if examples:
                _asked_about(asking, operation, examples, seed)
    return tally


def _asked_about(asking: Asking, operation: Any, examples: int, seed: int) -> None:
    @seeded(seed)
    @settings(
        max_examples=examples,
        deadline=None,
        database=None,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(case=operation.as_strategy())
    def ask(case: Any) -> None:
        asking.ask(case)

    ask()
