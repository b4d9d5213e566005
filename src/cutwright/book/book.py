"""The open book: a line to where it lies, and transactions to read and to write in."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from types import TracebackType

from sqlalchemy import Engine
from sqlalchemy.orm import Session

from cutwright.book.database_errors import database_errors
from cutwright.book.engine import WRITING
from cutwright.book.known import Known
from cutwright.book.place import BookPlace
from cutwright.errors import StoreError

Clock = Callable[[], datetime]


def now() -> datetime:
    """This moment in universal time."""
    return datetime.now(UTC)


class Book:
    """An open book; made by `opening.open_book`, shared by as many threads as like to.

    `no_backup` says why no automatic backup could be kept when it was opened, if that was so; `altered` what
    somebody altered on the server past this program, as its rows tell.
    """

    def __init__(self, place: BookPlace, engine: Engine, clock: Clock = now) -> None:
        self.place = place
        self.engine = engine
        self.clock = clock
        self.no_backup: StoreError | None = None
        self.altered: tuple[str, ...] = ()
        self.known = Known(engine)
        self._writer = engine.execution_options(**{WRITING: True})

    @contextmanager
    def reading(self) -> Iterator[Session]:
        """A transaction that sees one state of the book and changes nothing."""
        with database_errors(self.place), Session(self.engine) as session:
            yield session

    @contextmanager
    def writing(self) -> Iterator[Session]:
        """A transaction that is on the disk when the block is left, or not at all."""
        with (
            database_errors(self.place),
            Session(self._writer, expire_on_commit=False) as session,
            session.begin(),
        ):
            yield session

    def close(self) -> None:
        """Let go of the book."""
        self.known.close()
        self.engine.dispose()

    def __enter__(self) -> Book:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()
