"""What is to be said, as data: a code, a template and the values in it. No language in here.

Whoever finds that something is wrong, or worth a note, makes a `Message`; `cutwright.wording.message_text`
makes the sentence in the reader's language, with the reader's decimal sign. What is sorted, counted or
decided goes by `code` and `values`, never by the sentence.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass


def N_(message: str) -> str:  # noqa: N802  (the usual name of this marker)
    """Mark a text for the catalogue without looking it up."""
    return message


def N_plural(one: str, many: str) -> tuple[str, str]:  # noqa: N802
    """Mark a text that depends on a count, for one and for many."""
    return one, many


class Typed(str):
    """What somebody typed or named: shown as it stands, in every language."""

    __slots__ = ()


class Length(float):
    """A length in centimetres, shown in the unit in which the reader measures, with no more places than it needs.

    The sentence names that unit by the field {unit}, which needs no value.
    """

    __slots__ = ()


Value = "float | int | str | Typed | date | Message | tuple[Value, ...]"
"""What a template may hold. A plain str is a name of the trade (a piece, an edge, a dart, a declared word)
and is translated; `Typed` is not. A tuple is said as a list."""


@dataclass(frozen=True, slots=True)
class Message:
    """One thing to say.

    Parameters
    ----------
    code : a stable word for it; one code has one template
    template : the English sentence with fields such as {length:.1f}, marked by `N_`; for a text that
        depends on how many, both forms, marked by `N_plural`, where the field {count} decides
    values : what the fields hold, in the units that the sentence names
    """

    code: str
    template: str | tuple[str, str]
    values: Mapping[str, object]

    def __init__(self, code: str, template: str | tuple[str, str], /, **values: object) -> None:
        object.__setattr__(self, "code", code)
        object.__setattr__(self, "template", template)
        object.__setattr__(self, "values", values)

    def __hash__(self) -> int:
        return hash((self.code, tuple(self.values)))

    def __reduce__(self) -> tuple[object, ...]:
        return _again, (self.code, self.template, dict(self.values))

    def then(self, more: Message | None) -> Message:
        """This with one more sentence after it, if there is one."""
        return self if more is None else Message("then", "{first} {more}", first=self, more=more)

    def __str__(self) -> str:
        """The sentence in English, for logs and for whoever reads the code."""
        template = self.template
        if isinstance(template, tuple):
            template = template[self.values.get("count") != 1]
        values = {name: _plain(value) for name, value in self.values.items()}
        return template.format(**{"unit": "cm", **values})


Text = Message | Typed
"""What can be said: a message, or what somebody typed or a part that speaks to the user made."""


def text_of(given: Message | str) -> Text:
    """A text as it can be said; a plain str is taken as a finished one and stands as it is."""
    return given if isinstance(given, Message | Typed) else Typed(given)


def either_of(choices: Sequence[Text]) -> Text:
    """What there is to choose from: "a", "a or b", "a, b or c"; there must be one."""
    *several, last = choices
    if not several:
        return last
    return Message("either", N_("{several} or {last}"), several=tuple(several), last=last)


def lines_of(messages: Sequence[Text]) -> Message:
    """Several messages, each on its own line; there must be one."""
    fields = {f"line{n}": message for n, message in enumerate(messages)}
    return Message("lines", "\n".join(f"{{{name}}}" for name in fields), **fields)


def _again(code: str, template: str | tuple[str, str], values: dict[str, object]) -> Message:
    return Message(code, template, **values)


def _plain(value: object) -> object:
    if isinstance(value, tuple):
        return ", ".join(str(_plain(part)) for part in value)
    if isinstance(value, Length):
        return f"{value:.2f}".rstrip("0").rstrip(".")
    return value if isinstance(value, int | float | str) else str(value)
