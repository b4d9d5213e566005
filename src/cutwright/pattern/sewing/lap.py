"""Once round the garment along a row: copies of a piece and other halves one after the other.

Half the paper lies on the table, and a strip is cut several times from one paper. Two rows that
occur unequally often are walked whole, from the opening, so that each place of the one has its
place on the other.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from cutwright.geometry.path import end_direction, start_direction
from cutwright.geometry.point import Point, angle_between
from cutwright.pattern.edge import Edge, EdgeKind, Ref
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.role import Role
from cutwright.pattern.seam import Seam
from cutwright.pattern.sewing.opens import opens_at
from cutwright.pattern.sewing.rows import Row, Stretch, rows_of

_STRAIGHT_ON = 0.2
"""Where two edges of a piece meet with less of a bend than this (radians), no corner is seen."""


@dataclass(frozen=True, slots=True)
class Turn:
    """One edge on the way round: the paper as it lies, or its other half walked from the far end.

    `copy` counts the copies of the piece on the way, from 1; `begin` is where it begins, cm.
    """

    stretch: Stretch
    flipped: bool = False
    copy: int = 1
    begin: float = 0.0

    @property
    def end(self) -> float:
        """Where it ends, cm."""
        return self.begin + self.stretch.length

    def own(self, distance: float) -> float:
        """For a distance on the lap, the one along the edge from where the edge starts.

        Parameters
        ----------
        distance : from where the lap begins, cm; beyond an end of the edge the end counts

        Returns
        -------
        along the edge, clockwise, cm
        """
        along = min(max(distance - self.begin, 0.0), self.stretch.length)
        return self.stretch.own(self.stretch.length - along if self.flipped else along)

    def distance(self, own: float) -> float:
        """For a distance along the edge, the one on the lap.

        Parameters
        ----------
        own : along the edge from where it starts, clockwise, cm

        Returns
        -------
        from where the lap begins, cm
        """
        along = self.stretch.own(own)
        return self.begin + (self.stretch.length - along if self.flipped else along)

    @property
    def first(self) -> tuple[Edge, Point]:
        """The edge that meets this one where it is entered, and the corner."""
        return _neighbour(self.stretch, at_end=self.stretch.backwards != self.flipped)

    @property
    def last(self) -> tuple[Edge, Point]:
        """The edge that meets this one where it is left, and the corner."""
        return _neighbour(self.stretch, at_end=self.stretch.backwards == self.flipped)


def _neighbour(stretch: Stretch, at_end: bool) -> tuple[Edge, Point]:
    edges = list(stretch.piece.outer_edges)
    place = next(i for i, e in enumerate(edges) if e is stretch.edge)
    if at_end:
        return edges[(place + 1) % len(edges)], stretch.edge.end
    return edges[place - 1], stretch.edge.start


@dataclass(frozen=True, slots=True)
class Joint:
    """Where one edge follows another: `name` is the edge that runs away from the row there, empty
    between two copies of a piece."""

    at: float
    name: str


@dataclass(frozen=True, slots=True)
class Lap:
    """A row walked once, or once round the garment."""

    turns: tuple[Turn, ...]

    @property
    def length(self) -> float:
        """Its length, cm."""
        return self.turns[-1].end

    @property
    def repeats(self) -> bool:
        """Whether a piece lies on it several times the same way round."""
        seen = [(t.stretch.key, t.flipped) for t in self.turns]
        return len(set(seen)) < len(seen)

    def at(self, distance: float) -> Turn:
        """The edge at a distance; at a joint the one that ends there.

        Parameters
        ----------
        distance : from where the lap begins, cm

        Returns
        -------
        the edge; the last where the distance lies beyond the end
        """
        return next((t for t in self.turns if distance <= t.end), self.turns[-1])

    def joints(self) -> tuple[Joint, ...]:
        """Seams and centres on the way, both ends left out; parts of one edge are no joint."""
        return tuple(
            Joint(turn.begin, "" if _copies(before, turn) else before.last[0].name)
            for before, turn in pairwise(self.turns)
            if not _one_edge(before, turn)
        )

    def same_paper(self, distance: float) -> tuple[float, ...]:
        """All distances at which the paper place of one distance lies, its own among them, cm.

        Parameters
        ----------
        distance : from where the lap begins, cm

        Returns
        -------
        distances from where the lap begins, cm, in order of the way
        """
        here = self.at(distance)
        own = here.own(distance)
        return tuple(t.distance(own) for t in self.turns if t.stretch.key == here.stretch.key)

    def ends(self) -> tuple[tuple[float, Edge, bool], ...]:
        """Both ends: where (cm), the edge that meets the row there, whether the paper runs straight on."""
        first, last = self.turns[0], self.turns[-1]
        return (
            (0.0, first.first[0], _runs_on(first.stretch.edge, first.first[0])),
            (self.length, last.last[0], _runs_on(last.stretch.edge, last.last[0])),
        )


def _copies(before: Turn, after: Turn) -> bool:
    """Whether one copy of a piece follows another."""
    same = before.stretch.piece is after.stretch.piece and before.flipped == after.flipped
    return same and before.copy != after.copy


def _one_edge(before: Turn, after: Turn) -> bool:
    a, b = before.stretch, after.stretch
    same = a.piece is b.piece and a.edge.name == b.edge.name and a.edge is not b.edge
    return same and before.flipped == after.flipped and before.copy == after.copy


def _runs_on(edge: Edge, beyond: Edge) -> bool:
    if abs(edge.end - beyond.start) < abs(edge.start - beyond.end):
        bend = angle_between(end_direction(edge.curves), start_direction(beyond.curves))
    else:
        bend = angle_between(end_direction(beyond.curves), start_direction(edge.curves))
    return abs(bend) < _STRAIGHT_ON


def laps_of(pattern: Pattern, seam: Seam) -> tuple[tuple[Lap, ...], ...]:
    """All rows of a seam as they are sewn: once for each place, or once round the garment.

    Empty where the copies of the pieces leave it open which lies where.

    Parameters
    ----------
    pattern : the pattern the seam is in
    seam : one of its seams

    Returns
    -------
    for each place one lap a layer, all begun at the same end of the seam

    Raises
    ------
    LookupFailed : an edge of the seam is not there
    """
    rows = rows_of(pattern, seam)
    strands = max((s.strand for row in rows for s in row), default=0)
    if strands:
        return tuple(tuple(_strand(row, k) for row in rows) for k in range(1, strands + 1))
    pieces = [s.piece for row in rows for s in row]
    alike = len({p.times for p in pieces}) == 1 and len({_is_half(p) for p in pieces}) == 1
    if alike:
        return (tuple(_once(row.stretches) for row in rows),)
    laps = [lap for row in rows if (lap := _round(pattern, row))]
    return (tuple(laps),) if len(laps) == len(rows) else ()


def _is_half(piece: Piece) -> bool:
    """Whether left and right in the garment are mirror images cut from this paper."""
    return piece.on_fold or piece.cut.mirrored


def _strand(row: Row, number: int) -> Lap:
    return _once([s for s in row if s.strand in (0, number)])


def _once(stretches: Sequence[Stretch]) -> Lap:
    return turns_in_order([Turn(s) for s in stretches])


def turns_in_order(turns: Sequence[Turn]) -> Lap:
    """The turns one after the other, copies counted and each begun where the one before it ends."""
    out: list[Turn] = []
    seen: dict[tuple[str, int], int] = {}
    done = 0.0
    for turn in turns:
        key = turn.stretch.key
        seen[key] = seen.get(key, 0) + 1
        out.append(replace(turn, copy=seen[key], begin=done))
        done += turn.stretch.length
    return Lap(tuple(out))


def _round(pattern: Pattern, row: Row) -> Lap | None:
    """A row all round the garment, from its opening."""
    there = [Turn(s) for s in row]
    times = {s.piece.times for s in row}
    halves = any(_is_half(s.piece) for s in row)
    if len(times) == 1:
        count = times.pop()
        if not halves:
            return turns_in_order(there * count)
        if count % 2:
            return None
        turns = (there + _other_half(there)) * (count // 2)
        return turns_in_order(_from_opening(pattern, turns) if count == 2 else turns)
    twice = [t for t in there if t.stretch.piece.times == 2]
    ends = twice in (there[: len(twice)], there[len(there) - len(twice) :])
    if times != {1, 2} or not ends or not all(_is_half(t.stretch.piece) for t in twice):
        return None
    return turns_in_order(_from_opening(pattern, there + _other_half(twice)))


def _other_half(turns: Sequence[Turn]) -> list[Turn]:
    return [replace(turn, flipped=True) for turn in reversed(turns)]


def _from_opening(pattern: Pattern, turns: list[Turn]) -> list[Turn]:
    """The way round begun at the opening; of two sides the left one, which is the other half.

    A closed way begins at a seam in the middle of the back, so that the joins of a strip do not
    meet in front.
    """
    places = range(len(turns))
    meeting = [(turns[i - 1], turns[i]) for i in places]
    left = [
        i for i in places if _is_open(pattern, *meeting[i]) and any(t.flipped for t in meeting[i])
    ]
    left = left or [i for i in places if _parted(pattern, *meeting[i])]
    centres = [i for i in places if meeting[i][0].stretch is meeting[i][1].stretch]
    left = left or sorted(centres, key=lambda i: _in_front(meeting[i][0]))
    start = left[0] if left else 0
    return turns[start:] + turns[:start]


def _in_front(turn: Turn) -> tuple[bool, bool]:
    """Sorts the centres at which a half meets its other half: seams first, the back before the front."""
    return turn.last[0].kind is EdgeKind.FOLD, turn.stretch.piece.role is not Role.BACK


def _is_open(pattern: Pattern, before: Turn, after: Turn) -> bool:
    return any(
        opens_at(pattern, turn.stretch.piece, edge, at)
        for turn, (edge, at) in ((before, before.last), (after, after.first))
    )


def _parted(pattern: Pattern, before: Turn, after: Turn) -> bool:
    """Whether a half and its other half meet where they are neither on the fold nor sewn together."""
    if before.stretch is not after.stretch:
        return False
    edge = before.last[0]
    ref = Ref(before.stretch.piece.name, edge.name)
    return edge.kind is not EdgeKind.FOLD and not any(set(s.refs) == {ref} for s in pattern.seams)
