"""The garment all round: pieces that carry a level, joined at their sides and centres."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import permutations

from cutwright.checks.case import Case
from cutwright.checks.width import End, Width, widths
from cutwright.memo import memoised
from cutwright.pattern.edge import EdgeKind
from cutwright.pattern.piece import Piece


@dataclass(frozen=True, slots=True)
class Ring:
    """One round of the garment.

    Parameters
    ----------
    name : the level
    cm : length all round
    parts : the pieces with their widths
    closed : whether it goes all round; when not, `loose` tells where it stops
    open : whether it stops at an edge that is sewn to nothing, so that it can be opened out
    """

    name: str
    cm: float
    parts: tuple[tuple[Piece, Width], ...]
    closed: bool
    open: bool
    loose: str = ""

    @property
    def where(self) -> str:
        """The pieces it runs over."""
        return ", ".join(piece.name for piece, _width in self.parts)


@memoised
def rings(case: Case, names: tuple[str, ...]) -> tuple[Ring, ...]:
    """Every round of the garment at the levels named, in order."""
    neighbours = _neighbours(case)
    round_it = [(p, widths(p)) for p in case.pattern.pieces if p.goes_round]
    return tuple(ring for name in names for ring in _of_level(round_it, name, neighbours))


def _neighbours(case: Case) -> dict[tuple[str, int], set[str]]:
    """For each edge, by piece and identity, the pieces on the other side of its seams."""
    out: dict[tuple[str, int], set[str]] = defaultdict(set)
    for laid in case.seams:
        for row, other in permutations(laid.rows, 2):
            for walked in row:
                out[walked.key] |= {w.piece.name for w in other}
    return out


def _of_level(
    round_it: Sequence[tuple[Piece, dict[str, Width]]],
    name: str,
    neighbours: dict[tuple[str, int], set[str]],
) -> Iterator[Ring]:
    held = {p.name: (p, found[name]) for p, found in round_it if name in found}
    left = dict(held)
    while left:
        queue, group = [next(iter(left))], []
        while queue:
            part = left.pop(queue.pop(), None)
            if part is None:
                continue
            group.append(part)
            for end in part[1].ends:
                queue += [n for n in _beyond(part[0], end, neighbours) if n in left]
        yield _ring(name, group, held, neighbours)


def _beyond(piece: Piece, end: End, neighbours: dict[tuple[str, int], set[str]]) -> set[str]:
    return neighbours.get((piece.name, id(end.edge)), set()) if end.edge else set()


def _ring(
    name: str,
    group: list[tuple[Piece, Width]],
    held: dict[str, tuple[Piece, Width]],
    neighbours: dict[tuple[str, int], set[str]],
) -> Ring:
    loose, free = "", False
    for piece, width in group:
        for end in width.ends:
            if end.edge is not None and end.edge.kind is EdgeKind.FOLD:
                continue
            if any(n in held for n in _beyond(piece, end, neighbours)):
                continue
            loose = f"{piece.name}: {end.edge.label}" if end.edge else piece.name
            free = free or (
                end.edge is not None and end.edge.kind in (EdgeKind.FREE, EdgeKind.CENTRE)
            )
    cm = sum(piece.times * width.cm for piece, width in group)
    return Ring(name, cm, tuple(group), not loose, free, loose)


def neck(case: Case) -> float | None:
    """The neckline all round, cm; None where the garment has none."""
    total = sum(
        piece.times * edge.length
        for piece in case.pattern.pieces
        if piece.goes_round
        for edge in piece.edges
        if edge.kind is EdgeKind.NECKLINE
    )
    return total or None
