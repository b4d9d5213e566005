"""The upper part of a block above the underarm: neck, shoulders and the widths across."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import degrees, radians, sqrt, tan

from cutwright.blocks.centre_back import CentreBack
from cutwright.blocks.ease import Ease
from cutwright.blocks.frame import heading_of
from cutwright.blocks.shoulders import Shoulder, back_shoulder, front_shoulder, reaches
from cutwright.blocks.tapes import Halves, Tapes
from cutwright.errors import DraftError, GeometryError
from cutwright.geometry.curve import Cubic, length
from cutwright.geometry.draw import corner_arc
from cutwright.geometry.point import Point, direction
from cutwright.geometry.solve import root
from cutwright.words import _

_LEAD = 0.7  # how far the front shoulder end lies below the back one, cm (common practice)
_LOWER = (0.0, 0.25, 0.5, 0.75, 1.0, 1.25)
_GOOD, _ENOUGH, _LEAST = radians(6), radians(2.5), radians(1)
_MOST_TURN = radians(12)
_NARROWEST = 5.0  # cm from across back to across chest round the underarm
_SHORTER = (0.25, 0.5, 0.75, 1.0)


@dataclass(frozen=True, slots=True)
class Plan:
    """What the upper part is drawn from besides the tapes: levels, ease and wishes."""

    tapes: Tapes
    ease: Ease
    halves: Halves
    depth: float
    centre: CentreBack
    dart: float
    """Angle of the bust dart, radians."""
    shoulder_dart: float
    """Width of the back shoulder dart; 0 for ease in its place."""
    shoulder_ease: float


@dataclass(frozen=True, slots=True)
class Across:
    """The widths across and how far they had to leave the tape (cm, outwards positive)."""

    back: Point
    chest: Point
    back_moved: float = 0.0
    chest_moved: float = 0.0
    widened: float = 0.0


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

    Own method: the front shoulder end is lowered in steps of 0.25 up to 1.25, then the widths
    across are widened in steps of 0.05 up to 3, until the armhole can leave the shoulder.
    """
    for lowered in _LOWER:
        neck = _Neck(plan, bust_level, _LEAD + lowered)
        across = _across(plan, neck)
        turn, least = _turn(*_margins(neck, across))
        if least >= _ENOUGH:
            break
    else:
        across, turn = _widened(plan, neck, across)
    return _upper(plan, neck, across, turn, lowered)


class _Neck:
    """The neck width that makes the neckline as long as the neck, with its shoulders."""

    def __init__(self, plan: Plan, bust_level: float, lead: float) -> None:
        self.plan, self.lead = plan, lead
        tapes = plan.tapes
        self.bust_point = complex(tapes.half_points, bust_level)
        size = tapes.shoulder + (0.0 if plan.shoulder_dart > 0 else plan.shoulder_ease)
        self.shape = back_shoulder(size, tapes.slope, plan.shoulder_dart, plan.depth)
        self.wanted = (tapes.neck + plan.ease.neck) / 2
        try:
            self.width = root(self._surplus, *self._bracket(), tolerance=1e-10)
        except GeometryError:
            raise _no_neck(tapes) from None
        self._refuse_shoulder()

    def _bracket(self) -> tuple[float, float]:
        guess = 0.367 * self.wanted
        low, high = max(3.5, guess - 0.8), min(14.0, guess + 0.8)
        if (self._surplus(low) > 0) != (self._surplus(high) > 0):
            return low, high
        return 3.5, 14.0

    def _surplus(self, width: float) -> float:
        return length(self.back_neck(width)) + length(self.front_neck(width)) - self.wanted

    def back(self, width: float) -> Shoulder:
        """The back shoulder on a neck of this width."""
        return self.shape.moved(complex(width, -0.28 * width - 0.05))

    def front_point(self, width: float) -> Point:
        """The front's side neck point: as far from the bust point as the bust is deep."""
        tapes = self.plan.tapes
        drop = sqrt(max(tapes.bust_depth**2 - (tapes.half_points - width) ** 2, 0.0))
        return complex(width, self.bust_point.imag - drop)

    def level(self, width: float) -> float:
        """Where the front shoulder end shall lie."""
        return self.back(width).end.imag + self.lead

    def front(self, width: float) -> Shoulder:
        """The front shoulder on a neck of this width."""
        tapes = self.plan.tapes
        return front_shoulder(
            self.front_point(width),
            tapes.shoulder,
            self.bust_point,
            self.plan.dart,
            self.level(width),
        )

    def back_neck(self, width: float) -> Cubic:
        """The back neckline: level at the centre, square to the shoulder."""
        neck = complex(width, -0.28 * width - 0.05)
        return corner_arc(0j, 1 + 0j, neck, direction(self.shape.inner) * -1j, 0.62, 0.5523)

    def front_neck(self, width: float) -> Cubic:
        """The front neckline: level at the centre, square to the shoulder."""
        front = self.front(width)
        centre = complex(0, front.neck.imag + width + 0.6)
        return corner_arc(centre, 1 + 0j, front.neck, direction(front.inner) * -1j, 0.58)

    def _refuse_shoulder(self) -> None:
        tapes, width = self.plan.tapes, self.width
        if not reaches(
            self.front_point(width),
            tapes.shoulder,
            self.bust_point,
            self.plan.dart,
            self.level(width),
        ):
            raise DraftError(
                _(
                    "Front waist length {front:.1f}, bust depth {depth:.1f} and back waist length "
                    "{back:.1f} disagree: no slope brings the front shoulder to the level of the "
                    "back one. Measure these three again."
                ).format(front=tapes.front_length, depth=tapes.bust_depth, back=tapes.back_length)
            )


def _no_neck(tapes: Tapes) -> DraftError:
    return DraftError(
        _(
            "No neckline of {neck:.1f} cm can be drawn: neck base girth, bust depth {depth:.1f} "
            "and front waist length {front:.1f} disagree. Measure them again."
        ).format(neck=tapes.neck, depth=tapes.bust_depth, front=tapes.front_length)
    )


def _across(plan: Plan, neck: _Neck) -> Across:
    """The widths across at their levels, brought where an armhole can be drawn.

    Own method: an across back beyond the shoulder end less 0.3 comes in by at most 2; an
    estimated across chest keeps the armhole's width between 0.088 bust and bust / 8 + 2 and moves
    out until the front armhole can leave the shoulder; both come in by at most 1 for the least.
    """
    tapes, width = plan.tapes, neck.width
    back, front = neck.back(width), neck.front(width)
    back_level = (back.end.imag + plan.depth) / 2 + 0.5
    chest_level = (front.end.imag + plan.depth) / 2 + 1.0
    asked = plan.centre.at(back_level) + tapes.half_back + plan.ease.across_back
    moved = max(min(back.end.real - 0.3 - asked, 0.0), -2.0)
    across = Across(
        complex(asked + moved, back_level),
        complex(_chest_open(plan, neck, chest_level, 0.0), chest_level),
        back_moved=moved,
    )
    if not tapes.chest_taped:
        across = _chest_fitted(plan, neck, across)
    short = 0.088 * tapes.bust - _armhole_width(plan, neck, across)
    if short > 1e-9:
        step = min(short / 2, 1.0)
        across = _shifted(across, plan, back=-step, chest=-step)
    return across


def _chest_open(plan: Plan, neck: _Neck, level: float, moved: float) -> float:
    """u of the across chest point with the bust dart open, for the width with the dart closed."""
    tapes, dart = plan.tapes, plan.dart
    closed = tapes.half_chest + plan.ease.across_chest + moved
    lift = neck.bust_point.imag - level
    return (
        tapes.half_points
        + (closed - tapes.half_points + direction(dart).imag * lift) / direction(dart).real
    )


def _armhole_width(plan: Plan, neck: _Neck, across: Across) -> float:
    """Back across point to front across point with the side seam closed, cm."""
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


def _chest_fitted(plan: Plan, neck: _Neck, across: Across) -> Across:
    """An across chest that was not taped moves for the sake of the armhole."""
    bust = plan.tapes.bust
    least, most = 0.088 * bust, bust / 8 + 2
    width = _armhole_width(plan, neck, across)
    step = min(width - least, 0.0) or max(width - most, 0.0)
    across = _shifted(across, plan, chest=step)
    behind, before = _margins(neck, across)
    wanted = radians(5.5) - min(max(behind - radians(5), 0.0), radians(5))
    if before >= wanted:
        return across
    front = neck.front(neck.width)
    drop = across.chest.imag - front.end.imag
    need = front.end.real + drop * tan(wanted - front.outer) - across.chest.real
    return _shifted(
        across, plan, chest=max(min(need, _armhole_width(plan, neck, across) - least), 0.0)
    )


def _margins(neck: _Neck, across: Across) -> tuple[float, float]:
    """How much each armhole can bend between the shoulder and the across point, radians."""
    back, front = neck.back(neck.width), neck.front(neck.width)
    return (
        heading_of(across.back - back.end) + back.outer,
        heading_of(across.chest - front.end) + front.outer,
    )


def _turn(behind: float, before: float) -> tuple[float, float]:
    """How far the corner at the shoulder is turned for the armhole's sake, and the lesser margin.

    The back corner opens by what the front one closes, at most 12 degrees; their sum stays 180.
    """
    if behind + before >= 2 * _GOOD:
        turn = max(_GOOD - behind, 0.0) - max(_GOOD - before, 0.0)
    else:
        turn = (before - behind) / 2
    turn = min(max(turn, -_MOST_TURN), _MOST_TURN)
    return turn, min(behind + turn, before - turn)


def _widened(plan: Plan, neck: _Neck, across: Across) -> tuple[Across, float]:
    """The across width widened until the armhole can leave the shoulder; refuses beyond 3 cm."""
    margins = _margins(neck, across)
    turn, least = _turn(*margins)
    grown = 0
    while least < _ENOUGH and grown < 60 and _armhole_width(plan, neck, across) > _NARROWEST + 0.05:
        grown += 1
        if margins[0] + turn <= margins[1] - turn:
            across = replace(_shifted(across, plan, back=0.05), widened=0.05 * grown)
        else:
            across = replace(_shifted(across, plan, chest=0.05), widened=0.05 * grown)
        margins = _margins(neck, across)
        turn, least = _turn(*margins)
    if least < _LEAST:
        raise DraftError(
            _(
                "Shoulder length {shoulder:.1f} disagrees with across back {back:.1f} and across "
                "chest {chest:.1f}: the armhole cannot leave so long a shoulder. Measure the "
                "shoulder to the bone only, and both widths from arm to arm."
            ).format(
                shoulder=plan.tapes.shoulder,
                back=2 * plan.tapes.half_back,
                chest=2 * plan.tapes.half_chest,
            )
        )
    return across, turn


def _upper(plan: Plan, neck: _Neck, across: Across, turn: float, lowered: float) -> Upper:
    width = neck.width
    room = _armhole_width(plan, neck, across)
    if room < _NARROWEST:
        raise DraftError(
            _(
                "Across back {back:.1f} and across chest {chest:.1f} leave only {wide:.1f} cm of "
                "the bust {bust:.1f} for the armhole, and at least 5 cm is needed. Measure the "
                "three again."
            ).format(
                back=2 * plan.tapes.half_back,
                chest=2 * plan.tapes.half_chest,
                bust=plan.tapes.bust,
                wide=room,
            )
        )
    at_bust = plan.centre.at(max(plan.depth, neck.bust_point.imag))
    whole = plan.halves.bust + at_bust
    back_bust = (plan.halves.bust - 1) / 2 + at_bust
    share = min(max((back_bust - across.back.real) / room, 0.42), 0.58)
    back_bust = across.back.real + share * room
    return Upper(
        width, neck.back_neck(width), neck.front_neck(width), neck.back(width), neck.front(width),
        neck.bust_point, across, turn, lowered, back_bust, whole - back_bust, room,
    )  # fmt: skip


def slope_degrees(upper: Upper) -> tuple[float, float]:
    """Slopes of the inner and the outer part of the front shoulder, degrees."""
    return degrees(upper.front.inner), degrees(upper.front.outer)
