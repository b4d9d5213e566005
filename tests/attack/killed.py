"""Kills at chance moments of writing, forgetting, restoring and migrating: nothing acknowledged is lost."""

from __future__ import annotations

import os
import shutil
import signal
import sys
import tempfile
import time
import warnings
from collections.abc import Callable
from pathlib import Path
from random import Random
from typing import Any

from cutwright.book import clients, documents, forgetting
from cutwright.book.backup import back_up
from cutwright.book.book import Book, open_book
from cutwright.book.dump import Rows, read_tables, write_tables
from cutwright.book.health import look_over
from cutwright.book.migrations import HEAD
from cutwright.book.restore import restore
from cutwright.book.soundness import unsound
from tests.attack.desk import fill
from tests.attack.tally import Tally
from tests.book import hand
from tests.book.test_migrations import TABLES, write_first
from tests.book.test_safety import Acknowledged

NAME = "Wren Attic"
Tables = dict[str, Rows]


def forked(work: Callable[[], None], until: float) -> tuple[list[str], bool]:
    """What a child said before it was killed, so many seconds after its first line; and whether it was."""
    reading, writing = os.pipe()
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", DeprecationWarning)  # about threads, of which none is ours
        child = os.fork()
    if child == 0:
        os.close(reading)
        sys.stdout = os.fdopen(writing, "w", buffering=1)
        code = 1
        try:
            work()
            code = 0
        finally:
            os._exit(code)
    os.close(writing)
    with os.fdopen(reading) as pipe:
        pipe.readline()
        time.sleep(until)
        os.kill(child, signal.SIGKILL)
        said = pipe.readlines()
    _pid, how = os.waitpid(child, 0)
    killed = os.WIFSIGNALED(how)
    assert killed or os.WEXITSTATUS(how) == 0, "it failed by itself"
    return said, killed


class Kills:
    """The ways to be killed; each gets a folder and a share of the chance, and checks what is left."""

    def __init__(self, folder: Path, chance: Random, server: str) -> None:
        self.folder, self.chance, self.server = folder, chance, server
        self.turn = 0
        self.times: dict[str, float] = {}

    def file(self) -> Path:
        """A place for a new book."""
        self.turn += 1
        folder = self.folder / str(self.turn)
        folder.mkdir()
        return folder / "book.sqlite"

    def kill(self, name: str, work: Callable[[], None]) -> tuple[list[str], bool]:
        """Kill the work at a chance moment of the time that it takes."""
        longest = self.times.setdefault(name, 0.3)
        began = time.perf_counter()
        said, killed = forked(work, self.chance.uniform(0, longest))
        if not killed:  # it came to its end: the next one is killed a little sooner
            self.times[name] = max(0.02, min(longest, time.perf_counter() - began))
        else:
            self.times[name] = min(5.0, longest * 1.02)
        return said, killed

    def write(self, address: str, told: Acknowledged) -> bool:
        """Random commands, forgetting among them."""
        seed = self.chance.randrange(10**9)

        def work() -> None:
            with open_book(address, wait=60) as book:
                hand.say(ready=True)
                hand.random_commands(book, seed, 40)

        said, killed = self.kill("write", work)
        for line in said:
            told.hear(line)
        with open_book(address) as book:
            told.check(book)
            assert not unsound(read_tables(book))
        return killed

    def forget(self) -> bool:
        """Forgetting: she is there whole, or gone from every file after the next opening."""
        path = self.file()
        with open_book(path) as book:
            fill(book)
            (who,) = clients.listed(book)
        open_book(path).close()  # keeps an automatic backup that holds her

        def work() -> None:
            with open_book(path) as book:
                hand.say(ready=True)
                forgetting.forget(book, who.id)

        _said, killed = self.kill("forget", work)
        with open_book(path) as book:
            there = [one.name for one in clients.listed(book)]
            whole = bool(documents.entries(book, client_id=who.id))
        assert there == ([NAME] if whole else [])
        if not whole:
            for file in path.parent.rglob("*"):
                assert file.is_dir() or NAME.encode() not in file.read_bytes(), file.name
        assert killed or not whole
        return killed

    def restore(self, form: str) -> bool:
        """Restoring: the one book or the other, whole, and no scraps."""
        path = self.file()
        backup = path.parent / f"backup.{form}"
        with open_book(path, keep=False) as book:
            fill(book)
            after = _held(book)
            back_up(book, backup)
            clients.add(book, "Later")
            before = _held(book)
        if self.chance.random() < 0.3:
            path.write_bytes(b"SQLite format 3\x00" + b"\xff" * 5000)
            before = after
        damaged = before == after
        _said, killed = self.kill(f"restore {form}", lambda: _ready(lambda: restore(backup, path)))
        if damaged:  # what was cut short is done again
            restore(backup, path)
        with open_book(path) as book:
            assert _held(book) in (before, after)
        assert not list(path.parent.glob(".*")), "scraps are left"
        return killed

    def restore_on_server(self) -> bool:
        """Restoring into a database: the one book or the other."""
        backup = self.file().with_name("backup.json")
        with open_book(self.server) as book:
            with book.writing() as session:
                write_tables(session, {})
            fill(book)
            after = _held(book)
            back_up(book, backup)
            clients.add(book, "Later")
            before = _held(book)
        _said, killed = self.kill(
            "restore pg", lambda: _ready(lambda: restore(backup, self.server))
        )
        with open_book(self.server) as book:
            assert _held(book) in (before, after)
        return killed

    def migrate(self) -> bool:
        """Bringing a book of the first schema up to date: after the next opening everything is there."""
        path = self.file()
        shutil.copy(self.first(), path)
        _said, killed = self.kill("migrate", lambda: _ready(lambda: open_book(path).close()))
        with open_book(path) as book:
            held = _held(book)
        assert look_over(path, 5).schema == HEAD
        for name, rows in TABLES.items():
            found = [{k: v for k, v in row.items() if k != "seal"} for row in held[name]]
            assert sorted(map(repr, found)) == sorted(map(repr, rows)), name
        return killed

    def first(self) -> Path:
        """A book of the first schema, made once."""
        path = self.folder / "first.sqlite"
        if not path.exists():
            write_first(str(path))
        return path


def _held(book: Book) -> dict[str, Any]:
    return {name: sorted(map(dict, rows), key=repr) for name, rows in read_tables(book).items()}


def _ready(work: Callable[[], object]) -> None:
    hand.say(ready=True)
    work()


def attack(count: int, seed: int, server: str = "") -> Tally:
    """So many kills, spread over the ways; with the address of a database on it, too."""
    tally, chance = Tally("kills"), Random(seed)
    ways = ["write", "write", "forget", "restore json", "restore sqlite", "migrate"]
    ways += ["write pg", "restore pg"] if server else []
    with tempfile.TemporaryDirectory(prefix="cutwright-attack-") as name:
        kills = Kills(Path(name), chance, server)
        told = {"write": Acknowledged(), "write pg": Acknowledged()}
        addresses = {"write": str(kills.file()), "write pg": server}
        if server:
            with open_book(server) as book, book.writing() as session:
                write_tables(session, {})
        done = acknowledged = 0
        while done < count:
            way = ways[done % len(ways)]
            if way == "restore pg":
                acknowledged += told["write pg"].commands
                told["write pg"] = Acknowledged()  # the restored book takes its place
            try:
                if way.startswith("write"):
                    killed = kills.write(addresses[way], told[way])
                elif way.startswith("restore pg"):
                    killed = kills.restore_on_server()
                elif way.startswith("restore"):
                    killed = kills.restore(way.split()[1])
                else:
                    killed = getattr(kills, way)()
                tally.count(f"{way} {'killed' if killed else 'ended before'}")
            except Exception as fault:
                tally.stumbled(f"{way}: {type(fault).__name__}: {fault}")
                killed = True
            done += killed
        acknowledged += sum(one.commands for one in told.values())
    tally.also = f"; {acknowledged} commands acknowledged"
    return tally
