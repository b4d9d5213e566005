"""A piece as the lay sees it: its cut line, its grain, how many, and what must lie on a fold."""

from __future__ import annotations

import cmath
import math
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from types import MappingProxyType
from typing import TYPE_CHECKING

from cutwright.errors import LayError
from cutwright.messages import N_, Message

if TYPE_CHECKING:
    from shapely import Polygon

_FOLD_OFF_GRAIN = math.radians(0.5)
_NO_MARKS: Mapping[str, complex] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class LayPiece:
    """One piece to cut; lengths in cm, y down, points are complex numbers.

    Parameters
    ----------
    name : what it is called
    outline : the cut line as a ring of points (with or without the first one repeated)
    grain : which way its grain arrow points; None if it may lie along or across the cloth
    copies : how many to cut (whole ones, if it lies on the fold)
    mirrored : whether the copies come as left and right
    fold : both ends of the edge that lies on the fold, if the outline is only half the piece
    material : which cloth it is cut from
    marks : points that a repeat can be matched at
    strip : whether it is a straight strip that may be pieced, with `join` cm of seam at each join
    """

    name: str
    outline: tuple[complex, ...]
    grain: complex | None = 1 + 0j
    copies: int = 1
    mirrored: bool = False
    fold: tuple[complex, complex] | None = None
    material: str = "main"
    marks: Mapping[str, complex] = field(default_factory=lambda: _NO_MARKS)
    strip: bool = False
    join: float = 1.0


def piece_polygon(piece: LayPiece) -> Polygon:
    """The piece as a sound polygon; a `LayError` says what is wrong with it."""
    from shapely import Polygon, is_valid_reason

    points = [(z.real, z.imag) for z in piece.outline]
    if len(points) < 3 or not all(math.isfinite(v) for p in points for v in p):
        raise LayError(
            Message(
                "outline-not-closed-line",
                N_("The outline of “{piece}” is not a closed line."),
                piece=piece.name,
            )
        )
    shape = Polygon(points)
    if not shape.is_valid:
        raise LayError(
            Message(
                "cut-line-crosses-touches-itself",
                N_(
                    "The cut line of “{piece}” crosses or touches itself ({reason}); it cannot be laid."
                ),
                piece=piece.name,
                reason=is_valid_reason(shape),
            )
        )
    if shape.area < 0.01:
        raise LayError(
            Message(
                "no-area-cannot-laid",
                N_("“{piece}” has no area; it cannot be laid."),
                piece=piece.name,
            )
        )
    return shape


def checked_piece(piece: LayPiece) -> LayPiece:
    """The piece, if it can be laid at all: sound outline, copies, grain, and fold on the grain."""
    piece_polygon(piece)
    if piece.copies < 0:
        raise LayError(
            Message(
                "cannot-cut-times",
                N_("“{piece}” cannot be cut {copies} times."),
                piece=piece.name,
                copies=piece.copies,
            )
        )
    if piece.grain is not None and (not cmath.isfinite(piece.grain) or abs(piece.grain) < 1e-9):
        raise LayError(
            Message("no-grain-line", N_("“{piece}” has no grain line."), piece=piece.name)
        )
    if piece.fold is not None:
        _check_fold(piece, piece.fold)
    return piece


def _check_fold(piece: LayPiece, fold: tuple[complex, complex]) -> None:
    if piece.grain is None:
        raise LayError(
            Message(
                "lies-fold-needs-grain-line",
                N_("“{piece}” lies on the fold, so it needs a grain line."),
                piece=piece.name,
            )
        )
    along = fold[1] - fold[0]
    off = abs(along / piece.grain)
    if off < 1e-9 or abs(math.sin(cmath.phase(along / piece.grain))) > math.sin(_FOLD_OFF_GRAIN):
        raise LayError(
            Message(
                "fold-edge-not-grain-off",
                N_(
                    "The fold edge of “{piece}” is not on the grain (it is {off:.1f}° off). Put the "
                    "grain line parallel to the fold edge, or cut the piece whole."
                ),
                piece=piece.name,
                off=_degrees_off(along, piece.grain),
            )
        )
    sides = [((z - fold[0]) / along).imag * abs(along) for z in piece.outline]
    if min(sides) < -1e-3 and max(sides) > 1e-3:
        raise LayError(
            Message(
                "reaches-over-own-fold-edge",
                N_("“{piece}” reaches over its own fold edge by {over:.2f} cm."),
                piece=piece.name,
                over=min(-min(sides), max(sides)),
            )
        )


def _degrees_off(along: complex, grain: complex) -> float:
    if abs(along) < 1e-9:
        return 90.0
    off = abs(math.degrees(cmath.phase(along / grain)))
    return min(off, 180 - off)


def whole(piece: LayPiece) -> LayPiece:
    """The piece opened out at its fold; others are returned as they are.

    The marks stay; their twins on the other half are called "… (other side)".
    """
    if piece.fold is None:
        return piece
    from shapely import Polygon, set_precision, unary_union

    start, end = piece.fold
    along = (end - start) / abs(end - start)

    def across(z: complex) -> complex:
        return start + along * ((z - start) / along).conjugate()

    halves = [
        Polygon([(z.real, z.imag) for z in ring])
        for ring in (piece.outline, [across(z) for z in piece.outline])
    ]
    joined = unary_union([set_precision(half, 1e-7) for half in halves])
    if not isinstance(joined, Polygon):
        joined = unary_union([half.buffer(1e-4, join_style="mitre") for half in halves])
    if not isinstance(joined, Polygon):
        raise LayError(
            Message(
                "not-open-out-fold-edge",
                N_("“{piece}” does not open out at its fold edge."),
                piece=piece.name,
            )
        )
    ring = tuple(complex(x, y) for x, y in joined.exterior.coords[:-1])
    twins = {f"{name} (other side)": across(z) for name, z in piece.marks.items()}
    return replace(piece, outline=ring, fold=None, marks={**piece.marks, **twins})


def extent(piece: LayPiece) -> tuple[float, float]:
    """How far the outline reaches along and across the grain, in cm."""
    turned = [z / (piece.grain or 1) * abs(piece.grain or 1) for z in piece.outline]
    xs, ys = [z.real for z in turned], [z.imag for z in turned]
    return max(xs) - min(xs), max(ys) - min(ys)


def same_both_ways(piece: LayPiece, turn_too: bool) -> bool:
    """Whether the piece is its own mirror image about the grain (or about it and turned round)."""
    from shapely.affinity import scale, translate

    shape = piece_polygon(
        replace(piece, outline=tuple(z / (piece.grain or 1) for z in piece.outline))
    )
    options = [(1, -1)] + ([(-1, 1)] if turn_too else [])
    for fx, fy in options:
        other = scale(shape, fx, fy, origin=(0, 0))
        other = translate(
            other, shape.bounds[0] - other.bounds[0], shape.bounds[1] - other.bounds[1]
        )
        if shape.symmetric_difference(other).area < 1e-3 * shape.area:
            return True
    return False


def pieced(piece: LayPiece, limit: float) -> list[LayPiece]:
    """A strip too long for the width, cut as equal parts with a seam at every join.

    The strip lies across the cloth, so its length is its extent across the grain; `limit` is the
    room there is. A piece that is no strip, or short enough, comes back alone. Equal parts with
    an allowance at each join: common practice.
    """
    _along, length = extent(piece)
    if not piece.strip or piece.fold is not None or length <= limit + 1e-6:
        return [piece]
    if limit <= 2 * piece.join:
        raise LayError(
            Message(
                "cannot-pieced-cm-width-leave",
                N_(
                    "“{piece}” cannot be pieced: {limit:.1f} cm of width leave no room for its joins."
                ),
                piece=piece.name,
                limit=limit,
            )
        )
    count = math.ceil((length - 2 * piece.join) / (limit - 2 * piece.join) - 1e-9)
    net = (length - 2 * piece.join) / count
    return [_part(piece, k, count, net) for k in range(count)]


def _part(piece: LayPiece, k: int, count: int, net: float) -> LayPiece:
    """Part k of a strip: its share of the length and the allowance at both ends."""
    from shapely import Polygon, box

    grain = (piece.grain or 1) / abs(piece.grain or 1)
    flat = replace(piece, outline=tuple(z / grain for z in piece.outline))
    shape = piece_polygon(flat)
    left, low, right, _high = shape.bounds
    start = low + k * net
    part = shape.intersection(box(left - 1, start, right + 1, start + net + 2 * piece.join))
    if not isinstance(part, Polygon):
        raise LayError(
            Message(
                "not-plain-strip-cannot-pieced",
                N_("“{piece}” is not a plain strip; it cannot be pieced."),
                piece=piece.name,
            )
        )
    ring = tuple(complex(x, y) * grain for x, y in part.exterior.coords[:-1])
    name = f"{piece.name}, part {k + 1} of {count}"
    return replace(piece, name=name, outline=ring, marks={})
