"""What an upper body is drafted from: the cutter's wishes and the plan made of them and the tapes."""

from __future__ import annotations

from dataclasses import dataclass

from cutwright.blocks.centre_back import Back, CentreBack, centre_back
from cutwright.blocks.ease import Ease
from cutwright.blocks.shares import hollow_of
from cutwright.blocks.tapes import Halves, Tapes


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
    largest_dart: float = 4.0


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
    shoulder_dart: float
    """Width of the back shoulder dart; 0 for ease in its place."""
    shoulder_ease: float


def plan_of(tapes: Tapes, wish: UpperWish) -> Plan:
    """Levels, ease and centre back of an upper body."""
    halves = Halves.of(tapes, wish.ease)
    hollow = hollow_of(halves.bust - halves.waist) if wish.back == "shaped" else 0.0
    return Plan(
        tapes,
        wish.ease,
        halves,
        tapes.depth(wish.ease),
        centre_back(tapes.back_length, hollow),
        tapes.dart_angle() if wish.bust_dart is None else wish.bust_dart,
        wish.shoulder_dart,
        wish.shoulder_ease,
    )
