"""Unfolding: a half piece on the fold becomes a whole one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

from cutwright.errors import StepError
from cutwright.geometry.move import Move
from cutwright.geometry.path import is_straight, passes_within
from cutwright.geometry.point import Point
from cutwright.messages import N_, Message
from cutwright.pattern.edge import Edge, EdgeKind, parse_label
from cutwright.pattern.loop import weld
from cutwright.pattern.piece import Dart, Diamond, Level, Mark, Piece, swap_leg_parts
from cutwright.pattern.role import BodySide

D = TypeVar("D", Dart, Diamond)
_RIGHT, _LEFT = BodySide.RIGHT, BodySide.LEFT


@dataclass(frozen=True, slots=True)
class Unfolded:
    """A half piece made whole.

    Parameters
    ----------
    piece : the whole
    fold : name of the edge that lay on the fold and is gone
    merged : names of edges that run across it
    copied : names of edges that are there twice, and what the left one is called
    """

    piece: Piece
    fold: str
    merged: frozenset[str]
    copied: dict[str, str]


def unfolded(piece: Piece) -> Unfolded:
    """The whole of a half piece.

    Edges that meet the fold run through it and lie on both sides; every other edge, dart and mark
    is there twice, once for the wearer's right and once for the left.

    Parameters
    ----------
    piece : a half piece on the fold

    Returns
    -------
    the whole and what became of its edges

    Raises
    ------
    StepError : there is not exactly one straight edge on the fold, or one edge meets it at both
        ends
    """
    folds = [e for e in piece.edges if e.kind is EdgeKind.FOLD]
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
    right = tuple(e if e.name in merged else replace(e, side=_RIGHT) for e in own)
    twice = (e for e in piece.outer_edges if e is not fold and e.name not in merged)
    copied = {e.name: _LEFT.named(e.name) for e in twice}
    out = replace(
        piece,
        edges=weld([right, left]),
        darts=_on_both(piece.darts, move),
        diamonds=_on_both(piece.diamonds, move),
        marks=piece.marks + _left_marks(piece, fold, move, copied),
        levels=tuple(x for level in piece.levels for x in _whole_level(level, fold, move)),
    )
    return Unfolded(out, fold.name, merged, copied)


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
        if edge.taken_up or edge.name not in merged:
            out.append(replace(edge, name=_LEFT.named(edge.name), side=_LEFT))
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
        if edge.taken_up or edge.name in merged or not edge.part:
            out.append(edge)
            continue
        seen[edge.name] = seen.get(edge.name, 0) + 1
        out.append(replace(edge, part=(seen[edge.name],)))
    return tuple(out)


def _on_both(darts: tuple[D, ...], move: Move) -> tuple[D, ...]:
    """Every dart on the right and, mirrored, on the left."""
    right = tuple(replace(d, side=_RIGHT) for d in darts)
    return right + tuple(
        replace(d.moved(move), name=_LEFT.named(d.name), side=_LEFT) for d in darts
    )


def _left_marks(piece: Piece, fold: Edge, move: Move, copied: dict[str, str]) -> tuple[Mark, ...]:
    out: list[Mark] = []
    for mark in piece.marks:
        if _on(fold, mark.at) and (mark.to is None or _on(fold, mark.to)):
            continue
        edge = mark.edge
        if edge is not None:
            edge = copied.get(parse_label(edge)[0], edge)
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
