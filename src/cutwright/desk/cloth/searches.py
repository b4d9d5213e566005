"""Searches that run beside the desk: one at a time for each table, stopped when nobody looks."""

from __future__ import annotations

import time
from collections import OrderedDict
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextvars import copy_context
from secrets import token_hex
from threading import Condition, Event, RLock
from typing import Any, Generic, Literal, TypeVar

from cutwright.book.errors import NotInBookError
from cutwright.errors import CutwrightError
from cutwright.unforeseen import foreseen
from cutwright.wording.message_text import message_text
from cutwright.words import _, current_language

T = TypeVar("T")
State = Literal["waiting", "running", "done", "stopped", "refused"]
Source = Callable[[Callable[[], bool]], Iterator[T]]
"""Gives one finding after the other, each better; asks now and then whether to stop."""

UNSEEN = 20.0
"""Seconds after which a search that no page asks about is stopped."""
AT_ONCE, MOST = 2, 12
"""Searches that run at the same time, and tables whose last findings are kept."""


class Job(Generic[T]):
    """One search: what it has found so far, and whether it goes on."""

    def __init__(self, source: Source[T]) -> None:
        self.ident = token_hex(8)
        self.state: State = "waiting"
        self.trouble = ""
        self.number = 0
        self.first: T | None = None
        self.latest: T | None = None
        self._source = source
        self._halt = Event()
        self._changed = Condition()
        self._asked = time.monotonic()

    def stop(self) -> None:
        """Let the search come to its end; what it found stays."""
        self._halt.set()

    def halted(self) -> bool:
        """Whether to stop: it was asked for, or no page has asked for long."""
        return self._halt.is_set() or time.monotonic() - self._asked > UNSEEN

    @property
    def over(self) -> bool:
        """Whether nothing more will come."""
        return self.state not in ("waiting", "running")

    def look(self, after: int = 0, wait: float = 0.0) -> None:
        """Say that somebody looks, and wait up to so many seconds for more than is known."""
        self._asked = time.monotonic()
        with self._changed:
            self._changed.wait_for(lambda: self.number > after or self.over, wait)

    def run(self) -> None:
        """Search to the end; a fault is kept in words."""
        state: State = "done"
        self._asked = time.monotonic()
        try:
            if not self._halt.is_set():
                self.state = "running"
                for found in self._source(self.halted):
                    self._found(found)
            if self.halted():
                state = "stopped"
        except CutwrightError as fault:
            state, self.trouble = "refused", message_text(fault)
        except Exception as fault:  # told in words, and the thread lives on
            state, self.trouble = "refused", message_text(foreseen(fault))
        with self._changed:
            self.state = state
            self._changed.notify_all()

    def _found(self, found: T) -> None:
        with self._changed:
            self.first = found if self.first is None else self.first
            self.latest = found
            self.number += 1
            self._changed.notify_all()


class Jobs:
    """The newest search of each kind on each table; starting one stops the others of its table."""

    def __init__(self) -> None:
        self._lock = RLock()
        self._threads: ThreadPoolExecutor | None = None
        self._tables: OrderedDict[tuple[str, str, str], dict[str, Job[Any]]] = OrderedDict()

    def begin(self, style: str, body: str, kind: str, source: Source[T]) -> Job[T]:
        """Start a search on a table, in the language in force."""
        job = Job(source)
        key = (style, body, current_language())
        with self._lock:
            if self._threads is None:
                self._threads = ThreadPoolExecutor(AT_ONCE, "search")
            kinds = self._tables.pop(key, {})
            for other in kinds.values():
                other.stop()
            self._tables[key] = {**kinds, kind: job}
            while len(self._tables) > MOST:
                _key, gone = self._tables.popitem(last=False)
                for other in gone.values():
                    other.stop()
            self._threads.submit(copy_context().run, job.run)
        return job

    def find(self, style: str, body: str, kind: str, ident: str) -> Job[Any]:
        """A search by its number; NotInBookError when it is kept no longer."""
        with self._lock:
            job = self._tables.get((style, body, current_language()), {}).get(kind)
        if job is None or job.ident != ident:
            raise NotInBookError(_("This lay is kept no longer; lay the pieces again."))
        return job

    def latest(self, style: str, body: str, kind: str) -> Any:
        """The best that the newest search of a kind has found on a table; None where there is nothing."""
        with self._lock:
            job = self._tables.get((style, body, current_language()), {}).get(kind)
        return job.latest if job else None

    def clear(self) -> None:
        """Stop everything and forget what was found."""
        with self._lock:
            for kinds in self._tables.values():
                for job in kinds.values():
                    job.stop()
            self._tables.clear()
            if self._threads is not None:
                self._threads.shutdown(wait=False, cancel_futures=True)
                self._threads = None
