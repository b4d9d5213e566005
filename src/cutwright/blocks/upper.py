"""The upper part of a block above the underarm: neck, shoulders and the widths across."""

from __future__ import annotations

from dataclasses import dataclass, replace

from cutwright.blocks.across import (
    ENOUGH,
    NARROWEST,
    Across,
    across_of,
    armhole_width,
    margins_of,
    turn_for,
    widened,
)
from cutwright.blocks.neck import Neck
from cutwright.blocks.plan import Plan
from cutwright.blocks.shares import NARROWER
from cutwright.blocks.shoulders import Shoulder
from cutwright.errors import DraftError
from cutwright.geometry.curve import Cubic
from cutwright.geometry.point import Point
from cutwright.messages import N_, Message

LEAD = 0.7
"""How far the front shoulder end lies below the back one, cm (common practice)."""
_LOWER = (0.0, 0.25, 0.5, 0.75, 1.0, 1.25)
_SHORTER = (0.25, 0.5, 0.75, 1.0)


@dataclass(frozen=True, slots=True)
class Upper:
    """Neck, shoulders and widths of back and front, each in its own frame."""

    neck_width: float
    back_neck: Cubic
    front_neck: Cubic
    back: Shoulder
    front: Shoulder
    bust_point: Point
    across: Across
    turn: float
    """The armhole's corner at the shoulder opens by this behind and closes by it in front."""
    lowered: float
    back_bust: float
    """u of the side at bust level, behind and in front."""
    front_bust: float
    armhole_width: float
    shortened: float = 0.0
    """What the shoulder had to give up for the armhole's sake, cm."""


def draw_upper(plan: Plan, bust_level: float) -> Upper:
    """Neck, shoulders and widths for a given bust level; refuses where no armhole can be drawn.

    Where the shoulder is too long for the widths across, it is drafted up to 1 cm shorter.

    Parameters
    ----------
    plan : levels, ease and tapes of the upper body
    bust_level : y of the bust point, cm

    Raises
    ------
    DraftError : no armhole can be drawn; the tapes that disagree are named

    Source: own method, docs/drafting.md, section 4.
    """
    try:
        return _drawn(plan, bust_level)
    except DraftError as fault:
        for less in _SHORTER:
            tapes = replace(plan.tapes, shoulder=plan.tapes.shoulder - less)
            try:
                upper = _drawn(replace(plan, tapes=tapes), bust_level)
            except DraftError:
                continue
            return replace(upper, shortened=less)
        raise fault from None


def _drawn(plan: Plan, bust_level: float) -> Upper:
    """Neck, shoulders and widths with the shoulder as it was taped.

    Own method (docs/drafting.md, section 4): the front shoulder end is lowered in steps of 0.25 up to 1.25, then the widths
    across are widened in steps of 0.05 up to 3, until the armhole can leave the shoulder.
    """
    for lowered in _LOWER:
        neck = Neck(plan, bust_level, LEAD + lowered)
        across = across_of(plan, neck)
        turn, least = turn_for(*margins_of(neck, across))
        if least >= ENOUGH:
            break
    else:
        across, turn = widened(plan, neck, across)
    return _upper(plan, neck, across, turn, lowered)


def _upper(plan: Plan, neck: Neck, across: Across, turn: float, lowered: float) -> Upper:
    width = neck.width
    room = armhole_width(plan, neck, across)
    if room < NARROWEST:
        raise DraftError(
            Message(
                "across-back-across-chest-leave",
                N_(
                    "Across back {back:.1f} and across chest {chest:.1f} leave only {wide:.1f} cm of "
                    "the bust {bust:.1f} for the armhole, and at least 5 cm is needed. Measure the "
                    "three again."
                ),
                back=2 * plan.tapes.half_back,
                chest=2 * plan.tapes.half_chest,
                bust=plan.tapes.bust,
                wide=room,
            )
        )
    at_bust = plan.centre.at(max(plan.depth, neck.bust_point.imag))
    whole = plan.halves.bust + at_bust
    back_bust = plan.halves.bust / 2 - NARROWER + at_bust
    share = min(max((back_bust - across.back.real) / room, 0.42), 0.58)
    back_bust = across.back.real + share * room
    return Upper(
        width, neck.back_neck(width), neck.front_neck(width), neck.back, neck.front,
        neck.bust_point, across, turn, lowered, back_bust, whole - back_bust, room,
    )  # fmt: skip
