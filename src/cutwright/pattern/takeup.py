"""What takes cloth up along an edge, in order: darts, pleats, tucks, gathers and ease."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from cutwright.geometry.move import STAY, Move
from cutwright.geometry.path import Path, between_distances, distance_at, moved_path, point_at
from cutwright.memo import memoised
from cutwright.pattern.edge import Edge
from cutwright.pattern.mark import MarkKind, Pressed

if TYPE_CHECKING:
    from cutwright.pattern.piece import Piece

_NEAR = 0.1


class TakeUpKind(StrEnum):
    """How the cloth is taken up."""

    DART = "dart"
    PLEAT = "pleat"
    TUCK = "tuck"
    GATHERS = "gathers"
    EASE = "ease"


_OF_MARK = {
    MarkKind.PLEAT: TakeUpKind.PLEAT,
    MarkKind.TUCK: TakeUpKind.TUCK,
    MarkKind.GATHERS: TakeUpKind.GATHERS,
    MarkKind.EASE: TakeUpKind.EASE,
}
_FOLDED = (TakeUpKind.DART, TakeUpKind.PLEAT, TakeUpKind.TUCK)
FOLDS = (MarkKind.PLEAT, MarkKind.TUCK)
"""Marks of cloth that is folded away in the edge itself."""


@dataclass(frozen=True, slots=True)
class TakeUp:
    """Cloth that an edge has and its seam has not.

    Parameters
    ----------
    kind : how it is taken up
    begin, end : from where to where, cm along the edge; of a dart, whose mouth is no part of the
        edge, both are the place of its mouth
    amount : how much, cm
    pressed : which way a fold is pressed
    name : what it is called, such as "waist dart"
    """

    kind: TakeUpKind
    begin: float
    end: float
    amount: float
    pressed: Pressed | None = None
    name: str = ""

    @property
    def folded(self) -> bool:
        """Whether it is sewn or folded down before the edge is sewn; gathers and ease are drawn up in the seam."""
        return self.kind in _FOLDED


@memoised
def on_part(piece: Piece, edge: Edge) -> tuple[TakeUp, ...]:
    """What is taken up within one part of an edge, in its order; those that would overlap are left out.

    Parameters
    ----------
    piece : the paper
    edge : one of its edges

    Returns
    -------
    in the order of the edge, places in cm from where it starts
    """
    found: list[TakeUp] = []
    for mark in piece.marks:
        kind = _OF_MARK.get(mark.kind)
        if kind is None or mark.to is None or not mark.amount or not mark.edge:
            continue
        if not edge.answers_to(mark.edge):
            continue
        places = [distance_at(edge.curves, p, _NEAR) for p in (mark.at, mark.to)]
        own = sorted(p for p in places if p is not None)
        if len(own) == 2:
            found.append(TakeUp(kind, own[0], own[1], mark.amount, mark.pressed, mark.text))
    out: list[TakeUp] = []
    for one in sorted(found, key=lambda t: t.begin):
        if not out or one.begin >= out[-1].end:
            out.append(one)
    return tuple(out)


def take_ups(piece: Piece, label: str) -> tuple[TakeUp, ...]:
    """Everything that is taken up along an edge, all its parts and the darts between and beside them.

    Parameters
    ----------
    piece : the paper
    label : name of the edge

    Returns
    -------
    in its order, places in cm along the paper of the edge, mouths of darts left out

    Raises
    ------
    LookupFailed : the piece has no such edge
    """
    out: list[TakeUp] = []
    walked = 0.0
    parts = piece.edge_parts(label)
    for number, part in enumerate(parts):
        if number == 0:
            out += _dart(piece, piece.edges[piece.edges.index(part) - 1], walked)
        out += [_later(one, walked) for one in on_part(piece, part)]
        walked += part.length
        out += _dart(piece, piece.edges[(piece.edges.index(part) + 1) % len(piece.edges)], walked)
    return tuple(out)


def _dart(piece: Piece, beside: Edge, at: float) -> list[TakeUp]:
    if not beside.taken_up:
        return []
    dart = piece.dart_of(beside)
    amount = piece.intake(dart) if dart else 0.0
    return [TakeUp(TakeUpKind.DART, at, at, amount, name=beside.name)]


def _later(one: TakeUp, by: float) -> TakeUp:
    return TakeUp(one.kind, one.begin + by, one.end + by, one.amount, one.pressed, one.name)


@dataclass(frozen=True, slots=True)
class FoldedEdge:
    """One part of an edge as it lies when its pleats and tucks are folded.

    Parameters
    ----------
    path : what shows of it, joined up: each stretch moved back onto the end of the one before
    closes : the move that carries what lies beyond the edge along with it
    """

    path: Path
    closes: Move


def folded_edge(piece: Piece, edge: Edge) -> FoldedEdge:
    """What shows of one part of an edge when its pleats and tucks are folded, its start staying where it is.

    Parameters
    ----------
    piece : the paper
    edge : one of its edges

    Returns
    -------
    what shows of it, and how the paper beyond it goes along
    """
    folds = [one for one in on_part(piece, edge) if one.folded]
    out: Path = ()
    move, done = STAY, 0.0
    for fold in folds:
        out += moved_path(between_distances(edge.curves, done, fold.begin), move)
        begin, end = (point_at(edge.curves, at) for at in (fold.begin, fold.end))
        move = Move.by(begin - end).then(move)
        done = fold.end
    if not folds:
        return FoldedEdge(edge.curves, STAY)
    rest = between_distances(edge.curves, done, edge.length)
    return FoldedEdge(out + moved_path(rest, move), move)


def folded_away(piece: Piece, edge: Edge) -> float:
    """How much of one part of an edge its pleats and tucks take up before it is sewn.

    Parameters
    ----------
    piece : the paper
    edge : one of its edges

    Returns
    -------
    cm
    """
    if not any(mark.kind in FOLDS for mark in piece.marks):
        return 0.0
    return sum(one.amount for one in on_part(piece, edge) if one.folded)
