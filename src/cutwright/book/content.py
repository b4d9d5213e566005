"""A document on its way into the book and out again: one JSON object, sound and not too large.

What stands in a document is other layers' affair; the book reads only what it says of itself:
its title, its date and its notes.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from contextlib import suppress
from dataclasses import dataclass
from datetime import date
from typing import Any, NoReturn

from cutwright.book.nouns import Content
from cutwright.documents import DEEPEST, LARGEST
from cutwright.errors import StoreError
from cutwright.words import _

LONGEST_LINE = 10_000
MOST_REVISIONS = 2_000_000_000


@dataclass(frozen=True, slots=True)
class Says:
    """What a document says of itself, as far as it does."""

    title: str | None
    dated: date | None
    notes: str


def freeze(content: Content) -> str:
    """The document as JSON text in plain ASCII, which every database keeps unchanged.

    Errors: StoreError when it is no JSON object, nests too deeply, holds a number that is not
    one (NaN, infinity), or is too large.
    """
    if not isinstance(content, Mapping):
        raise StoreError(_("A document must be a JSON object (names with values)."))
    _check_depth(content)
    try:
        text = json.dumps(content, allow_nan=False, separators=(",", ":"))
    except (TypeError, ValueError) as error:
        raise StoreError(
            _("This document cannot be kept as JSON: {reason}.").format(reason=error)
        ) from None
    if len(text) > LARGEST:
        raise StoreError(
            _("This document is {size} characters long; the book takes {most} at most.").format(
                size=len(text), most=LARGEST
            )
        )
    return text


def pack(parts: Mapping[str, Any]) -> str:
    """Documents that are sound each for itself, together as one JSON text."""
    _check_depth(parts, DEEPEST + 2)
    return json.dumps(parts, allow_nan=False, separators=(",", ":"))


def check_frozen(text: str) -> None:
    """StoreError when this is no document, or documents together, as `freeze` and `pack` write them."""
    try:
        content = json.loads(text, parse_constant=_no_number)
    except (ValueError, RecursionError):
        raise StoreError(_("this is no document.")) from None
    if not isinstance(content, dict) or not text.isascii():
        raise StoreError(_("this is no document."))
    _check_depth(content, DEEPEST + 2)


def thaw(text: str) -> dict[str, Any]:
    """The document that was frozen."""
    content: dict[str, Any] = json.loads(text)
    return content


def same(one: str, other: str) -> bool:
    """Whether two frozen documents say the same, whatever the order of their names."""
    if one == other:
        return True
    if len(one) != len(other):
        return False
    return json.dumps(thaw(one), sort_keys=True) == json.dumps(thaw(other), sort_keys=True)


def says(content: Content) -> Says:
    """The "name", the day "measured_on" and the "notes" that stand in a document."""
    dated = None
    if isinstance(content.get("measured_on"), str):
        with suppress(ValueError):
            dated = date.fromisoformat(content["measured_on"])
    return Says(_text(content.get("name")) or None, dated, _text(content.get("notes")))


def line(text: str, what: str) -> str:
    """A text for a column, trimmed; refused when it is too long or holds unprintable signs."""
    trimmed = text.strip()
    if len(trimmed) > LONGEST_LINE:
        raise StoreError(
            _("{what} is {size} characters long; {most} at most fit.").format(
                what=what, size=len(trimmed), most=LONGEST_LINE
            )
        )
    if "\x00" in trimmed or any("\ud800" <= sign <= "\udfff" for sign in trimmed):
        raise StoreError(_("{what} holds a sign that is no letter.").format(what=what))
    return trimmed


def _no_number(_text: str) -> NoReturn:
    raise ValueError


def _text(value: object) -> str:
    """A text from a foreign document, cut down to what a column takes."""
    if not isinstance(value, str):
        return ""
    sound = "".join(
        sign for sign in value[:LONGEST_LINE] if sign != "\x00" and not "\ud800" <= sign <= "\udfff"
    )
    return sound.strip()


def _check_depth(content: Content, deepest: int = DEEPEST) -> None:
    level: list[object] = [content]
    for _depth in range(deepest):
        level = [inner for outer in level for inner in _inside(outer)]
        if not level:
            return
    raise StoreError(_("This document nests more than {most} deep.").format(most=deepest))


def _inside(value: object) -> Iterable[object]:
    if isinstance(value, Mapping):
        return value.values()
    return value if isinstance(value, list | tuple) else ()
