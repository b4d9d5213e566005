"""Waist darts: where they stand, and the diamonds of a block without a waist seam."""

from __future__ import annotations

from dataclasses import dataclass

from cutwright.pattern.piece import Diamond
from cutwright.pattern.role import Role

NAMES = ("waist dart", "second waist dart", "third waist dart")

BACK_PLACES: dict[int, tuple[float, ...]] = {
    0: (1.0,),
    1: (0.48, 0.52),
    2: (0.34, 0.30, 0.36),
    3: (0.27, 0.24, 0.22, 0.27),
}
"""Shares of the closed back waist between centre, darts and side (common practice)."""

FOOT = {Role.BACK: 0.72, Role.FRONT: 0.55}
"""How far the first dart reaches from the waist towards the hip, as a share of that depth."""

SHORTER = 2.5
"""Each further dart ends this much higher, cm."""

DART_TOP = 2.5
"""The front waist dart begins this much below the bust point, cm (common practice)."""

BELOW_UNDERARM = 1.0
"""No waist dart begins nearer to the underarm level, cm (own choice)."""


def dart_top(bust_point: float, underarm: float) -> float:
    """The level of the upper points of the front waist darts.

    Parameters
    ----------
    bust_point, underarm : levels, cm

    Returns
    -------
    cm, y down
    """
    return max(bust_point + DART_TOP, underarm + BELOW_UNDERARM)


@dataclass(frozen=True, slots=True)
class WaistSpan:
    """The waist of a piece without a waist seam: u from the centre to the side at one level."""

    centre: float
    side: float


def back_stretches(closed: float, count: int) -> tuple[float, ...]:
    """Lengths of the closed back waist from the centre to each dart and on to the side.

    Parameters
    ----------
    closed : the waist with its darts closed, cm
    count : of darts, up to three

    Returns
    -------
    cm

    Source: common practice (`BACK_PLACES`).
    """
    return tuple(share * closed for share in BACK_PLACES[count])


def front_stretches(closed: float, count: int, first: float) -> tuple[float, ...]:
    """The same in front: the first dart at its place, further ones evenly on to the side.

    Parameters
    ----------
    closed : the waist with its darts closed, cm
    count : of darts
    first : from the centre to the first dart, cm

    Returns
    -------
    cm
    """
    if not count:
        return (closed,)
    rest = (closed - first) / count
    return (first, *(rest,) * count)


def diamonds(
    span: WaistSpan, level: float, stretches: tuple[float, ...], intakes: tuple[float, ...],
    top: float, foot: float,
) -> tuple[Diamond, ...]:  # fmt: skip
    """Two-point darts, symmetrical about upright lines, from the centre outwards.

    `level` is the waist's y, `top` the y of the upper points, `foot` the first lower point's.

    Parameters
    ----------
    span : the waist from the centre to the side
    level : y of the waist, cm
    stretches : of the waist between the darts, cm
    intakes : of the darts, cm
    top : y of the upper points, cm
    foot : y of the first dart's lower point, cm
    """
    out: list[Diamond] = []
    u = span.centre
    for index, intake in enumerate(intakes):
        near = u + stretches[index]
        u = near + intake
        middle = near + intake / 2
        out.append(
            Diamond(
                NAMES[index],
                complex(middle, top),
                complex(middle, foot - SHORTER * index),
                complex(near, level),
                complex(u, level),
            )
        )
    return tuple(out)
