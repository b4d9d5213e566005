"""What an upper body is drafted from: the cutter's wishes and the plan made of them and the tapes."""

from __future__ import annotations

from dataclasses import dataclass
from math import radians

from cutwright.blocks.centre_back import Back, CentreBack, centre_back
from cutwright.blocks.ease import Ease
from cutwright.blocks.shares import LARGEST_DART, hollow_of
from cutwright.blocks.tapes import Halves, Tapes

LARGEST_BUST_DART = radians(24)
"""A bust dart wider than this is shared with a dart from the side (docs/drafting.md, section 4)."""

LEAST_SIDE_DART = radians(6)
"""A dart from the side takes at least this, so that it is worth sewing (common practice)."""


@dataclass(frozen=True, slots=True)
class UpperWish:
    """What a cutter chooses for the upper body; lengths in cm, the dart's angle in radians."""

    ease: Ease
    back: Back = "shaped"
    front_on_fold: bool = True
    shoulder_dart: float = 1.2
    """Width of the back shoulder dart; 0 eases the back shoulder in."""
    shoulder_ease: float = 0.8
    bust_dart: float | None = None
    largest_bust_dart: float = LARGEST_BUST_DART
    """A wider bust dart is shared with a dart from the side."""
    largest_dart: float = LARGEST_DART


@dataclass(frozen=True, slots=True)
class Plan:
    """What the upper part is drawn from: tapes, ease, levels and wishes."""

    tapes: Tapes
    ease: Ease
    halves: Halves
    depth: float
    centre: CentreBack
    dart: float
    """Angle of the bust dart, radians."""
    largest_bust_dart: float
    shoulder_dart: float
    """Width of the back shoulder dart; 0 for ease in its place."""
    shoulder_ease: float

    @property
    def side_dart(self) -> float:
        """What of the bust dart goes into a dart from the side, radians; nothing up to the largest."""
        excess = self.dart - self.largest_bust_dart
        return max(excess, LEAST_SIDE_DART) if excess > 0 else 0.0


def plan_of(tapes: Tapes, wish: UpperWish) -> Plan:
    """Levels, ease and centre back of an upper body.

    Parameters
    ----------
    tapes : the body's measures as a draft uses them
    wish : what the cutter chooses

    Returns
    -------
    all in cm and radians

    Raises
    ------
    DraftError : the measures leave no room
    """
    halves = Halves.of(tapes, wish.ease)
    hollow = hollow_of(halves.bust - halves.waist) if wish.back == "shaped" else 0.0
    return Plan(
        tapes,
        wish.ease,
        halves,
        tapes.depth(wish.ease),
        centre_back(tapes.back_length, hollow),
        tapes.dart_angle() if wish.bust_dart is None else wish.bust_dart,
        wish.largest_bust_dart,
        wish.shoulder_dart,
        wish.shoulder_ease,
    )
