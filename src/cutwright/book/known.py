"""Documents as they were read last, handed out again for as long as nobody else has written to the book.

A change of a word asks for the same two documents over and over. SQLite tells a line to a file cheaply whether any
other line, of this program or of another, has written since (`data_version`; what the line wrote itself does not
count). So one line is kept open for reading and saving documents; its own saves are known, all else is read
anew after others wrote. A server has no such word: there everything is asked each time.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from threading import RLock
from typing import Any

from sqlalchemy import Connection, Engine

from cutwright.book.engine import WRITING
from cutwright.book.revising import Standing, standing
from cutwright.errors import CutwrightError

MOST = 40
"""So many documents are known at once."""


class Known:
    """The documents of one open book; shared by as many threads as like to."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine
        self._on_file = engine.dialect.name == "sqlite"
        self._lock = RLock()
        self._line: Connection | None = None
        self._version: object = None
        self._standing: dict[str, Standing] = {}

    def standing(self, ident: str) -> Standing:
        """A document as it stands; NotInBookError if there is none."""
        if not self._on_file:
            with self._engine.connect() as line:
                return standing(line, ident)
        with self._lock:
            if self._unchanged() and ident in self._standing:
                return self._standing[ident]
            with self._transaction(writing=False) as line:
                self._keep(ident, standing(line, ident))
            return self._standing[ident]

    @contextmanager
    def saving(self, ident: str) -> Iterator[Saving]:
        """A transaction to save a document in, with what is known of it; on the disk when it is left."""
        if not self._on_file:
            with self._engine.connect() as line, line.begin():
                yield Saving(line, None)
            return
        with self._lock:
            with self._transaction(writing=True) as line:
                saving = Saving(line, self._standing.pop(ident, None))
                yield saving
            if saving.stands is not None:
                self._keep(ident, saving.stands)

    def forget(self) -> None:
        """Know nothing any more, as when a client is deleted."""
        with self._lock:
            self._standing.clear()

    def close(self) -> None:
        """Let go of the line."""
        with self._lock:
            self.forget()
            line, self._line = self._line, None
            if line is not None:
                line.close()

    def _keep(self, ident: str, stands: Standing) -> None:
        if len(self._standing) >= MOST:
            self._standing.clear()
        self._standing[ident] = stands

    @contextmanager
    def _transaction(self, *, writing: bool) -> Iterator[Connection]:
        """The line in a transaction, with what others have changed forgotten."""
        line = self._open().execution_options(**{WRITING: writing})
        try:
            with line.begin():
                self._unchanged()  # asked inside: from here on it is this state that is read
                yield line
        except CutwrightError:
            raise
        except BaseException:
            self.close()  # whatever broke, the next one starts from nothing
            raise

    def _unchanged(self) -> bool:
        """Whether nobody else has written since this was asked last; if somebody has, all is forgotten."""
        driver: Any = self._open().connection.dbapi_connection
        version = driver.execute("PRAGMA data_version").fetchone()
        if version == self._version:
            return True
        self._version = version
        self._standing.clear()
        return False

    def _open(self) -> Connection:
        if self._line is None:
            self._line = self._engine.connect()
            self._version = None
        return self._line


class Saving:
    """A transaction to save one document in: the line, what is known of it, and how it stands afterwards."""

    def __init__(self, line: Connection, known: Standing | None) -> None:
        self.line = line
        self.known = known
        self.stands: Standing | None = None
