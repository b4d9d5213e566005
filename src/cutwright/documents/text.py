"""JSON text in and out: what is too large, too deep, cut short or not JSON is refused with its place."""

from __future__ import annotations

import json
import re
from math import isfinite
from typing import Any, NoReturn

from cutwright.errors import DocumentError
from cutwright.messages import N_, Message, Typed

LARGEST = 2_000_000
"""The most bytes a document may have."""

LARGEST_OF_ALL = 200_000_000
"""The most bytes of a file that holds many documents: a client with everything, a whole book."""

MOST_VALUES = 5_000_000
"""The most values in such a file; each takes a hundred times its own size while it is read."""

MOST_IN_ONE = 50_000
"""The most values in a document of one kind: each that is of a wrong kind costs a thousand bytes to tell."""

DEEPEST = 40
"""How many brackets may stand inside each other."""


def parse_json(raw: bytes | str, title: Message | str) -> object:
    """The value in JSON text, refused with line and column where it breaks off or goes wrong."""
    if len(raw) > LARGEST:
        _refuse(
            title,
            Message(
                "larger-than",
                N_("it is larger than {size} bytes, which no such document is."),
                size=LARGEST,
            ),
        )
    text = raw if isinstance(raw, str) else _decoded(raw, title)
    if not text.strip():
        _refuse(title, Message("empty", N_("it is empty.")))
    if _depth(text) > DEEPEST:
        _refuse(
            title,
            Message(
                "deeper-than",
                N_("its brackets stand more than {deep} deep inside each other."),
                deep=DEEPEST,
            ),
        )
    value = _loaded(text, title)
    if "\\u" in text or isinstance(raw, str):
        _whole_letters(value, title)
    return value


def more_values_than(value: object, most: int) -> bool:
    """Whether a JSON value holds more values than that, those inside each other counted."""
    count, held = 0, [value]
    while held:
        one = held.pop()
        inner = list(one.values()) if isinstance(one, dict) else one
        if isinstance(inner, list):
            count += len(inner)
            if count > most:
                return True
            held += inner
    return False


def parse_large(raw: bytes, title: Message | str) -> object:
    """The value in a file of many documents, refused before it is read when it would take too much."""
    if len(raw) > LARGEST_OF_ALL:
        _refuse(
            title,
            Message(
                "larger-than",
                N_("it is larger than {size} bytes, which no such document is."),
                size=LARGEST_OF_ALL,
            ),
        )
    bare = _QUOTED.sub(b"", raw)
    if sum(map(bare.count, (b",", b"[", b"{"))) > MOST_VALUES:
        _refuse(
            title,
            Message("more-values-than", N_("it holds more than {most} values."), most=MOST_VALUES),
        )
    text = _decoded(raw, title)
    try:
        value = _loaded(text, title)
    except RecursionError:
        _refuse(
            title,
            Message(
                "deeper-than",
                N_("its brackets stand more than {deep} deep inside each other."),
                deep=DEEPEST,
            ),
        )
    if "\\u" in text:
        _whole_letters(value, title)
    return value


def _loaded(text: str, title: Message | str) -> object:
    """The value in JSON text of bearable size and depth; names written twice are refused."""
    twice: list[tuple[str, Message]] = []

    def pairs(items: list[tuple[str, Any]]) -> dict[str, Any]:
        seen: dict[str, Any] = {}
        for name, value in items:
            if name in seen:
                twice.append((name, Message("written-twice", N_("it is written twice; keep one."))))
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
        place = Message(
            "at-line-and-column",
            N_("line {line}, column {column}"),
            line=fault.lineno,
            column=fault.colno,
        )
        _refuse(title, _json_fault(text, fault), place)
    except _BadNumberError as fault:
        _refuse(
            title,
            Message(
                "no-usable-number",
                N_("{number} is not a number that can be used."),
                number=Typed(fault),
            ),
        )
    if twice:
        raise DocumentError(title, twice)
    return value


def json_text(value: object) -> str:
    """A document as text that people can read and that is the same each time."""
    return json.dumps(value, ensure_ascii=False, indent=2, allow_nan=False) + "\n"


_QUOTED = re.compile(rb'"(?:[^"\\]++|\\.)*+"', re.DOTALL)
"""A text in quotes."""


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


def _refuse(title: Message | str, text: Message, place: Message | str = "") -> NoReturn:
    raise DocumentError(title, [(place, text)])


def _whole_letters(value: object, title: Message | str) -> None:
    """Refuse half a letter: an escape such as \\ud800 that no file can hold."""
    try:
        json.dumps(value, ensure_ascii=False).encode()
    except UnicodeEncodeError:
        _refuse(
            title,
            Message(
                "half-a-letter", N_("a text in it holds half a letter (an escape such as \\ud800).")
            ),
        )


def _decoded(raw: bytes, title: Message | str) -> str:
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        _refuse(
            title,
            Message(
                "not-utf-8", N_("it is not text in UTF-8 (byte {place})."), place=fault.start + 1
            ),
        )


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


def _json_fault(text: str, fault: json.JSONDecodeError) -> Message:
    """What is wrong with JSON text at the place where reading stopped."""
    if fault.pos >= len(text.rstrip()) or fault.msg.startswith("Unterminated"):
        return Message("breaks-off", N_("the document breaks off here; part of it is missing."))
    if fault.msg.startswith("Extra data"):
        return Message("more-follows", N_("the document should end here, but more follows."))
    if "delimiter" in fault.msg:
        return Message(
            "delimiter-missing", N_("a comma, colon or closing bracket is missing before this.")
        )
    if "property name" in fault.msg:
        return Message(
            "name-expected",
            N_("a name in double quotes is expected here; is there a comma too many?"),
        )
    if "control character" in fault.msg:
        return Message("text-not-closed", N_("the text in quotes is not closed on its line."))
    return Message("no-json", N_("this is not JSON; a value is expected here."))
