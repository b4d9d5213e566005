"""Unfolding: a half piece on the fold becomes a whole one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from cutwright.errors import StepError
from cutwright.geometry.move import Move
from cutwright.geometry.path import is_straight, passes_within
from cutwright.geometry.point import Point
from cutwright.messages import N_, Message
from cutwright.pattern.edge import Edge, Kind
from cutwright.pattern.loop import weld
from cutwright.pattern.piece import Dart, Diamond, Level, Mark, Piece, swap_leg_parts

_ON_FOLD = 1e-6


@dataclass(frozen=True, slots=True)
class Unfolded:
    """The whole piece; `merged` edges run across the fold, `copied` ones exist left and right."""

    piece: Piece
    fold: str
    merged: frozenset[str]
    copied: dict[str, str]


def unfolded(piece: Piece) -> Unfolded:
    """The whole of a half piece; raises StepError where no straight fold edge is there.

    Edges that meet the fold run through it and keep their name; every other edge, dart and mark is
    there twice, the mirrored one called "left ...".
    """
    folds = [e for e in piece.edges if e.kind is Kind.FOLD]
    if len(folds) != 1 or not is_straight(folds[0].curves, 1e-4):
        raise StepError(
            Message(
                "no-straight-edge-fold-nothing",
                N_(
                    '"{piece}" has no straight edge on the fold, so there is nothing to unfold. It has: {there}. Set its '
                    "centre on the fold first."
                ),
                piece=piece.name,
                there=", ".join(piece.edge_names()),
            )
        )
    fold = folds[0]
    index = piece.edges.index(fold)
    own = piece.edges[index + 1 :] + piece.edges[:index]
    merged = frozenset({own[0].name, own[-1].name})
    if own[0].name == own[-1].name:
        raise StepError(
            Message(
                "meets-fold-both-ends-cannot",
                N_('The "{edge}" of "{piece}" meets the fold at both ends; it cannot be unfolded.'),
                edge=own[0].name,
                piece=piece.name,
            )
        )
    move = Move.mirror(fold.start, fold.end)
    left = _turned_over(own, move, merged)
    names = {e.name for e in own if e.kind is not Kind.LEG and e.name not in merged}
    out = replace(
        piece,
        edges=weld([own, left]),
        darts=piece.darts + tuple(_left_dart(d, move) for d in piece.darts),
        diamonds=piece.diamonds + tuple(_left_diamond(d, move) for d in piece.diamonds),
        marks=piece.marks + _left_marks(piece, fold, move, merged),
        levels=tuple(x for level in piece.levels for x in _whole_level(level, fold, move)),
    )
    return Unfolded(out, fold.name, merged, {name: left_of(name) for name in names})


def left_of(name: str) -> str:
    """The name of the mirrored copy."""
    return f"left {name}"


def _turned_over(own: Sequence[Edge], move: Move, merged: frozenset[str]) -> tuple[Edge, ...]:
    """The mirrored edges in walking order, named and numbered anew."""
    back = swap_leg_parts([e.moved(move).reversed() for e in reversed(own)])
    most = {
        e.name: max((x.part[0] for x in own if x.name == e.name and x.part), default=0) for e in own
    }
    out: list[Edge] = []
    count = dict.fromkeys(most, 0)
    for place, edge in enumerate(back):
        if place in (0, len(back) - 1):  # goes on across the fold
            out.append(edge)
            continue
        if edge.kind is Kind.LEG or edge.name not in merged:
            out.append(replace(edge, name=left_of(edge.name), part=edge.part))
            continue
        count[edge.name] += 1
        part = (most[edge.name] + count[edge.name],) if edge.part else ()
        out.append(replace(edge, part=part))
    return _numbered(tuple(out), merged)


def _numbered(edges: tuple[Edge, ...], merged: frozenset[str]) -> tuple[Edge, ...]:
    """Parts of copied edges numbered in the order in which they are walked now."""
    seen: dict[str, int] = {}
    out: list[Edge] = []
    for edge in edges:
        if edge.kind is Kind.LEG or edge.name in merged or not edge.part:
            out.append(edge)
            continue
        seen[edge.name] = seen.get(edge.name, 0) + 1
        out.append(replace(edge, part=(seen[edge.name],)))
    return tuple(out)


def _left_dart(dart: Dart, move: Move) -> Dart:
    return replace(dart.moved(move), name=left_of(dart.name))


def _left_diamond(diamond: Diamond, move: Move) -> Diamond:
    return replace(diamond.moved(move), name=left_of(diamond.name))


def _left_marks(piece: Piece, fold: Edge, move: Move, merged: frozenset[str]) -> tuple[Mark, ...]:
    out: list[Mark] = []
    for mark in piece.marks:
        if _on(fold, mark.at) and (mark.to is None or _on(fold, mark.to)):
            continue
        edge = mark.edge
        if edge is not None and edge not in merged:
            edge = left_of(edge)
        out.append(replace(mark.moved(move), edge=edge))
    return tuple(out)


def _on(fold: Edge, p: Point) -> bool:
    return passes_within(fold.curves, p, 1e-4)


def _whole_level(level: Level, fold: Edge, move: Move) -> tuple[Level, ...]:
    points = level.points
    if _on(fold, points[0]):
        points = points[::-1]
    other = tuple(move(p) for p in points)
    if not _on(fold, points[-1]):
        return level, replace(level, points=other)
    return (replace(level, points=points + other[-2::-1]),)
