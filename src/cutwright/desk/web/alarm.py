"""What every page must say of the book while it is so: that no backup can be kept, that rows were altered."""

from __future__ import annotations

from contextvars import ContextVar
from typing import Protocol


class BookWatch(Protocol):
    """What is to be said of the book of a shop."""

    @property
    def no_backup(self) -> str:
        """Why no automatic backup could be kept; empty when all is well."""

    @property
    def altered(self) -> tuple[str, ...]:
        """What was altered in the book past this program, by title."""


_asked: ContextVar[BookWatch | None] = ContextVar("cutwright_shop", default=None)


def heed(shop: BookWatch) -> None:
    """Note whose pages are made from now on in this request."""
    _asked.set(shop)


def no_backup() -> str:
    """Why no automatic backup could be kept; empty when all is well."""
    shop = _asked.get()
    return shop.no_backup if shop else ""


def altered() -> str:
    """What was altered in the book past this program, by title; empty when nothing was."""
    shop = _asked.get()
    return ", ".join(shop.altered) if shop else ""
