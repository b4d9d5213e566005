"""The words of a piece's label in the language in force."""

from __future__ import annotations

from dataclasses import dataclass

from cutwright.finish.label import Label
from cutwright.wording.message_text import message_text
from cutwright.wording.names import title_of

_BESIDE = " · "


@dataclass(frozen=True, slots=True)
class LabelWords:
    """A label ready to be set: the piece's name as its title, and the lines below it."""

    title: str
    lines: tuple[str, ...]

    def in_one(self) -> str:
        """The label as a single line, for narrow strips."""
        return _BESIDE.join([self.title, *self.lines])


def label_words(label: Label) -> LabelWords:
    """The words of a label."""
    lines = (_BESIDE.join(message_text(part) for part in line) for line in label.lines)
    return LabelWords(title_of(label.piece), tuple(lines))
