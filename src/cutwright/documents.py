"""Documents on the disk: read whole with every problem named, written whole or not at all.

All documents are JSON with a `"format"` number. Reading refuses what is too large, too deep, cut
short or not JSON, with line and column. Writing puts a complete new file in the place of the old
one; if anything goes wrong the old file stays as it was.
"""

from __future__ import annotations

import errno
import json
import os
import tempfile
from collections.abc import Callable, Sequence
from contextlib import suppress
from math import isfinite
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn, TypeVar

from cutwright.errors import DocumentError, StoreError
from cutwright.words import _

if TYPE_CHECKING:
    from pydantic import BaseModel, ValidationError
    from pydantic_core import ErrorDetails

    Model = TypeVar("Model", bound=BaseModel)

LARGEST = 2_000_000
"""The most bytes a document may have."""

DEEPEST = 40
"""How many brackets may stand inside each other."""

Problem = tuple[str, str]


def read_document(
    path: Path, model: type[Model], title: str, formats: Sequence[int] = (1,)
) -> Model:
    """Read a document of one kind from the disk.

    Parameters
    ----------
    path : the file
    model : the pydantic model of this kind of document
    title : what it is, for the first line of an error: "The body card wren.json"
    formats : the format numbers that can be read
    """
    return validated(read_json(path, title), model, title, formats)


def read_json(path: Path, title: str) -> object:
    """The JSON in a file; `StoreError` if it cannot be read, `DocumentError` if it is not JSON."""
    try:
        with path.open("rb") as file:
            raw = file.read(LARGEST + 1)
    except OSError as fault:
        raise StoreError(_plain_words(path, fault)) from fault
    return parse_json(raw, title)


def parse_json(raw: bytes | str, title: str) -> object:
    """The value in JSON text, refused with line and column where it breaks off or goes wrong."""
    if len(raw) > LARGEST:
        _refuse(
            title,
            _("it is larger than {size} bytes, which no such document is.").format(size=LARGEST),
        )
    text = raw if isinstance(raw, str) else _decoded(raw, title)
    if not text.strip():
        _refuse(title, _("it is empty."))
    if _depth(text) > DEEPEST:
        _refuse(
            title,
            _("its brackets stand more than {deep} deep inside each other.").format(deep=DEEPEST),
        )
    twice: list[Problem] = []

    def pairs(items: list[tuple[str, Any]]) -> dict[str, Any]:
        seen: dict[str, Any] = {}
        for name, value in items:
            if name in seen:
                twice.append((name, _("it is written twice; keep one.")))
            seen[name] = value
        return seen

    try:
        value: object = json.loads(
            text,
            object_pairs_hook=pairs,
            parse_constant=_no_number,
            parse_float=_number,
            parse_int=_whole_number,
        )
    except json.JSONDecodeError as fault:
        _refuse(
            title,
            _json_fault(text, fault),
            _("line {line}, column {column}").format(line=fault.lineno, column=fault.colno),
        )
    except _BadNumberError as fault:
        _refuse(title, _("{number} is not a number that can be used.").format(number=fault))
    if twice:
        raise DocumentError(title, twice)
    return value


def validated(raw: object, model: type[Model], title: str, formats: Sequence[int] = (1,)) -> Model:
    """A document from its JSON value, or a `DocumentError` with every problem and its place."""
    from pydantic import ValidationError

    if not isinstance(raw, dict):
        _refuse(title, _("it must be a list of names and values in curly brackets."))
    number = raw.get("format")
    if isinstance(number, bool) or not isinstance(number, int):
        _refuse(
            title,
            _('the format number is missing; write "format": {newest}.').format(
                newest=max(formats)
            ),
            "format",
        )
    if number not in formats:
        newer = number > max(formats)
        text = (
            _("format {number} is newer than this program, which reads up to {newest}; update it.")
            if newer
            else _("format {number} is not known; this program reads up to {newest}.")
        )
        _refuse(title, text.format(number=number, newest=max(formats)), "format")
    try:
        return model.model_validate(raw)
    except ValidationError as fault:
        raise DocumentError(title, problems_of(fault)) from fault


def problems_of(fault: ValidationError) -> list[Problem]:
    """Each thing pydantic found wrong, as (place, sentence) in a user's words."""
    return [(place_of(e["loc"]), _sentence(e)) for e in fault.errors(include_url=False)]


def place_of(loc: tuple[int | str, ...]) -> str:
    """A place in a document as people count: "steps 3, fullness"."""
    words: list[str] = []
    for part in loc:
        if isinstance(part, int) and words:
            words[-1] = f"{words[-1]} {part + 1}"
        elif part != "[key]":
            words.append(str(part))
    return ", ".join(words)


_SENTENCES: dict[str, Callable[[], str]] = {
    "missing": lambda: _("this is missing."),
    "extra_forbidden": lambda: _("there is nothing of this name here; check the spelling."),
    "string_type": lambda: _("this must be text in quotes."),
    "int_type": lambda: _("this must be a whole number."),
    "int_parsing": lambda: _("this must be a whole number."),
    "int_from_float": lambda: _("this must be a whole number."),
    "float_type": lambda: _("this must be a number."),
    "float_parsing": lambda: _("this must be a number."),
    "finite_number": lambda: _("this must be an ordinary number."),
    "bool_type": lambda: _("this must be true or false."),
    "bool_parsing": lambda: _("this must be true or false."),
    "dict_type": lambda: _("this must be names and values in curly brackets."),
    "model_type": lambda: _("this must be names and values in curly brackets."),
    "list_type": lambda: _("this must be a list in square brackets."),
    "tuple_type": lambda: _("this must be a list in square brackets."),
    "date_type": lambda: _("this must be a date such as 2026-03-14."),
    "date_parsing": lambda: _("this must be a date such as 2026-03-14."),
    "date_from_datetime_parsing": lambda: _("this must be a date such as 2026-03-14."),
    "date_from_datetime_inexact": lambda: _("this must be a date such as 2026-03-14."),
    "string_pattern_mismatch": lambda: _("this is not written the way it should be."),
}  # fmt: skip
_WITH_BOUND: dict[str, tuple[str, Callable[[], str]]] = {
    "string_too_short": ("min_length", lambda: _("this must have at least {bound} letters.")),
    "string_too_long": ("max_length", lambda: _("this may have at most {bound} letters.")),
    "too_short": ("min_length", lambda: _("this must have at least {bound} entries.")),
    "too_long": ("max_length", lambda: _("this may have at most {bound} entries.")),
    "greater_than": ("gt", lambda: _("this must be more than {bound}.")),
    "greater_than_equal": ("ge", lambda: _("this must be at least {bound}.")),
    "less_than": ("lt", lambda: _("this must be less than {bound}.")),
    "less_than_equal": ("le", lambda: _("this must be at most {bound}.")),
    "literal_error": ("expected", lambda: _("this must be {bound}.")),
    "enum": ("expected", lambda: _("this must be {bound}.")),
    "union_tag_invalid": ("expected_tags", lambda: _("this must be one of {bound}.")),
}  # fmt: skip


def _sentence(error: ErrorDetails) -> str:
    """One of pydantic's findings as a sentence, with what was found."""
    context = error.get("ctx", {})
    if error["type"] in _SENTENCES:
        text = _SENTENCES[error["type"]]()
    elif error["type"] in _WITH_BOUND:
        name, words = _WITH_BOUND[error["type"]]
        text = words().format(bound=context.get(name, "?"))
    else:
        return str(context["error"]) if "error" in context else error["msg"]
    if error["type"] == "missing":
        return text
    return _("{text} Found: {found}.").format(text=text, found=_brief(error["input"]))


def _brief(value: object) -> str:
    text = value if isinstance(value, str) else json.dumps(value, ensure_ascii=False, default=repr)
    text = "".join(c if c.isprintable() else "?" for c in text)
    return f"{text[:60]}…" if len(text) > 60 else text or _("nothing")


class _BadNumberError(Exception):
    """A number in JSON that is none: NaN, endless, or hundreds of digits long."""


def _no_number(text: str) -> NoReturn:
    raise _BadNumberError(text)


def _number(text: str) -> float:
    value = float(text)
    if not isfinite(value):
        raise _BadNumberError(text[:30])
    return value


def _whole_number(text: str) -> int:
    if len(text) > 30:
        raise _BadNumberError(text[:30] + "…")
    return int(text)


def _refuse(title: str, text: str, place: str = "") -> NoReturn:
    raise DocumentError(title, [(place, text)])


def _decoded(raw: bytes, title: str) -> str:
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        _refuse(title, _("it is not text in UTF-8 (byte {place}).").format(place=fault.start + 1))


def _depth(text: str) -> int:
    """How deep the brackets of JSON text go, text in quotes left out."""
    depth = deepest = 0
    quoted = skip = False
    for letter in text:
        if skip:
            skip = False
        elif quoted:
            skip = letter == "\\"
            quoted = letter != '"'
        elif letter == '"':
            quoted = True
        elif letter in "[{":
            depth += 1
            deepest = max(deepest, depth)
        elif letter in "]}":
            depth -= 1
    return deepest


def _json_fault(text: str, fault: json.JSONDecodeError) -> str:
    """What is wrong with JSON text at the place where reading stopped."""
    if fault.pos >= len(text.rstrip()) or fault.msg.startswith("Unterminated"):
        return _("the document breaks off here; part of it is missing.")
    if fault.msg.startswith("Extra data"):
        return _("the document should end here, but more follows.")
    if "delimiter" in fault.msg:
        return _("a comma, colon or closing bracket is missing before this.")
    if "property name" in fault.msg:
        return _("a name in double quotes is expected here; is there a comma too many?")
    if "control character" in fault.msg:
        return _("the text in quotes is not closed on its line.")
    return _("this is not JSON; a value is expected here.")


def json_text(value: object) -> str:
    """A document as text that people can read and that is the same each time."""
    return json.dumps(value, ensure_ascii=False, indent=2, allow_nan=False) + "\n"


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


def _plain_words(path: Path, fault: OSError) -> str:
    """What stopped the reading or writing of a file, in plain words."""
    texts = {
        errno.ENOENT: _("There is no file “{path}”."),
        errno.EACCES: _("“{path}” may not be read or written here; check its rights."),
        errno.EPERM: _("“{path}” may not be read or written here; check its rights."),
        errno.EROFS: _("“{path}” lies on a disk that cannot be written."),
        errno.ENOSPC: _("The disk is full: “{path}” was not written; the old file is untouched."),
        errno.EDQUOT: _("The disk is full: “{path}” was not written; the old file is untouched."),
        errno.EISDIR: _("“{path}” is a folder, not a file."),
        errno.ENOTDIR: _("A part of “{path}” is a file where a folder should be."),
        errno.EEXIST: _("A part of “{path}” is a file where a folder should be."),
        errno.ENAMETOOLONG: _("The name “{path}” is too long for this disk."),
    }
    text = texts.get(fault.errno or 0, _("“{path}” could not be read or written: {reason}."))
    return text.format(path=path, reason=fault.strerror or fault)
