"""An invented dress for measuring the lay: 14 things to put down on folded cloth of 140 cm.

Half pieces on the fold and pairs, with curved edges, allowances taken as drawn. All figures are
ours and belong to nobody. Grain runs down the piece (y), so y down is the way of the nap.
"""

from __future__ import annotations

import cmath
import math

from cutwright.lay.piece import LayPiece

GRAIN = 1j


def _bow(a: complex, b: complex, bulge: float, points: int = 9) -> list[complex]:
    """A shallow arc from a towards b (b left out), bulging to the right of the way by `bulge`."""
    return [
        a + (b - a) * t + (b - a) / abs(b - a) * 1j * bulge * 4 * t * (1 - t)
        for t in (k / points for k in range(points))
    ]


def _ring(*sides: tuple[complex, complex, float]) -> tuple[complex, ...]:
    points: list[complex] = []
    for a, b, bulge in sides:
        points += _bow(a, b, bulge) if bulge else [a]
    return tuple(points)


def _sector(inner: float, outer: float, degrees: float) -> tuple[complex, ...]:
    steps = [math.radians(degrees) * k / 16 for k in range(17)]
    return tuple(
        [cmath.rect(outer, t) for t in steps] + [cmath.rect(inner, t) for t in reversed(steps)]
    )


def _box(width: float, height: float) -> tuple[complex, ...]:
    return (0j, width + 0j, complex(width, height), complex(0, height))


def dress() -> list[LayPiece]:
    """The pieces of the dress; 14 placements on cloth folded lengthwise, 140 cm wide."""
    front = _ring(
        (9j, 43j, 0), (43j, 20 + 44j, 0), (20 + 44j, 26 + 22j, 0.6), (26 + 22j, 20 + 4j, -4.5),
        (20 + 4j, 8 + 0j, 0), (8 + 0j, 9j, -3.2),
    )  # fmt: skip
    back = _ring(
        (2.5j, 44j, 0), (44j, 19 + 44j, 0), (19 + 44j, 25 + 22j, 0.5), (25 + 22j, 20 + 3j, -3),
        (20 + 3j, 8.5 + 0j, 0), (8.5 + 0j, 2.5j, -1.4),
    )  # fmt: skip
    skirt_front = _ring(
        (0j, 66j, 0), (66j, 44 + 62j, 2.5), (44 + 62j, 20 - 1j, -1), (20 - 1j, 0j, 0.8)
    )
    skirt_back = _ring(
        (0j, 67j, 0), (67j, 43 + 63j, 2.5), (43 + 63j, 21 - 1j, -1), (21 - 1j, 0j, 0.8)
    )
    sleeve = _ring(
        (0 + 15j, 4 + 56j, 0), (4 + 56j, 29 + 56j, 0.7), (29 + 56j, 35 + 15j, 0),
        (35 + 15j, 17.5 + 0j, 3.2), (17.5 + 0j, 0 + 15j, 3.2),
    )  # fmt: skip
    pocket = _ring((0j, 27j, 0), (27j, 14 + 29j, 3), (14 + 29j, 17 + 12j, 1.5), (17 + 12j, 0j, 3))
    front_facing = _ring(
        (9j, 15j, 0),
        (15j, 14 + 8j, -3),
        (14 + 8j, 16 + 1.5j, 0),
        (16 + 1.5j, 8 + 0j, 0),
        (8 + 0j, 9j, -3.2),
    )
    back_facing = _ring(
        (2.5j, 9j, 0),
        (9j, 14 + 8j, -1.5),
        (14 + 8j, 16 + 1.5j, 0),
        (16 + 1.5j, 8.5 + 0j, 0),
        (8.5 + 0j, 2.5j, -1.4),
    )
    collar = _ring((0j, 9j, 0), (9j, 24 + 6j, 1.2), (24 + 6j, 21 - 2j, 0), (21 - 2j, 0j, 0.8))

    def half(
        name: str, ring: tuple[complex, ...], top: complex, foot: complex, **more: object
    ) -> LayPiece:
        return LayPiece(name, ring, GRAIN, 1, fold=(top, foot), **more)  # type: ignore[arg-type]

    def pair(name: str, ring: tuple[complex, ...], copies: int = 2, **more: object) -> LayPiece:
        return LayPiece(name, ring, GRAIN, copies, mirrored=True, **more)  # type: ignore[arg-type]

    return [
        half("bodice front", front, 9j, 43j, marks={"side waist": 20 + 44j, "centre waist": 43j}),
        pair("bodice back", back, marks={"side waist": 19 + 44j, "centre waist": 44j}),
        half(
            "skirt front", skirt_front, 0j, 66j, marks={"side waist": 20 - 1j, "centre waist": 0j}
        ),
        pair("skirt back", skirt_back, marks={"side waist": 21 - 1j, "centre waist": 0j}),
        pair("sleeve", sleeve, marks={"underarm": 0 + 15j}),
        pair("flounce", _sector(18, 34, 150), 4),
        half("front facing", front_facing, 9j, 15j),
        pair("back facing", back_facing),
        half("collar", collar, 0j, 9j),
        pair("cuff", _box(10, 24)),
        pair("pocket bag", pocket, 4),
        pair("tie", _box(9, 92)),
    ]
