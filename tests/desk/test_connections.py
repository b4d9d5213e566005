"""Strangers who open lines and never say what they want."""

from __future__ import annotations

import http.client
import io
import logging
import os
import socket
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from pathlib import Path

import h11
import pytest

from cutwright.desk.app import make_app
from cutwright.desk.serve import listen, server_of
from cutwright.desk.web import connections
from cutwright.desk.web.guard import House
from cutwright.desk.web.log import LINES, Bounded, Brief

_SERVE = """
import resource, sys
resource.setrlimit(resource.RLIMIT_NOFILE, (256, 256))
from cutwright.desk.serve import serve
serve(browser=False, lan=True, port=int(sys.argv[1]))
"""


def half(port: int) -> socket.socket:
    """A line on which a request is begun and not ended."""
    made = socket.create_connection(("127.0.0.1", port), timeout=60)
    made.sendall(b"GET / HTTP/1.1\r\nHost: 127.0.0.1\r\nX-")
    return made


def status(port: int) -> int:
    line = http.client.HTTPConnection("127.0.0.1", port, timeout=60)
    try:
        line.request("GET", "/")
        return line.getresponse().status
    finally:
        line.close()


@pytest.fixture
def port(tmp_path: Path) -> Iterator[int]:
    """A desk with a real socket."""
    made = listen(0, lan=False)
    server = server_of(make_app(tmp_path / "book.sqlite", House()))
    thread = threading.Thread(target=server.run, kwargs={"sockets": [made]}, daemon=True)
    thread.start()
    while not server.started:
        time.sleep(0.02)
    yield made.getsockname()[1]
    server.should_exit = True
    thread.join(30)
    made.close()


def closed(line: socket.socket) -> bool:
    """Wait until the desk has let go of a line."""
    try:
        return line.recv(100) == b""
    except ConnectionError:
        return True


@pytest.mark.skipif(os.name == "nt", reason="there are no limits of open files on this system")
def test_many_unfinished_requests_stop_nobody_and_fill_no_log(tmp_path: Path) -> None:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    log = tmp_path / "log"
    with log.open("wb") as out:
        server = subprocess.Popen(
            [sys.executable, "-c", _SERVE, str(port)],
            stdout=subprocess.PIPE,
            stderr=out,
            env={**os.environ, "CUTWRIGHT_BOOK": str(tmp_path / "book.sqlite")},
        )
    lines: list[socket.socket] = []
    try:
        assert server.stdout
        server.stdout.readline()
        while not lines:
            try:
                lines.append(half(port))
            except ConnectionRefusedError:
                continue
        lines += [half(port) for _n in range(300)]
        assert status(port) == 403
        assert closed(lines[0]), "who waited longest gave way"
        assert status(port) == 403
    finally:
        for line in lines:
            line.close()
        server.kill()
        server.communicate(timeout=60)
    assert log.stat().st_size < 20_000


def test_a_request_must_come_in_bearable_time(port: int, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(connections.PATIENCE, h11.IDLE, 0.2)
    monkeypatch.setitem(connections.PATIENCE, h11.SEND_BODY, 0.2)
    slow = socket.create_connection(("127.0.0.1", port), timeout=60)
    slow.sendall(b"POST / HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: 50\r\n\r\nx")
    with slow:
        while slow.recv(1000):
            pass  # it is told at once that it may not come in; then the line is closed
    with half(port) as line:
        assert closed(line)
    assert status(port) == 403


def test_many_lines_of_one_address_are_too_many_however_they_begin(port: int) -> None:
    silent = [
        socket.create_connection(("127.0.0.1", port), timeout=60) for _n in range(connections.EACH)
    ]
    assert status(port) == 403
    assert closed(silent[0])
    for line in silent:
        line.close()


def test_the_log_is_short_and_says_nothing_of_a_body() -> None:
    out, moment = io.StringIO(), [0.0]
    handler = logging.StreamHandler(out)
    handler.setFormatter(Brief())
    handler.addFilter(Bounded(lambda: moment[0]))
    log = logging.Logger("desk")
    log.addHandler(handler)
    for _n in range(500):
        try:
            raise ValueError("bust 88.5 of Ada")
        except ValueError:
            log.exception("It broke\nfuture: exception=ValueError('bust 88.5 of Ada')")
    assert len(out.getvalue().splitlines()) == LINES
    assert "Ada" not in out.getvalue()
    assert "ValueError at" in out.getvalue()
    moment[0] = 61.0
    log.error("again")
    assert f"{500 - LINES} lines were left out; again" in out.getvalue()
