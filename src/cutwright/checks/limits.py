"""How much a cutter lets pass, in one place."""

from __future__ import annotations

from dataclasses import dataclass

from cutwright.pattern.seam import WALKS
from cutwright.pattern.sewing.mark_places import USUAL


@dataclass(frozen=True, slots=True)
class Limits:
    """What is allowed; cm and degrees. All values are common practice and may be changed."""

    walk: float = WALKS
    """How far two sewn edges may differ beside their stated ease or gathers."""
    notch: float = USUAL.meets
    """How far two balance marks that meet may lie apart along a plain seam."""
    notch_share: float = USUAL.meets_share
    """The same on a gathered seam, as a share of its length."""
    flow: float = 3.0
    """How far two corners that meet at a seam's end may miss 180 degrees together."""
    turned: float = 12.0
    """How far one armhole corner may open while the other closes."""
    allowance: float = 0.05
    """How far the allowances of two edges that continue each other across a seam may differ."""
    balance: float = 3.0
    """By how much front and back may lean differently at a side seam before it is mentioned."""
    unbalanced: float = 8.0
    """From here on a side seam pulls to the front or to the back."""
    fold: float = 1.0
    """How far an edge may miss a right angle where it meets the fold."""
    grain: float = 0.5
    """How far a fold edge may lean from the grain."""
    straight: float = 0.01
    """How far a fold edge may leave a straight line."""
    legs: float = 0.01
    """How far the two legs of a dart may differ."""
    mouth: float = 3.0
    """How far an edge may bend across a folded dart, or between two of its curves."""
    tight_round: float = 1.2
    """The least radius of a neckline or an armhole; one that turns more tightly is hard to sew."""
    tight_side: float = 4.0
    """The least radius of a side seam."""
    flat: float = 3.0
    """How long a straight stretch within the curve of a neckline or an armhole may be."""
    short_least: float = 1.0
    """A bust dart that ends nearer to the bust point than this is a fault."""
    short: float = 2.0
    """A bust dart that ends nearer than this is mentioned."""
    meet: float = 0.2
    """How far the waist darts of bodice and skirt may lie apart at the waist seam."""
    intake: float = 4.0
    """The most one waist dart should take."""
    ease_bust: float = 2.0
    """Least ease round the bust, so that one can breathe and reach."""
    ease_waist: float = 0.5
    """Least ease round the waist."""
    band_least: float = 0.5
    """Least ease at a waist that is held by a band."""
    band_most: float = 1.5
    """Most ease there; with more the band slides down to the hip."""
    ease_hip: float = 2.0
    """Least ease round the hip, so that one can sit."""
    ease_arm: float = 3.0
    """Least ease round the upper arm in an armhole, so that the arm can be lifted."""
    head: float = 1.0
    """What a neck opening must be wider than the head."""
    give: float = 2.0
    """What a body yields where a garment is drawn over it."""
    turning: float = 0.01
    """How far an edge that was only turned may change its length."""
    sliver: float = 0.6
    """Paper that truing may give or take, cm2 for each cm of the trued edge."""
    ledger: float = 0.005
    """What may stay unaccounted for where a step tells what truing gave or took, likewise."""


HOUSE = Limits()
