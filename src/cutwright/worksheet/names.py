"""How names are written for the reader: in the language in force, by its customs."""

from __future__ import annotations

import re
from collections.abc import Iterator

from cutwright.body.measures import MEASURES
from cutwright.numerals import bare, by_custom, in_inches
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.vocabulary import EDGES, retold, told
from cutwright.style.step import Step
from cutwright.words import _, spoken

_MEASURE = re.compile(r"\b(" + "|".join(sorted(MEASURES, key=len, reverse=True)) + r")\b")


def sentence_case(text: str) -> str:
    """The text with its first letter large."""
    return text[:1].upper() + text[1:]


def title_of(name: str) -> str:
    """The name of a piece as a heading."""
    return sentence_case(told(name))


def sentence(step: Step) -> str:
    """The sentence of a step with its values in the language in force."""
    parts = list(step.sentence_parts())
    if in_inches():
        parts = list(_inch_parts(step, parts))
    return "".join(value_words(text) if field else text for text, field in parts)


def _inch_parts(step: Step, parts: list[tuple[str, str]]) -> Iterator[tuple[str, str]]:
    """The parts of a sentence with the lengths of the style in inches, where its words follow with "cm"."""
    unit = " " + _("cm")
    for at, (text, field) in enumerate(parts):
        value = getattr(step, field) if field else None
        behind = parts[at + 1][0] if at + 1 < len(parts) else ""
        before = parts[at - 1] if at else ("", "")
        if isinstance(value, int | float) and behind.startswith(unit):
            yield bare(value), ""
        elif (
            not field
            and text.startswith(unit)
            and before[1]
            and not isinstance(getattr(step, before[1]), str)
        ):
            yield f" {_('in')}{text[len(unit) :]}", ""
        else:
            yield text, field


def value_words(text: str) -> str:
    """A value of a sentence, as `Step.sentence_parts` gives it, in the language in force."""
    if _MEASURE.search(text):
        text = _MEASURE.sub(lambda m: _lower(_(MEASURES[m.group()].name)), text)
        text = text.replace("*", "×")
    return by_custom(retold(told(text), EDGES))


def _lower(name: str) -> str:
    """A name as it stands inside a sentence; German keeps its capitals."""
    return name if spoken().startswith("de") else name[:1].lower() + name[1:]


def names_of(pattern: Pattern) -> tuple[str, ...]:
    """Every name of a piece, an edge or a dart that a line of arithmetic may hold."""
    found: dict[str, None] = {}
    for piece in pattern.pieces:
        found[piece.name] = None
        found.update((edge.name, None) for edge in piece.edges)
        found.update((name, None) for name in dart_names(piece))
    return tuple(found)


def dart_names(piece: Piece) -> tuple[str, ...]:
    """The names of all darts of a piece."""
    return (*(d.name for d in piece.darts), *(d.name for d in piece.diamonds))


def sum_line(how: str, pattern: Pattern) -> str:
    """A line of arithmetic as the reader is shown it."""
    return by_custom(retold(how, names_of(pattern)))
