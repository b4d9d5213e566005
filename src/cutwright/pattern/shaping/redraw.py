"""Drawing one edge of a piece anew: its neighbours are cut back or run on, its ends stay square."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from cutwright.errors import StepError
from cutwright.geometry.curve import Line
from cutwright.geometry.path import (
    Path,
    end_direction,
    path_length,
    reversed_path,
    split_path,
    start_direction,
)
from cutwright.geometry.point import Point, unit
from cutwright.geometry.rejoin import rejoined
from cutwright.messages import N_, Message
from cutwright.pattern.edge import Edge
from cutwright.pattern.piece import Piece

LEFT_OVER = 0.5
"""The least of a neighbouring edge that must be left when it is cut back, cm."""


@dataclass(frozen=True, slots=True)
class EdgePlace:
    """One whole edge in its place: what comes before it and after it, clockwise."""

    piece: Piece
    edge: Edge
    before: Edge
    after: Edge

    @property
    def centre_last(self) -> bool:
        """Whether it runs towards a centre rather than away from one."""
        return self.after.at_centre


def edge_place(piece: Piece, label: str) -> EdgePlace:
    """An edge with its neighbours; an edge that a dart or slit divides is refused with its name.

    Parameters
    ----------
    piece : the paper
    label : name of the edge

    Returns
    -------
    the edge in its place

    Raises
    ------
    LookupFailed : the piece has no such edge
    StepError : it is in several parts
    """
    parts = piece.edge_parts(label)
    if len(parts) > 1:
        raise StepError(
            Message(
                "parts-divided-close-move-away",
                N_(
                    'The "{edge}" of "{piece}" is in {count} parts, divided by {what}. Close that or move it away '
                    "first, then draw the edge anew."
                ),
                edge=label,
                piece=piece.name,
                count=len(parts),
                what=", ".join(f'"{d}"' for d in _between(piece, parts))
                or Message("another-edge", N_("another edge")),
            )
        )
    index = piece.edges.index(parts[0])
    return EdgePlace(
        piece, parts[0], piece.edges[index - 1], piece.edges[(index + 1) % len(piece.edges)]
    )


def _between(piece: Piece, parts: Sequence[Edge]) -> list[str]:
    first, last = piece.edges.index(parts[0]), piece.edges.index(parts[-1])
    size = len(piece.edges)
    stretch = [piece.edges[(first + i) % size] for i in range((last - first) % size)]
    return list(dict.fromkeys(e.name for e in stretch if e.taken_up))


def halved(piece: Piece, label: str) -> EdgePlace:
    """An edge that runs to a centre; anything else is refused.

    Parameters
    ----------
    piece : a half piece
    label : name of the edge

    Returns
    -------
    the edge in its place

    Raises
    ------
    LookupFailed : the piece has no such edge
    StepError : it is in several parts, or not exactly one of its ends lies at a centre
    """
    place = edge_place(piece, label)
    if place.before.at_centre == place.after.at_centre:
        raise StepError(
            Message(
                "runs-step-works-half-piece",
                N_(
                    'The "{edge}" of "{piece}" runs from "{one}" to "{other}". This step works on a half piece, '
                    "where the edge runs to the centre: do it before mirroring."
                ),
                edge=label,
                piece=piece.name,
                one=place.before.label,
                other=place.after.label,
            )
        )
    return place


def cut_back(place: EdgePlace, edge: Edge, amount: float) -> Path:
    """A neighbour shortened, or run on straight, at the end that meets the edge.

    Parameters
    ----------
    place : the edge in its place
    edge : `place.before` or `place.after`
    amount : how much shorter, cm; below 0 it is run on

    Returns
    -------
    the neighbour's line, walked clockwise

    Raises
    ------
    StepError : less than 0.5 cm would be left of it, up to a dart or its other end
    """
    at_end = edge is place.before
    path = edge.curves if at_end else reversed_path(edge.curves)
    if amount < 0:
        run_on = Line(path[-1].end, path[-1].end - end_direction(path) * amount)
        path = (*path[:-1], *rejoined((path[-1], run_on)))
    elif amount > 0:
        whole = path_length(path)
        if amount > whole - LEFT_OVER:
            raise StepError(_too_far(place, edge, amount, whole))
        path = split_path(path, whole - amount)[0]
    return path if at_end else reversed_path(path)


def _too_far(place: EdgePlace, edge: Edge, amount: float, whole: float) -> Message:
    size = len(place.piece.edges)
    step = -1 if edge is place.before else 1
    beyond = place.piece.edges[(place.piece.edges.index(edge) + step) % size]
    if beyond.taken_up:
        return Message(
            "opens-cm-cm-cannot-taken",
            N_(
                'The "{dart}" of "{piece}" opens on the "{edge}" {whole:.1f} cm from the "{from_edge}", so that '
                "{amount:.1f} cm cannot be taken away there. Move the dart to another edge first, or take at most "
                "{most:.1f} cm."
            ),
            dart=beyond.name,
            piece=place.piece.name,
            edge=edge.name,
            whole=whole,
            from_edge=place.edge.name,
            amount=amount,
            most=max(whole - LEFT_OVER, 0.0),
        )
    return Message(
        "cm-long-cm-cannot-taken",
        N_(
            'The "{edge}" of "{piece}" is {whole:.1f} cm long; {amount:.1f} cm cannot be taken from it. '
            "At most {most:.1f} cm can."
        ),
        edge=edge.name,
        piece=place.piece.name,
        whole=whole,
        amount=amount,
        most=max(whole - LEFT_OVER, 0.0),
    )


def square_start(before: Path) -> Point:
    """The direction in which an edge leaves square to the line that leads to it.

    Parameters
    ----------
    before : the line that leads to it, walked clockwise

    Returns
    -------
    a step of length one
    """
    return end_direction(before) * 1j


def square_end(after: Path) -> Point:
    """The direction in which an edge arrives square to the line that leads on.

    Parameters
    ----------
    after : the line that leads on, walked clockwise

    Returns
    -------
    a step of length one
    """
    return start_direction(after) * -1j


def kept_start(place: EdgePlace, before: Path) -> Point:
    """The direction in which an edge leaves when its first corner stays as it was.

    Two pieces whose corners flow into each other across a seam go on doing so.

    Parameters
    ----------
    place : the edge with its neighbours as they were
    before : the neighbour before as it is to be, walked clockwise

    Returns
    -------
    a step of length one
    """
    was = end_direction(place.before.curves)
    return unit(start_direction(place.edge.curves) * was.conjugate() * end_direction(before))


def kept_end(place: EdgePlace, after: Path) -> Point:
    """The direction in which an edge arrives when its last corner stays as it was.

    Parameters
    ----------
    place : the edge with its neighbours as they were
    after : the neighbour after as it is to be, walked clockwise

    Returns
    -------
    a step of length one
    """
    was = start_direction(place.after.curves)
    return unit(end_direction(place.edge.curves) * was.conjugate() * start_direction(after))


def redrawn(place: EdgePlace, before: Path, middle: Path, after: Path) -> Piece:
    """The piece with the edge and the two neighbours drawn anew.

    Parameters
    ----------
    place : the edge in its place
    before, middle, after : the three lines, walked clockwise, each beginning where the one before
        ends, cm

    Returns
    -------
    the piece after
    """
    anew = {
        place.before.label: before,
        place.edge.label: middle,
        place.after.label: after,
    }
    return replace(
        place.piece,
        edges=tuple(
            e.with_curves(anew[e.label]) if e.label in anew else e for e in place.piece.edges
        ),
    )
