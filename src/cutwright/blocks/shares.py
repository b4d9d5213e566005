"""How the surplus at the waist is shared between centre back, side seams and darts."""

from __future__ import annotations

from dataclasses import dataclass, replace

from cutwright.blocks.tapes import Halves

LARGEST_DART = 4.0
"""No waist dart takes out more than this, cm (common practice)."""

LEAST_DART = 1.0
"""A dart smaller than this is a needle: it goes into the side seam instead, cm (common practice)."""

TO_MEET = 1.0
"""A skirt's dart may take so much more than the largest to meet the one of its bodice, cm."""

BEHIND = 0.6
"""The closed back waist is this much less than half of the half waist, the front as much more."""

NARROWER = 0.5
"""The back is this much narrower than half of the half bust, cm (common practice)."""

HOLLOW, MOST_HOLLOW = 0.13, 2.0
"""The centre back is hollowed by this share of the surplus, at most so many cm (own method)."""

DRESS_SIDE = 0.17
"""Each side of a block without a waist seam takes in this share of the surplus (own method)."""


def hollow_of(surplus: float) -> float:
    """How far the centre back is hollowed at the waist for half the surplus bust - waist, cm.

    Parameters
    ----------
    surplus : half of bust less waist with ease, cm; may be negative

    Returns
    -------
    cm, from 0 to `MOST_HOLLOW`
    """
    return max(0.0, min(HOLLOW * surplus, MOST_HOLLOW))


@dataclass(frozen=True, slots=True)
class Shares:
    """What is taken out where, on the half body, cm.

    `side` and `bulge` count for each of back and front: how far the side lies inside the bust
    width at the waist, and how far the hip lies outside the waist.
    """

    side: float
    bulge: float
    back: float
    front: float


def dress_shares(halves: Halves, hollow: float, at_bust: float, largest: float) -> Shares:
    """Share out the waist of a block without a waist seam.

    Own method (docs/drafting.md, section 5): the hip bulge follows from the side's suppression, (hip - bust + hollow at hip -
    hollow at bust) / 2 + side, so the side is moved within limits until the bulge is one that a
    curve can carry. `hollow` is the centre back's at the waist (half of it at the hip), `at_bust`
    at bust level.

    Parameters
    ----------
    halves : half the girths with ease, cm
    hollow : of the centre back at the waist, cm
    at_bust : of the centre back at bust level, cm
    largest : the most a dart may take, cm

    Returns
    -------
    what sides and darts take, cm
    """
    surplus = halves.bust - halves.waist
    tied = (halves.hip - halves.bust + hollow / 2 - at_bust) / 2
    if surplus <= 0:
        return Shares(surplus / 2, tied + surplus / 2, 0.0, 0.0)
    side = DRESS_SIDE * surplus
    if tied + side > 4.5:
        side = max(4.5 - tied, min(0.5, side))
    elif tied + side < 0.4:
        side = min(0.4 - tied, 0.30 * surplus)
    side = min(side, 3.5)
    darts = surplus - (hollow - at_bust) - 2 * side
    if darts < 1.2:
        side += darts / 2
        return Shares(side, tied + side, 0.0, 0.0)
    behind = halves.bust / 2 - NARROWER + at_bust - side - hollow - (halves.waist / 2 - BEHIND)
    back = _back_part(darts, behind, largest)
    return _without_trifles(Shares(side, tied + side, back, darts - back))


def _back_part(darts: float, wanted: float, largest: float) -> float:
    """The back's part of the darts: 40 to 62 %, neither over the largest while that can be."""
    back = min(max(wanted, 0.40 * darts), 0.62 * darts)
    if darts <= 2 * largest:
        back = min(max(back, darts - largest), largest)
    return back


def _without_trifles(shares: Shares) -> Shares:
    """Darts too small to sew go into the side seams."""
    trifle = sum(part for part in (shares.back, shares.front) if part < LEAST_DART)
    if not trifle:
        return shares
    return replace(
        shares,
        side=shares.side + trifle / 2,
        bulge=shares.bulge + trifle / 2,
        back=shares.back if shares.back >= LEAST_DART else 0.0,
        front=shares.front if shares.front >= LEAST_DART else 0.0,
    )


def split(total: float, largest: float = LARGEST_DART) -> tuple[float, ...]:
    """One dart up to the largest; above that two; above twice that three.

    Parameters
    ----------
    total : intake, cm
    largest : the most a dart may take, cm

    Returns
    -------
    up to three intakes, the first the largest; empty for nothing
    """
    if total < 1e-9:
        return ()
    return dart_shares(total, min(1 + sum(total > n * largest for n in (1, 2)), 3), largest)


def shared_as(
    darts: float, counts: tuple[int, int], back_share: float, largest: float
) -> tuple[tuple[float, ...], tuple[float, ...]] | None:
    """An intake in so many darts behind and in front; None where one would be a needle or too large.

    Parameters
    ----------
    darts : intake of back and front together, cm
    counts : darts behind and in front
    back_share : the back's part of the intake, from 0 to 1
    largest : the most a dart may take, cm

    Returns
    -------
    intakes of back and front, cm
    """
    behind, before = counts
    if not LEAST_DART * (behind + before) <= darts + 1e-9 <= largest * (behind + before) + 2e-9:
        return None
    back = max(back_share * darts, LEAST_DART * behind, darts - largest * before)
    back = min(back, largest * behind, darts - LEAST_DART * before)
    return dart_shares(back, behind, largest), dart_shares(darts - back, before, largest)


def dart_shares(total: float, count: int, largest: float) -> tuple[float, ...]:
    """An intake in so many darts, the first a tenth more.

    None is over the largest, and none of the others under the least, if it can be.

    Parameters
    ----------
    total : intake, cm
    count : how many darts, at least one
    largest : the most a dart should take, cm

    Returns
    -------
    `count` intakes that add up to `total`
    """
    out: list[float] = []
    for left in range(count, 0, -1):
        even = total / left
        most = min(1.1 * even, largest, total - LEAST_DART * (left - 1))
        out.append(max(most, even))
        total -= out[-1]
    return tuple(out)
