"""A row of edges to which something is sewn: in walking order, with what it measures."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

from cutwright.errors import StepError
from cutwright.geometry.point import Point
from cutwright.pattern.edge import Edge, Kind, Ref, parse_label
from cutwright.pattern.loop import edge_before, next_edge
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.seam import Seam, Side
from cutwright.pattern.sum import EdgeLength
from cutwright.words import _


@dataclass(frozen=True, slots=True)
class Row:
    """Edges in the order they are walked, and how each is walked.

    `closed` tells whether the row goes round the body and meets itself.
    """

    sides: tuple[Side, ...]
    measures: tuple[tuple[str, float, int], ...]
    closed: bool

    @property
    def whole(self) -> float:
        """Length all round, cm."""
        return sum(length * times for _name, length, times in self.measures)

    @property
    def lengths(self) -> tuple[tuple[EdgeLength, int], ...]:
        """Each edge as a tape measures it on the paper, and how often it counts, for a sum."""
        return tuple(
            (EdgeLength(side.ref, size), times)
            for side, (_name, size, times) in zip(self.sides, self.measures, strict=True)
        )


def row_of(pattern: Pattern, refs: Sequence[Ref]) -> Row:
    """The row of some edges, walked so that each ends where the next begins.

    Raises LookupFailed for an edge that is not there, StepError when they do not meet.
    """
    if len(set(refs)) != len(refs):
        raise StepError(_("An edge is named twice in one row."))
    for ref in refs:
        _refuse_leg(pattern, ref)
    forward = [_meets(pattern, a, b, forward=True) for a, b in itertools.pairwise(refs)]
    backward = [_meets(pattern, a, b, forward=False) for a, b in itertools.pairwise(refs)]
    if not all(forward) and not all(backward):
        return _reordered(pattern, refs)
    walk_back = not all(forward)
    sides = tuple(Side(ref, walk_back) for ref in refs)
    return Row(sides, _measures(pattern, refs), _closes(pattern, refs, walk_back))


def _refuse_leg(pattern: Pattern, ref: Ref) -> None:
    """Refuse an edge that is not there, and the leg of a dart, which vanishes when it is folded."""
    if any(edge.kind is Kind.LEG for edge in pattern.edge_parts(ref)):
        raise StepError(
            _(
                '"{edge}" is a dart, which is folded shut; nothing can be sewn on it. Choose an edge '
                "of the outline."
            ).format(edge=ref)
        )


def _reordered(pattern: Pattern, refs: Sequence[Ref]) -> Row:
    """The same edges in the one order in which they follow each other."""
    for first in refs:
        order = [first]
        rest = [r for r in refs if r != first]
        while rest:
            after = next((r for r in rest if _meets(pattern, order[-1], r, forward=True)), None)
            if after is None:
                break
            order.append(after)
            rest.remove(after)
        if not rest:
            return row_of(pattern, order)
    raise StepError(
        _(
            "These edges do not follow each other: {edges}. Each must meet the next at a seam."
        ).format(edges="; ".join(map(str, refs)))
    )


def _measures(pattern: Pattern, refs: Sequence[Ref]) -> tuple[tuple[str, float, int], ...]:
    return tuple((ref.piece, pattern.length(ref), pattern.piece(ref.piece).times) for ref in refs)


def _meets(pattern: Pattern, a: Ref, b: Ref, forward: bool) -> bool:
    """Whether the end of `a` meets the start of `b` across a seam, both walked the given way."""
    one, other = pattern.piece(a.piece), pattern.piece(b.piece)
    after = next_edge(one, a.edge) if forward else edge_before(one, a.edge)
    before = edge_before(other, b.edge) if forward else next_edge(other, b.edge)
    x, y = Ref(a.piece, after.name), Ref(b.piece, before.name)
    if a.piece == b.piece and (after is before or after.label == b.edge):
        return True
    return any(
        (x in _refs(seam.a) and y in _refs(seam.b)) or (y in _refs(seam.a) and x in _refs(seam.b))
        for seam in pattern.seams
    )


def _refs(sides: tuple[Side, ...]) -> set[Ref]:
    return {side.ref for side in sides}


def _closes(pattern: Pattern, refs: Sequence[Ref], walk_back: bool) -> bool:
    """Whether both ends of the row lie on a fold, on a seam with their own mirror, or on each other.

    A centre seam that is open for a zip where the row meets it does not close the row.
    """
    first, last = refs[0], refs[-1]
    one, other = pattern.piece(first.piece), pattern.piece(last.piece)
    begin = next_edge(one, first.edge) if walk_back else edge_before(one, first.edge)
    end = edge_before(other, last.edge) if walk_back else next_edge(other, last.edge)
    if len(refs) > 1 and _meets(pattern, last, first, forward=not walk_back):
        return True
    at_begin = (
        one.edge_parts(first.edge)[-1].end if walk_back else one.edge_parts(first.edge)[0].start
    )
    at_end = (
        other.edge_parts(last.edge)[0].start if walk_back else other.edge_parts(last.edge)[-1].end
    )
    return all(
        _mirrors(pattern, ref.piece, edge.name, edge.kind) and not _open_at(pattern, edge, at)
        for ref, edge, at in ((first, begin, at_begin), (last, end, at_end))
    )


def _open_at(pattern: Pattern, centre: Edge, at: Point) -> bool:
    """Whether a zip leaves a centre seam open at its upper end, where `at` lies."""
    other = centre.end if abs(centre.start - at) < abs(centre.end - at) else centre.start
    zipped = any(
        m.kind is MarkKind.ZIP_END and m.edge and parse_label(m.edge)[0] == centre.name
        for piece in pattern.pieces
        for m in piece.marks
    )
    return centre.kind is Kind.CENTRE and zipped and at.imag < other.imag


def _mirrors(pattern: Pattern, piece: str, edge: str, kind: Kind) -> bool:
    if kind is Kind.FOLD:
        return True
    ref = Ref(piece, edge)
    return any(ref in _refs(s.a) and ref in _refs(s.b) for s in pattern.seams)


def sewn_on(top: Ref, row: Row, ratio: float, made_by: str, kind: str) -> Seam:
    """The seam of a new strip's edge on a row: the strip runs against the row."""
    backwards = not row.sides[0].backwards
    return Seam((Side(top, backwards),), row.sides, ratio=ratio, made_by=made_by, kind=kind)
