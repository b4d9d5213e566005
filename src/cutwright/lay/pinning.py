"""Pins: pieces put down by hand, brought to the nearest place the cloth allows them."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from cutwright.errors import LayError
from cutwright.lay.cloth import Cloth, Fold, Match
from cutwright.lay.cuts import LaidCut, cuts, pieces_for
from cutwright.lay.piece import LayPiece, whole
from cutwright.lay.plan import Placement
from cutwright.lay.prepare import ClothStretch, nearest_shape, stretch
from cutwright.lay.stripe import lattice
from cutwright.lay.verify import OVERLAP
from cutwright.messages import N_, Message

FARTHEST = 5000.0
"""A pin farther along the cloth (cm) is a slip of the hand."""


@dataclass(frozen=True, slots=True)
class _Pinned:
    """A pin with the piece it holds."""

    pin: Placement
    piece: LayPiece


def settled_pins(
    pieces: Sequence[LayPiece],
    cloth: Cloth,
    pins: Sequence[Placement],
    matches: Iterable[Match] = (),
) -> tuple[Placement, ...]:
    """The pins at the nearest places allowed: inside the cloth, on the fold, on the repeat.

    x of a pin counts from where its stretch starts. Raises LayError where a pin cannot be: a piece
    that is not laid there or not that way round, or two pins that would share cloth.
    """
    if not pins:
        return ()
    wanted = pieces_for(pieces, cloth)
    lines = lattice(wanted, cloth, tuple(matches))
    doubled, single = cuts(wanted, cloth)
    rows: list[tuple[list[LaidCut], Fold]] = [(doubled, cloth.fold), (single, "open")]
    stretches = [stretch(what, cloth, fold, lines) for what, fold in rows if what]
    named = {piece.name: piece for piece in wanted}
    held = [_Pinned(_settled(pin, stretches), named[pin.piece]) for pin in pins]
    for k, one in enumerate(held):
        for other in held[k + 1 :]:
            _apart(one, other)
    return tuple(one.pin for one in held)


def _settled(pin: Placement, stretches: Sequence[ClothStretch]) -> Placement:
    """One pin at the nearest place of its stretch."""
    if abs(pin.x) > FARTHEST or abs(pin.y) > FARTHEST:
        raise LayError(
            Message(
                "pinned-farther-away-m-put",
                N_("“{piece}” is pinned farther away than {most:g} m; put it nearer."),
                piece=pin.piece,
                most=FARTHEST / 100,
            )
        )
    ready = stretches[pin.part] if 0 <= pin.part < len(stretches) else None
    found = [
        (cut, item)
        for cut, item in zip(ready.cuts, ready.task.items, strict=True)
        if cut.piece.name == pin.piece and cut.copies == pin.copies
    ] if ready else []  # fmt: skip
    if ready is None or not found:
        raise LayError(
            Message(
                "cannot-pinned-cloth-cut-elsewhere",
                N_(
                    "“{piece}” cannot be pinned there: on this cloth it is cut elsewhere or another way. "
                    "Unpin it and pin it again."
                ),
                piece=pin.piece,
            )
        )
    cut, item = found[0]
    shape = ready.task.shapes[nearest_shape(item.shapes, ready.task.shapes, ready.turns, pin)]
    return pin.model_copy(
        update={
            "x": _nearest(pin.x, shape.x0, math.inf, shape.xstep),
            "y": _nearest(pin.y, shape.y0, shape.y1, shape.ystep),
            "on_fold": cut.on_fold,
            "opened": cut.opened,
            "spare": cut.spare,
        }
    )


def _nearest(value: float, low: float, high: float, step: float) -> float:
    """The nearest place between low and high, on a step from low where there is one."""
    if step:
        most = math.inf if math.isinf(high) else math.floor((high - low) / step + 1e-9)
        return low + step * min(max(round((value - low) / step), 0), most)
    return min(max(value, low), high)


def _apart(one: _Pinned, other: _Pinned) -> None:
    """Refuse two pins that share cloth."""
    from shapely import Polygon

    if one.pin.part != other.pin.part:
        return
    a, b = (
        Polygon(
            [
                (z.real, z.imag)
                for z in map(p.pin.of, (whole(p.piece) if p.pin.opened else p.piece).outline)
            ]
        )
        for p in (one, other)
    )
    common = a.intersection(b)
    if common.area > 1e-9 and not common.buffer(-OVERLAP).is_empty:
        left, low, right, high = common.bounds
        raise LayError(
            Message(
                "pinned-over-each-other-cm",
                N_(
                    "“{one}” and “{other}” are pinned over each other, by {wide:.1f} cm along the cloth and "
                    "{high:.1f} cm across. Move one of them, or unpin it."
                ),
                one=one.pin.piece,
                other=other.pin.piece,
                wide=right - left,
                high=high - low,
            )
        )
