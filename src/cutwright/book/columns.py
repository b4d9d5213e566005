"""How moments, days and documents stand in a column: as text, the same in every database."""

from __future__ import annotations

from datetime import UTC, date, datetime

from sqlalchemy import String
from sqlalchemy.engine import Dialect
from sqlalchemy.types import TypeDecorator


class Instant(TypeDecorator[datetime]):
    """A moment in universal time, written so that text order is time order."""

    impl = String(32)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> str | None:
        """The moment as text with microseconds."""
        if value is None:
            return None
        return value.astimezone(UTC).isoformat(timespec="microseconds")

    def process_result_value(self, value: str | None, dialect: Dialect) -> datetime | None:
        """The moment that was written."""
        return None if value is None else datetime.fromisoformat(value)


class Day(TypeDecorator[date]):
    """A day of the calendar, such as 2031-05-04."""

    impl = String(10)
    cache_ok = True

    def process_bind_param(self, value: date | None, dialect: Dialect) -> str | None:
        """The day as text."""
        return None if value is None else value.isoformat()

    def process_result_value(self, value: str | None, dialect: Dialect) -> date | None:
        """The day that was written."""
        return None if value is None else date.fromisoformat(value)
