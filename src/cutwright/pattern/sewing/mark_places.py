"""Which places of a seam are to be marked, in the order of their weight."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise
from math import ceil

from cutwright.geometry.path import distance_at
from cutwright.pattern.edge import EdgeKind
from cutwright.pattern.seam import Seam, SeamKind
from cutwright.pattern.sewing.drawn_up import Sewn


class MarkReason(StrEnum):
    """Why a place of a seam is marked."""

    END = "end"  # the row ends in the middle of a longer edge
    JOINT = "joint"  # the end of an edge of the other row lies opposite
    ZONE = "zone"  # a stretch that is gathered or eased begins or ends
    SHARE = "share"  # an equal share of both rows
    DISTANCE = "distance"  # an equal distance from the same end of both rows


@dataclass(frozen=True, slots=True)
class NotchRules:
    """When a seam is marked (common practice), all in cm.

    `shortest`: plain seams below this have no marks; `shortest_curved`: the same for armholes;
    `widest`: the largest stretch without a mark; `clear`: nearest two marks of a seam, or a mark
    and an end; `quarter`: a gathered row longer than this is marked in eighths; `ease_zone`: the
    share of an eased seam, in its middle, in which the ease lies, but all but `plain` at each end
    of a short one; `part`: nearest two marks on pieces that are cut several times; `close`: marks
    of two seams on one edge that would lie nearer are one or the other; `mouth`: nearest a mark that may
    be moved and the leg of a dart, whose ends are notched, too. `meets`: how far a mark may lie from
    what it meets on the other row of a plain seam; `meets_share`: the same where a row is drawn up,
    as a share of it.
    """

    shortest: float = 20.0
    shortest_curved: float = 12.0
    widest: float = 45.0
    clear: float = 3.0
    quarter: float = 120.0
    ease_zone: float = 0.5
    plain: float = 3.0
    part: float = 8.0
    close: float = 1.0
    mouth: float = 2.0
    meets: float = 0.1
    meets_share: float = 0.005

    def plain_end(self, size: float) -> float:
        """How much of an eased seam stays plain at each end.

        Parameters
        ----------
        size : length of the seam, cm

        Returns
        -------
        cm
        """
        reach = size * (1 - self.ease_zone) / 2
        return min(reach, self.plain) if size < self.shortest else reach


USUAL = NotchRules()
Rows = Sequence[Sewn]
"""The rows of a seam as they are sewn."""
_OPPOSITE = 0.5


def joints(rows: Rows) -> list[float]:
    """Places along the seam where the edges of one row meet and those of another do not.

    Parameters
    ----------
    rows : all of them as they are sewn

    Returns
    -------
    from where the seam begins, cm, row by row; joints within 0.5 cm of each other meet
    """
    there = [[row.along(j.at) for j in row.lap.joints()] for row in rows]
    return [
        place
        for own, *others in (there[k:] + there[:k] for k in range(len(there)))
        for place in own
        if any(_lone(place, other) for other in others)
    ]


def _lone(place: float, others: Sequence[float]) -> bool:
    return all(abs(place - other) > _OPPOSITE for other in others)


def wished_marks(seam: Seam, rows: Rows, rules: NotchRules) -> Iterator[tuple[MarkReason, float]]:
    """All places along a seam worth a mark, the weightiest first; not all have room.

    Common practice where `rules` says so; two fifths from the underarm on an armhole.

    Parameters
    ----------
    seam : the seam
    rows : all of its rows as they are sewn
    rules : when a seam is marked

    Returns
    -------
    why, and where from the beginning of the seam, cm
    """
    size = min(row.length for row in rows)
    for place in sorted(joints(rows)):
        yield MarkReason.JOINT, place
    if not _all_along(rows, rules.clear):
        for row in rows:
            yield from ((MarkReason.ZONE, place) for place in row.ends_of_zones())
    if shared(seam, rows, rules):
        yield from ((MarkReason.SHARE, size * share) for share in _shares(rows, rules))
        return
    curved = any(t.stretch.edge.kind is EdgeKind.ARMHOLE for row in rows for t in row.lap.turns)
    if size < (rules.shortest_curved if curved else rules.shortest):
        return
    if curved:
        yield from ((MarkReason.DISTANCE, place) for place in _armhole(rows))
        return
    yield from ((MarkReason.DISTANCE, place) for row in rows for place in _levels(row))


def filled(places: Sequence[float], size: float, rules: NotchRules) -> Iterator[float]:
    """More places where two neighbours, or a place and an end, lie too far apart.

    Parameters
    ----------
    places : those that are marked, from where the seam begins, cm, in any order
    size : length of the seam, cm
    rules : when a seam is marked

    Returns
    -------
    from where the seam begins, cm
    """
    if not places and size >= rules.shortest and size <= rules.widest:
        yield size / 2
    for before, after in pairwise([0.0, *sorted(places), size]):
        count = ceil((after - before) / rules.widest - 1e-9)
        yield from (before + (after - before) * k / count for k in range(1, count))


def shared(seam: Seam, rows: Rows, rules: NotchRules) -> bool:
    """Whether all rows are marked in equal parts: gathered from end to end, or cut several times.

    Parameters
    ----------
    seam : the seam
    rows : all of its rows as they are sewn
    rules : when a seam is marked
    """
    gathered = seam.ratio != 1 or seam.kind == SeamKind.GATHERED
    repeated = any(row.lap.repeats for row in rows)
    return repeated or (gathered and _all_along(rows, rules.clear))


def _all_along(rows: Rows, clear: float) -> bool:
    """Whether a row is drawn up from end to end, or so nearly that its ends have no mark."""
    return any(
        zone.begin < clear - 1e-6 and zone.end > row.lap.length - clear + 1e-6
        for row in rows
        for zone in row.drawn
    )


def _shares(rows: Rows, rules: NotchRules) -> list[float]:
    """Halves, quarters and, of a long row, eighths."""
    longest = max(row.lap.length for row in rows)
    parts = (2, 4, 8) if longest > rules.quarter else (2, 4)
    return [k / n for n in parts for k in range(1, n, 2)]


def quarters(size: float) -> list[float]:
    """The quarters of a ring, cm.

    Parameters
    ----------
    size : length of the ring, cm

    Returns
    -------
    three places from where it begins, cm
    """
    return [size * k / 4 for k in (1, 2, 3)]


def _armhole(rows: Rows) -> list[float]:
    """On each edge of an armhole, a little below its middle: two fifths from the underarm."""
    out: list[float] = []
    row = max(rows, key=lambda row: len(row.lap.turns))
    for turn in row.lap.turns:
        low, high = turn.stretch.edge.start, turn.stretch.edge.end
        down = high if high.imag > low.imag else low
        from_begin = (down == low) != (turn.stretch.backwards != turn.flipped)
        share = 0.4 if from_begin else 0.6
        out.append(row.along(turn.begin + share * turn.stretch.length))
    return out


def _levels(row: Sewn) -> list[float]:
    """Places at which the waist or hip level of a piece meets the row."""
    out: list[float] = []
    for turn in row.lap.turns:
        for level in turn.stretch.piece.levels:
            for p in (level.points[0], level.points[-1]):
                own = distance_at(turn.stretch.edge.curves, p, 0.1)
                if own is not None:
                    out.append(row.along(turn.distance(own)))
    return out
