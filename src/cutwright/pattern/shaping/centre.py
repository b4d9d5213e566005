"""The centre of a half piece: hollowed at the waist, measured from its top."""

from __future__ import annotations

from dataclasses import replace

from cutwright.errors import StepError
from cutwright.geometry.curve import Line
from cutwright.geometry.draw import hermite
from cutwright.geometry.path import (
    Path,
    end_direction,
    nearest_distance,
    path_length,
    point_at,
    reversed_path,
    start_direction,
)
from cutwright.geometry.point import Point, unit
from cutwright.messages import N_, Message
from cutwright.pattern.edge import Edge, EdgeKind, Ref
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.seam import seam
from cutwright.pattern.shaping.redraw import EdgePlace, cut_back, edge_place, redrawn

_STRAIGHT_ABOVE = 0.35
"""The share of the way from neck to waist down to which a hollowed centre stays straight."""


def centre_of(piece: Piece, label: str = "") -> Edge:
    """The centre edge: the one named, else the only one.

    Parameters
    ----------
    piece : the paper
    label : name of the edge; empty for the only one

    Raises
    ------
    LookupFailed : the piece has no such edge, or it is in several parts
    StepError : the edge is no centre, or there is not exactly one centre
    """
    if label:
        edge = piece.edge(label)
        if not edge.at_centre:
            raise StepError(
                Message(
                    "not-centre",
                    N_('"{edge}" of "{piece}" is not a centre.'),
                    edge=label,
                    piece=piece.name,
                )
            )
        return edge
    found = [e for e in piece.edges if e.at_centre]
    if len(found) != 1:
        raise StepError(
            Message(
                "centre-edges-needed-before-mirroring",
                N_(
                    '"{piece}" has {count} centre edges; one is needed. It has: {there}. Do this before mirroring, or '
                    "name the edge."
                ),
                piece=piece.name,
                count=len(found),
                there=", ".join(piece.edge_names()),
            )
        )
    return found[0]


def seamed(pattern: Pattern, piece: Piece, edge: Edge) -> Pattern:
    """The pattern with a centre that is a seam: cut twice, left and right, and sewn to its mirror.

    Parameters
    ----------
    pattern : the paper before
    piece : one of its pieces, as it is to be
    edge : its centre

    Returns
    -------
    the pattern with that piece; one that has the seam already gets no second
    """
    if edge.kind is EdgeKind.FOLD:
        also = tuple(cut.doubled() for cut in piece.also)
        piece = replace(with_kind(piece, edge, EdgeKind.CENTRE), cut=piece.cut.doubled(), also=also)
    ref = Ref(piece.name, edge.name)
    pattern = pattern.with_pieces(piece)
    if any(set(s.refs) == {ref} for s in pattern.seams):
        return pattern
    return pattern.with_seams(seam(ref, ref, same_way=True))


def down_along(edge: Edge) -> Path:
    """The centre walked from its upper end to its lower one."""
    return edge.curves if edge.end.imag >= edge.start.imag else reversed_path(edge.curves)


def hollowed(piece: Piece, edge: Edge, depth: float) -> Piece:
    """The piece with its straight centre hollowed at the waist.

    Through the waist the seam is straight above, hollow at the level "waist" and straight again
    from the level "hip" down; a piece that begins or ends at the waist loses the depth from its
    waist edge, and the seam leaves that edge square.

    Parameters
    ----------
    piece : a half piece
    edge : its centre
    depth : how far it is hollowed at the waist, cm

    Returns
    -------
    the piece after

    Raises
    ------
    StepError : a dart divides the centre, it neither ends at a waist edge nor crosses a waist
        level, or the depth is more than the waist edge has
    """
    line = down_along(edge)
    top, bottom = line[0].start, line[-1].end
    place = edge_place(piece, edge.label)
    upper, lower = (
        (place.before, place.after) if line[0] is edge.curves[0] else (place.after, place.before)
    )
    size = path_length(line)
    hip = _where(piece, line, "hip")
    if upper.kind is EdgeKind.WAIST:
        rest = hip if hip is not None and hip > 2 else min(size, 20.0)
        return _from_edge(place, upper, depth, point_at(line, rest), bottom)
    if lower.kind is EdgeKind.WAIST:
        return _from_edge(place, lower, depth, point_at(line, size * _STRAIGHT_ABOVE), top)
    waist = _where(piece, line, "waist")
    if waist is None:
        raise StepError(
            Message(
                "centre-cannot-hollowed-neither-ends",
                N_(
                    'The centre of "{piece}" cannot be hollowed: it neither ends at a waist edge nor crosses a waist '
                    "level."
                ),
                piece=piece.name,
            )
        )
    if hip is None or hip < waist + 2:
        hip = min(waist + 20.0, size - 1.0)
    down = unit(bottom - top)
    inwards = unit(edge.end - edge.start) * 1j
    stops = [top, point_at(line, waist * _STRAIGHT_ABOVE), point_at(line, waist) + inwards * depth]
    stops += [point_at(line, hip), bottom]
    middle = _chain(stops, down)
    return _put(place, middle, top)


def _chain(stops: list[Point], down: Point) -> Path:
    first, above, deep, hip, last = stops
    return (
        Line(first, above),
        hermite(above, down, deep, down),
        hermite(deep, down, hip, down),
        Line(hip, last),
    )


def _put(place: EdgePlace, path: Path, top: Point) -> Piece:
    middle = path if abs(place.edge.start - top) < 1e-6 else reversed_path(path)
    return redrawn(place, place.before.curves, middle, place.after.curves)


def _from_edge(place: EdgePlace, waist: Edge, depth: float, rest: Point, far: Point) -> Piece:
    """Take the depth off the waist edge and run from there, square, to where the seam is straight."""
    short = cut_back(place, waist, depth)
    at_end = waist is place.before
    corner = short[-1].end if at_end else short[0].start
    leaving = end_direction(short) * 1j if at_end else start_direction(short) * 1j
    along = unit(far - rest)
    path: Path = (hermite(corner, leaving, rest, along), Line(rest, far))
    before, after = (short, place.after.curves) if at_end else (place.before.curves, short)
    return redrawn(place, before, path if at_end else reversed_path(path), after)


def _where(piece: Piece, line: Path, level: str) -> float | None:
    found = piece.level(level)
    if found is None:
        return None
    for p in (found.points[0], found.points[-1]):
        at = nearest_distance(line, p)
        if abs(point_at(line, at) - p) < 0.05:
            return at
    return None


def zip_place(edge: Edge, size: float) -> Point:
    """Where an opening of a length ends, measured from the upper end.

    Parameters
    ----------
    edge : a centre or a side
    size : length of the opening, cm; beyond an end of the edge the end counts

    Returns
    -------
    where it ends, cm
    """
    return point_at(down_along(edge), size)


def with_kind(piece: Piece, edge: Edge, kind: EdgeKind) -> Piece:
    """The piece with another kind for its centre.

    Parameters
    ----------
    piece : the paper before
    edge : the edge, found by its label
    kind : what it is to be

    Returns
    -------
    the piece after
    """
    return replace(
        piece,
        edges=tuple(replace(e, kind=kind) if e.label == edge.label else e for e in piece.edges),
    )
