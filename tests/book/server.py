"""A private PostgreSQL server for tests: made, started, and thrown away after."""

from __future__ import annotations

import os
import pwd
import shutil
import signal
import subprocess
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True)
class Server:
    """A running server in a folder of its own; it can be killed outright and started again."""

    folder: Path
    programs: str
    run: Callable[..., None]

    @property
    def address(self) -> str:
        """Where its book is."""
        return f"postgresql://cutter@/postgres?host={self.folder}"

    def make(self) -> None:
        """Make an empty cluster."""
        self.run(f"{self.programs}/initdb", "-D", f"{self.folder}/cluster", "-A", "trust", "-U",
            "cutter", "-E", "UTF8", "--locale=C.UTF-8", "--no-sync")  # fmt: skip

    def start(self) -> None:
        """Start it and wait until it answers."""
        options = f"-k {self.folder} -c listen_addresses='' -c fsync=off"
        self.run(f"{self.programs}/pg_ctl", "-D", f"{self.folder}/cluster", "-w", "-l",
            f"{self.folder}/log", "-o", options, "start")  # fmt: skip

    def stop(self) -> None:
        """Let it fall at once."""
        self.run(
            f"{self.programs}/pg_ctl", "-D", f"{self.folder}/cluster", "-m", "immediate", "stop"
        )

    def kill(self) -> None:
        """Kill its first process; the others go when they notice."""
        words = (self.folder / "cluster" / "postmaster.pid").read_text().split()
        os.kill(int(words[0]), signal.SIGKILL)


@contextmanager
def private_server() -> Iterator[Server | None]:
    """A server; None where its programs or a user to run them are missing."""
    programs, as_user = _find_programs(), _unprivileged()
    if programs is None or as_user is None:
        yield None
        return
    with tempfile.TemporaryDirectory(prefix="cutwright-pg-") as name:
        if as_user:
            account = pwd.getpwnam("postgres")
            os.chown(name, account.pw_uid, account.pw_gid)
        server = Server(Path(name), programs, _runner(as_user))
        server.make()
        server.start()
        try:
            yield server
        finally:
            server.stop()


def _find_programs() -> str | None:
    folders = sorted(Path("/usr/lib/postgresql").glob("*/bin"), key=lambda one: one.parent.name)
    found = shutil.which("initdb")
    if found:
        folders.append(Path(found).parent)
    return next((str(one) for one in reversed(folders) if (one / "pg_ctl").exists()), None)


def _unprivileged() -> list[str] | None:
    """How to run a program as somebody who is not root; None where that cannot be."""
    if os.geteuid() != 0:
        return []
    try:
        pwd.getpwnam("postgres")
    except KeyError:
        return None
    return ["runuser", "-u", "postgres", "--"] if shutil.which("runuser") else None


def _runner(as_user: list[str]) -> Callable[..., None]:
    def run(*words: str) -> None:
        subprocess.run(
            [*as_user, *words], check=True, cwd="/", stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL, stderr=subprocess.STDOUT, timeout=60,
        )  # fmt: skip

    return run
