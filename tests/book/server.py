"""A private PostgreSQL server for tests: made, started, and thrown away after."""

from __future__ import annotations

import os
import pwd
import shutil
import subprocess
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path


@contextmanager
def private_server() -> Iterator[str]:
    """The address of a server; empty where its programs or a user to run them are missing."""
    programs, as_user = _find_programs(), _unprivileged()
    if programs is None or as_user is None:
        yield ""
        return
    with tempfile.TemporaryDirectory(prefix="cutwright-pg-") as name:
        folder = Path(name)
        if as_user:
            account = pwd.getpwnam("postgres")
            os.chown(folder, account.pw_uid, account.pw_gid)
        run = _runner(as_user)
        run(f"{programs}/initdb", "-D", f"{name}/cluster", "-A", "trust", "-U", "cutter", "-E", "UTF8",
            "--locale=C.UTF-8", "--no-sync")  # fmt: skip
        options = f"-k {name} -c listen_addresses='' -c fsync=off"
        run(f"{programs}/pg_ctl", "-D", f"{name}/cluster", "-w", "-l", f"{name}/log", "-o", options,
            "start")  # fmt: skip
        try:
            yield f"postgresql://cutter@/postgres?host={name}"
        finally:
            run(f"{programs}/pg_ctl", "-D", f"{name}/cluster", "-m", "immediate", "stop")


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
