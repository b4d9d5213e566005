"""Turning a dart, or a share of it, to another place about its point."""

from __future__ import annotations

from dataclasses import dataclass, replace

from cutwright.errors import StepError
from cutwright.geometry.point import Point, unit
from cutwright.messages import N_, Message
from cutwright.pattern.cutting.flare import (
    Flared,
    centre_edge,
    dart_slash,
    fixed_strip,
    opened,
    trued_flare,
)
from cutwright.pattern.cutting.strips import Strip, hinge_moves, put_together, take_apart
from cutwright.pattern.edge import Edge, EdgeKind
from cutwright.pattern.loop import Edges, Spot, halves, spot_point
from cutwright.pattern.piece import Dart, Piece, legs_of
from cutwright.pattern.shaping.truing import chain_of_length, kink

SHARED_SHORT = 2.0
"""How far (cm) two darts that share a pivot end short of it."""
KINK = 0.02
"""A closed mouth with a larger kink (radians) is redrawn smooth."""


@dataclass(frozen=True, slots=True)
class Swung:
    """Paper after a dart was turned: how it lay open and the dart that arose."""

    flared: Flared
    piece: Piece
    dart: Dart


def tip_between(pivot: Point, first: Point, last: Point, short: float) -> Point:
    """The stitched point of a dart: short of the pivot, in the middle of the mouth.

    Parameters
    ----------
    pivot : about which the dart closes, cm
    first, last : both ends of its mouth, cm
    short : how far before the pivot the sewing ends, cm; at most 0.6 of the way to the mouth is
        taken

    Returns
    -------
    the place, cm
    """
    middle = (first + last) / 2
    return pivot + unit(middle - pivot) * min(short, 0.6 * abs(middle - pivot))


def swung(piece: Piece, dart: Dart, far: Spot, share: float, new_name: str) -> Swung:
    """Turn a share of a dart to a spot on another edge, about its pivot.

    With the whole share the old mouth closes and its edge is one again; with less both darts stay
    and share the pivot. Every stitch line that was not cut keeps its length.

    Parameters
    ----------
    piece : the paper before
    dart : one of its darts with a mouth
    far : the place of the new mouth
    share : how much of its turn goes, from 0 to 1
    new_name : of the dart that arises

    Returns
    -------
    the paper after and the new dart

    Raises
    ------
    StepError : the place lies on the leg of a dart or on the fold, or the new mouth would have no
        width
    """
    slash = dart_slash(piece, dart, far)
    target = piece.edges[far.index]
    if target.taken_up:
        raise StepError(
            Message(
                "dart-cannot-moved-onto-leg",
                N_("A dart cannot be moved onto the leg of another dart."),
            )
        )
    if target.kind is EdgeKind.FOLD:
        raise StepError(
            Message(
                "dart-on-fold",
                N_(
                    'The "{edge}" of "{piece}" lies on the fold, which no dart may open. Make it a seam first, '
                    "or choose another edge."
                ),
                edge=target.name,
                piece=piece.name,
            )
        )
    strips = take_apart(piece, [slash])
    angle = piece.dart_angle(dart) * share
    moves = hinge_moves([slash], [angle], fixed_strip(strips, centre_edge(piece)))
    short = abs(dart.tip - dart.pivot)
    if share < 1:  # two outlines may not touch in the shared pivot
        short = max(short, SHARED_SHORT)
    place = spot_point(piece, far)
    first, last = moves[1](place), moves[0](place)
    if abs(first - last) < 1e-6:
        raise StepError(
            Message(
                "new-mouth-would-no-width",
                N_("The new mouth would have no width: choose a place farther from the point."),
            )
        )
    strips = _divided(strips, target, far)
    near_legs: Edges = ()
    if share < 1:
        a, b = (
            m(spot_point(piece, s)) for m, s in zip(moves, (slash.leave, slash.enter), strict=True)
        )
        near_tip = tip_between(dart.pivot, a, b, short)
        near_legs = legs_of(dart.name, a, near_tip, b, dart.side)
    tip = tip_between(dart.pivot, first, last, short)
    far_legs = legs_of(new_name, first, tip, last, dart.side)
    after = put_together(piece, strips, moves, near_legs, far_legs)
    made = replace(dart, name=new_name, tip=tip)
    kept = tuple(d for d in after.darts if d.name != dart.name)
    if share < 1:
        kept = (*kept, replace(dart, tip=near_legs[0].end))
    after = replace(after, darts=(*kept, made))
    flared = opened(piece, after, [slash], strips, moves)
    if share == 1:
        flared = _smooth_mouth(piece, dart, flared)
    return Swung(flared, flared.piece, made)


def _smooth_mouth(piece: Piece, dart: Dart, flared: Flared) -> Flared:
    """Redraw the closed mouth smooth where its two parts met with a kink, keeping its length."""
    one = piece.edges[piece.edges.index(piece.legs(dart)[0]) - 1]
    for edge in flared.piece.edge_parts(one.name):
        if kink(edge) > KINK:
            smooth = edge.with_curves(chain_of_length(edge.curves, edge.length))
            flared = trued_flare(flared, edge, smooth)
    return flared


def _divided(strips: tuple[Strip, ...], target: Edge, far: Spot) -> tuple[Strip, ...]:
    """Number the two parts of the edge that the new dart divides."""
    if far.distance < 1e-6 or far.distance > target.length - 1e-6:
        return strips
    first, second = halves(target)
    before, after = strips[1], strips[0]
    return (
        replace(after, near=(replace(after.near[0], part=second), *after.near[1:])),
        replace(before, near=(*before.near[:-1], replace(before.near[-1], part=first))),
    )
