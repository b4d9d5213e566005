"""What the search is given: shapes, where each may lie, and which of them each piece may take.

A shape is an outline already turned and mirrored, about its own origin, with the places its
origin may take: anywhere in an interval, or on a lattice (stripes), or on one line (the fold).
Lengths in cm; x along the cloth, y across it from the fold or selvedge.
"""

from __future__ import annotations

import cmath
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Ring = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class LayTurn:
    """How a piece is put down: mirrored about its grain first, then turned by an angle (radians)."""

    angle: float = 0.0
    mirrored: bool = False

    def of(self, z: complex) -> complex:
        """Where a point of the piece goes."""
        return (z.conjugate() if self.mirrored else z) * cmath.exp(1j * self.angle)

    def of_ring(self, ring: Ring) -> Ring:
        """Where a whole ring of points (n, 2) goes."""
        z = ring[:, 0] + 1j * ring[:, 1]
        z = (np.conj(z) if self.mirrored else z) * cmath.exp(1j * self.angle)
        return np.column_stack((z.real, z.imag))

    def after(self, first: LayTurn) -> LayTurn:
        """The turn that does `first` and then this one."""
        angle = self.angle + (-first.angle if self.mirrored else first.angle)
        return LayTurn(angle, self.mirrored != first.mirrored)

    def back(self) -> LayTurn:
        """The turn that undoes this one."""
        return LayTurn(self.angle if self.mirrored else -self.angle, self.mirrored)

    def same_as(self, other: LayTurn) -> bool:
        """Whether both put a piece down alike, whole turns aside."""
        off = abs(cmath.exp(1j * self.angle) - cmath.exp(1j * other.angle))
        return self.mirrored == other.mirrored and off < 1e-6


@dataclass(frozen=True, slots=True)
class LayShape:
    """One outline as it may lie, with the places its origin may take.

    `base` names the outline before turning (equal numbers are the same outline); x starts at
    `x0`, y runs from `y0` to `y1`; a step of 0 means anywhere between, otherwise only every step.
    """

    base: int
    turn: LayTurn
    ring: Ring
    x0: float
    xstep: float
    y0: float
    y1: float
    ystep: float


@dataclass(frozen=True, slots=True)
class Item:
    """One thing to lay: the shapes it may take, and its place when it is pinned (shape, x, y)."""

    shapes: tuple[int, ...]
    pin: tuple[int, float, float] | None = None


@dataclass(frozen=True, slots=True)
class LayTask:
    """A strip of cloth of one height and everything that must lie on it."""

    height: float
    shapes: tuple[LayShape, ...]
    items: tuple[Item, ...]


@dataclass(frozen=True, slots=True)
class Places:
    """Where everything lies: the shape, x and y of each item, and the length used."""

    shapes: tuple[int, ...]
    xs: tuple[float, ...]
    ys: tuple[float, ...]
    length: float
