"""A row of edges to which something is sewn: in walking order, with what it measures."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

from cutwright.errors import StepError
from cutwright.geometry.point import Point
from cutwright.messages import N_, Message
from cutwright.pattern.edge import Edge, EdgeKind, Ref
from cutwright.pattern.loop import edge_before, next_edge
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.seam import Seam, SeamKind, Side, layers_of
from cutwright.pattern.sewing.opens import opens_at
from cutwright.pattern.sum import EdgeLength


@dataclass(frozen=True, slots=True)
class Course:
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


def course_of(pattern: Pattern, refs: Sequence[Ref]) -> Course:
    """The row of some edges, walked so that each ends where the next begins.

    Parameters
    ----------
    pattern : the pattern they are in
    refs : edges, each once, in the order of the row; put in order where they are not

    Raises
    ------
    LookupFailed : an edge is not there
    StepError : an edge is named twice or is the leg of a dart, or they do not follow each other
    """
    if len(set(refs)) != len(refs):
        raise StepError(Message("edge-named-twice-row", N_("An edge is named twice in one row.")))
    for ref in refs:
        _refuse_leg(pattern, ref)
    forward = [_meets(pattern, a, b, forward=True) for a, b in itertools.pairwise(refs)]
    backward = [_meets(pattern, a, b, forward=False) for a, b in itertools.pairwise(refs)]
    if not all(forward) and not all(backward):
        return _reordered(pattern, refs)
    walk_back = not all(forward)
    sides = tuple(Side(ref, walk_back) for ref in refs)
    return Course(sides, _measures(pattern, refs), _closes(pattern, refs, walk_back))


def _refuse_leg(pattern: Pattern, ref: Ref) -> None:
    """Refuse an edge that is not there, and the leg of a dart, which vanishes when it is folded."""
    if any(edge.taken_up for edge in pattern.edge_parts(ref)):
        raise StepError(
            Message(
                "dart-folded-shut-nothing-can",
                N_(
                    '"{edge}" is a dart, which is folded shut; nothing can be sewn on it. Choose an edge '
                    "of the outline."
                ),
                edge=ref,
            )
        )


def _reordered(pattern: Pattern, refs: Sequence[Ref]) -> Course:
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
            return course_of(pattern, order)
    raise StepError(
        Message(
            "these-edges-not-follow-each",
            N_("These edges do not follow each other: {edges}. Each must meet the next at a seam."),
            edges="; ".join(map(str, refs)),
        )
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
        x in one.refs and y in other.refs for seam in pattern.seams for one, other in seam.opposite
    )


def _closes(pattern: Pattern, refs: Sequence[Ref], walk_back: bool) -> bool:
    """Whether both ends of the row lie on a fold, on a seam with their own mirror, or on each other.

    A seam that is open for a zip where the row meets it does not close the row.
    """
    first, last = refs[0], refs[-1]
    beyond = [
        _beyond(pattern, ref, walk_back, at_begin) for ref in refs for at_begin in (True, False)
    ]
    if any(opens_at(pattern, *place) for place in beyond):
        return False
    if len(refs) > 1 and _meets(pattern, last, first, forward=not walk_back):
        return True
    return all(_mirrors(pattern, piece.name, edge) for piece, edge, _at in (beyond[0], beyond[-1]))


def _beyond(
    pattern: Pattern, ref: Ref, walk_back: bool, at_begin: bool
) -> tuple[Piece, Edge, Point]:
    """The edge that meets one of a row where the row enters or leaves it, and the corner."""
    piece = pattern.piece(ref.piece)
    parts = piece.edge_parts(ref.edge)
    if walk_back == at_begin:
        return piece, next_edge(piece, ref.edge), parts[-1].end
    return piece, edge_before(piece, ref.edge), parts[0].start


def _mirrors(pattern: Pattern, piece: str, edge: Edge) -> bool:
    if edge.kind is EdgeKind.FOLD:
        return True
    ref = Ref(piece, edge.name)
    return any(seam.own_mirror and ref in seam.refs for seam in pattern.seams)


def sewn_on(top: Ref, course: Course, ratio: float, kind: SeamKind) -> Seam:
    """The seam of a new strip's edge on a row: the strip runs against the row.

    Parameters
    ----------
    top : the strip's edge
    course : the row it is sewn on
    ratio : length of the strip's edge for each cm of the row; over 1 it is gathered
    kind : how it is sewn

    Returns
    -------
    the seam, the strip its first layer
    """
    backwards = not course.sides[0].backwards
    return Seam(layers_of((Side(top, backwards),), course.sides, kind, ratio))
