"""What a student is told about each blank of a lesson that was looked through."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from pydantic import BaseModel

from cutwright.numerals import short
from cutwright.words import _, ngettext
from cutwright.worksheet.lesson_check import Marked, State


class MarkShown(BaseModel):
    """A blank as the page shows it: a word beside it, and a hint for who asks."""

    key: str
    state: State | Literal["unread"]
    text: str
    hint: str = ""


class MarksShown(BaseModel):
    """Every blank, the whole in one line, and whether the lesson is no longer the one on the table."""

    marks: list[MarkShown]
    words: str
    changed: bool


def marks_shown(marks: Sequence[Marked], changed: bool) -> MarksShown:
    """The marks in words, in the language in force."""
    shown = [_mark(mark) for mark in marks]
    return MarksShown(marks=shown, words=_whole(shown), changed=changed)


def _mark(mark: Marked) -> MarkShown:
    match mark.state:
        case "right":
            return MarkShown(key=mark.key, state="right", text=_("right"))
        case "own":
            return MarkShown(key=mark.key, state="own", text=_("yours"))
        case "empty":
            return MarkShown(key=mark.key, state="empty", text="")
    if mark.off is None:
        return MarkShown(key=mark.key, state="unread", text=_("cannot be read: write a number"))
    text = _("{number} too much") if mark.off > 0 else _("{number} too little")
    off = short(abs(mark.off))
    return MarkShown(key=mark.key, state="wrong", text=text.format(number=off), hint=mark.hint)


def _whole(shown: Sequence[MarkShown]) -> str:
    """How many are right, to be looked at again, and left."""
    right = sum(mark.state == "right" for mark in shown)
    again = sum(mark.state in ("wrong", "unread") for mark in shown)
    left = sum(mark.state == "empty" for mark in shown)
    if not again and not left:
        return _("All of it is right.")
    parts = [
        ngettext("{count} right", "{count} right", right).format(count=right),
        ngettext("{count} to look at again", "{count} to look at again", again).format(count=again),
        ngettext("{count} still empty", "{count} still empty", left).format(count=left),
    ]
    return ", ".join(parts) + "."
