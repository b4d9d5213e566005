"""Sentences that could be written next: those that can be done with what is pointed at.

Each kind of sentence is filled in from its declaration and tried on the paper; what cannot be
done there is not offered.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from cutwright.body.body import Body
from cutwright.desk.style.editors import Editor, editors
from cutwright.desk.style.history import dart_names
from cutwright.pattern.edge import EdgeKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.style.registry import all_steps, tag_of
from cutwright.style.step import Step
from cutwright.words import N_

GROUPS = (
    N_("centres and openings"), N_("cut and join"), N_("darts"), N_("draft"),
    N_("facings and bands"), N_("finishing"), N_("flounces"), N_("fullness"),
    N_("lengths and hems"), N_("necklines and armholes"), N_("paper"),
)  # fmt: skip
"""The headings that sentences are offered under."""

_LENGTHS = {"depth": 20.0, "by": 4.0, "width": 4.0, "short_by": 1.0, "length": 60.0, "long": 100.0}
_ANYWHERE = 5.0
_MOST = 24


@dataclass(frozen=True, slots=True)
class Selected:
    """What is pointed at: nothing, a piece, an edge or a dart."""

    piece: Piece | None = None
    edge: str = ""
    dart: str = ""

    @classmethod
    def of(cls, pattern: Pattern, piece: str, name: str) -> Selected:
        """What a tag means on a pattern; nothing where it is not there (any more)."""
        found = next((p for p in pattern.pieces if p.name == piece), None)
        if found is None or not name:
            return cls(found)
        if name in dart_names(found):
            return cls(found, dart=name)
        known = next((e.name for e in found.edges if e.answers_to(name)), "")
        return cls(found, edge=known)


def offers(pattern: Pattern, body: Body, selected: Selected) -> list[Step]:
    """Sentences that can be done, the ones on what is selected first told apart by their kind."""
    out: list[Step] = []
    for step in all_steps().values():
        for row in _rows(step, pattern, selected):
            done = _tried(step, row, pattern, body)
            if done is not None and done not in out:
                out.append(done)
            if len(out) >= _MOST:
                return out
    return out


def _tried(step: type[Step], row: dict[str, Any], pattern: Pattern, body: Body) -> Step | None:
    try:
        made = step.model_validate(row)
        result = made.apply(pattern, body)
    except Exception:  # whatever cannot be done there is not offered
        return None
    return made if result.pattern != pattern else None


def _rows(step: type[Step], pattern: Pattern, selected: Selected) -> Iterator[dict[str, Any]]:
    """Ways to fill in the fields of a step; empty when it does not speak of what is selected."""
    known = editors(step)
    roles = {editor.role for editor in known.values()}
    if not _speaks_of(roles, selected, pattern):
        return
    row: dict[str, Any] = {"do": tag_of(step)}
    for name, editor in known.items():
        value = _filled(name, editor, step, pattern, selected)
        if value is not None:
            row[name] = value
    place = next((n for n, e in known.items() if e.role == "place" and not e.optional), None)
    if place is not None and selected.piece is not None:
        for edge in _outer_edges(selected.piece, selected.dart)[:4]:
            yield {**row, place: {"edge": edge, "share": 0.5}}
        return
    rows = list(_edge_rows(row, known, selected, pattern))
    yield from rows or [row]


def _speaks_of(roles: set[str], selected: Selected, pattern: Pattern) -> bool:
    drafts = not roles & {"piece", "pieces", "edges", "edge of piece", "edge", "dart", "darts"}
    if selected.piece is None:
        return drafts or not roles & {"dart", "darts", "edges"}
    if selected.dart:
        return bool(roles & {"dart", "darts"})
    if selected.edge:
        return bool(roles & {"edge", "edges", "edge of piece", "place"}) and not roles & {"dart"}
    return bool(roles & {"piece", "pieces"}) and not roles & {"dart"}


def _filled(
    name: str, editor: Editor, step: type[Step], pattern: Pattern, selected: Selected
) -> Any:
    """A value for a field, or None to leave it at its default."""
    required = step.model_fields[name].is_required()
    piece = selected.piece
    if editor.role == "piece" and piece is not None and (required or name == "piece"):
        return piece.name
    if editor.role == "piece" and required and pattern.pieces:
        return pattern.pieces[0].name
    if editor.role == "edge of piece" and required and piece is not None and selected.edge:
        return {"piece": piece.name, "edge": selected.edge}
    if editor.role == "pieces":
        return [p.name for p in _family(pattern, piece)]
    if editor.role == "new pieces":
        return [_lower_name(pattern, p.name) for p in _family(pattern, piece)]
    if editor.role == "new piece":
        return _free_name(pattern, _default(step, name) or editor.field, selected)
    if editor.role in ("dart", "darts") and piece is not None:
        dart = selected.dart or next(iter(dart_names(piece)), "")
        return [dart] if editor.role == "darts" else dart
    if editor.role == "length" and required:
        wish = _LENGTHS.get(name, _ANYWHERE)
        return min(max(wish, editor.low or 0.0), editor.high or wish)
    if editor.role == "share" and required:
        return 0.5
    if editor.role == "count" and required:
        return max(3, int(editor.low or 1))
    return None


def _edge_rows(
    row: dict[str, Any], known: Any, selected: Selected, pattern: Pattern
) -> Iterator[dict[str, Any]]:
    """With an edge selected, the edge alone and with those of its name on other pieces."""
    edges = next((n for n, e in known.items() if e.role == "edges"), None)
    single = [n for n, e in known.items() if e.role == "edge" and not e.optional]
    if selected.piece is None or not selected.edge:
        return
    here = {"piece": selected.piece.name, "edge": selected.edge}
    if edges is not None:
        alike = [
            {"piece": p.name, "edge": selected.edge}
            for p in pattern.pieces
            if any(e.name == selected.edge and e.kind is not EdgeKind.GATHERED for e in p.edges)
        ]
        if len(alike) > 1:
            yield {**row, edges: alike}
        yield {**row, edges: [here]}
    elif single:
        for name in single[:2]:
            yield {**row, name: selected.edge, **_across(single, name, selected)}


def _across(fields: list[str], taken: str, selected: Selected) -> dict[str, str]:
    """For a step on two edges, the one across from the one selected."""
    piece = selected.piece
    other = next((f for f in fields if f != taken), None)
    if piece is None or other is None:
        return {}
    names = [n for n in piece.edge_names() if n != selected.edge]
    opposite = {"hem": "waist", "waist": "hem", "top": "bottom", "bottom": "top"}
    wish = opposite.get(selected.edge, "")
    return {other: wish if wish in names else (names[len(names) // 2] if names else "")}


def _family(pattern: Pattern, piece: Piece | None) -> list[Piece]:
    """The piece, or front and back together when nothing is selected."""
    if piece is not None:
        return [piece]
    pair = [p for p in pattern.pieces if p.name in ("front", "back")]
    return pair or list(pattern.pieces[:1])


def _lower_name(pattern: Pattern, name: str) -> str:
    taken = {p.name for p in pattern.pieces}
    wish = f"skirt {name}" if name in ("front", "back") else f"lower {name}"
    return wish if wish not in taken else f"{wish} 2"


def _free_name(pattern: Pattern, wish: str, selected: Selected) -> str:
    taken = {p.name for p in pattern.pieces}
    names = [f"{selected.edge} {wish}" if selected.edge and selected.edge not in wish else wish]
    names += [wish, *(f"{wish} {n}" for n in range(2, 30))]
    return next((n for n in names if n not in taken and len(n) <= 60), wish)


def _default(step: type[Step], name: str) -> str:
    value = step.model_fields[name].default
    return value if isinstance(value, str) else ""


def _outer_edges(piece: Piece, dart: str) -> list[str]:
    """Edges a dart could be moved to: not its own, not a fold."""
    own = {e.name for e in piece.beside_mouth(dart)}
    return [
        name
        for name in piece.edge_names()
        if name not in own and all(not e.at_centre for e in piece.edges if e.name == name)
    ]
