"""How much cloth is left beyond each stitch line.

Common practice: seams 1.5, with a zip 2, curved and faced edges 1, a straight hem 3.5, and the
less the more the hem is curved, because the turned-up edge must be eased in; a circular hem has 1.
Both sides of a seam get the same allowance, and so do edges that continue each other across a seam.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from cutwright.geometry.curve import Cubic
from cutwright.geometry.path import Path, end_direction, path_length, start_direction
from cutwright.geometry.point import angle_between
from cutwright.memo import memoised
from cutwright.pattern.edge import Edge, EdgeKind
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.seam import Seam
from cutwright.pattern.sewing.continued import EdgeKey, continued

_TURNED = (EdgeKind.HEM, EdgeKind.FREE)
_STRAIGHT = 0.01


@dataclass(frozen=True, slots=True)
class Allowances:
    """The allowance of each kind of edge, cm (common practice; every one may be changed).

    `hems` are the depths a hem may have, deepest first; the deepest is taken whose turning up
    leaves no more than `hem_surplus` of the cut edge to be eased in; the last serves any curve.
    `mitre` limits a pointed corner, in allowances from the corner of the stitch line. A dart whose
    fold would stand out by `beak` at the cut line is cut away, `dart` left beside each leg.
    """

    side: float = 1.5
    shoulder: float = 1.5
    waist: float = 1.5
    centre: float = 1.5
    zip: float = 2.0
    seam: float = 1.5
    neckline: float = 1.0
    armhole: float = 1.0
    gathered: float = 1.0
    free: float = 1.0
    hems: tuple[float, ...] = (3.5, 2.0, 1.5, 1.0)
    hem_surplus: float = 0.016
    mitre: float = 2.5
    dart: float = 1.5
    beak: float = 2.0

    def of(self, edge: Edge) -> float:
        """The default for an edge that is looked at alone, cm; 0 on the fold and for the leg of a dart."""
        if edge.kind is EdgeKind.HEM:
            return self.hem(edge.curves)
        if _is_bare(edge):
            return 0.0
        amount: float = getattr(self, edge.kind.name.lower())
        return amount

    def hem(self, path: Path) -> float:
        """How deep a hem of this shape is turned up.

        Own method: the deepest of `hems` whose depth times the mean curvature is no more than
        `hem_surplus`.

        Parameters
        ----------
        path : the hem, cm

        Returns
        -------
        cm
        """
        bend = abs(turn_of(path)) / max(path_length(path), 1e-6)
        return next((d for d in self.hems if d * bend <= self.hem_surplus), self.hems[-1])


@dataclass(frozen=True, slots=True)
class Treatment:
    """What becomes of an edge: its allowance in cm, and whether that is turned up (a hem)."""

    amount: float
    turned: bool = False


def _is_bare(edge: Edge) -> bool:
    """Whether nothing is left beyond an edge: it lies on the fold, or vanishes in a dart."""
    return edge.taken_up or edge.kind is EdgeKind.FOLD


def turn_of(path: Path) -> float:
    """How far the direction of travel turns from one end of a chain to the other; bends to both sides take each other off.

    Parameters
    ----------
    path : a chain of curves, cm

    Returns
    -------
    radians, positive clockwise to the eye
    """
    steps = []
    for curve in path:
        points = curve.controls if isinstance(curve, Cubic) else (curve.start, curve.end)
        steps += [b - a for a, b in itertools.pairwise(points) if abs(b - a) > 1e-9]
    return sum(angle_between(a, b) for a, b in itertools.pairwise(steps))


def treatments(pattern: Pattern, table: Allowances) -> Mapping[EdgeKey, Treatment]:
    """The allowance of every edge of a pattern.

    An allowance belongs to an edge of the garment: edges that are sewn to each other, and edges
    that continue each other across a seam, have one. It is the smallest of their defaults, or what
    one of them wishes; an edge's own wish stays its own. A hem that is sewn to a flounce is a seam
    like any other.

    Parameters
    ----------
    pattern : the pattern
    table : the defaults

    Returns
    -------
    for each edge by piece and label what is left beyond it, cm

    Raises
    ------
    LookupFailed : an edge of a seam is not there
    """
    edges = {(piece.name, edge.label): edge for piece in pattern.pieces for edge in piece.edges}
    zipped = {key for piece in pattern.pieces for key in _with_zip(piece)}
    sewn = [_members(pattern, seam) for seam in pattern.seams]
    in_seam = {key for keys in sewn for key in keys}
    found: dict[EdgeKey, Treatment] = {}
    onwards = [pair for pair in _onwards(pattern) if len(in_seam & {*pair}) != 1]
    straight = [pair for piece in pattern.pieces for pair in _straight_on(piece, in_seam)]
    for run in _runs(edges, (*sewn, *onwards, *straight)):
        plain = [_plain(edges[key], key in in_seam, table) for key in run]
        wished = [w for key in run if (w := edges[key].allowance) is not None]
        common = wished[0] if wished else min(plain)
        if not wished and not zipped.isdisjoint(run):
            common = max(common, table.zip)
        for key in run:
            own = edges[key].allowance
            amount = common if own is None else own
            found[key] = Treatment(amount, amount > 0 and _turns_up(edges[key], key in in_seam))
    return found


def _onwards(pattern: Pattern) -> Iterable[tuple[EdgeKey, EdgeKey]]:
    """Pairs of edges that are one edge of the garment: across a seam, or parted by a dart."""
    yield from continued(pattern)
    for piece in pattern.pieces:
        for edge in piece.outer_edges:
            if edge.part and not _is_bare(edge):
                yield (piece.name, piece.edge_parts(edge.name)[0].label), (piece.name, edge.label)


def _straight_on(piece: Piece, in_seam: set[EdgeKey]) -> Iterable[tuple[EdgeKey, EdgeKey]]:
    """A free edge that runs straight on from a sewn one, as the overlap of a band, has its allowance."""
    for a, b in itertools.pairwise((*piece.edges, piece.edges[0])):
        one, other = (piece.name, a.label), (piece.name, b.label)
        bend = angle_between(end_direction(a.curves), start_direction(b.curves))
        if (
            len(in_seam & {one, other}) == 1
            and not any(_is_bare(edge) or edge.kind is EdgeKind.HEM for edge in (a, b))
            and abs(bend) < _STRAIGHT
        ):
            yield one, other


def _members(pattern: Pattern, seam: Seam) -> tuple[EdgeKey, ...]:
    """The edges of both sides of a seam that have an allowance."""
    return tuple(
        (ref.piece, edge.label)
        for ref in seam.refs
        for edge in pattern.edge_parts(ref)
        if not _is_bare(edge)
    )


def _runs(
    edges: Mapping[EdgeKey, Edge], together: Iterable[Sequence[EdgeKey]]
) -> Iterable[tuple[EdgeKey, ...]]:
    """The edges in groups: each holds all that hang together, in the order of the pattern."""
    group = {key: [key] for key in edges}
    for keys in together:
        for key in keys[1:]:
            one, other = group[keys[0]], group[key]
            if one is not other:
                one += other
                group.update(dict.fromkeys(other, one))
    order = {key: place for place, key in enumerate(edges)}
    return {
        id(keys): tuple(sorted(keys, key=order.__getitem__)) for keys in group.values()
    }.values()


def _plain(edge: Edge, sewn: bool, table: Allowances) -> float:
    """The default for an edge: a hem or free edge that is sewn to something is a seam."""
    return table.seam if sewn and edge.kind in _TURNED else table.of(edge)


def _turns_up(edge: Edge, sewn: bool) -> bool:
    return edge.kind in _TURNED and not sewn


@memoised
def _with_zip(piece: Piece) -> tuple[EdgeKey, ...]:
    """The edges of a piece that a zip is set into."""
    held = {mark.edge for mark in piece.marks if mark.kind is MarkKind.ZIP_END}
    return tuple((piece.name, edge.label) for edge in piece.edges if held & {edge.label, edge.name})
