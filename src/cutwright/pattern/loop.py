"""Walking an outline: places on the loop of edges, runs between them, and welding runs again."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from cutwright.errors import LookupFailed
from cutwright.geometry.curve import Line
from cutwright.geometry.path import point_at, split_path
from cutwright.geometry.point import Point
from cutwright.messages import N_, Message
from cutwright.pattern.edge import Edge
from cutwright.pattern.piece import Piece

Edges = tuple[Edge, ...]
SAME = 1e-7
"""Places closer than this (cm) are one."""


@dataclass(frozen=True, slots=True, order=True)
class Spot:
    """A place on the loop: the edge by position and the distance from where that edge starts."""

    index: int
    distance: float


def spot_on(piece: Piece, label: str, distance: float) -> Spot:
    """The place at a distance along an edge, counted over all its parts, dart mouths left out.

    Parameters
    ----------
    piece : the paper
    label : name of the edge, or of one of its parts
    distance : from where the edge begins, clockwise, cm

    Returns
    -------
    the place

    Raises
    ------
    LookupFailed : the piece has no such edge, or it is shorter (1e-4 cm forgiven)
    """
    parts = piece.edge_parts(label)
    left = distance
    for part in parts:
        size = part.length
        if left <= size + SAME or part is parts[-1]:
            if left > size + 1e-4 or distance < -1e-4:
                raise LookupFailed(
                    Message(
                        "cm-along-off-end-cm",
                        N_(
                            '{place:.1f} cm along "{edge}" of "{piece}" is off its end: it is {size:.1f} cm long.'
                        ),
                        place=distance,
                        edge=label,
                        piece=piece.name,
                        size=piece.paper_length(label),
                    )
                )
            return Spot(piece.edges.index(part), min(max(left, 0.0), size))
        left -= size
    raise AssertionError("an edge has at least one part")


def spot_point(piece: Piece, spot: Spot) -> Point:
    """Where a spot lies.

    Parameters
    ----------
    piece : the paper
    spot : a place on its outline

    Returns
    -------
    the place, cm
    """
    return point_at(piece.edges[spot.index].curves, spot.distance)


def run_between(edges: Sequence[Edge], start: Spot, end: Spot) -> Edges:
    """The stretch of outline from one spot forward to another.

    Its first and last edge may be parts of edges. Equal spots give the whole way round.

    Parameters
    ----------
    edges : a closed loop, clockwise
    start, end : places on the loop

    Returns
    -------
    edges in walking order, with the names and parts they had
    """
    first, last = edges[start.index], edges[end.index]
    if start.index == end.index and start.distance < end.distance - SAME:
        middle = split_path(split_path(first.curves, end.distance)[0], start.distance)[1]
        return (first.with_curves(middle),) if middle else ()
    out: list[Edge] = []
    tail = split_path(first.curves, start.distance)[1]
    if tail:
        out.append(first.with_curves(tail))
    index = (start.index + 1) % len(edges)
    while index != end.index:
        out.append(edges[index])
        index = (index + 1) % len(edges)
    head = split_path(last.curves, end.distance)[0]
    if head:
        out.append(last.with_curves(head))
    return tuple(out)


def weld(runs: Iterable[Edges], closed: bool = True) -> Edges:
    """Put stretches of outline end to end; parts of one edge that meet become one edge again.

    Where the ends lie apart, a straight line bridges the gap inside that edge, or, between two
    different edges, belongs to the first of them.

    Parameters
    ----------
    runs : stretches in walking order
    closed : whether the last edge meets the first one

    Returns
    -------
    the edges; where two became one, with the part numbers that both share
    """
    out: list[Edge] = []
    for edge in (edge for stretch in runs for edge in stretch):
        if out:
            _append(out, edge)
        else:
            out.append(edge)
    if closed and len(out) > 1:
        first = out.pop(0)
        if _mergeable(out[-1], first) and len(out) > 0:
            out[-1] = _merged(out[-1], first)
        else:
            gap = abs(first.start - out[-1].end)
            if gap > SAME:
                out[-1] = out[-1].with_curves((*out[-1].curves, Line(out[-1].end, first.start)))
            out.insert(0, first)
    return tuple(out)


def _append(out: list[Edge], edge: Edge) -> None:
    last = out[-1]
    if _mergeable(last, edge):
        out[-1] = _merged(last, edge)
        return
    if abs(edge.start - last.end) > SAME:
        out[-1] = last.with_curves((*last.curves, Line(last.end, edge.start)))
    out.append(edge)


def _mergeable(a: Edge, b: Edge) -> bool:
    return a.name == b.name and not a.taken_up and not b.taken_up


def _merged(a: Edge, b: Edge) -> Edge:
    shared: list[int] = []
    for x, y in zip(a.part, b.part, strict=False):
        if x != y:
            break
        shared.append(x)
    bridge = (Line(a.end, b.start),) if abs(b.start - a.end) > SAME else ()
    return replace(a, curves=a.curves + bridge + b.curves, part=tuple(shared))


def halves(edge: Edge) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """The part numbers of the two parts an edge falls into."""
    return (*edge.part, 1), (*edge.part, 2)


def next_edge(piece: Piece, label: str) -> Edge:
    """The edge that follows the last part of an edge, clockwise.

    Parameters
    ----------
    piece : the paper
    label : name of the edge, or of one of its parts

    Returns
    -------
    the neighbour; may be the leg of a dart

    Raises
    ------
    LookupFailed : the piece has no such edge
    """
    last = piece.edge_parts(label)[-1]
    return piece.edges[(piece.edges.index(last) + 1) % len(piece.edges)]


def edge_before(piece: Piece, label: str) -> Edge:
    """The edge that comes before the first part of an edge, clockwise.

    Parameters
    ----------
    piece : the paper
    label : name of the edge, or of one of its parts

    Returns
    -------
    the neighbour; may be the leg of a dart

    Raises
    ------
    LookupFailed : the piece has no such edge
    """
    first = piece.edge_parts(label)[0]
    return piece.edges[piece.edges.index(first) - 1]


def starts_near(piece: Piece, label: str, near: str) -> bool:
    """Whether an edge begins (rather than ends) at the neighbour of a given name.

    Parameters
    ----------
    piece : the paper
    label : name of the edge, or of one of its parts
    near : name of the neighbour

    Returns
    -------
    True where it begins there, walking clockwise

    Raises
    ------
    LookupFailed : the piece has no such edge, or neither neighbour has that name
    """
    before, after = edge_before(piece, label), next_edge(piece, label)
    if before.answers_to(near):
        return True
    if after.answers_to(near):
        return False
    raise LookupFailed(
        Message(
            "not-meet-meets",
            N_('"{edge}" of "{piece}" does not meet "{near}"; it meets "{one}" and "{other}".'),
            edge=label,
            piece=piece.name,
            near=near,
            one=before.name,
            other=after.name,
        )
    )
