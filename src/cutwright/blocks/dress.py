"""The dress block: back and front in one length from the neck over the waist to the hem."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import hypot, sqrt

from cutwright.blocks.centre_back import below_waist
from cutwright.blocks.hem import flared_hem, lean_for
from cutwright.blocks.laying import HalfDraft, draft_grain, laid_half
from cutwright.blocks.plan import Plan, UpperWish, plan_of
from cutwright.blocks.shares import Shares, dress_shares, split
from cutwright.blocks.side_seam import dress_side, hip_side
from cutwright.blocks.tapes import Tapes
from cutwright.blocks.torso import Top, back_top, front_top
from cutwright.blocks.upper import Upper, draw_upper
from cutwright.blocks.waist_darts import (
    DART_TOP,
    FOOT,
    WaistSpan,
    back_stretches,
    dart_top,
    diamonds,
    front_stretches,
)
from cutwright.errors import DraftError
from cutwright.geometry.curve import Line
from cutwright.geometry.path import Path, reversed_path
from cutwright.geometry.point import Point
from cutwright.messages import N_, Message
from cutwright.pattern.edge import Edge, EdgeKind
from cutwright.pattern.piece import Diamond, Level, Piece
from cutwright.pattern.role import Role


@dataclass(frozen=True, slots=True)
class DressWish:
    """What a cutter chooses for a dress block."""

    upper: UpperWish
    length: float = 60.0
    flare: float | None = None
    """How far the hem stands out at each side; None: 0.07 of the length below the hip."""


@dataclass(frozen=True, slots=True)
class Dress:
    """A drafted dress block and what it was drafted from."""

    back: Piece
    front: Piece
    plan: Plan
    upper: Upper
    shares: Shares
    dart_top: float
    armholes: tuple[float, float]
    back_darts: tuple[float, ...]
    front_darts: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class _Levels:
    """Levels below the nape and what was shared out at the waist."""

    bust_point: float
    bust: float
    dart_top: float
    shares: Shares
    back_darts: tuple[float, ...]
    front_darts: tuple[float, ...]


def draft_dress(tapes: Tapes, wish: DressWish) -> Dress:
    """Draft back and front of a dress block by direct measure (own method, docs/drafting.md, sections 2 to 5).

    Parameters
    ----------
    tapes : the measures as the draft uses them
    wish : what the cutter chooses

    Returns
    -------
    back and front in their places, and what they were drafted from

    Raises
    ------
    DraftError : too short, or tapes that disagree, by name
    """
    plan = plan_of(tapes, wish.upper)
    if wish.length < tapes.waist_to_hip + 2:
        raise DraftError(
            Message(
                "dress-block-reaches-least-cm",
                N_(
                    "A dress block reaches at least 2 cm below the hip: {least:.1f} cm from the waist "
                    "here, but {length:.1f} was asked for. Draft it longer and shorten it afterwards."
                ),
                least=tapes.waist_to_hip + 2,
                length=wish.length,
            )
        )
    levels = _levels(plan, wish.upper.largest_dart)
    upper = draw_upper(plan, levels.bust_point)
    side = dress_side(plan.depth, levels.bust, plan.centre.level, levels.shares.side)
    lower = _Lower(plan, wish, levels.shares)
    centre = complex(plan.centre.at(levels.bust), levels.bust)
    back = back_top(upper, plan.depth, side, lower.side(upper.back_bust), centre)
    front = front_top(upper, plan.side_dart, side, lower.side(upper.front_bust), levels.bust)
    return Dress(
        _back_piece(plan, wish, upper, levels, lower, back),
        _front_piece(plan, wish, upper, levels, lower, front),
        plan,
        upper,
        levels.shares,
        levels.dart_top,
        (back.armhole, front.armhole),
        levels.back_darts,
        levels.front_darts,
    )


def _levels(plan: Plan, largest: float) -> _Levels:
    """Bust point level and shares, which hang on each other: a few rounds settle both.

    Own method: the front length is measured along the leg of the closed dart, so
    (dart top - bust point) + hypot(waist - dart top, dart / 2) = front length - bust depth.
    """
    tapes, waist = plan.tapes, plan.centre.level
    bust_point = waist - tapes.below_bust
    for _round in range(6):
        bust = max(plan.depth, bust_point)
        shares = dress_shares(plan.halves, plan.centre.hollow, plan.centre.at(bust), largest)
        front = split(shares.front, largest)
        before = bust_point
        bust_point, top = _bust_point(plan, front[0] if front else 0.0)
        if abs(bust_point - before) < 1e-12:
            break
    # what is left over between the last two rounds goes into the sides, so that the waist is exact
    rest = plan.centre.at(max(plan.depth, bust_point)) - plan.centre.at(bust)
    shares = replace(shares, side=shares.side + rest / 2)
    bust = max(plan.depth, bust_point)
    return _Levels(bust_point, bust, top, shares, split(shares.back, largest), front)


def _bust_point(plan: Plan, intake: float) -> tuple[float, float]:
    """Levels of the bust point and of the upper dart points, for a front dart of this intake."""
    waist, below = plan.centre.level, plan.tapes.below_bust
    leg = below - DART_TOP
    bust_point = waist - DART_TOP - sqrt(leg * leg - intake * intake / 4)
    top = dart_top(bust_point, plan.depth)
    if top == bust_point + DART_TOP:
        return bust_point, top
    return top + hypot(waist - top, intake / 2) - below, top


class _Lower:
    """Side, hem and centre below the waist, at any place along u."""

    def __init__(self, plan: Plan, wish: DressWish, shares: Shares) -> None:
        self.waist = plan.centre.level
        self.hip = self.waist + plan.tapes.waist_to_hip
        self.bottom = self.waist + wish.length
        self.lean = lean_for(wish.flare, self.bottom - self.hip)
        self.bow = plan.halves.hip / 6
        self.shares = shares

    def waist_u(self, bust: float) -> float:
        """u of the side at the waist, from its u at bust level."""
        return bust - self.shares.side

    def hip_point(self, bust: float) -> Point:
        """The side at the hip."""
        return complex(self.waist_u(bust) + self.shares.bulge, self.hip)

    def side(self, bust: float) -> Path:
        """The side from the waist to the hem."""
        waist = complex(self.waist_u(bust), self.waist)
        hip = self.hip_point(bust)
        return (hip_side(waist, hip, self.lean), self._hem(bust, 0.0)[0])

    def hem(self, bust: float, centre: float) -> Path:
        """The hem from the side to the centre."""
        return self._hem(bust, centre)[1:]

    def _hem(self, bust: float, centre: float) -> Path:
        return flared_hem(self.hip_point(bust), self.bottom, self.lean, self.bow, centre)

    def levels(self, bust: float, at_waist: float, at_hip: float) -> tuple[Level, Level]:
        """The waist and hip levels of a piece."""
        return (
            Level(
                "waist", (complex(at_waist, self.waist), complex(self.waist_u(bust), self.waist))
            ),
            Level("hip", (complex(at_hip, self.hip), self.hip_point(bust))),
        )


def _back_piece(
    plan: Plan, wish: DressWish, upper: Upper, levels: _Levels, lower: _Lower, top: Top
) -> Piece:
    hollow = plan.centre.hollow
    on_fold = wish.upper.back == "fold"
    below = below_waist(complex(hollow, lower.waist), complex(hollow / 2, lower.hip), lower.bottom)
    centre: Path = (*plan.centre.path(), *below)
    if hollow == 0:
        centre = (Line(0j, complex(0, lower.bottom)),)
    edges = (
        *top.edges,
        Edge("hem", lower.hem(upper.back_bust, hollow / 2), EdgeKind.HEM),
        Edge("centre back", reversed_path(centre), EdgeKind.FOLD if on_fold else EdgeKind.CENTRE),
    )
    half = HalfDraft(
        "back",
        Role.BACK,
        edges,
        top.darts,
        _back_diamonds(plan, upper, levels, lower),
        (top.bust, *lower.levels(upper.back_bust, hollow, hollow / 2)),
        top.marks,
        on_fold,
    )
    return laid_half(half, draft_grain(0.3 * upper.back_bust, plan.depth, lower.bottom))


def _front_piece(
    plan: Plan, wish: DressWish, upper: Upper, levels: _Levels, lower: _Lower, top: Top
) -> Piece:
    on_fold = wish.upper.front_on_fold
    foot = complex(0, lower.bottom)
    edges = (
        *top.edges,
        Edge("hem", lower.hem(upper.front_bust, 0.0), EdgeKind.HEM),
        Edge(
            "centre front",
            (Line(foot, upper.front_neck.start),),
            EdgeKind.FOLD if on_fold else EdgeKind.CENTRE,
        ),
    )
    half = HalfDraft(
        "front",
        Role.FRONT,
        edges,
        top.darts,
        _front_diamonds(plan, upper, levels, lower),
        (top.bust, *lower.levels(upper.front_bust, 0.0, 0.0)),
        top.marks,
        on_fold,
    )
    return laid_half(half, draft_grain(0.2 * upper.front_bust, plan.depth, lower.bottom))


def _foot(plan: Plan, lower: _Lower, half: Role) -> float:
    return lower.waist + FOOT[half] * plan.tapes.waist_to_hip


def _back_diamonds(plan: Plan, upper: Upper, levels: _Levels, lower: _Lower) -> tuple[Diamond, ...]:
    darts = levels.back_darts
    span = WaistSpan(plan.centre.hollow, lower.waist_u(upper.back_bust))
    closed = span.side - span.centre - sum(darts)
    return diamonds(
        span, lower.waist, back_stretches(closed, len(darts)), darts, levels.dart_top,
        _foot(plan, lower, Role.BACK),
    )  # fmt: skip


def _front_diamonds(
    plan: Plan, upper: Upper, levels: _Levels, lower: _Lower
) -> tuple[Diamond, ...]:
    darts = levels.front_darts
    if not darts:
        return ()
    span = WaistSpan(0.0, lower.waist_u(upper.front_bust))
    first = plan.tapes.half_points - darts[0] / 2
    return diamonds(
        span, lower.waist, front_stretches(span.side - sum(darts), len(darts), first), darts,
        levels.dart_top, _foot(plan, lower, Role.FRONT),
    )  # fmt: skip
