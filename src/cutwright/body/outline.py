"""The figure that is drawn to show where a tape runs, from the front and from behind.

Drawn here by hand, in cm of a body 168 tall: x from the middle to the figure's left, y down from the crown.
"""

from __future__ import annotations

from dataclasses import dataclass

from cutwright.body.way import Spots


@dataclass(frozen=True, slots=True)
class Outline:
    """The left half of a figure as soft lines through places; the right half mirrors it.

    Parameters
    ----------
    head, neck, arm : their lines
    trunk : from the armpit down to the crotch by way of the foot
    hips : so many places of the trunk are drawn where the legs are left out, beside its last two
    thigh : what lies below this level needs the legs
    height : from the crown to the floor, in cm
    front, back : dots and lines that tell the front from the back (bust points; nape, shoulder blades)
    """

    head: Spots
    neck: Spots
    arm: Spots
    trunk: Spots
    hips: int
    thigh: float
    height: float
    front: tuple[Spots, ...] = ()
    back: tuple[Spots, ...] = ()


STANDING = Outline(
    head=((0, 0), (5.4, 2), (7.4, 8.5), (6.6, 15), (3.6, 21), (0, 23.2)),
    neck=((4.6, 20), (4.8, 25), (7, 29)),
    arm=(
        (7, 29), (14, 31), (19.5, 34.5), (23, 44), (25, 57), (28, 71), (31, 86), (34, 94), (33, 101),
        (30, 101), (28, 93), (26.5, 87), (22.5, 72), (20, 58), (17.6, 47),
    ),
    trunk=(
        (17.6, 47), (16.8, 52), (14.6, 58), (12.4, 66), (15.2, 76), (18, 87), (17.8, 98), (14.6, 114),
        (12, 126), (12.4, 138), (9, 152), (7.4, 161), (9.5, 167), (4.5, 168), (3.8, 160), (4.2, 150),
        (4.4, 138), (3.8, 126), (2.4, 100), (0.6, 92),
    ),
    hips=7,
    thigh=101.0,
    height=168.0,
    front=(((8, 48.5), (8.01, 48.5)),),
    back=(((0, 28), (0.01, 28)), ((4, 39), (5, 43), (3.2, 46))),
)  # fmt: skip
"""The figure of a grown woman."""
