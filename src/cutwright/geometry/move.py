"""Rigid moves of paper: turn, shift, mirror."""

from __future__ import annotations

from cutwright.frozen import frozen
from cutwright.geometry.point import Point, direction, unit


@frozen
class Move:
    """A rigid move: first mirrored about the x axis if asked, then turned, then shifted.

    `turn` is a unit complex number, `shift` is in centimetres.
    """

    turn: Point = 1 + 0j
    shift: Point = 0j
    mirrored: bool = False

    def __call__(self, p: Point) -> Point:
        """Where a point goes."""
        return self.turn * (p.conjugate() if self.mirrored else p) + self.shift

    def then(self, after: Move) -> Move:
        """This move followed by another, as one."""
        turn = self.turn.conjugate() if after.mirrored else self.turn
        return Move(after.turn * turn, after(self.shift), self.mirrored != after.mirrored)

    def inverse(self) -> Move:
        """The move that takes everything back."""
        turn = self.turn if self.mirrored else self.turn.conjugate()
        back = -self.shift
        return Move(turn, turn * (back.conjugate() if self.mirrored else back), self.mirrored)

    @staticmethod
    def about(centre: Point, angle: float) -> Move:
        """Turn about a centre.

        Parameters
        ----------
        centre : the place that stays, cm
        angle : radians, positive clockwise to the eye
        """
        turn = direction(angle)
        return Move(turn, centre - turn * centre)

    @staticmethod
    def by(step: Point) -> Move:
        """Shift without turning.

        Parameters
        ----------
        step : how far and which way, cm
        """
        return Move(1 + 0j, step)

    @staticmethod
    def mirror(a: Point, b: Point) -> Move:
        """Mirror about the straight line through two points.

        Parameters
        ----------
        a, b : two places on the line, cm, not the same

        Returns
        -------
        the move; what ran clockwise to the eye runs the other way after it
        """
        axis = unit(b - a)
        turn = axis * axis
        return Move(turn, a - turn * a.conjugate(), mirrored=True)


STAY = Move()
