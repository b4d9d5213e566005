"""A lay as it is put down by hand: where each piece lies, measured from the end and from one edge."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from cutwright.geometry.point import Point
from cutwright.lay.piece import LayPiece, whole
from cutwright.lay.plan import ClothPart, Lay, Placement

GrainLine = tuple[Point, Point]
Across = Literal["the fold", "the upper fold", "the lower fold", "the upper selvedge"]
"""What a place across the cloth is measured from."""


@dataclass(frozen=True, slots=True)
class PutDown:
    """One piece put down by hand; lengths in cm.

    Parameters
    ----------
    number : its number in the order of laying
    begins : from the end of the cloth to the piece
    grain : both ends of the grain line, the nearer first: x from the end of the cloth, y from
        what `across` names
    across : the fold or the selvedge it is measured from; of two folds the one on its side
    upper_only : cut from the upper layer alone, though the cloth lies double
    """

    number: int
    placement: Placement
    part: ClothPart
    begins: float
    grain: GrainLine
    across: Across
    upper_only: bool


def laying_order(
    lay: Lay, pieces: Mapping[str, LayPiece], grains: Mapping[str, GrainLine]
) -> tuple[PutDown, ...]:
    """Every piece of a lay in the order in which it is laid, from the end of the cloth on.

    `grains` are the grain lines as they are printed on the pieces, by name; a piece without one
    (a part of a long strip) is measured along a line through its middle.
    """
    out: list[PutDown] = []
    for number, placement in enumerate(lay.placements, 1):
        part, piece = lay.parts[placement.part], pieces[placement.piece]
        laid = whole(piece) if placement.opened else piece
        ring = [placement.of(z) for z in laid.outline]
        ends = [placement.of(z) for z in grains.get(placement.piece) or _middle_line(laid)]
        across = _across(part, sum(z.imag for z in ring) / len(ring))
        if across == "the lower fold":
            ends = [complex(z.real, part.height - z.imag) for z in ends]
        near, far = sorted(ends, key=lambda z: z.real)
        begins = min(z.real for z in ring)
        alone = upper_only(placement, part)
        out.append(PutDown(number, placement, part, begins, (near, far), across, alone))
    return tuple(out)


def _across(part: ClothPart, y: float) -> Across:
    """What a piece about this far across is measured from."""
    if part.fold == "selvedges to the middle":
        return "the upper fold" if y < part.height / 2 else "the lower fold"
    return "the fold" if part.fold == "lengthwise" else "the upper selvedge"


def upper_only(placement: Placement, part: ClothPart) -> bool:
    """Whether one layer of doubled cloth gives all that is wanted."""
    return part.fold != "open" and not placement.on_fold and len(placement.copies) == 1


def _middle_line(piece: LayPiece) -> GrainLine:
    """A line on the grain through the middle of a piece's box, half as long as the piece."""
    along = piece.grain or 1 + 0j
    along /= abs(along)
    turned = [z / along for z in piece.outline]
    xs, ys = [z.real for z in turned], [z.imag for z in turned]
    middle, quarter = (min(xs) + max(xs)) / 2, (max(xs) - min(xs)) / 4
    y = (min(ys) + max(ys)) / 2
    return complex(middle - quarter, y) * along, complex(middle + quarter, y) * along
