"""The words of a sentence that can be changed in place: what stands there and what could."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from cutwright.desk.style.editors import Editor, editors
from cutwright.desk.style.history import dart_names
from cutwright.desk.style.values import format_value
from cutwright.pattern.edge import EdgeKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.style.parameter import EdgeOf, Place
from cutwright.style.step import Step
from cutwright.wording.names import name_text
from cutwright.wording.sentences import sentence_parts, value_words
from cutwright.words import _


@dataclass(frozen=True, slots=True)
class Option:
    """One of several things to choose from."""

    value: str
    words: str
    chosen: bool = False


@dataclass(frozen=True, slots=True)
class Control:
    """A field of a sentence as it is shown: its editor, what stands in it, what could.

    `shape` is "number", "text", "one" (choose one), "many" (choose several), "names" (several
    texts), "place" or "numbers".
    """

    editor: Editor
    shape: str
    value: str
    options: tuple[Option, ...] = ()
    names: tuple[str, ...] = ()
    place: tuple[str, str, str, str] = ("", "", "", "")
    """edge, near, how ("share" or "distance") and how much, for a place."""
    near: tuple[Option, ...] = ()

    @property
    def field(self) -> str:
        """The name of the field in the document."""
        return self.editor.field

    @property
    def size(self) -> int:
        """How many letters the control is wide."""
        return max(2, min(len(self.value) + (1 if self.shape == "number" else 2), 34))


@dataclass(frozen=True, slots=True)
class SentencePart:
    """A stretch of a sentence: plain words, or a control."""

    text: str
    control: Control | None = None


_SHAPES = {
    "choice": "one",
    "flag": "one",
    "piece": "one",
    "edge": "one",
    "dart": "one",
    "edge of piece": "one",
    "pieces": "many",
    "darts": "many",
    "edges": "many",
    "new pieces": "names",
    "place": "place",
    "shares": "numbers",
    "lengths": "numbers",
    "list": "numbers",
}


def controls_of(step: Step, pattern: Pattern) -> Iterator[SentencePart]:
    """The sentence of a step in parts; `pattern` is the paper before it."""
    known = editors(type(step))
    for text, field in sentence_parts(step):
        if field in known:
            yield SentencePart(value_words(text), control(step, known[field], pattern))
        else:
            yield SentencePart(text)


def finer_points(step: Step, pattern: Pattern) -> list[Control]:
    """The fields that the sentence does not show, in the order of their declaration."""
    said = {field for _text, field in sentence_parts(step)}
    known = editors(type(step))
    return [
        control(step, editor, pattern)
        for name, editor in known.items()
        if name not in said and name != "name"
    ]


def control(step: Step, editor: Editor, pattern: Pattern) -> Control:
    """The control of one field."""
    value = getattr(step, editor.field)
    shape = "number" if editor.numeric else _SHAPES.get(editor.role, "text")
    if shape == "one":
        return Control(editor, shape, format_value(value), _one(step, editor, value, pattern))
    if shape == "many":
        return Control(editor, shape, format_value(value), _many(step, editor, value, pattern))
    if shape == "names":
        return Control(editor, shape, format_value(value), names=tuple(map(name_text, value)))
    if shape == "place":
        return _place(step, editor, value, pattern)
    return Control(editor, shape, format_value(value))


def _one(step: Step, editor: Editor, value: Any, pattern: Pattern) -> tuple[Option, ...]:
    if editor.role == "flag":
        return (Option("true", _("yes"), bool(value)), Option("false", _("no"), not value))
    now = "" if value is None else str(value)
    there = list(editor.choices) or _there(step, editor.role, pattern)
    if now and now not in there:
        there.insert(0, now)
    options = [Option(each, name_text(each), each == now) for each in there]
    if editor.optional or not now:
        options.insert(0, Option("", _("as usual"), not now))
    return tuple(options)


def _many(step: Step, editor: Editor, value: Sequence[Any], pattern: Pattern) -> tuple[Option, ...]:
    chosen = [str(each) for each in value]
    there = _there(step, "edge of piece" if editor.role == "edges" else editor.role, pattern)
    every = list(dict.fromkeys([*chosen, *there]))
    return tuple(Option(each, name_text(each), each in chosen) for each in every)


def _there(step: Step, role: str, pattern: Pattern) -> list[str]:
    """The names there are on the paper for a role."""
    if role in ("piece", "pieces"):
        return [piece.name for piece in pattern.pieces]
    pieces = list(_pieces_of(step, pattern))
    if role == "edge":
        return _names(name for piece in pieces for name in piece.edge_names())
    if role in ("dart", "darts"):
        return _names(name for piece in pieces for name in dart_names(piece))
    if role == "edge of piece":
        return [
            f"{piece.name}: {name}"
            for piece in pattern.pieces
            for name in piece.edge_names()
            if all(e.kind is not EdgeKind.FOLD for e in piece.edges if e.name == name)
        ]
    return []


def _names(names: Iterable[str]) -> list[str]:
    return list(dict.fromkeys(names))


def _pieces_of(step: Step, pattern: Pattern) -> Iterator[Piece]:
    """The pieces a step speaks of; all there are when it speaks of none."""
    named: list[str] = []
    for name, editor in editors(type(step)).items():
        value = getattr(step, name)
        if editor.role == "piece" and isinstance(value, str):
            named.append(value)
        elif editor.role == "pieces":
            named += list(value)
        elif editor.role == "edge of piece" and isinstance(value, EdgeOf):
            named.append(value.piece)
    found = [piece for piece in pattern.pieces if piece.name in named]
    yield from found or pattern.pieces


def _place(step: Step, editor: Editor, value: Place | None, pattern: Pattern) -> Control:
    edges = _there(step, "edge", pattern)
    edge = value.edge if value else ""
    near = value.near if value else ""
    if value is not None and value.distance is not None:
        how, much = "distance", format_value(value.distance)
    else:
        how, much = "share", format_value(value.share) if value is not None else ""
    options = _chosen([e for e in dict.fromkeys([edge, *edges]) if e], edge)
    if editor.optional or not edge:
        options = (Option("", _("nowhere yet"), not edge), *options)
    ends: tuple[Option, ...] = (Option("", _("where it begins"), not near),)
    ends += _chosen([e for e in dict.fromkeys([near, *edges]) if e], near)
    text = format_value(value) if value is not None else _("nowhere yet")
    return Control(editor, "place", text, options, place=(edge, near, how, much), near=ends)


def _chosen(names: Sequence[str], now: str) -> tuple[Option, ...]:
    return tuple(Option(name, name_text(name), name == now) for name in names)
