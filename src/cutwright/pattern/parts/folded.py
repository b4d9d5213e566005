"""A stretch of outline with the darts, pleats and tucks on it folded, as a facing or a lining copies it."""

from __future__ import annotations

from dataclasses import dataclass, replace

from cutwright.geometry.move import STAY, Move
from cutwright.geometry.path import moved_path
from cutwright.geometry.point import Point
from cutwright.pattern.edge import Edge
from cutwright.pattern.loop import weld
from cutwright.pattern.piece import Dart, Piece
from cutwright.pattern.takeup import folded_edge


@dataclass(frozen=True, slots=True)
class FoldedStretch:
    """Edges in walking order with all that is folded away closed: the neighbour before, what is copied, the one after.

    `closed` names the darts that were folded on the way, each with the place where its mouth met.
    """

    before: Edge
    copied: tuple[Edge, ...]
    after: Edge
    closed: tuple[tuple[str, Point], ...]


def folded_stretch(piece: Piece, first: str, last: str) -> FoldedStretch:
    """From the neighbour before edge `first` to the neighbour after edge `last`, clockwise.

    The centre stays where it lies; everything beyond a dart is turned about its pivot until the
    legs of the mouth meet, and everything beyond a pleat or a tuck moved up to where it begins.

    Parameters
    ----------
    piece : the paper
    first, last : names of the first and the last edge, clockwise; may be the same

    Returns
    -------
    the stretch, each edge in one part

    Raises
    ------
    LookupFailed : the piece has no such edge
    """
    edges = piece.edges
    size = len(edges)
    start = _off_legs(piece, edges.index(piece.edge_parts(first)[0]), -1)
    end = _off_legs(piece, edges.index(piece.edge_parts(last)[-1]), 1)
    start = _whole(piece, start, -1)
    end = _whole(piece, end, 1)
    walk = [edges[(start + i) % size] for i in range((end - start) % size + 1)]
    if start == end:
        walk = [*(edges[(start + i) % size] for i in range(size)), edges[start]]
    laid, closed = _laid(piece, walk)
    merged = weld([laid], closed=False)
    return FoldedStretch(merged[0], merged[1:-1], merged[-1], closed)


def _off_legs(piece: Piece, index: int, step: int) -> int:
    """The next edge in a direction that is no dart leg."""
    size = len(piece.edges)
    index = (index + step) % size
    while piece.edges[index].taken_up:
        index = (index + step) % size
    return index


def _whole(piece: Piece, index: int, step: int) -> int:
    """The last part of an edge in a direction, darts between its parts passed over."""
    name = piece.edges[index].name
    while True:
        beyond = _off_legs(piece, index, step)
        if piece.edges[beyond].name != name or beyond == index:
            return index
        index = beyond


def _laid(piece: Piece, walk: list[Edge]) -> tuple[tuple[Edge, ...], tuple[tuple[str, Point], ...]]:
    """The edges of a walk with all that is folded away closed, moved so that the centre stays."""
    move, home = STAY, STAY
    out: list[Edge] = []
    closed: list[tuple[str, Point]] = []
    for edge in walk:
        if not edge.taken_up:
            if edge.at_centre:
                home = move.inverse()
            seen = folded_edge(piece, edge)
            out.append(replace(edge.with_curves(moved_path(seen.path, move)), part=()))
            move = seen.closes.then(move)
        elif edge.part[:1] == (1,):
            dart = piece.dart(edge.name)
            if isinstance(dart, Dart):
                closed.append((dart.name, move(edge.start)))
                move = Move.about(dart.pivot, piece.dart_angle(dart)).then(move)
    return tuple(e.moved(home) for e in out), tuple((name, home(p)) for name, p in closed)
