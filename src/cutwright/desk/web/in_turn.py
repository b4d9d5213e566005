"""An answer in several lines, each sent as soon as it stands, so that what is looked at comes before the rest.

The work goes on to its end whether or not anybody still listens: a page that was closed after it had seen
the picture has its change saved all the same.
"""

from __future__ import annotations

import asyncio
import json
from collections.abc import AsyncIterator, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress
from contextvars import copy_context
from threading import Event

from fastapi import Request
from fastapi.responses import Response, StreamingResponse
from pydantic import BaseModel

from cutwright.desk.web.faults import told_fault

LINES = "application/x-ndjson"
"""What a page says it takes when it wants each line as it comes: JSON values, one a line."""

ROOM = 0.02
"""So long the work waits at most for the first line to be on its way, in s: two threads share one interpreter."""

_WORKERS = ThreadPoolExecutor(8, "answers")

Line = bytes | Exception | None


def takes_lines(request: Request) -> bool:
    """Whether a page wants every answer, each as a line."""
    return LINES in request.headers.get("accept", "")


async def in_turn(request: Request, answers: Iterator[BaseModel]) -> Response:
    """Send the answers in turn to a page that takes lines, to any other the last one alone.

    What goes wrong before the first is answered as ever; after it, the last line is `{"fault": ...}`
    with the number and the words of that answer.
    """
    sent = Event()
    lines = _worked(answers, sent)
    first = await lines.get()
    if takes_lines(request):
        return StreamingResponse(_sent(request, _good(first), lines, sent), media_type=LINES)
    sent.set()
    last = first
    while (line := await lines.get()) is not None:
        last = _good(line)
    return Response(_good(last), media_type="application/json")


def _worked(answers: Iterator[BaseModel], sent: Event) -> asyncio.Queue[Line]:
    """The answers as they come from a thread of their own; None after the last.

    The thread makes room for the first to be `sent` before it works on.
    """
    loop = asyncio.get_running_loop()
    lines: asyncio.Queue[Line] = asyncio.Queue()

    def put(line: Line) -> None:
        with suppress(RuntimeError):  # the desk is closing: nobody listens, the work goes on
            loop.call_soon_threadsafe(lines.put_nowait, line)

    def work() -> None:
        try:
            for answer in answers:
                put(answer.model_dump_json().encode() + b"\n")
                sent.wait(ROOM)
        except Exception as fault:
            put(fault)
        put(None)

    _WORKERS.submit(copy_context().run, work)
    return lines


def _good(line: Line) -> bytes:
    """A line; raises what went wrong in its place."""
    if isinstance(line, Exception):
        raise line
    assert line is not None
    return line


async def _sent(
    request: Request, first: bytes, lines: asyncio.Queue[Line], sent: Event
) -> AsyncIterator[bytes]:
    yield first
    sent.set()
    while (line := await lines.get()) is not None:
        if isinstance(line, Exception):
            status, told = await told_fault(request, line)
            line = json.dumps({"fault": {"status": status, "told": told}}).encode() + b"\n"
        yield line
