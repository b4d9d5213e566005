"""Two hands on one document: changes of different sentences or lines stand together, others are asked about."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

from cutwright.book import documents, history
from cutwright.book.book import Book
from cutwright.book.compare import followed
from cutwright.book.errors import ConflictError
from cutwright.book.nouns import Document
from cutwright.desk.style.commands import (
    Change,
    MoveSentence,
    Name,
    Set,
    TakeOut,
    Write,
    carried_out,
)
from cutwright.style.document import Style

TRIES = 8
"""How often a change is set on what stands now while others go on saving."""


@dataclass(frozen=True, slots=True)
class MergedChange:
    """A change as it would stand in the book now.

    `clash`: somebody else changed the same sentence or line since it was read. `went`: where each
    sentence the page shows stands now, None where none has moved.
    """

    content: dict[str, Any]
    label: str
    clash: bool = False
    went: list[int] | None = None


Setting = Callable[[dict[str, Any], dict[str, Any] | None], MergedChange]
"""Sets a change on what stands now; the second is what was read, None where it is the same."""


@dataclass
class Attempt:
    """A change set on what stands now, to be saved on top of the revision `base`."""

    wanted: MergedChange
    base: int
    last: bool = False
    document: Document | None = None
    """What was saved; None where others were quicker and it is to be tried again."""

    def save(self, book: Book, ident: str, group: str | None) -> None:
        """Save it; on the disk when this returns."""
        wanted = self.wanted
        try:
            self.document = documents.save(
                book, ident, wanted.content, base=self.base, group=group, label=wanted.label
            )
        except ConflictError:
            if self.last:
                raise


def attempts(
    book: Book, stands: Document, base: int, group: str, setting: Setting
) -> Iterator[Attempt]:
    """A change set on whatever stands now, again and again until it was saved.

    Parameters
    ----------
    base : the revision the page shows
    group : the stay in a field this belongs to; what it saved itself before is no clash

    Errors: ConflictError where the same sentence or line was changed by somebody else; its `mine`
    is what stands now with this change in it, so that keeping it loses nothing of the others.
    """
    for tries in range(TRIES):
        now = stands.revision
        before = None if base == now else documents.at(book, stands.id, base)
        wanted = setting(stands.content, before)
        if wanted.clash and not (group and history.stay_at(book, stands.id) == group):
            raise ConflictError(stands.id, base, now, wanted.content, stands.content)
        attempt = Attempt(wanted, now, last=tries == TRIES - 1)
        yield attempt
        if attempt.document is not None:
            return
        stands = documents.get(book, stands.id)


def set_on_style(style: Style, read: Style | None, command: Change) -> tuple[Style, str, bool]:
    """A style with a command that was given on an earlier state of it: (style, label, clash)."""
    if read is None:
        return (*carried_out(style, command), False)
    there = _rows(style)
    went = followed(_rows(read), there)
    if isinstance(command, Name):
        return (*carried_out(style, command), style.name not in (read.name, command.name))
    if isinstance(command, Write):
        at = _after(went, command.at)
        return (*carried_out(style, Write(do="write", at=at, step=command.step)), False)
    carried_out(read, command)  # what could not be done on what was read is told as ever
    at = went[command.step]
    clash = at < 0 or there[at] != _rows(read)[command.step]
    if isinstance(command, TakeOut) and at < 0:
        return style, "", False
    if at < 0:  # taken out meanwhile: keeping one's own writes it again
        at = _after(went, command.step)
        steps = (*style.steps[:at], read.steps[command.step], *style.steps[at:])
        style = Style(style.name, steps, style.about)
    elif clash and isinstance(command, Set):  # keeping one's own keeps the sentence one has read
        steps = (*style.steps[:at], read.steps[command.step], *style.steps[at + 1 :])
        style = Style(style.name, steps, style.about)
    return (*carried_out(style, _at(command, at, went)), clash)


def _at(
    command: Set | TakeOut | MoveSentence, at: int, went: list[int]
) -> Set | TakeOut | MoveSentence:
    if isinstance(command, MoveSentence):
        to = _after(went, command.to + (command.to > command.step))
        return MoveSentence(do="move", step=at, to=to - (to > at))
    return command.model_copy(update={"step": at})


def _after(went: list[int], at: int) -> int:
    """Where what stood before place `at` ends now."""
    return next((went[n] + 1 for n in range(min(at, len(went)) - 1, -1, -1) if went[n] >= 0), 0)


def _rows(style: Style) -> list[dict[str, Any]]:
    rows: list[dict[str, Any]] = style.document()["steps"]
    return rows


def places_now(read: Style, style: Style) -> list[int] | None:
    """Where each sentence that was read stands now; None where none has moved."""
    went = followed(_rows(read), _rows(style))
    same = len(read.steps) == len(style.steps) and went == list(range(len(went)))
    return None if same else went
