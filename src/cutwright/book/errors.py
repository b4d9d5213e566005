"""What can go wrong with the book, apart from a plain StoreError."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from cutwright.errors import StoreError
from cutwright.words import _


class NotInBookError(StoreError):
    """Something was asked for by its number and the book does not have it."""


class NoFurtherError(StoreError):
    """There is nothing left to undo or to redo."""


class BusyBookError(StoreError):
    """Another program held the book for longer than we wait; trying again is safe."""


class NewerBookError(StoreError):
    """The book was written by a newer Cutwright than this one."""


class DamagedBookError(StoreError):
    """The file of the book cannot be trusted; `backup` is the newest automatic backup, if any."""

    def __init__(self, message: str, book: Path | None = None, backup: Path | None = None) -> None:
        self.book = book
        self.backup = backup
        super().__init__(message)


class DamagedBackupError(StoreError):
    """A backup that cannot be trusted; the book itself is as it was."""


class ConflictError(StoreError):
    """Two hands changed the same thing; nothing was written and both versions are here.

    Parameters
    ----------
    ident : number of the thing in the book
    base : the revision the refused change started from
    current : the revision the book holds now
    mine : the document that was refused
    theirs : the document the book holds now
    """

    def __init__(
        self,
        ident: str,
        base: int,
        current: int,
        mine: Mapping[str, Any],
        theirs: Mapping[str, Any],
    ) -> None:
        self.ident = ident
        self.base = base
        self.current = current
        self.mine = dict(mine)
        self.theirs = dict(theirs)
        super().__init__(
            _(
                "This was changed elsewhere in the meantime: your change starts from revision "
                "{base}, the book now holds revision {current}. Nothing was overwritten; "
                "compare the two and save the one you want."
            ).format(base=base, current=current)
        )


def not_read_back(to: Path) -> StoreError:
    """The error for a backup that is not what was written."""
    return StoreError(
        _(
            "The backup {path} was written, but does not read back as what the book holds; it was "
            "taken away again. Keep a backup on another disk, and have this one looked at."
        ).format(path=to)
    )
