"""Kills, full disks and other hands: nothing that was acknowledged is ever lost."""

from __future__ import annotations

import json
import os
import random
import shutil
import subprocess
import sys
import tempfile
import warnings
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from pathlib import Path
from time import sleep
from typing import Any

import pytest

from cutwright.book import clients, documents, fittings, forgetting, orders
from cutwright.book.book import Book
from cutwright.book.errors import BusyBookError, ConflictError, NotInBookError
from cutwright.book.health import look_over
from cutwright.book.nouns import DocumentKind, OrderState, Used
from cutwright.book.opening import open_book
from cutwright.book.revising import append, begin
from cutwright.errors import StoreError
from tests.book.hand import add_marks
from tests.book.samples import style

ROOT = Path(__file__).resolve().parents[2]
COMMANDS = 200


Hand = Callable[..., "subprocess.Popen[str]"]


@pytest.fixture(scope="module")
def hand(tmp_path_factory: pytest.TempPathFactory) -> Hand:
    """Starts another pair of hands; compiled modules are shared among them, or they start slowly."""
    surroundings = dict(os.environ)
    surroundings.pop("PYTHONDONTWRITEBYTECODE", None)
    surroundings["PYTHONPYCACHEPREFIX"] = str(tmp_path_factory.mktemp("compiled"))

    def start(*words: str) -> subprocess.Popen[str]:
        return subprocess.Popen(
            [sys.executable, "-m", "tests.book.hand", *words],
            cwd=ROOT,
            env=surroundings,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
        )

    return start


@dataclass
class Acknowledged:
    """What a killed hand had been told was done, and what it was about when it died."""

    revisions: dict[str, dict[int, Any]] = field(default_factory=dict)
    stands: dict[str, int] = field(default_factory=dict)
    names: dict[str, str] = field(default_factory=dict)
    orders: dict[str, tuple[str, str]] = field(default_factory=dict)
    about: str | None = None
    commands: int = 0

    def hear(self, line: str) -> None:
        if not line.endswith("\n"):
            return  # the kill cut this one off
        said = json.loads(line)
        assert "error" not in said, said
        self.commands += "about" not in said and "end" not in said
        if "about" in said:
            self.about = said["about"]
        elif "revision" in said:
            self.revisions.setdefault(said["id"], {})[said["revision"]] = said["content"]
            self.stands[said["id"]] = said["revision"]
        elif "client" in said:
            self.names[said["client"]] = said["name"]
        elif "order" in said:
            self.orders[said["order"]] = (said["whose"], said["mark"])
        elif "forgotten" in said:
            self._forget(said["forgotten"])

    def check(self, book: Book) -> None:
        for ident, saved in self.revisions.items():
            for number, content in saved.items():
                assert documents.at(book, ident, number) == content
            found = documents.get(book, ident)
            if ident != self.about:
                assert found.revision == self.stands[ident]
                assert found.content == saved[found.revision]
            saved[found.revision] = found.content  # the last one may have got in unheard
            self.stands[ident] = found.revision
        self._settle(book)
        assert self.names.items() <= {one.id: one.name for one in clients.listed(book)}.items()
        for ident, (_whose, mark) in self.orders.items():
            order = orders.get(book, ident)
            assert (order.state, order.frozen["body"]) == (OrderState.CUT, {"mark": mark})
            assert [one.note for one in fittings.of_order(book, ident)] == [f"note {mark}"]

    def _settle(self, book: Book) -> None:
        """A client being deleted when the kill came may be there or not, also one whose entry was
        never acknowledged.
        """
        if self.about is not None and self.about not in self.revisions:
            try:
                clients.get(book, self.about)
            except NotInBookError:
                self._forget(self.about)

    def _forget(self, ident: str) -> None:
        self.names.pop(ident, None)
        self.orders = {key: one for key, one in self.orders.items() if one[0] != ident}


def kill_after(
    process: subprocess.Popen[str], lines: int, told: Acknowledged, pause: float
) -> None:
    """Let a hand work until it has said so many lines, and a little longer; then kill it."""
    with process:
        assert process.stdout
        for _line in range(lines):
            told.hear(process.stdout.readline())
        sleep(pause)
        process.kill()
        for line in process.stdout:
            told.hear(line)


def test_a_kill_at_any_moment_loses_nothing_acknowledged(address: str, hand: Hand) -> None:
    chance = random.Random()
    told = Acknowledged()
    on_file = "://" not in address
    for seed in range(3 if on_file else 1):
        process = hand("random", address, str(seed), str(COMMANDS))
        kill_after(process, chance.randrange(30, 160), told, chance.random() / 50)
        if on_file:
            look_over(Path(address), 5)
        with open_book(address) as book:
            told.check(book)
    assert told.commands > 5


def test_a_lost_acknowledgement_would_be_seen(file_book: Book) -> None:
    made = documents.add(file_book, DocumentKind.STYLE, style())
    client = clients.add(file_book, "Ilse")
    for told in (
        Acknowledged(revisions={made.id: {2: style()}}, stands={made.id: 2}),
        Acknowledged(revisions={made.id: {1: style(9)}}, stands={made.id: 1}),
        Acknowledged(names={"0" * 32: "Ilse"}),
        Acknowledged(orders={"0" * 32: (client.id, "mark")}),
    ):
        with pytest.raises((AssertionError, NotInBookError)):
            told.check(file_book)


def test_a_client_whose_entry_was_never_heard_may_be_gone_after_a_kill_while_she_is_deleted(
    file_book: Book,
) -> None:
    """One hand is killed before it says that she was entered; the next gives her an order and is killed
    while it deletes her. Gone or there, nothing acknowledged is lost; without that deletion it is."""
    who = clients.add(file_book, "Ilse")
    body = documents.add(file_book, DocumentKind.BODY, {"mark": "m"}, client_id=who.id)
    order = orders.place(file_book, {"mark": "m"}, body=Used(body.id, 1))
    fittings.note(file_book, order.id, "note m")
    orders.move(file_book, order.id, OrderState.CUT, base=order.version)
    given = {order.id: (who.id, "m")}
    Acknowledged(orders=dict(given), about=who.id).check(file_book)
    forgetting.forget(file_book, who.id)
    Acknowledged(orders=dict(given), about=who.id).check(file_book)
    with pytest.raises(NotInBookError):
        Acknowledged(orders=dict(given)).check(file_book)


@pytest.mark.parametrize("pause", [0.0, 0.05])
def test_a_kill_while_the_book_is_being_made_leaves_one_that_opens(
    tmp_path: Path, hand: Hand, pause: float
) -> None:
    path = tmp_path / "book.sqlite"
    with hand("random", str(path), "1", "1") as process:
        while not path.exists() and process.poll() is None:
            sleep(0.002)
        sleep(pause)
        process.kill()
    with open_book(path) as book:
        documents.add(book, DocumentKind.STYLE, style())


def test_two_programs_and_two_threads_lose_no_change(address: str, hand: Hand) -> None:
    with open_book(address) as book:
        ident = documents.add(book, DocumentKind.STYLE, {"marks": []}).id
        hands = [hand("mark", address, ident, name, "12") for name in ("a", "b")]
        for process in hands:
            assert process.stdout
            assert "ready" in process.stdout.readline()
        for process in hands:
            assert process.stdin
            process.stdin.write("go\n")
            process.stdin.close()
        with ThreadPoolExecutor(2) as pool:
            list(pool.map(lambda name: add_marks(book, ident, name, 8), ("c", "d")))
        for process in hands:
            assert process.stdout
            process.stdout.close()
            assert process.wait(60) == 0
        found = documents.get(book, ident)
    wanted = [f"{name}{n}" for name, times in zip("abcd", (12, 12, 8, 8), strict=True)
              for n in range(times)]  # fmt: skip
    assert sorted(found.content["marks"]) == sorted(wanted)
    assert found.revision == 41


def test_a_new_book_may_be_opened_by_several_at_once(tmp_path: Path) -> None:
    path = tmp_path / "book.sqlite"

    def work(_number: int) -> str:
        with open_book(path) as book:
            return documents.add(book, DocumentKind.STYLE, style()).id

    with ThreadPoolExecutor(4) as pool:
        made = set(pool.map(work, range(8)))
    with open_book(path) as book:
        assert {one.id for one in documents.entries(book)} == made


def test_waiting_for_another_program_ends_with_a_clear_message(tmp_path: Path) -> None:
    path = tmp_path / "book.sqlite"
    with open_book(path) as first, open_book(path, wait=0.2) as second:
        with first.writing() as session:
            begin(session, first.clock(), DocumentKind.STYLE, style())
            with pytest.raises(BusyBookError, match="Another program is holding the book"):
                documents.add(second, DocumentKind.STYLE, style())
            assert documents.entries(second) == []
        assert len(documents.entries(second)) == 1


def test_a_failed_change_leaves_nothing_half_done(book: Book) -> None:
    made = documents.add(book, DocumentKind.STYLE, style())

    def two_changes() -> None:
        with book.writing() as session:
            append(session.connection(), book.clock(), made.id, style(2), base=1)
            append(session.connection(), book.clock(), made.id, style(3), base=1)

    with pytest.raises(ConflictError):
        two_changes()
    assert documents.get(book, made.id) == made
    assert len(documents.revisions(book, made.id)) == 1


def _no_pages_left(book: Book) -> Callable[[], None]:
    def limit(pages: int) -> None:
        with book.engine.connect() as line:
            line.exec_driver_sql(f"PRAGMA max_page_count = {pages}")

    with book.engine.connect() as line:
        pages = line.exec_driver_sql("PRAGMA page_count").scalar_one()
    limit(pages)
    return lambda: limit(1_000_000)


def _no_bytes_left(book: Book) -> Callable[[], None]:
    import resource

    assert book.place.path
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    log = book.place.path.with_name(book.place.path.name + "-wal")
    resource.setrlimit(resource.RLIMIT_FSIZE, (log.stat().st_size + 8192, hard))
    return lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))


@pytest.mark.skipif(os.name == "nt", reason="file sizes are not limited this way there")
@pytest.mark.parametrize("fill", [_no_pages_left, _no_bytes_left])
def test_a_full_disk_refuses_the_change_and_keeps_the_rest(
    file_book: Book, fill: Callable[[Book], Callable[[], None]]
) -> None:
    made = documents.add(file_book, DocumentKind.STYLE, style())
    make_room = fill(file_book)
    try:
        with pytest.raises(StoreError, match=r"was not written") as refused:
            documents.save(file_book, made.id, style() | {"much": "x" * 1_000_000}, base=1)
        assert "disk" in str(refused.value)
        assert documents.get(file_book, made.id) == made
    finally:
        make_room()
    assert documents.save(file_book, made.id, style(2), base=1).revision == 2


@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs a process under another account")
def test_a_book_that_may_not_be_written_says_so(blank: Path) -> None:
    with tempfile.TemporaryDirectory(prefix="cutwright-readonly-") as name:
        path = Path(shutil.copy(blank, name))
        with open_book(path, keep=False) as book:
            made = documents.add(book, DocumentKind.STYLE, style())
        path.chmod(0o444)
        Path(name).chmod(0o555)
        told = _as_nobody(lambda: _try_to_save(path, made.id))
        Path(name).chmod(0o700)
    assert told.startswith("StoreError: The book"), told
    assert "cannot be written to" in told


def _try_to_save(path: Path, ident: str) -> str:
    try:
        with open_book(path, wait=1) as book:
            documents.save(book, ident, style(2), base=1)
        return "saved"
    except Exception as error:
        return f"{type(error).__name__}: {error}"


def _as_nobody(work: Callable[[], str]) -> str:
    """What the work says when done in a process that is not root."""
    reading, writing = os.pipe()
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", DeprecationWarning)  # about threads, of which none is ours
        child = os.fork()
    if child == 0:
        try:
            if os.geteuid() == 0:
                os.setgid(65534)
                os.setuid(65534)
            os.write(writing, work().encode())
        finally:
            os._exit(0)
    os.close(writing)
    with os.fdopen(reading) as pipe:
        said = pipe.read()
    os.waitpid(child, 0)
    return said
