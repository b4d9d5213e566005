"""The bodice block: back and front from the neck to a waist seam."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import asin, atan, cos, sin

from cutwright.blocks.laying import HalfDraft, draft_grain, laid_half
from cutwright.blocks.plan import Plan, UpperWish, plan_of
from cutwright.blocks.shares import LEAST_DART, TO_MEET, dart_shares, split
from cutwright.blocks.side_seam import SideSeam, bodice_side
from cutwright.blocks.skirt import waist_edges, waist_halves
from cutwright.blocks.tapes import Tapes
from cutwright.blocks.torso import Top, back_top, front_top
from cutwright.blocks.upper import Upper, draw_upper
from cutwright.blocks.waist_chain import UP, Chain, chain
from cutwright.blocks.waist_darts import NAMES, back_stretches, dart_top, front_stretches
from cutwright.blocks.waist_seam import dart_counts
from cutwright.errors import DraftError
from cutwright.geometry.curve import Line
from cutwright.geometry.path import Path, reversed_path
from cutwright.messages import N_, Message
from cutwright.pattern.edge import Edge, EdgeKind
from cutwright.pattern.piece import Dart, Piece, swap_leg_parts
from cutwright.pattern.role import Role

_CLOSE = 1e-10
_SPARE = 0.15
"""By how much an intake may still change in the rounds, cm."""

_FROM_SIDE = 0.6
"""So much of what a side takes in may go to darts, that they meet those of a skirt (share)."""
_AT_REST = 1e-4  # what may still move after all rounds, cm


@dataclass(frozen=True, slots=True)
class Bodice:
    """A drafted bodice block and what it was drafted from."""

    back: Piece
    front: Piece
    plan: Plan
    upper: Upper
    side: float
    dart_top: float
    armholes: tuple[float, float]
    back_darts: tuple[float, ...]
    front_darts: tuple[float, ...]
    waist: tuple[float, float]


@dataclass(frozen=True, slots=True)
class _Waist:
    """Both waists when all agrees, cm."""

    bust_point: float
    widths: tuple[float, float]
    side: float
    closed: tuple[float, float]
    back_darts: tuple[float, ...]
    front_darts: tuple[float, ...]
    back: Chain
    front: Chain


Places = tuple[tuple[float, ...] | None, tuple[float, ...] | None]
"""Stretches of a back and a front waist from the centre to each dart and on to the side."""


def draft_bodice(tapes: Tapes, wish: UpperWish, places: Places = (None, None)) -> Bodice:
    """Draft back and front of a bodice block with a waist seam (own method, docs/drafting.md, sections 2 to 4 and 6).

    With the `places` of a skirt that has the same waist its darts are as many and meet the skirt's.

    The waist meets centre, dart legs and side square; darts are what the side leaves over; the
    bust point is raised or lowered until both side points are level.

    Parameters
    ----------
    tapes : the body's measures as a draft uses them
    wish : what the cutter chooses
    places : stretches of a back and a front waist from the centre to each dart and on to the side, cm

    Returns
    -------
    back and front with the figures behind them

    Raises
    ------
    DraftError : tapes that cannot all hold
    """
    plan = plan_of(tapes, wish)
    bust_point = plan.centre.level - tapes.below_bust
    upper = draw_upper(plan, bust_point)
    waist = _begun(plan, upper, bust_point, wish.largest_dart, places).run(bust_point)
    # the place of the side stays as it was first drawn; all else follows the bust point
    upper = replace(
        draw_upper(plan, waist.bust_point),
        back_bust=waist.widths[0],
        front_bust=waist.widths[1],
    )
    return _pieces(plan, wish, upper, waist)


def _side_wish(plan: Plan, at_bust: float) -> float:
    """How far each side lies inside the bust width at the waist: a fifth of the surplus."""
    surplus = plan.halves.bust - plan.halves.waist
    if surplus <= 0:
        return surplus / 2
    side = min(0.2 * surplus, 3.0)
    darts = surplus - (plan.centre.hollow - at_bust) - 2 * side
    return side + darts / 2 if darts < 1.2 else side


def _begun(plan: Plan, upper: Upper, bust_point: float, largest: float, places: Places) -> _Rounds:
    """First guess of darts and side; darts too small to sew go into the side."""
    at_bust = plan.centre.at(max(plan.depth, bust_point))
    side, closed = _side_wish(plan, at_bust), list(waist_halves(plan.halves))
    room = [upper.back_bust - plan.centre.hollow - closed[0], upper.front_bust - closed[1]]
    sewn = [part - side >= LEAST_DART for part in room]
    if not all(sewn):
        side = min(part for part, has in zip(room, sewn, strict=True) if not has)
    intakes = [part - side if has else 0.0 for part, has in zip(room, sewn, strict=True)]
    counts = [len(split(part + _SPARE, largest)) if part else 0 for part in intakes]
    met = dart_counts(places, (closed[0], closed[1]))
    short = _short(intakes, met, largest, side) if met else None
    if met and short is not None:
        side, counts = side - short, list(met)
        intakes = [part + short if part else 0.0 for part in intakes]
    else:
        places = (None, None)
    widths = (upper.back_bust - at_bust, upper.front_bust)
    return _Rounds(plan, widths, closed, side, intakes, counts, largest, places)


def _short(
    intakes: list[float], counts: tuple[int, int], largest: float, side: float
) -> float | None:
    """What the sides must leave to so many darts, that none is a needle; None where that cannot be.

    A dart may take a little more than the largest to meet the one of the skirt.
    """
    parts = list(zip(intakes, counts, strict=True))
    if any(bool(intake) != bool(count) for intake, count in parts):
        return None
    short = max(0.0, *(LEAST_DART * count + _SPARE - intake for intake, count in parts if count))
    most = largest + TO_MEET
    if short > _FROM_SIDE * side or any(i + short + _SPARE > most * n for i, n in parts if n):
        return None
    return short


class _Rounds:
    """Fixed-point rounds over dart intakes and legs, the side's lean and the bust point's level.

    Each round draws both waists once and takes up what is off. `widths` are those of back and
    front at bust level, the back's without the hollow of its centre there.
    """

    def __init__(
        self,
        plan: Plan,
        widths: tuple[float, float],
        closed: list[float],
        side: float,
        intakes: list[float],
        counts: list[int],
        largest: float,
        places: Places,
    ) -> None:
        self.plan, self.widths, self.closed = plan, widths, closed
        self.side, self.counts, self.largest, self.places = side, counts, largest, places
        self.intakes = intakes
        self.start = complex(plan.centre.hollow, plan.centre.level)
        self.level = self.start.imag
        self.legs = [[self.level - plan.depth] * n for n in counts]

    def run(self, bust_point: float) -> _Waist:
        """Go round until nothing moves more than 1e-10."""
        for _round in range(80):
            bust = max(self.plan.depth, bust_point)
            top = dart_top(bust_point, self.plan.depth)
            widths = (self.widths[0] + self.plan.centre.at(bust), self.widths[1])
            lean = atan(self.side / (self.level - bust))
            darts = [
                dart_shares(total, n, self.largest)
                for total, n in zip(self.intakes, self.counts, strict=True)
            ]
            back = self._back(darts[0], lean)
            front = self._front(darts[1], lean, bust_point, top)
            off = [w - self.side - c.end.real for w, c in zip(widths, (back, front), strict=True)]
            fall = back.end.imag - front.end.imag
            tips = self._correct(0, back, top) + self._correct(1, front, top)
            still = max(*map(abs, off), abs(fall), abs(self.level - back.end.imag), *tips, 0.0)
            if still < _CLOSE:
                break
            self._take_up(off)
            bust_point, self.level = bust_point + fall, back.end.imag
        if max(*map(abs, off), abs(fall)) > _AT_REST:
            raise DraftError(
                Message(
                    "bodice-not-at-rest",
                    N_(
                        "No bodice comes out of these measures: the side would lie nearly level. Take less ease "
                        "at the waist, or more at the bust."
                    ),
                )
            )
        return _Waist(
            bust_point,
            widths,
            self.side,
            (self.closed[0], self.closed[1]),
            darts[0],
            darts[1],
            back,
            front,
        )

    def _correct(self, which: int, waist: Chain, top: float) -> list[float]:
        """Lengthen or shorten the legs towards the level of the upper points."""
        off = [dart.tip.imag - top for dart in waist.darts]
        self.legs[which] = [leg + gap for leg, gap in zip(self.legs[which], off, strict=True)]
        return [abs(gap) for gap in off]

    def _take_up(self, off: list[float]) -> None:
        """Take up what is off: in the darts where there are some, else in the side."""
        bare = [i for i in (0, 1) if not self.counts[i]]
        if len(bare) == 2:  # no darts: the halves give way so that both sides stay one curve
            shift = (off[0] - off[1]) / 2
            self.closed[0] += shift
            self.closed[1] -= shift
        moved = sum(off[i] for i in bare) / len(bare) if bare else 0.0
        self.side += moved
        for i in (0, 1):
            if self.counts[i]:
                self.intakes[i] += off[i] - moved

    def _back(self, darts: tuple[float, ...], lean: float) -> Chain:
        rows = self.places[0] or back_stretches(self.closed[0], len(darts))
        return chain(self.start, rows, list(zip(darts, self.legs[0], strict=True)), lean, UP)

    def _front(self, darts: tuple[float, ...], lean: float, bust_point: float, top: float) -> Chain:
        """The front waist, hung from the bust point by the front length."""
        points, below = self.plan.tapes.half_points, self.plan.tapes.below_bust
        if not darts:
            drop = _drop(points, self.closed[1], lean)
            return chain(complex(0, bust_point + below - drop), (self.closed[1],), (), lean, UP)
        leg = below - (top - bust_point)
        half = asin(darts[0] / 2 / leg)
        radius = (points - darts[0] / 2) / sin(half)
        start = complex(0, top + leg * cos(half) - radius * (1 - cos(half)))
        rows = self.places[1] or front_stretches(self.closed[1], len(darts), radius * half)
        self.legs[1][0] = leg
        return chain(start, rows, list(zip(darts, self.legs[1], strict=True)), lean, UP)


def _drop(u: float, size: float, turn: float) -> float:
    """How far an arc that leaves the centre level has dropped at u."""
    if abs(turn) < 1e-9:
        return 0.0
    radius = size / turn
    angle = asin(u / radius)
    return radius * (1 - cos(angle))


def _pieces(plan: Plan, wish: UpperWish, upper: Upper, waist: _Waist) -> Bodice:
    bust = max(plan.depth, waist.bust_point)
    side = bodice_side(plan.depth, bust, waist.back.end.imag, waist.side)
    centre = complex(plan.centre.at(bust), bust)
    back = back_top(upper, plan.depth, side, (), centre)
    front = front_top(upper, plan.side_dart, side, (), bust)
    behind = _ended(waist.back, side, upper.back_bust)
    before = _ended(waist.front, side, upper.front_bust)
    return Bodice(
        _piece(Role.BACK, plan, back, behind, plan.centre.path(), wish.back == "fold"),
        _piece(
            Role.FRONT, plan, front, before,
            (Line(upper.front_neck.start, before.start),), wish.front_on_fold,
        ),
        plan,
        upper,
        waist.side,
        dart_top(waist.bust_point, plan.depth),
        (back.armhole, front.armhole),
        waist.back_darts,
        waist.front_darts,
        waist.closed,
    )  # fmt: skip


def _ended(waist: Chain, side: SideSeam, width: float) -> Chain:
    """The waist ended exactly where the side ends (rounding taken out)."""
    last = replace(waist.arcs[-1], end=side.moved(width)[-1].end)
    return replace(waist, arcs=(*waist.arcs[:-1], last))


def _piece(about: Role, plan: Plan, top: Top, waist: Chain, centre: Path, on_fold: bool) -> Piece:
    from_side = tuple(edge.reversed() for edge in reversed(waist_edges(waist)))
    edges = (
        *top.edges,
        *swap_leg_parts(from_side),
        Edge(
            f"centre {about}", reversed_path(centre), EdgeKind.FOLD if on_fold else EdgeKind.CENTRE
        ),
    )
    darts = tuple(Dart(NAMES[i], d.tip, d.tip) for i, d in enumerate(waist.darts))
    half = HalfDraft(about, about, edges, top.darts + darts, (), (top.bust,), top.marks, on_fold)
    share = 0.3 if about is Role.BACK else 0.2
    return laid_half(half, draft_grain(share * waist.end.real, 0.5 * plan.depth, waist.end.imag))
