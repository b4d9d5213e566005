"""The widths across back and chest, and how far the armhole's sake moves them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import radians, tan

from cutwright.blocks.frame import heading_of
from cutwright.blocks.neck import Neck
from cutwright.blocks.plan import Plan
from cutwright.errors import DraftError
from cutwright.geometry.point import Point, direction
from cutwright.messages import N_, Message

ENOUGH = radians(2.5)
"""An armhole that bends so much between shoulder and across point needs no further remedy."""

NARROWEST = 5.0
"""Least armhole width from across back to across chest, cm."""

_GOOD, _LEAST = radians(6), radians(1)
_MOST_TURN = radians(12)


@dataclass(frozen=True, slots=True)
class Across:
    """The widths across and how far they had to leave the tape (cm, outwards positive)."""

    back: Point
    chest: Point
    back_moved: float = 0.0
    chest_moved: float = 0.0
    widened: float = 0.0


def across_of(plan: Plan, neck: Neck) -> Across:
    """The widths across at their levels, brought where an armhole can be drawn.

    Own method (docs/drafting.md, section 4): an across back beyond the shoulder end less 0.3 comes in by at most 2; an
    estimated across chest keeps the armhole's width between 0.088 bust and bust / 8 + 2 and moves
    out until the front armhole can leave the shoulder; both come in by at most 1 for the least.

    Parameters
    ----------
    plan : levels, ease and tapes of the upper body
    neck : the neck with both shoulders, drawn

    Returns
    -------
    the points and what had to leave the tape, cm
    """
    tapes, back, front = plan.tapes, neck.back, neck.front
    back_level = (back.end.imag + plan.depth) / 2 + 0.5
    chest_level = (front.end.imag + plan.depth) / 2 + 1.0
    asked = plan.centre.at(back_level) + tapes.half_back + plan.ease.across_back
    moved = max(min(back.end.real - 0.3 - asked, 0.0), -2.0)
    across = Across(
        complex(asked + moved, back_level),
        complex(_chest_open(plan, neck, chest_level), chest_level),
        back_moved=moved,
    )
    if not tapes.chest_taped:
        across = _chest_fitted(plan, neck, across)
    short = 0.088 * tapes.bust - armhole_width(plan, neck, across)
    if short > 1e-9:
        step = min(short / 2, 1.0)
        across = _shifted(across, plan, back=-step, chest=-step)
    return across


def _chest_open(plan: Plan, neck: Neck, level: float) -> float:
    """u of the across chest point with the bust dart open, for the width with the dart closed."""
    tapes, dart = plan.tapes, plan.dart
    closed = tapes.half_chest + plan.ease.across_chest
    lift = neck.bust_point.imag - level
    return (
        tapes.half_points
        + (closed - tapes.half_points + direction(dart).imag * lift) / direction(dart).real
    )


def armhole_width(plan: Plan, neck: Neck, across: Across) -> float:
    """Back across point to front across point with the side seam closed, cm.

    Parameters
    ----------
    plan : levels, ease and tapes of the upper body
    neck : the neck with both shoulders, drawn
    across : the points across back and chest

    Returns
    -------
    cm
    """
    at_bust = plan.centre.at(max(plan.depth, neck.bust_point.imag))
    return plan.halves.bust + at_bust - across.back.real - across.chest.real


def _shifted(across: Across, plan: Plan, back: float = 0.0, chest: float = 0.0) -> Across:
    """The across points moved outwards by so much on the paper; what is told is with darts closed."""
    closed = chest * direction(plan.dart).real
    return replace(
        across,
        back=across.back + back,
        chest=across.chest + chest,
        back_moved=across.back_moved + back,
        chest_moved=across.chest_moved + closed,
    )


def _chest_fitted(plan: Plan, neck: Neck, across: Across) -> Across:
    """An across chest that was not taped moves for the sake of the armhole."""
    bust = plan.tapes.bust
    least, most = 0.088 * bust, bust / 8 + 2
    width = armhole_width(plan, neck, across)
    step = min(width - least, 0.0) or max(width - most, 0.0)
    across = _shifted(across, plan, chest=step)
    behind, before = margins_of(neck, across)
    wanted = radians(5.5) - min(max(behind - radians(5), 0.0), radians(5))
    if before >= wanted:
        return across
    front = neck.front
    drop = across.chest.imag - front.end.imag
    need = front.end.real + drop * tan(wanted - front.outer) - across.chest.real
    return _shifted(
        across, plan, chest=max(min(need, armhole_width(plan, neck, across) - least), 0.0)
    )


def margins_of(neck: Neck, across: Across) -> tuple[float, float]:
    """How much each armhole can bend between the shoulder and the across point, radians.

    Parameters
    ----------
    neck : the neck with both shoulders, drawn
    across : the points across back and chest

    Returns
    -------
    back and front, radians
    """
    back, front = neck.back, neck.front
    return (
        heading_of(across.back - back.end) + back.outer,
        heading_of(across.chest - front.end) + front.outer,
    )


def turn_for(behind: float, before: float) -> tuple[float, float]:
    """How far the corner at the shoulder is turned for the armhole's sake, and the lesser margin.

    The back corner opens by what the front one closes, at most 12 degrees; their sum stays 180.

    Parameters
    ----------
    behind : how much the back armhole can bend, radians
    before : how much the front one can, radians

    Returns
    -------
    both in radians
    """
    if behind + before >= 2 * _GOOD:
        turn = max(_GOOD - behind, 0.0) - max(_GOOD - before, 0.0)
    else:
        turn = (before - behind) / 2
    turn = min(max(turn, -_MOST_TURN), _MOST_TURN)
    return turn, min(behind + turn, before - turn)


def widened(plan: Plan, neck: Neck, across: Across) -> tuple[Across, float]:
    """The across width widened until the armhole can leave the shoulder; refuses beyond 3 cm.

    Parameters
    ----------
    plan : levels, ease and tapes of the upper body
    neck : the neck with both shoulders, drawn
    across : the points across back and chest

    Returns
    -------
    the points, and the turn of the corner in radians

    Raises
    ------
    DraftError : 3 cm more do not carry the shoulder
    """
    margins = margins_of(neck, across)
    turn, least = turn_for(*margins)
    grown = 0
    while least < ENOUGH and grown < 60 and armhole_width(plan, neck, across) > NARROWEST + 0.05:
        grown += 1
        if margins[0] + turn <= margins[1] - turn:
            across = replace(_shifted(across, plan, back=0.05), widened=0.05 * grown)
        else:
            across = replace(_shifted(across, plan, chest=0.05), widened=0.05 * grown)
        margins = margins_of(neck, across)
        turn, least = turn_for(*margins)
    if least < _LEAST:
        raise DraftError(
            Message(
                "shoulder-length-disagrees-across-back",
                N_(
                    "Shoulder length {shoulder:.1f} disagrees with across back {back:.1f} and across "
                    "chest {chest:.1f}: the armhole cannot leave so long a shoulder. Measure the "
                    "shoulder to the bone only, and both widths from arm to arm."
                ),
                shoulder=plan.tapes.shoulder,
                back=2 * plan.tapes.half_back,
                chest=2 * plan.tapes.half_chest,
            )
        )
    return across, turn
