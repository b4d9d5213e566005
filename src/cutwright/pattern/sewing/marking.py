"""Marking one seam: places are taken one after the other where there is room."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise

from cutwright.geometry.path import distance_at
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.role import Role
from cutwright.pattern.seam import Seam
from cutwright.pattern.sewing.drawn_up import Sewn, meets_within
from cutwright.pattern.sewing.lap import Turn
from cutwright.pattern.sewing.mark_pairs import BalanceMark, NotchSpot
from cutwright.pattern.sewing.mark_places import (
    MarkReason,
    NotchRules,
    filled,
    quarters,
    shared,
    wished_marks,
)

_ONE = 0.05
_JOINT = 0.5
_MOVES = (0.0, 1.5, -1.5, 3.0, -3.0)
"""How far along a seam a mark is moved that has no room where it was wished, cm."""
_FEW = 3
"""On pieces that are cut oftener than this no mark is for one copy, but for quarters of a ring."""
_MOST = 48
"""No more marks than this follow from one, on pieces that are cut several times."""


def _zip_ends(row: Sewn) -> list[float]:
    """Where zips end along a row."""
    return [
        row.along(turn.distance(own))
        for turn in row.lap.turns
        for mark in turn.stretch.piece.marks
        if mark.kind is MarkKind.ZIP_END and mark.edge and turn.stretch.edge.answers_to(mark.edge)
        if (own := distance_at(turn.stretch.edge.curves, mark.at, 0.1)) is not None
    ]


@dataclass(slots=True)
class Marking:
    """A seam while it is marked; `taken` and `mouths` hold for each edge, by identity, its notches and
    the ends at which the mouth of a dart is notched."""

    seam: Seam
    rows: tuple[Sewn, ...]
    rules: NotchRules
    taken: dict[int, list[float]]
    mouths: dict[int, list[float]]
    found: list[BalanceMark] = field(default_factory=list)
    joints: dict[int, list[tuple[float, str]]] = field(init=False)
    """For each row, by identity, its joints: where along the seam, and the edge that runs away there."""

    def __post_init__(self) -> None:
        """Find the joints of every row."""
        self.joints = {
            id(row): [(row.along(joint.at), joint.name) for joint in row.lap.joints()]
            for row in self.rows
        }

    def done(self) -> tuple[BalanceMark, ...]:
        """Every mark in the order of the seam."""
        for place, along in wished_marks(self.seam, self.rows, self.rules):
            self._take(place, along)
        if not shared(self.seam, self.rows, self.rules):
            size = min(row.length for row in self.rows)
            for along in list(filled([mark.along for mark in self.found], size, self.rules)):
                self._take(MarkReason.DISTANCE, along)
        if self._several and not self.found:
            self._quarters()
        self._ends()
        return tuple(sorted(self.found, key=lambda mark: mark.along))

    @property
    def _several(self) -> bool:
        return any(row.lap.repeats for row in self.rows)

    def _take(self, place: MarkReason, along: float) -> None:
        """Mark a place and all that lies on the same paper, or a place near by that is free."""
        if self._marked_near(along, self._least(place)):
            return
        for moved in self._moves(place, along):
            found = self._on_same_paper(along + moved)
            if found is not None and self._has_room(place, found):
                self._mark(place, found)
                return
        if place is MarkReason.JOINT and self._several:
            self._on_one_copy(along)

    def _moves(self, place: MarkReason, along: float) -> tuple[float, ...]:
        """Where to try a mark: one that is crowded by those of another seam or a dart is moved."""
        loose = place in (MarkReason.DISTANCE, MarkReason.SHARE)
        crowded = any(not self._free(row, along, place) for row in self.rows)
        return _MOVES if loose and crowded else (0.0,)

    def _least(self, place: MarkReason) -> float:
        """How far apart two marks of this seam lie at least, cm."""
        if self._several:
            return self.rules.part
        return (
            self.rules.close if place in (MarkReason.JOINT, MarkReason.ZONE) else self.rules.clear
        )

    def _marked_near(self, along: float, least: float) -> bool:
        """Whether a mark of this seam is near, or the end of a zip, which is a mark as well."""
        zips = [place for row in self.rows for place in _zip_ends(row)]
        return any(abs(along - mark.along) < least - 1e-6 for mark in self.found) or any(
            abs(along - place) < self.rules.close for place in zips
        )

    def _on_same_paper(self, along: float) -> tuple[float, ...] | None:
        """All places along the seam that a mark at one of them brings with it; None: too many."""
        most = min(_MOST, 1 + self.rows[0].length / self.rules.part) if self._several else _MOST
        found, new, known = [along], [along], {round(along / _ONE)}
        while new:
            here = new.pop()
            for row in self.rows:
                if self._feature(row, here):
                    continue
                for distance in row.lap.same_paper(row.back(here)):
                    there = row.along(distance)
                    number = round(there / _ONE)
                    if known.isdisjoint((number - 1, number, number + 1)):
                        known.add(number)
                        found.append(there)
                        new.append(there)
                if len(found) > most:
                    return None
        return tuple(sorted(found))

    def _feature(self, row: Sewn, along: float) -> bool:
        """Whether an end of the row or a joint on it is the mark at a place."""
        if not _JOINT < along < row.length - _JOINT:
            return True
        return any(abs(at - along) <= _JOINT for at, _name in self.joints[id(row)])

    def _stops(self, row: Sewn) -> list[float]:
        """The ends of a row and its joints, along the seam."""
        return [0.0, row.length, *(at for at, _name in self.joints[id(row)])]

    def _meets_joint(self, row: Sewn, along: float) -> bool:
        """Whether a mark at a place meets an end of the row or a joint on it as nearly as it must."""
        return min(abs(along - stop) for stop in self._stops(row)) <= self._meets_within

    @property
    def _meets_within(self) -> float:
        """How far a mark may lie from what it meets, cm."""
        return meets_within(self.seam, self.rows, self.rules.meets, self.rules.meets_share)

    def _has_room(self, place: MarkReason, found: Sequence[float]) -> bool:
        least = self._least(place)
        if any(y - x < least - 1e-6 for x, y in pairwise(found)):
            return False
        for along in found:
            if self._marked_near(along, least):
                return False
            for row in self.rows:
                meets = place is MarkReason.JOINT and self._meets_joint(row, along)
                if not meets and not self._clear_of_joints(row, along, place):
                    return False
                if not self._feature(row, along) and not self._free(row, along, place):
                    return False
        return True

    def _clear_of_joints(self, row: Sewn, along: float, place: MarkReason) -> bool:
        """Whether a place is a joint or an end of the row itself, or well away from all."""
        loose = place in (MarkReason.DISTANCE, MarkReason.SHARE) and not self._several
        near = self.rules.clear if loose else self.rules.close
        least = min(abs(along - stop) for stop in self._stops(row))
        return least >= near - 1e-6 or (least <= _ONE and self._several)

    def _free(self, row: Sewn, along: float, place: MarkReason) -> bool:
        """Whether no mark of another seam is in the way on the paper; the very same is welcome."""
        turn = row.lap.at(row.back(along))
        own = turn.own(row.back(along))
        near = _JOINT if place is MarkReason.JOINT else self.rules.close
        loose = place in (MarkReason.DISTANCE, MarkReason.SHARE)
        edge = id(turn.stretch.edge)
        clear = self.rules.mouth if loose else near
        if any(abs(own - mouth) < clear for mouth in self.mouths[edge]):
            return False
        gaps = [abs(own - there) for there in self.taken[edge]]
        return all(gap <= _ONE or gap >= near for gap in gaps)

    def _mark(self, place: MarkReason, found: Iterable[float]) -> None:
        for along in found:
            spots = [
                None if self._feature(row, along) else self._spot(row, along) for row in self.rows
            ]
            if any(spots):
                self._add(place, along, spots)

    def _spot(self, row: Sewn, along: float, only: bool = False) -> NotchSpot:
        distance = row.back(along)
        turn = row.lap.at(distance)
        own = turn.own(distance)
        places = self.taken[id(turn.stretch.edge)]
        if all(abs(own - there) > _ONE for there in places):
            places.append(own)
        copies = (turn.copy,) if only and len(row.lap.same_paper(distance)) > 1 else ()
        return NotchSpot(turn.stretch.piece, turn.stretch.edge, own, copies)

    def _meets(self, along: float) -> str:
        """The edge that runs away from one of the rows at a joint."""
        names = [
            name
            for row in self.rows
            for at, name in self.joints[id(row)]
            if abs(at - along) <= _JOINT
        ]
        return names[0] if len(set(names)) == 1 else ""

    def _behind(self, along: float) -> bool:
        """Whether a back lies at a place and no front, on both sides of it."""
        roles = {
            row.lap.at(row.back(along + step)).stretch.piece.role
            for row in self.rows
            for step in (-_JOINT, _JOINT)
        }
        return Role.BACK in roles and Role.FRONT not in roles

    def _on_one_copy(self, along: float) -> None:
        """Mark a joint of one row on that copy of the other on which it falls."""
        spots: list[NotchSpot | None] = []
        for row in self.rows:
            if self._feature(row, along):
                spots.append(None)
                continue
            turn = row.lap.at(row.back(along))
            piece = turn.stretch.piece
            if piece.on_fold or piece.cut.mirrored or piece.times > _FEW:
                return
            if not self._free(row, along, MarkReason.JOINT):
                self._between(turn, turn.own(row.back(along)))
                return
            spots.append(self._spot(row, along, only=True))
        if any(spots):
            self._add(MarkReason.JOINT, along, spots)

    def _between(self, turn: Turn, own: float) -> None:
        """One mark for joints that come to lie almost together on two copies of a piece."""
        for number, mark in enumerate(self.found):
            for layer, spot in enumerate(mark.spots):
                if spot is None or spot.edge is not turn.stretch.edge or not spot.copies:
                    continue
                if abs(spot.own - own) <= min(self.rules.close, 2 * self._meets_within):
                    copies = tuple(sorted({*spot.copies, turn.copy}))
                    every = len(copies) == spot.piece.times
                    middle = replace(spot, own=(spot.own + own) / 2, copies=() if every else copies)
                    places = self.taken[id(spot.edge)]
                    places[places.index(spot.own)] = middle.own
                    spots = (*mark.spots[:layer], middle, *mark.spots[layer + 1 :])
                    self.found[number] = replace(mark, spots=spots)
                    return

    def _add(self, place: MarkReason, along: float, spots: Sequence[NotchSpot | None]) -> None:
        meets = self._meets(along)
        self.found.append(BalanceMark(place, along, tuple(spots), meets, self._behind(along)))

    def _quarters(self) -> None:
        """Quarters of a ring on the copies they fall on, where no mark suits every copy."""
        size = min(row.length for row in self.rows)
        for along in quarters(size):
            gaps = [abs(along - at) for row in self.rows for at, _name in self.joints[id(row)]]
            if size / 4 < self.rules.part or any(_ONE < gap < self.rules.close for gap in gaps):
                continue
            spots = [
                None if self._feature(row, along) else self._spot(row, along, only=True)
                for row in self.rows
            ]
            if any(spots):
                self._add(MarkReason.SHARE, along, spots)

    def _ends(self) -> None:
        """A notch where a row ends in the middle of a straight edge, as a band does at its overlap."""
        ends = [row.lap.ends() for row in self.rows]
        for mine, row in enumerate(self.rows):
            for side, (at, _edge, straight) in enumerate(ends[mine]):
                others = (there[side] for k, there in enumerate(ends) if k != mine)
                beyond = next((edge for _at, edge, too in others if not too), None)
                if not straight or beyond is None:
                    continue
                turn = row.lap.turns[0 if at == 0 else -1]
                spots: list[NotchSpot | None] = [None] * len(self.rows)
                spots[mine] = NotchSpot(turn.stretch.piece, turn.stretch.edge, turn.own(at))
                along = row.along(at)
                self.found.append(
                    BalanceMark(
                        MarkReason.END, along, tuple(spots), beyond.name, self._behind(along)
                    )
                )
