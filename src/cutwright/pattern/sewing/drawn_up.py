"""Where the longer row of a seam is drawn up: which place of it comes to lie on which of the other.

Distances on the paper are turned into distances along the sewn seam, and back. Between the
stretches that are gathered or eased both are equal.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from cutwright.pattern.seam import WALKS, Seam, SeamKind
from cutwright.pattern.sewing.lap import Lap
from cutwright.pattern.takeup import on_part

_ALL_ALONG = (SeamKind.GATHERED, SeamKind.WAISTBAND, SeamKind.BINDING)
_MOST = 0.9
"""No stretch can be drawn up by more than this share of itself."""


@dataclass(frozen=True, slots=True)
class Zone:
    """A stretch of a row that is drawn up by `amount`, cm; negative where it is stretched.

    One that is `folded` away before the seam is sewn keeps its amount.
    """

    begin: float
    end: float
    amount: float
    folded: bool = False


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
        """Where a distance on the paper lies along the seam.

        Parameters
        ----------
        distance : from where the row begins, on the paper, cm

        Returns
        -------
        from where the seam begins, cm
        """
        for zone in reversed(self.zones):
            if distance >= zone.end:
                distance -= zone.amount
            elif distance > zone.begin:
                share = (distance - zone.begin) / (zone.end - zone.begin)
                distance -= share * zone.amount
        return distance

    def back(self, along: float) -> float:
        """The distance on the paper of a place along the seam.

        Parameters
        ----------
        along : from where the seam begins, cm

        Returns
        -------
        from where the row begins, on the paper, cm
        """
        for zone in self.zones:
            sewn = zone.end - zone.begin - zone.amount
            if along >= zone.begin + sewn:
                along += zone.amount
            elif along > zone.begin:
                along = zone.begin + (along - zone.begin) * (zone.end - zone.begin) / sewn
        return along

    def ends_of_zones(self) -> tuple[float, ...]:
        """Where the stretches begin and end that are drawn up, cm along the seam."""
        return tuple(self.along(d) for zone in self.drawn for d in (zone.begin, zone.end))

    @property
    def drawn(self) -> tuple[Zone, ...]:
        """The stretches that are drawn up in the seam itself: gathers and ease."""
        return tuple(zone for zone in self.zones if not zone.folded)


def meets_within(seam: Seam, rows: Sequence[Sewn], least: float, share: float) -> float:
    """How far a mark may lie from what it meets.

    Parameters
    ----------
    seam : the seam
    rows : all of its rows as they are sewn
    least : what is always forgiven, cm
    share : of the shortest row, from 0 to 1, forgiven where one is drawn up

    Returns
    -------
    cm
    """
    drawn = abs(seam.ratio - 1) > 1e-6 or any(row.zones for row in rows)
    return max(least, share * min(row.length for row in rows)) if drawn else least


def sewn(seam: Seam, laps: Sequence[Lap], plain: float) -> tuple[Sewn, ...]:
    """Every row of a seam as it is sewn: as long as the shortest.

    What marks of gathers and ease do not account for is spread over a whole gathered or banded row,
    or over the middle of an eased one. Own method; no stretch is drawn up by more than 0.9 of
    itself.

    Parameters
    ----------
    seam : the seam
    laps : its rows on the paper
    plain : how much of an eased row stays as it is at each end, cm

    Returns
    -------
    one for each row; one that is no more than 0.05 cm longer than the shortest stays as it is, and
    all do in a plain seam without such marks
    """
    rows = [Sewn(lap, _marked(lap)) for lap in laps]
    size = min(row.length for row in rows)
    flat = seam.kind not in _ALL_ALONG and seam.ratio == 1 and not seam.ease
    if flat and not any(row.drawn for row in rows):
        return tuple(rows)
    return tuple(
        _spread(seam, row, row.length - size, plain) if row.length - size > WALKS else row
        for row in rows
    )


def _marked(lap: Lap) -> tuple[Zone, ...]:
    """The stretches that are taken up on the paper itself, in order and apart."""
    found: list[Zone] = []
    for turn in lap.turns:
        for one in on_part(turn.stretch.piece, turn.stretch.edge):
            if one.folded or one.amount < _MOST * (one.end - one.begin):
                own = sorted((turn.distance(one.begin), turn.distance(one.end)))
                found.append(Zone(own[0], own[1], one.amount, one.folded))
    return tuple(sorted(found, key=lambda zone: zone.begin))


def _spread(seam: Seam, row: Sewn, rest: float, plain: float) -> Sewn:
    """The row with the rest drawn up too: in its drawn stretches if there are any, between its folds if not."""
    size = row.lap.length
    if row.drawn:
        held = sum(zone.amount for zone in row.drawn)
        zones = tuple(z if z.folded else _more(z, (held + rest) / held) for z in row.zones)
        return Sewn(row.lap, zones)
    if seam.kind in _ALL_ALONG or seam.ratio != 1:
        plain = 0.0
    free = _between(row.zones, plain, size - plain)
    whole = sum(end - begin for begin, end in free)
    share = min(rest / whole, _MOST) if whole else 0.0
    drawn = tuple(Zone(begin, end, share * (end - begin)) for begin, end in free)
    return Sewn(row.lap, tuple(sorted((*row.zones, *drawn), key=lambda zone: zone.begin)))


def _more(zone: Zone, times: float) -> Zone:
    return replace(zone, amount=min(zone.amount * times, _MOST * (zone.end - zone.begin)))


def _between(folds: Sequence[Zone], begin: float, end: float) -> list[tuple[float, float]]:
    """What lies between folds, from one place to another."""
    stops = [begin, *(p for zone in folds for p in (zone.begin, zone.end)), end]
    pairs = zip(stops[::2], stops[1::2], strict=True)
    return [(max(a, begin), min(b, end)) for a, b in pairs if min(b, end) - max(a, begin) > 1e-9]
