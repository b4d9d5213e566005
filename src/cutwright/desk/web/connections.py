"""How many may hold a line to the desk and how long they may take to say what they want."""

from __future__ import annotations

import asyncio
from typing import Any

import h11
from uvicorn.protocols.http.h11_impl import H11Protocol

MOST = 128
"""Lines held at once; with those still queued this stays below 256 open files."""

EACH = 32
"""Lines of one address; a browser holds six."""

QUEUED = 64
"""Lines that wait to be taken, and the most that are taken in one go."""

PATIENCE: dict[Any, float] = {h11.IDLE: 15.0, h11.SEND_BODY: 120.0}
"""Seconds for the head of a request, and for what is sent with it."""


class CalmProtocol(H11Protocol):
    """A line whose request must come in bearable time; the longest waiting gives way to a new one."""

    waits_for: Any = None
    since = 0.0
    _patience: asyncio.TimerHandle | None = None

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        """Take the line, and let another go where there are too many."""
        super().connection_made(transport)
        self._look()
        same = [one for one in self._lines() if _host(one) == _host(self)]
        if len(same) > EACH:
            _longest_waiting(same).give_up()
        elif len(self.connections) > MOST:
            _longest_waiting(self._lines()).give_up()

    def data_received(self, data: bytes) -> None:
        """Read on, for as long as there is patience."""
        super().data_received(data)
        self._look()

    def on_response_complete(self) -> None:
        """Wait for the next request."""
        super().on_response_complete()
        self._look()

    def connection_lost(self, exc: Exception | None) -> None:
        """Forget the line."""
        self._wait(None)
        super().connection_lost(exc)

    def give_up(self) -> None:
        """Let go of the line at once."""
        self.connections.discard(self)
        self.transport.abort()

    def _look(self) -> None:
        """Start or stop the clock when the line waits for something else than before."""
        state = self.conn.their_state
        if state is not self.waits_for:
            self._wait(state)

    def _wait(self, state: Any) -> None:
        self.waits_for = state
        if self._patience is not None:
            self._patience.cancel()
            self._patience = None
        if state in PATIENCE:
            self.since = self.loop.time()
            self._patience = self.loop.call_later(PATIENCE[state], self.give_up)

    def _lines(self) -> list[CalmProtocol]:
        return [one for one in self.connections if isinstance(one, CalmProtocol)]


def _host(line: CalmProtocol) -> str:
    return line.client[0] if line.client else ""


def _longest_waiting(lines: list[CalmProtocol]) -> CalmProtocol:
    """Who gives way: first who has never asked anything, then who has asked nothing for longest."""

    def rank(line: CalmProtocol) -> tuple[bool, bool, float]:
        return line.waits_for not in PATIENCE, line.cycle is not None, line.since

    return min(lines, key=rank)
