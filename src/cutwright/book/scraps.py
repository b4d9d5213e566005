"""Files and folders that hold parts of a book for a moment, and are gone even when a kill came between."""

from __future__ import annotations

import os
import re
import shutil
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from datetime import UTC, datetime
from pathlib import Path

from cutwright.book.place import BookPlace

PART = ".part-"
SCRATCH = ".restore-"
AGE = 3600.0
"""Seconds after which a scrap is nobody's, where it cannot be seen whose it is."""


@contextmanager
def scrap_folder(beside: Path | None = None) -> Iterator[Path]:
    """A folder for its owner only, in `beside` or where the system keeps such; emptied at the end."""
    with tempfile.TemporaryDirectory(prefix=f"{SCRATCH}{os.getpid()}-", dir=beside) as name:
        yield Path(name)


@contextmanager
def scrap_file(beside: Path) -> Iterator[Path]:
    """An empty file for its owner only; it is gone at the end unless it was given another name."""
    handle, name = tempfile.mkstemp(prefix=f"{PART}{os.getpid()}-", suffix=".sqlite", dir=beside)
    os.close(handle)
    part = Path(name)
    try:
        yield part
    finally:
        part.unlink(missing_ok=True)


def clear_scraps(place: BookPlace) -> None:
    """Remove what programs that were killed left of a book, beside it or where the system keeps such."""
    folders = [Path(tempfile.gettempdir()), place.backups]
    folders += [place.path.parent] if place.path else []
    for folder in folders:
        for prefix in (PART, SCRATCH):
            for scrap in folder.glob(f"{prefix}*") if folder else ():
                with suppress(OSError):
                    if _nobodys(scrap):
                        shutil.rmtree(scrap) if scrap.is_dir() else scrap.unlink()


def _nobodys(scrap: Path) -> bool:
    """Whether the program that made a scrap is no more."""
    owner = re.match(r"\.[a-z]+-(\d+)-", scrap.name)
    if owner is None or sys.platform == "win32":
        return datetime.now(UTC).timestamp() - scrap.stat().st_mtime > AGE
    try:
        os.kill(int(owner[1]), 0)
    except ProcessLookupError:
        return True
    except (OSError, OverflowError):
        return False
    return False
