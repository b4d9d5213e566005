"""Kills at chance moments of writing, forgetting, restoring and migrating: nothing acknowledged is lost."""

from __future__ import annotations

import http.client
import json
import os
import shutil
import signal
import subprocess
import sys
import tempfile
import time
import warnings
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from random import Random
from threading import Thread
from typing import Any

from sqlalchemy import text

from cutwright.book import clients, documents, forgetting
from cutwright.book.backup import back_up
from cutwright.book.book import Book
from cutwright.book.dump import Rows, read_tables, write_tables
from cutwright.book.health import look_over
from cutwright.book.migrations import HEAD
from cutwright.book.nouns import DocumentKind
from cutwright.book.opening import open_book
from cutwright.book.restore import restore
from cutwright.book.soundness import unsound
from cutwright.desk.app import make_app
from cutwright.desk.serve import listen, server_of
from cutwright.desk.web.guard import House
from cutwright.errors import StoreError
from cutwright.unforeseen import fault_trail
from tests.attack.desk import fill
from tests.attack.tally import Tally
from tests.book import hand
from tests.book.server import Server
from tests.book.test_migrations import TABLES, write_first
from tests.book.test_safety import Acknowledged

NAME = "Wren Attic"
HOUSE = House()
Tables = dict[str, Rows]


def _ask_on(port: int, address: str, heard: list[tuple[int, float]], chance: Random) -> None:
    """Send one command after another until nobody answers; note what was answered as saved."""
    line = http.client.HTTPConnection("127.0.0.1", port, timeout=30)
    told = {"content-type": "application/json", "cookie": "=".join(HOUSE.cookie)}
    with suppress(OSError, http.client.HTTPException, ValueError):
        while True:
            wish = float(chance.randrange(40, 90))
            command = {"do": "set", "step": 0, "field": "length", "value": str(wish)}
            line.request(
                "POST", address, json.dumps({"base": heard[-1][0], "command": command}), told
            )
            answer = line.getresponse()
            said = json.loads(answer.read())
            assert answer.status == 200, said
            heard.append((said["revision"], wish))
    line.close()


def forked(
    work: Callable[[], None],
    until: float,
    between: tuple[float, Callable[[], None]] | None = None,
    meanwhile: Thread | None = None,
) -> tuple[list[str], bool]:
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
        if meanwhile:
            meanwhile.start()
        if between:
            time.sleep(between[0])
            between[1]()
            until -= between[0]
        time.sleep(until)
        os.kill(child, signal.SIGKILL)
        said = pipe.readlines()
    _pid, how = os.waitpid(child, 0)
    killed = os.WIFSIGNALED(how)
    assert killed or os.WEXITSTATUS(how) == 0, "it failed by itself"
    return said, killed


class Kills:
    """The ways to be killed; each gets a folder and a share of the chance, and checks what is left."""

    def __init__(self, folder: Path, chance: Random, server: Server | None) -> None:
        self.folder, self.chance, self.server = folder, chance, server
        self.database = server.address if server else ""
        self.turn = self.answered = 0
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
            _alone(book)
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
        with open_book(self.database) as book:
            with book.writing() as session:
                write_tables(session, {})
            fill(book)
            after = _held(book)
            back_up(book, backup)
            clients.add(book, "Later")
            before = _held(book)
        _said, killed = self.kill(
            "restore pg", lambda: _ready(lambda: restore(backup, self.database))
        )
        with open_book(self.database) as book:
            _alone(book)
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

    def fall_of_server(self, told: Acknowledged) -> bool:
        """The database server killed under a hand that writes: what it acknowledged is there again."""
        assert self.server
        seed = self.chance.randrange(10**9)

        def work() -> None:
            with open_book(self.database, wait=60) as book, suppress(StoreError):
                hand.say(ready=True)
                hand.random_commands(book, seed, 400)

        until = self.chance.uniform(0, 1.0)
        said, _killed = forked(work, until + 0.5, between=(until, self.server.kill))
        for line in said:
            told.hear(line)
        self._start_again()
        with open_book(self.database, wait=60) as book:
            told.check(book)
            assert not unsound(read_tables(book))
        return True

    def _start_again(self) -> None:
        """Start the server; the processes of the one before may still be going."""
        assert self.server
        for _time in range(50):
            try:
                return self.server.start()
            except subprocess.CalledProcessError:
                time.sleep(0.2)
        raise AssertionError("the server did not start again")

    def desk(self) -> bool:
        """The desk killed between and during commands: what it answered as saved is in the book."""
        path = self.folder / "desk" / "book.sqlite"
        if not path.exists():
            path.parent.mkdir()
            with open_book(path) as book:
                fill(book)
        with open_book(path) as book:
            (style,) = documents.entries(book, DocumentKind.STYLE)
            (body,) = documents.entries(book, DocumentKind.BODY)
        made = listen(0, lan=False)
        made.listen()

        def work() -> None:
            hand.say(ready=True)
            server_of(make_app(path, HOUSE)).run(sockets=[made])

        heard: list[tuple[int, float]] = [(style.revision, 0.0)]
        address = f"/api/table/{style.id}/{body.id}/command"
        asking = Thread(target=_ask_on, args=(made.getsockname()[1], address, heard, self.chance))
        _said, killed = forked(work, self.chance.uniform(0.2, 2.0), meanwhile=asking)
        made.close()
        asking.join(60)
        self.answered += len(heard) - 1
        revision, length = heard[-1]
        with open_book(path) as book:
            found = documents.get(book, style.id)
        assert found.revision in (revision, revision + 1), "one may have got in unheard"
        if found.revision == revision and length:
            assert found.content["steps"][0]["length"] == length
        return killed

    def first(self) -> Path:
        """A book of the first schema, made once."""
        path = self.folder / "first.sqlite"
        if not path.exists():
            write_first(str(path))
        return path


def _held(book: Book) -> dict[str, Any]:
    return {name: sorted(map(dict, rows), key=repr) for name, rows in read_tables(book).items()}


def _alone(book: Book) -> None:
    """Wait until a server has done with what the killed one had sent."""
    others = "SELECT count(*) FROM pg_stat_activity WHERE datname = current_database()"
    while book.place.path is None:
        with book.reading() as session:
            if session.execute(text(others)).scalar() == 1:
                return


def _ready(work: Callable[[], object]) -> None:
    hand.say(ready=True)
    work()


def attack(count: int, seed: int, server: Server | None = None) -> Tally:
    """So many kills, spread over the ways; with a database server on it and of it, too."""
    tally, chance = Tally("kills"), Random(seed)
    ways = ["write", "write", "forget", "restore json", "restore sqlite", "migrate", "desk"]
    ways += ["write pg", "restore pg", "write pg", "server"] if server else []
    with tempfile.TemporaryDirectory(prefix="cutwright-attack-") as name:
        kills = Kills(Path(name), chance, server)
        told = {"write": Acknowledged(), "write pg": Acknowledged()}
        addresses = {"write": str(kills.file()), "write pg": kills.database}
        if server:
            with open_book(kills.database) as book, book.writing() as session:
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
                elif way == "server":
                    killed = kills.fall_of_server(told["write pg"])
                elif way == "restore pg":
                    killed = kills.restore_on_server()
                elif way.startswith("restore"):
                    killed = kills.restore(way.split()[1])
                else:
                    killed = getattr(kills, way)()
                tally.count(f"{way} {'killed' if killed else 'ended before'}")
            except Exception as fault:
                where = fault_trail(fault.__traceback__)
                tally.stumbled(f"{way}: {type(fault).__name__}: {fault} at {where}")
                killed, told[way] = True, Acknowledged()
                if way == "write":  # the next one begins anew, or all would tell the same again
                    addresses[way] = str(kills.file())
            done += killed
        acknowledged += kills.answered + sum(one.commands for one in told.values())
    tally.also = f"; {acknowledged} commands acknowledged"
    return tally
