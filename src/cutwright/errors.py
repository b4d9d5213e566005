"""Every way a wish can fail, in one tree.

A message is written for the person at the cutting table: what is wrong, where, the value
found, what is allowed and what to do. Nothing half done is left behind by an error.
"""

from __future__ import annotations

from collections.abc import Sequence

from cutwright.messages import Message, N_plural, Text, Typed, text_of


class CutwrightError(Exception):
    """A wish that cannot be met.

    Parameters
    ----------
    message : what is wrong, as data; `cutwright.wording.message_text` makes the user's sentence of it. The
        parts that themselves speak to the user (book, desk, commands) may give the sentence.
    """

    def __init__(self, message: Message | str) -> None:
        if isinstance(message, str):
            message = Message("said", "{text}", text=Typed(message))
        self.message = message
        super().__init__(message)


class GeometryError(CutwrightError):
    """Lines that do not meet, or a curve that cannot be drawn as asked."""


class LookupFailed(CutwrightError):
    """A piece, edge, dart or place that was named is not there, or is more than one."""


class MeasureError(CutwrightError):
    """A body measure is missing, cannot be read or lies outside what a body can have."""


class DraftError(CutwrightError):
    """A block cannot be drafted from these measures; the text names the tapes that disagree."""


class StepError(CutwrightError):
    """A step of the style cannot be done on the paper as it lies."""


class FormulaError(CutwrightError):
    """A length written as a sum cannot be worked out."""


class LayError(CutwrightError):
    """The pieces cannot be laid on the cloth."""


class StoreError(CutwrightError):
    """Something could not be read from or written to the disk or the book."""


MOST_PROBLEMS = 40
"""So many problems of one document are told; of the others only how many there are."""


class DocumentError(CutwrightError):
    """A document is not what it should be; `problems` names every place at once, up to a bearable number.

    Parameters
    ----------
    title : what the document is and where it came from
    problems : one (place, text) pair for each thing that is wrong; a place may be empty
    """

    def __init__(
        self, title: Message | str, problems: Sequence[tuple[Message | str, Message | str]]
    ) -> None:
        self.title = text_of(title)
        self.problems: tuple[tuple[Text, Text], ...] = tuple(
            (text_of(place), text_of(text)) for place, text in problems[:MOST_PROBLEMS]
        )
        more = len(problems) - MOST_PROBLEMS
        if more > 0:
            rest = Message(
                "more-problems", N_plural("and {count} more", "and {count} more"), count=more
            )
            self.problems += ((Typed(""), rest),)
        super().__init__(_listed(self.title, self.problems))


def _listed(title: Text, problems: Sequence[tuple[Text, Text]]) -> Message:
    """Title and problems, each on its own line."""
    lines, values = ["{title}"], {"title": title}
    for n, (place, text) in enumerate(problems):
        lines.append(f"  {{place{n}}}: {{text{n}}}" if place else f"  {{text{n}}}")
        values |= {f"place{n}": place, f"text{n}": text}
    return Message("document", "\n".join(lines), **values)
