"""Half a neckline in its place: the shoulder and the centre cut back, the line between them open."""

from __future__ import annotations

from dataclasses import dataclass

from cutwright.geometry.path import Path, end_direction, reversed_path, start_direction
from cutwright.pattern.edge import Ref
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.shaping.necklines import NecklineEnds
from cutwright.pattern.shaping.redraw import EdgePlace, square_end, square_start


@dataclass(frozen=True, slots=True)
class HalfNeckline:
    """The neckline of a half piece with its two neighbours as they are to be."""

    place: EdgePlace
    before: Path
    after: Path

    @property
    def ends(self) -> NecklineEnds:
        """Both ends of the new line, seen from the shoulder."""
        start, end = self.before[-1].end, self.after[0].start
        if self.place.centre_last:
            into, down = square_end(self.after), start_direction(self.after)
            return NecklineEnds(start, -end_direction(self.before), -1.0, end, into, down)
        into, down = -square_start(self.before), start_direction(reversed_path(self.before))
        return NecklineEnds(end, start_direction(self.after), 1.0, start, into, down)

    @property
    def angle(self) -> float:
        """The angle of paper at the shoulder as it was, radians."""
        curves = self.place.edge.curves
        as_was = HalfNeckline(self.place, self.place.before.curves, self.place.after.curves).ends
        way = start_direction(curves) if self.place.centre_last else -end_direction(curves)
        return as_was.angle(way)


def sewn_at_shoulder(pattern: Pattern, place: EdgePlace, other: str) -> bool:
    """Whether the shoulder beside a neckline is sewn to a certain other piece.

    Parameters
    ----------
    pattern : the pattern the half belongs to
    place : a neckline between a shoulder and a centre
    other : name of the other piece
    """
    shoulder = place.before if place.centre_last else place.after
    ref = Ref(place.piece.name, shoulder.name)
    return any(any(side.piece == other for side in seam.refs) for seam in pattern.seams_of(ref))
