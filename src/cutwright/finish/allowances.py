"""How much cloth is left beyond each stitch line.

Common practice: seams 1.5, with a zip 2, curved and faced edges 1, a straight hem 3.5, and the
less the more the hem is curved, because the turned-up edge must be eased in; a circular hem has 1.
Both sides of a seam get the same allowance.
"""

from __future__ import annotations

import itertools
from collections.abc import Mapping
from dataclasses import dataclass

from cutwright.geometry.curve import Cubic
from cutwright.geometry.path import Path, path_length
from cutwright.geometry.point import angle_between
from cutwright.keep import once
from cutwright.pattern.edge import Edge, Kind
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.seam import Seam

EdgeKey = tuple[str, str]
"""A piece and the label of one of its edges."""


@dataclass(frozen=True, slots=True)
class Allowances:
    """The allowance of each kind of edge, cm (common practice; every one may be changed).

    `hems` are the depths a hem may have, deepest first; the deepest is taken whose turning up
    leaves no more than `hem_surplus` of the cut edge to be eased in; the last serves any curve.
    `mitre` limits a pointed corner, in allowances from the corner of the stitch line.
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

    def of(self, edge: Edge) -> float:
        """The default for an edge that is looked at alone."""
        if edge.kind is Kind.HEM:
            return self.hem(edge.curves)
        if edge.kind in (Kind.FOLD, Kind.LEG):
            return 0.0
        amount: float = getattr(self, edge.kind.name.lower())
        return amount

    def hem(self, path: Path) -> float:
        """How deep a hem of this shape is turned up, cm."""
        bend = abs(turn_of(path)) / max(path_length(path), 1e-6)
        return next((d for d in self.hems if d * bend <= self.hem_surplus), self.hems[-1])


@dataclass(frozen=True, slots=True)
class Treatment:
    """What becomes of an edge: its allowance in cm, and whether that is turned up (a hem)."""

    amount: float
    turned: bool = False


def turn_of(path: Path) -> float:
    """How far the direction of travel turns from one end of a chain to the other, radians."""
    steps = []
    for curve in path:
        points = curve.controls if isinstance(curve, Cubic) else (curve.start, curve.end)
        steps += [b - a for a, b in itertools.pairwise(points) if abs(b - a) > 1e-9]
    return sum(angle_between(a, b) for a, b in itertools.pairwise(steps))


def treatments(pattern: Pattern, table: Allowances) -> Mapping[EdgeKey, Treatment]:
    """The allowance of every edge of a pattern; an edge's own wish carries over its seam.

    An edge that is sewn to another follows the smaller default of the two, so that both lie edge
    to edge; a hem that is sewn to a flounce is a seam like any other.
    """
    found: dict[EdgeKey, Treatment] = {}
    for piece in pattern.pieces:
        found |= _alone(piece, table)
    for seam in pattern.seams:
        found |= _agreed(seam, table, *(pattern.piece(ref.piece) for ref in seam.refs))
    return found


@once
def _alone(piece: Piece, table: Allowances) -> Mapping[EdgeKey, Treatment]:
    """The allowance of every edge of a piece, looked at alone."""
    found: dict[EdgeKey, Treatment] = {}
    for edge in piece.edges:
        own = table.of(edge) if edge.allowance is None else edge.allowance
        if edge.allowance is None and _has_zip(piece, edge):
            own = max(own, table.zip)
        turned = edge.kind in (Kind.HEM, Kind.FREE)
        found[piece.name, edge.label] = Treatment(own, turned and own > 0)
    return found


@once
def _agreed(seam: Seam, table: Allowances, *pieces: Piece) -> Mapping[EdgeKey, Treatment]:
    """One allowance for both sides of a seam; what a single edge asks for itself stays its own."""
    members = [
        (piece, edge)
        for ref, piece in dict(zip(seam.refs, pieces, strict=True)).items()
        for edge in piece.edge_parts(ref.edge)
        if edge.kind not in (Kind.FOLD, Kind.LEG)
    ]
    wished = [edge.allowance for _piece, edge in members if edge.allowance is not None]
    plain = [
        table.seam if edge.kind in (Kind.HEM, Kind.FREE) else table.of(edge)
        for _piece, edge in members
    ]
    common = wished[0] if wished else min(plain, default=0.0)
    if not wished and any(_has_zip(piece, edge) for piece, edge in members):
        common = max(common, table.zip)
    return {
        (piece.name, edge.label): Treatment(common if edge.allowance is None else edge.allowance)
        for piece, edge in members
    }


def _has_zip(piece: Piece, edge: Edge) -> bool:
    return any(
        m.kind is MarkKind.ZIP_END and m.edge in (edge.label, edge.name) for m in piece.marks
    )
