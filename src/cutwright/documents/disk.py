"""Files read whole and written whole or not at all, with plain words when the disk will not."""

from __future__ import annotations

import errno
import os
import tempfile
from contextlib import suppress
from pathlib import Path

from cutwright.documents.text import LARGEST, LARGEST_OF_ALL, json_text, parse_json, parse_large
from cutwright.errors import StoreError
from cutwright.messages import N_, Message, Typed


def read_json(path: Path, title: Message | str) -> object:
    """The JSON in a file; `StoreError` if it cannot be read, `DocumentError` if it is not JSON."""
    try:
        with path.open("rb") as file:
            raw = file.read(LARGEST + 1)
    except OSError as fault:
        raise StoreError(_plain_words(path, fault)) from fault
    return parse_json(raw, title)


def read_large(path: Path, title: Message | str) -> object:
    """The JSON in a file of many documents; errors as of `read_json`."""
    try:
        with path.open("rb") as file:
            raw = file.read(min(os.fstat(file.fileno()).st_size, LARGEST_OF_ALL) + 1)
    except OSError as fault:
        raise StoreError(_plain_words(path, fault)) from fault
    return parse_large(raw, title)


def write_json(path: Path, value: object) -> None:
    """Write a document: the whole new file takes the place of the old one, or nothing changes."""
    write_bytes(path, json_text(value).encode())


def write_bytes(path: Path, content: bytes) -> None:
    """Put a file in its place in one stroke; `StoreError` leaves what was there untouched."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, name = tempfile.mkstemp(
            prefix=f".{path.name[:40]}.", suffix=".part", dir=path.parent
        )
        part = Path(name)
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(content)
                file.flush()
                os.fsync(file.fileno())
            part.chmod(_mode(path))
            part.replace(path)
        except BaseException:
            with suppress(OSError):
                part.unlink()
            raise
        _settle(path.parent)
    except OSError as fault:
        raise StoreError(_plain_words(path, fault)) from fault


def _mode(path: Path) -> int:
    """The rights of the file that is replaced; body measures are private, so 0600 for a new one."""
    try:
        return path.stat().st_mode & 0o777
    except OSError:
        return 0o600


def _settle(folder: Path) -> None:
    """See to it that the folder's entry is on the disk, where the system can do that."""
    if os.name == "nt":
        return
    place = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(place)
    except OSError as fault:
        if fault.errno not in {errno.EINVAL, errno.ENOTSUP}:
            raise
    finally:
        os.close(place)


def _plain_words(path: Path, fault: OSError) -> Message:
    """What stopped the reading or writing of a file, in plain words."""
    texts = {
        errno.ENOENT: N_("There is no file “{path}”."),
        errno.EACCES: N_("“{path}” may not be read or written here; check its rights."),
        errno.EPERM: N_("“{path}” may not be read or written here; check its rights."),
        errno.EROFS: N_("“{path}” lies on a disk that cannot be written."),
        errno.ENOSPC: N_("The disk is full: “{path}” was not written; the old file is untouched."),
        errno.EDQUOT: N_("The disk is full: “{path}” was not written; the old file is untouched."),
        errno.EISDIR: N_("“{path}” is a folder, not a file."),
        errno.ENOTDIR: N_("A part of “{path}” is a file where a folder should be."),
        errno.EEXIST: N_("A part of “{path}” is a file where a folder should be."),
        errno.ENAMETOOLONG: N_("The name “{path}” is too long for this disk."),
    }
    text = texts.get(fault.errno or 0, N_("“{path}” could not be read or written: {reason}."))
    reason = Typed(fault.strerror or fault)
    code = errno.errorcode.get(fault.errno or 0, "unknown")
    return Message(f"disk-{code}", text, path=Typed(path), reason=reason)
