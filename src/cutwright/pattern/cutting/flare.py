"""Closing darts into an edge: the mouth meets, the paper opens from the pivot to the far edge."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from math import degrees

from cutwright.errors import GeometryError, StepError
from cutwright.geometry.crossing import line_distances
from cutwright.geometry.move import Move
from cutwright.geometry.path import Path
from cutwright.geometry.point import Point, unit
from cutwright.geometry.solve import root_within
from cutwright.messages import N_, Message
from cutwright.pattern.cutting.strips import (
    Slash,
    Strip,
    hinge_moves,
    put_together,
    replace_edge,
    take_apart,
)
from cutwright.pattern.edge import Edge
from cutwright.pattern.loop import Spot, spot_on, spot_point, weld
from cutwright.pattern.piece import Dart, Diamond, Piece
from cutwright.pattern.shaping.truing import trued_far, trued_near


@dataclass(frozen=True, slots=True)
class Flared:
    """Paper after darts were closed or slashes opened.

    `wedges` are the opened gaps as closed rings in the paper after; `share` is the part of the
    turn that was taken so that the trued sewn edge keeps its length (1 = the whole); `trued` are
    edges as (before truing, after truing) in the paper after.
    """

    piece: Piece
    slashes: tuple[Slash, ...]
    strips: tuple[Strip, ...]
    moves: tuple[Move, ...]
    gaps: tuple[float, ...]
    wedges: tuple[tuple[Point, ...], ...]
    share: float = 1.0
    trued: tuple[tuple[Path, Path], ...] = ()


def edge_dart(piece: Piece, name: str) -> Dart:
    """A dart whose mouth lies on an outer edge; a two-point dart is refused with the reason.

    Parameters
    ----------
    piece : the paper
    name : of the dart

    Raises
    ------
    LookupFailed : the piece has no dart of that name
    StepError : it has two points and lies inside the paper
    """
    dart = piece.dart(name)
    if isinstance(dart, Diamond):
        raise StepError(
            Message(
                "two-points-lies-inside-paper",
                N_(
                    'The "{dart}" of "{piece}" has two points and lies inside the paper: turned about its '
                    "upper point the paper would overlap from the waist down and the hem would lose width; "
                    "turned about its lower point it would overlap above. Cut the piece through at the waist "
                    "first, or leave the dart unsewn and slash from the hem."
                ),
                dart=name,
                piece=piece.name,
            )
        )
    return dart


def darts_of(piece: Piece, edge: str) -> tuple[str, ...]:
    """Names of the darts that open on an edge.

    Parameters
    ----------
    piece : the paper
    edge : name of an edge, or of one of its parts

    Returns
    -------
    names in walking order; a mouth between two edges counts for the one before it

    Raises
    ------
    LookupFailed : the piece has no such edge
    """
    piece.edge_parts(edge)
    labels = [e.label for e in piece.edges]
    found = [
        (labels.index(f"{dart.name}.1"), dart.name)
        for dart in piece.darts
        if piece.edges[labels.index(f"{dart.name}.1") - 1].answers_to(edge)
    ]
    return tuple(name for _index, name in sorted(found))


def drop_to(piece: Piece, start: Point, along: Point, label: str) -> float:
    """Distance along an edge at which a straight line from a place first meets it.

    Parameters
    ----------
    piece : the paper
    start : the place, cm
    along : the direction in which it looks, of any length
    label : name of the edge

    Returns
    -------
    along the edge from where it begins, over all its parts, mouths of darts left out, cm

    Raises
    ------
    LookupFailed : the piece has no such edge
    StepError : the line does not meet the edge
    """
    walked, best, best_ahead = 0.0, None, float("inf")
    for part in piece.edge_parts(label):
        for distance in line_distances(part.curves, start, along):
            from cutwright.geometry.path import point_at

            ahead = ((point_at(part.curves, distance) - start) * unit(along).conjugate()).real
            if 0 < ahead < best_ahead:
                best, best_ahead = walked + distance, ahead
        walked += part.length
    if best is None:
        raise StepError(
            Message(
                "straight-slash-not-reach-name",
                N_(
                    'A straight slash from there does not reach "{edge}" of "{piece}". Name a place on it.'
                ),
                edge=label,
                piece=piece.name,
            )
        )
    return best


def dart_slash(piece: Piece, dart: Dart, far: Spot) -> Slash:
    """The slash that closes a dart: through its mouth to its pivot and on to a spot on another edge.

    Parameters
    ----------
    piece : the paper
    dart : one of its darts with a mouth
    far : the place the slash runs to

    Returns
    -------
    the slash, its hinge the pivot
    """
    labels = [edge.label for edge in piece.edges]
    leg = labels.index(f"{dart.name}.1")
    before, after = leg - 1, (leg + 2) % len(labels)
    leave = Spot(before % len(labels), piece.edges[before].length)
    return Slash(leave, Spot(after, 0.0), far, dart.pivot)


def ordered(slashes: Sequence[Slash]) -> list[int]:
    """Indices that sort slashes along the near stretch of the loop."""
    return sorted(range(len(slashes)), key=lambda i: slashes[i].leave)


def opened(
    piece: Piece,
    after: Piece,
    slashes: Sequence[Slash],
    strips: Sequence[Strip],
    moves: Sequence[Move],
) -> Flared:
    """Gather what was opened: the gap at the far edge and the wedge of every slash.

    Parameters
    ----------
    piece, after : the paper before and after the turn
    slashes : in the order of the strips, one fewer than these
    strips : of the paper before
    moves : one for each strip

    Returns
    -------
    the paper after with its gaps (cm, straight across) and wedges (four places in the paper after)
    """
    gaps: list[float] = []
    wedges: list[tuple[Point, ...]] = []
    for k, slash in enumerate(slashes):
        far = spot_point(piece, slash.far)
        one, other = moves[k], moves[k + 1]
        gaps.append(abs(other(far) - one(far)))
        wedges.append((one(slash.hinge), one(far), other(far), other(slash.hinge)))
    return Flared(after, tuple(slashes), tuple(strips), tuple(moves), tuple(gaps), tuple(wedges))


def fixed_strip(strips: Sequence[Strip], keep: str | None) -> int:
    """Which strip stays on the table: the one that holds the edge `keep`, else the first.

    Parameters
    ----------
    strips : the paper taken apart
    keep : name of an edge; None for none

    Returns
    -------
    index of the strip; 0 where none holds the edge
    """
    if keep is None:
        return 0
    for k, strip in enumerate(strips):
        if any(e.answers_to(keep) for e in (*strip.near, *strip.far)):
            return k
    return 0


def centre_edge(piece: Piece) -> str | None:
    """The centre of a half piece, which stays where it is when the paper is turned."""
    return next((e.name for e in piece.edges if e.at_centre), None)


def closed_into(
    piece: Piece, darts: Sequence[str], far: str, spots: Sequence[float] | None = None
) -> Flared:
    """Close one or more darts of one edge into another edge, from the centre outwards.

    Each turns about its own pivot. The sewn edge is trued to one bow that keeps the sewn length:
    the turns are all lessened by one share (0.5 to 1) until it does. The opened edge is trued too.
    Own method, docs/how-it-works.md.

    Parameters
    ----------
    piece : the paper before
    darts : names of the darts, in any order
    far : name of the edge that opens
    spots : for each dart where the slash meets that edge, along it from where it begins, cm; None
        drops them along the grain

    Returns
    -------
    the paper after, with what was opened and trued

    Raises
    ------
    LookupFailed : a dart or the edge is not there
    StepError : a dart has two points, the darts open on different edges, the slashes would cross, a
        place is off the edge, or the turn would lay paper over paper
    """
    found = [edge_dart(piece, name) for name in darts]
    target = sum(part.length for part in piece.edge_parts(_near_name(piece, found)))
    slashes: list[Slash] = []
    for i, dart in enumerate(found):
        place = (
            spots[i] if spots else drop_to(piece, dart.pivot, piece.grain[1] - piece.grain[0], far)
        )
        slashes.append(dart_slash(piece, dart, spot_on(piece, far, place)))
    order = ordered(slashes)
    slashes = [slashes[i] for i in order]
    angles = [piece.dart_angle(found[i]) for i in order]
    _refuse_crossed(piece, slashes)
    strips = take_apart(piece, slashes)
    fixed = fixed_strip(strips, centre_edge(piece))
    near = _near_name(piece, found)

    def kinked(share: float) -> Edge | None:
        """The sewn edge as the turned strips leave it, still kinked; None if a dart divides it."""
        moves = hinge_moves(slashes, [a * share for a in angles], fixed)
        row = [
            tuple(e.moved(m) for e in strip.near if e.name == near)
            for strip, m in zip(strips, moves, strict=True)
        ]
        edges = weld(row, closed=False)
        whole = [e for e in edges if e.name == near]
        return whole[0] if len(whole) == 1 else None

    share = _share_that_keeps(kinked, target)
    moves = hinge_moves(slashes, [a * share for a in angles], fixed)
    flared = opened(piece, put_together(piece, strips, moves), slashes, strips, moves)
    _refuse_overlap(flared, piece, angles)
    for part in flared.piece.edge_parts(near):
        if len(part.curves) > 1:
            smooth = trued_near(part, part.length if share == 1 else None)
            flared = trued_flare(flared, part, smooth)
    flared = far_trued(flared, far)
    return replace(flared, share=share)


def trued_flare(flared: Flared, edge: Edge, smooth: Edge) -> Flared:
    """Flared paper with one edge trued, and the truing remembered.

    Parameters
    ----------
    flared : the paper after the turn
    edge : one of its edges, as it is
    smooth : the same edge redrawn

    Returns
    -------
    the paper with the edge redrawn
    """
    piece = replace_edge(flared.piece, edge.label, smooth)
    return replace(flared, piece=piece, trued=(*flared.trued, (edge.curves, smooth.curves)))


def far_trued(flared: Flared, far: str) -> Flared:
    """Flared paper with the opened edge trued; an edge still divided by darts stays as it is.

    Parameters
    ----------
    flared : the paper after the turn
    far : name of the edge that opened

    Returns
    -------
    the paper with the edge redrawn; the very same where a dart divides it

    Raises
    ------
    LookupFailed : the piece has no such edge
    """
    parts = flared.piece.edge_parts(far)
    if len(parts) != 1:
        return flared
    return trued_flare(flared, parts[0], trued_far(parts[0], flared.strips, flared.moves))


def _share_that_keeps(kinked: Callable[[float], Edge | None], target: float) -> float:
    """The share of the turns after which the trued edge is as long as the sewn one was."""
    whole = kinked(1.0)
    if whole is None or len(whole.curves) < 2:
        return 1.0

    def miss(share: float) -> float:
        edge = kinked(share)
        return trued_near(edge).length - target if edge else 0.0

    return root_within(miss, 0.5, 1.0, 1e-9) or 1.0


def _near_name(piece: Piece, darts: Sequence[Dart]) -> str:
    names = {piece.edges[_leg_index(piece, d) - 1].name for d in darts}
    if len(names) > 1:
        raise StepError(
            Message(
                "these-darts-open-different-edges",
                N_("These darts open on different edges ({edges}). Close them one by one."),
                edges=", ".join(sorted(names)),
            )
        )
    return names.pop()


def _leg_index(piece: Piece, dart: Dart) -> int:
    return [e.label for e in piece.edges].index(f"{dart.name}.1")


def _refuse_crossed(piece: Piece, slashes: Sequence[Slash]) -> None:
    places = [slash.far for slash in slashes]
    along = [s.distance + sum(e.length for e in piece.edges[: s.index]) for s in places]
    if any(b >= a for a, b in itertools.pairwise(along)):
        raise StepError(
            Message(
                "slashes-would-cross-each-other",
                N_(
                    'The slashes in "{piece}" would cross each other. Keep them in order along both edges.'
                ),
                piece=piece.name,
            )
        )


def _refuse_overlap(flared: Flared, piece: Piece, angles: Sequence[float]) -> None:
    """Refuse a turn that lays paper over paper instead of opening it."""
    from cutwright.geometry.point import cross

    for slash, angle, one, other in zip(
        flared.slashes, angles, flared.moves, flared.moves[1:], strict=False
    ):
        far = spot_point(piece, slash.far)
        opening = cross(one(far) - one(slash.hinge), other(far) - other(slash.hinge))
        if opening * _opens(angle) < 0 or abs(angle) > 2.5:
            raise StepError(
                Message(
                    "closing-dart-degrees-would-lay",
                    N_(
                        'Closing this dart of "{piece}" by {angle:.0f} degrees would lay the paper over itself '
                        "instead of opening it. Move the dart or choose another edge to open."
                    ),
                    piece=piece.name,
                    angle=abs(degrees(angle)),
                )
            )


def _opens(angle: float) -> float:
    return 1.0 if angle > 0 else -1.0


def refuse_if_crossing(piece: Piece, what: str) -> Piece:
    """The piece, where its outline does not cross itself (looked at by chords within 0.02 cm).

    Parameters
    ----------
    piece : the paper after
    what : what was done to it, to begin the message with

    Raises
    ------
    GeometryError : the outline crosses itself or runs the wrong way round
    """
    from cutwright.geometry.outline import polygon

    if piece.area <= 0 or not polygon(piece.outline, 0.02).is_valid:
        raise GeometryError(
            Message(
                "outline-would-cross-itself-ask",
                N_('{what}: the outline of "{piece}" would cross itself. Ask for less.'),
                what=what,
                piece=piece.name,
            )
        )
    return piece
