"""The desk killed outright in the middle of many commands: what was acknowledged is there."""

from __future__ import annotations

import json
import os
import random
import signal
import socket
import subprocess
import sys
import threading
import time
import urllib.error
import urllib.parse
import urllib.request
from pathlib import Path
from typing import Any

import pytest

from cutwright.desk.web.guard import House

HOUSE = House()

_SERVE = """
import sys, uvicorn
from cutwright.desk.app import make_app
from cutwright.desk.web.guard import House
uvicorn.run(make_app(sys.argv[1], House(token=sys.argv[3])), port=int(sys.argv[2]), log_level="critical")
"""


def started(book: Path, port: int) -> subprocess.Popen[bytes]:
    server = subprocess.Popen([sys.executable, "-c", _SERVE, str(book), str(port), HOUSE.token])
    for _n in range(400):
        with socket.socket() as probe:
            if probe.connect_ex(("127.0.0.1", port)) == 0:
                return server
        time.sleep(0.1)
    raise AssertionError("the desk did not start")


def post(url: str, value: Any) -> Any:
    data = json.dumps(value).encode()
    with asked(url, data, **{"content-type": "application/json"}) as answer:
        return json.load(answer)


def asked(url: str, data: bytes | None = None, **headers: str) -> Any:
    """The answer to a question by somebody who has come in."""
    told = {"cookie": "=".join(HOUSE.cookie), **headers}
    return urllib.request.urlopen(urllib.request.Request(url, data, told), timeout=60)


def begun(port: int) -> str:
    """The address of a new table with a light style on it, so that many commands take little time."""
    wish = {"body": "gallery:the-rower", "style": "gallery:circle-skirt"}
    data = urllib.parse.urlencode(wish).encode()
    with asked(f"http://127.0.0.1:{port}/new", data) as answer:
        return str(answer.geturl())


@pytest.mark.slow
@pytest.mark.skipif(os.name == "nt", reason="there is no kill -9 on this system")
def test_killed_at_any_moment_of_two_hundred_commands(tmp_path: Path) -> None:
    book, chance = tmp_path / "book.sqlite", random.Random(7)
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    server = started(book, port)
    table = begun(port)
    api = table.replace("/table/", "/api/table/")
    acknowledged, revision, sent, kills = "62.0", 1, 0, 0
    try:
        while sent < 200:
            fuse = threading.Timer(chance.uniform(1.0, 4.0), server.send_signal, (signal.SIGKILL,))
            fuse.start()
            while sent < 200:
                sent += 1
                wish = str(float(chance.randrange(40, 90)))
                command = {"do": "set", "step": 0, "field": "length", "value": wish}
                try:
                    shown = post(f"{api}/command", {"base": revision, "command": command})
                except (urllib.error.URLError, OSError):
                    break
                acknowledged, revision = wish, shown["revision"]
            fuse.cancel()
            server.kill()
            server.wait(30)
            kills += 1
            server = started(book, port)
            with asked(api) as answer:
                stands = json.load(answer)["revision"]
            assert stands in (revision, revision + 1)  # the last one may have got in unheard
            if stands == revision:
                style = table.split("/")[4]
                address = f"http://127.0.0.1:{port}/book/document/{style}/file"
                with asked(address) as answer:
                    length = json.load(answer)["steps"][0]["length"]
                assert length == float(acknowledged)
            revision = stands
    finally:
        server.kill()
        server.wait(30)
    assert kills >= 2
