"""Darts through which a piece is made longer or shorter: their legs are redrawn to where their ends went."""

from __future__ import annotations

from cmath import rect
from collections.abc import Callable, Iterable
from dataclasses import replace

from cutwright.errors import StepError
from cutwright.geometry.curve import Cubic, Curve, Line
from cutwright.geometry.move import Move
from cutwright.geometry.point import Point, angle_between, dot, unit
from cutwright.messages import N_, Message
from cutwright.pattern.cutting.strips import replace_edge
from cutwright.pattern.piece import Dart, Diamond, Piece

_LEAST = 2.0
"""What must be left of a dart that was shortened, from its mouth or its widest to its point, cm."""
_ON = 1e-9

Moves = Callable[[Point], Move]


def refuse_cut_mouths(piece: Piece, at: Point, along: Point, band: float) -> None:
    """Raise where a cut, or the tuck below it, runs through the mouth of a dart.

    Parameters
    ----------
    piece : the paper before
    at : a place on the cut, cm
    along : down the paper, square to the cut, of length one
    band : how far the tuck reaches below the cut, cm; 0 for a cut alone

    Raises
    ------
    StepError : it runs through a mouth
    """
    for dart in piece.darts:
        heights = [dot(along, p - at) for p in piece.mouth(dart)]
        if min(heights) < band + _ON and max(heights) > -_ON:
            raise StepError(
                Message(
                    "cut-would-run-through-mouth",
                    N_(
                        'The cut would run through the mouth of the "{dart}" of "{piece}". Choose a level above or '
                        "below it, or close it or move it first."
                    ),
                    dart=dart.name,
                    piece=piece.name,
                )
            )


def crossed_darts(piece: Piece, of: Moves) -> tuple[Dart, ...]:
    """The darts whose mouth, point and pivot do not all go the same way.

    Parameters
    ----------
    piece : the paper before
    of : the move of the paper at a place

    Returns
    -------
    the darts with their mouth on an edge that the cut goes through
    """
    return tuple(
        dart
        for dart in piece.darts
        if len({of(p).shift for p in (*piece.mouth(dart), dart.tip, dart.pivot)}) > 1
    )


def moved_diamond(diamond: Diamond, of: Moves, piece: str) -> Diamond:
    """A two-point dart after its corners went where the paper went; its widest keeps its width.

    Parameters
    ----------
    diamond : a two-point dart
    of : the move of the paper at a place
    piece : the name of its piece, for the message

    Raises
    ------
    StepError : less than 2 cm would be left between its widest and one of its points
    """
    top, bottom = of(diamond.top)(diamond.top), of(diamond.bottom)(diamond.bottom)
    widest = of((diamond.near + diamond.far) / 2)
    near, far = widest(diamond.near), widest(diamond.far)
    out = replace(diamond, top=top, bottom=bottom, near=near, far=far)
    middle = (out.near + out.far) / 2
    _refuse_short(diamond.name, piece, (abs(top - middle), abs(bottom - middle)))
    return out


def redrawn_darts(before: Piece, piece: Piece, of: Moves) -> Piece:
    """A piece made longer, with the legs of the darts that were cut through drawn to their points.

    The mouth keeps its width. The point comes to lie half way between both ends of the mouth, so
    that the legs are equal; the edge beside the mouth is turned a little, so that it runs on with
    the dart folded as it did before.

    Parameters
    ----------
    before : the paper before
    piece : the paper after, its edges moved, these darts not yet
    of : the move of the paper at a place of the paper before

    Returns
    -------
    the paper after with those darts redrawn

    Raises
    ------
    StepError : less than 2 cm would be left between a mouth and its point
    """
    for dart, was in [(dart, _fold(before, dart)) for dart in crossed_darts(before, of)]:
        one, other = piece.legs(dart)
        first, last = one.start, other.end
        moved = replace(
            dart,
            pivot=_between(first, last, of(dart.pivot)(dart.pivot)),
            tip=_between(first, last, of(dart.tip)(dart.tip)),
        )
        _refuse_short(dart.name, piece.name, (abs((first + last) / 2 - moved.tip),))
        piece = replace_edge(piece, one.label, one.with_curves((Line(first, moved.tip),)))
        piece = replace_edge(piece, other.label, other.with_curves((Line(moved.tip, last),)))
        darts = tuple(moved if d.name == dart.name else d for d in piece.darts)
        piece = replace(piece, darts=darts)
        piece = _mouth_turned(piece, dart, _fold(piece, moved) - was)
    return piece


def _fold(piece: Piece, dart: Dart) -> float:
    """The turn about its point that lays the second leg of a dart on the first, radians."""
    first, last = piece.mouth(dart)
    return angle_between(last - dart.tip, first - dart.tip)


def _mouth_turned(piece: Piece, dart: Dart, more: float) -> Piece:
    """The edges beside a mouth with their ends turned, half each, for a fold that turns so much more."""
    labels = [edge.label for edge in piece.edges]
    leg = labels.index(f"{dart.name}.1")
    before, after = piece.edges[leg - 1], piece.edges[(leg + 2) % len(labels)]
    turn = rect(1.0, more / 2)
    last, first = before.curves[-1], after.curves[0]
    bent = Cubic(last.start, _first(last), last.end + (_second(last) - last.end) * turn, last.end)
    piece = replace_edge(piece, before.label, before.with_curves((*before.curves[:-1], bent)))
    bent = Cubic(
        first.start, first.start + (_first(first) - first.start) / turn, _second(first), first.end
    )
    return replace_edge(piece, after.label, after.with_curves((bent, *after.curves[1:])))


def _first(curve: Curve) -> Point:
    return curve.first if isinstance(curve, Cubic) else curve.at(1 / 3)


def _second(curve: Curve) -> Point:
    return curve.second if isinstance(curve, Cubic) else curve.at(2 / 3)


def _between(first: Point, last: Point, p: Point) -> Point:
    """The place nearest to `p` that is equally far from both ends of a mouth."""
    across = unit(last - first)
    return p - across * dot(across, p - (first + last) / 2)


def _refuse_short(dart: str, piece: str, sizes: Iterable[float]) -> None:
    least = min(sizes)
    if least < _LEAST:
        raise StepError(
            Message(
                "would-left-cm-long-least",
                N_(
                    'The "{dart}" of "{piece}" would be left {size:.1f} cm long; at least {least:.0f} cm are needed. '
                    "Take less out, or do it above or below the dart."
                ),
                dart=dart,
                piece=piece,
                size=least,
                least=_LEAST,
            )
        )
