"""From pieces and a cloth to what the search is given, and back from its places to a lay."""

from __future__ import annotations

import cmath
import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from cutwright.errors import LayError
from cutwright.lay.cloth import Cloth, Fold, lanes
from cutwright.lay.cuts import EDGE, LaidCut
from cutwright.lay.piece import LayPiece, piece_polygon
from cutwright.lay.plan import Placement
from cutwright.lay.simplify import simplified
from cutwright.lay.stripe import Lattice, cloth_direction, middle
from cutwright.lay.task import Item, LayShape, LayTask, LayTurn, Places, Ring
from cutwright.messages import N_, Message


@dataclass(frozen=True, slots=True)
class ClothStretch:
    """One stretch of the cloth, folded in one way, ready for the search: what each item and shape is."""

    fold: Fold
    task: LayTask
    cuts: tuple[LaidCut, ...]
    turns: tuple[LayTurn, ...]

    def placements(self, places: Places, part: int, start: float) -> list[Placement]:
        """The search's places as placements on the cloth, the stretch starting at `start`."""
        done = []
        for cut, s, x, y in zip(self.cuts, places.shapes, places.xs, places.ys, strict=True):
            turn = self.turns[s]
            done.append(
                Placement(
                    piece=cut.piece.name, copies=cut.copies, part=part, x=x + start, y=y,
                    rotation=math.degrees(turn.angle) % 360.0, mirrored=turn.mirrored,
                    on_fold=cut.on_fold, opened=cut.opened, spare=cut.spare,
                )
            )  # fmt: skip
        return done


def stretch(
    cuts: Sequence[LaidCut],
    cloth: Cloth,
    fold: Fold,
    lattice: Lattice,
    pins: Sequence[Placement] = (),
) -> ClothStretch:
    """Everything to be laid on one stretch of cloth, folded so, as a task of the search.

    The x of `pins` counts from where the stretch starts.
    """
    builder = _Builder(cloth, fold, lattice)
    items = tuple(builder.item(cut, _pin_of(cut, pins)) for cut in cuts)
    task = LayTask(builder.height, tuple(builder.shapes), items)
    return ClothStretch(fold, task, tuple(cuts), tuple(builder.turns))


def _pin_of(cut: LaidCut, pins: Sequence[Placement]) -> Placement | None:
    return next((p for p in pins if p.piece == cut.piece.name and p.copies == cut.copies), None)


class _Builder:
    """Collects shapes; pieces cut alike share theirs."""

    def __init__(self, cloth: Cloth, fold: Fold, lattice: Lattice) -> None:
        self.cloth, self.height, self.lattice = cloth, cloth.height_of(fold), lattice
        self.lanes = lanes(fold, self.height)
        self.middle = middle(cloth, self.height)
        self.shapes: list[LayShape] = []
        self.turns: list[LayTurn] = []
        self.known: dict[tuple[str, bool | None, bool], tuple[int, ...]] = {}
        self.bases: dict[str, tuple[int, Ring]] = {}

    def item(self, cut: LaidCut, pin: Placement | None) -> Item:
        key = (cut.piece.name, cut.hand, cut.on_fold)
        if key not in self.known:
            self.known[key] = self._shapes(cut)
        options = self.known[key]
        if pin is None:
            return Item(options)
        s = nearest_shape(options, self.shapes, self.turns, pin)
        return Item(options, (s, pin.x, pin.y))

    def _base(self, piece: LayPiece) -> tuple[int, Ring, LayTurn]:
        along = LayTurn(-cmath.phase(cloth_direction(piece)))
        if piece.name not in self.bases:
            from shapely import Polygon

            true = np.asarray(piece_polygon(piece).exterior.coords)[:, :2]
            self.bases[piece.name] = len(self.bases), simplified(Polygon(along.of_ring(true)))
        return (*self.bases[piece.name], along)

    def _shapes(self, cut: LaidCut) -> tuple[int, ...]:
        base, ring, along = self._base(cut.piece)
        found: list[int] = []
        for lane in self.lanes:
            before = list[LayShape]()
            for turn in self._turns_of(cut):
                shape = self._placed(cut, base, turn, turn.of_ring(ring), lane)
                if shape is not None and not any(_alike(known, shape) for known in before):
                    before.append(shape)
                    found.append(len(self.shapes))
                    self.shapes.append(shape)
                    self.turns.append(turn.after(along))
        if not found:
            raise LayError(
                Message(
                    "finds-no-place-cloth-places",
                    N_(
                        "There is no place for “{piece}” on this cloth: wherever it matches the repeat it "
                        "reaches over the edge. Match other points, or take a wider cloth."
                    ),
                    piece=cut.piece.name,
                )
            )
        return tuple(found)

    def _turns_of(self, cut: LaidCut) -> list[LayTurn]:
        """Every way this cut may be put down: end for end, mirrored, a little off the grain."""
        cloth = self.cloth
        if cut.piece.grain is None:
            ends = [0.0, math.pi / 2, math.pi, -math.pi / 2]
        else:
            ends = [0.0] if cloth.nap == "one way" else [0.0, math.pi]
        hands = [False, True] if cut.hand is None else [cut.hand]
        patterned = cloth.repeat_along is not None or cloth.repeat_across is not None
        off = 0.0 if cut.on_fold or patterned else math.radians(cloth.grain_tolerance)
        slants = [0.0, -off, off] if off and cut.piece.grain is not None else [0.0]
        return [LayTurn(end + slant, hand) for end in ends for hand in hands for slant in slants]

    def _placed(
        self, cut: LaidCut, base: int, turn: LayTurn, ring: Ring, lane: tuple[float, float]
    ) -> LayShape | None:
        """The shape with the places its origin may take in a lane; None if there is none."""
        low, high = ring.min(axis=0), ring.max(axis=0)
        x0, xstep = -float(low[0]), 0.0
        y0, y1, ystep = lane[0] - float(low[1]), lane[1] + EDGE - float(high[1]), 0.0
        name = cut.piece.name
        sx = 1.0 if math.cos(turn.angle) > 0 else -1.0
        sy = -sx if turn.mirrored else sx
        if self.cloth.repeat_along is not None and name in self.lattice.along:
            xstep = self.cloth.repeat_along
            x0 += (sx * self.lattice.along[name] - x0) % xstep
        if cut.on_fold and cut.piece.fold is not None:
            along = LayTurn(-cmath.phase(cloth_direction(cut.piece)))
            fold = 0.0 if lane[0] == 0.0 else self.height
            y0 = y1 = fold - turn.of(along.of(cut.piece.fold[0])).imag
            if low[1] + y0 < lane[0] - EDGE or high[1] + y0 > lane[1] + EDGE:
                return None
        elif self.cloth.repeat_across is not None and name in self.lattice.across:
            ystep = self.cloth.repeat_across
            y0 += (self.middle + sy * self.lattice.across[name] - y0) % ystep
        if y1 < y0:
            return None
        return LayShape(base, turn, ring, x0, xstep, y0, y1, ystep)


def nearest_shape(
    options: Sequence[int], shapes: Sequence[LayShape], turns: Sequence[LayTurn], pin: Placement
) -> int:
    """Which of the shapes a piece may take lies as a pin has it, on its side of the cloth.

    Raises LayError where none is turned so.
    """
    want = LayTurn(math.radians(pin.rotation), pin.mirrored)
    found = [s for s in options if turns[s].same_as(want)]
    if not found:
        raise LayError(
            Message(
                "cannot-pinned-way-lies-cloth",
                N_(
                    "“{piece}” cannot be pinned the way it lies: this cloth does not allow that turn."
                ),
                piece=pin.piece,
            )
        )
    return min(found, key=lambda s: max(shapes[s].y0 - pin.y, pin.y - shapes[s].y1, 0.0))


def _alike(a: LayShape, b: LayShape) -> bool:
    """Whether two ways of putting a piece down come to the same (a piece that is symmetrical)."""
    if a.xstep or a.ystep or len(a.ring) != len(b.ring):
        return False
    one, two = a.ring - a.ring.min(axis=0), b.ring - b.ring.min(axis=0)
    gaps = np.abs(one[:, None, :] - two[None, :, :]).max(axis=2)
    return bool(gaps.min(axis=1).max() < 1e-3 and gaps.min(axis=0).max() < 1e-3)
