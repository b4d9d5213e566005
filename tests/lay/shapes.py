"""Small pieces to lay in tests."""

from __future__ import annotations

import cmath
import math

from cutwright.lay.piece import LayPiece


def box(name: str, along: float, across: float, **more: object) -> LayPiece:
    """A rectangle with its grain along x."""
    ring = (0j, along + 0j, complex(along, across), complex(0, across))
    return LayPiece(name, ring, 1 + 0j, **more)  # type: ignore[arg-type]


def wedge(name: str, along: float, across: float, **more: object) -> LayPiece:
    """A right-angled triangle: not its own mirror image."""
    return LayPiece(name, (0j, along + 0j, complex(0, across)), 1 + 0j, **more)  # type: ignore[arg-type]


def blob(name: str, radii: list[float], **more: object) -> LayPiece:
    """A star-shaped ring about its own middle with these radii, evenly turned."""
    step = 2 * math.pi / len(radii)
    ring = tuple(cmath.rect(r, k * step) for k, r in enumerate(radii))
    return LayPiece(name, ring, **more)  # type: ignore[arg-type]
