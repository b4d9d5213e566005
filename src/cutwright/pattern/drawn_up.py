"""Where the longer row of a seam is drawn up: which place of it comes to lie on which of the other.

Distances on the paper are turned into distances along the sewn seam, and back. Between the
stretches that are gathered or eased both are equal.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from cutwright.geometry.path import distance_at
from cutwright.pattern.lap import Lap
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.seam import Seam, SeamKind

_WALKS = 0.05
_DRAWN = (MarkKind.GATHERS, MarkKind.EASE)
_ALL_ALONG = (SeamKind.GATHERED, SeamKind.WAISTBAND, SeamKind.BINDING)
_MOST = 0.9
"""No stretch can be drawn up by more than this share of itself."""


@dataclass(frozen=True, slots=True)
class Zone:
    """A stretch of a row that is drawn up by `amount`, cm; negative where it is stretched."""

    begin: float
    end: float
    amount: float


@dataclass(frozen=True, slots=True)
class Sewn:
    """A row as it lies when it is sewn; `zones` are in order and apart."""

    lap: Lap
    zones: tuple[Zone, ...] = ()

    @property
    def length(self) -> float:
        """Its length in the seam, cm."""
        return self.lap.length - sum(zone.amount for zone in self.zones)

    def along(self, distance: float) -> float:
        """Where a distance on the paper lies along the seam, cm."""
        for zone in reversed(self.zones):
            if distance >= zone.end:
                distance -= zone.amount
            elif distance > zone.begin:
                share = (distance - zone.begin) / (zone.end - zone.begin)
                distance -= share * zone.amount
        return distance

    def back(self, along: float) -> float:
        """The distance on the paper of a place along the seam, cm."""
        for zone in self.zones:
            sewn = zone.end - zone.begin - zone.amount
            if along >= zone.begin + sewn:
                along += zone.amount
            elif along > zone.begin:
                along = zone.begin + (along - zone.begin) * (zone.end - zone.begin) / sewn
        return along

    def ends_of_zones(self) -> tuple[float, ...]:
        """Where the stretches begin and end that are drawn up, along the seam."""
        return tuple(self.along(d) for zone in self.zones for d in (zone.begin, zone.end))


def sewn(seam: Seam, a: Lap, b: Lap, plain: float) -> tuple[Sewn, Sewn]:
    """Both rows of a seam as they are sewn.

    What marks of gathers and ease do not account for is spread over a whole gathered or banded
    row, or over the middle of an eased one, where `plain` cm stay as they are at each end.
    """
    rows = [Sewn(a, _marked(a)), Sewn(b, _marked(b))]
    rest = rows[0].length - rows[1].length
    flat = seam.kind not in _ALL_ALONG and seam.ratio == 1 and not seam.ease
    if abs(rest) <= _WALKS or (flat and not any(row.zones for row in rows)):
        return rows[0], rows[1]
    long = 0 if rest > 0 else 1
    rows[long] = _spread(seam, rows[long], abs(rest), plain)
    return rows[0], rows[1]


def _marked(lap: Lap) -> tuple[Zone, ...]:
    """The stretches that marks on the paper say are drawn up, in order."""
    found: list[Zone] = []
    for turn in lap.turns:
        edge = turn.stretch.edge
        for mark in turn.stretch.piece.marks:
            if mark.kind not in _DRAWN or mark.to is None or not mark.amount or not mark.edge:
                continue
            if not edge.answers_to(mark.edge):
                continue
            ends = [distance_at(edge.curves, p, 0.1) for p in (mark.at, mark.to)]
            own = sorted(turn.distance(d) for d in ends if d is not None)
            if len(own) == 2 and mark.amount < _MOST * (own[1] - own[0]):
                found.append(Zone(own[0], own[1], mark.amount))
    return _apart(sorted(found, key=lambda zone: zone.begin))


def _apart(zones: Sequence[Zone]) -> tuple[Zone, ...]:
    out: list[Zone] = []
    for zone in zones:
        if not out or zone.begin >= out[-1].end:
            out.append(zone)
    return tuple(out)


def _spread(seam: Seam, row: Sewn, rest: float, plain: float) -> Sewn:
    """The row with the rest drawn up too: in its marked stretches if there are any."""
    size = row.lap.length
    if row.zones:
        held = sum(zone.amount for zone in row.zones)
        zones = tuple(
            Zone(z.begin, z.end, min(z.amount * (held + rest) / held, _MOST * (z.end - z.begin)))
            for z in row.zones
        )
        return Sewn(row.lap, zones)
    if seam.kind in _ALL_ALONG or seam.ratio != 1:
        plain = 0.0
    return Sewn(row.lap, (Zone(plain, size - plain, min(rest, _MOST * size)),))
