"""The cut line of a piece: every edge at its own allowance, with the trade's corners.

A hem is mirrored about its fold line, so that it lies flat when turned up; a dart mouth is shaped
by folding; the fold of the cloth is simply run on. Where a seam that is pressed open meets an edge
aslant, its allowance ends square to the seam, so that the ends of both pieces match. Everything
else is a mitre, cut off beyond two and a half allowances.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import inf, pi

from cutwright.errors import GeometryError, LookupFailed
from cutwright.finish.allowances import Allowances, Treatment
from cutwright.finish.dart_mouth import Mouth, beak, mouth_line, pressed_to_first
from cutwright.finish.fallback import border_all_round
from cutwright.geometry.corner import (
    Pair,
    mirrored,
    mirrored_by_first,
    mitred,
    squared,
    squared_to_second,
)
from cutwright.geometry.curve import Curve
from cutwright.geometry.offset import offset_paths
from cutwright.geometry.outline import is_plain
from cutwright.geometry.path import Path, end_direction, start_direction
from cutwright.geometry.point import Point, angle_between
from cutwright.messages import N_, Message
from cutwright.pattern.edge import Edge, EdgeKind
from cutwright.pattern.piece import Dart, Piece
from cutwright.pattern.shaping.crossed import crossing_of

_PRESSED_OPEN = frozenset({EdgeKind.SIDE, EdgeKind.SHOULDER, EdgeKind.CENTRE, EdgeKind.SEAM})
_SLANT = 25 * pi / 180


@dataclass(frozen=True, slots=True)
class CutEdge:
    """The cut line along one edge (or over one dart's mouth) and the allowance it was given."""

    label: str
    curves: Path
    allowance: float

    @property
    def start(self) -> Point:
        """Where it begins, walking the outline clockwise to the eye."""
        return self.curves[0].start


@dataclass(frozen=True, slots=True)
class Trimmed:
    """A dart whose fold is cut away: how far it would stand out, and what is left beside each leg.

    `by_itself`: nobody asked for it; it is done because the fold would stand out.
    """

    dart: str
    beak: float
    kept: float
    by_itself: bool


@dataclass(frozen=True, slots=True)
class CutLine:
    """The whole cut line, closed; `rounded` where trade corners were not possible.

    `swallowed` are the edges that have no cut line of their own there, because the allowances of
    their neighbours meet beyond them; they have no curves.
    """

    edges: tuple[CutEdge, ...]
    rounded: bool = False
    swallowed: tuple[CutEdge, ...] = ()
    trimmed: tuple[Trimmed, ...] = ()

    @property
    def outline(self) -> tuple[Curve, ...]:
        """The cut line as one closed chain."""
        return tuple(curve for edge in self.edges for curve in edge.curves)

    def edge(self, label: str) -> CutEdge:
        """The cut line beside the edge of that label.

        Raises
        ------
        LookupFailed : that edge is not cut
        """
        for edge in (*self.edges, *self.swallowed):
            if edge.label == label:
                return edge
        raise LookupFailed(Message("edge-not-cut", N_('The edge "{edge}" is not cut.'), edge=label))


def cut_line(
    piece: Piece,
    treatments: Mapping[str, Treatment],
    table: Allowances,
) -> CutLine:
    """The cut line of a piece.

    Common practice for the corners, own method for the mouths of darts (`dart_mouth`).

    Parameters
    ----------
    piece : the paper
    treatments : for each edge label its allowance and whether it is turned up
    table : holds the limit of a mitre, and when the fold of a dart is cut away

    Returns
    -------
    the cut line, walked clockwise; rounded where corners are not possible

    Raises
    ------
    GeometryError : the stitch line itself crosses over (the message names the corner), or the piece
        is too narrow for its allowance
    """
    edges = list(piece.outer_edges)
    amounts = [treatments[edge.label].amount for edge in edges]
    paths = offset_paths([edge.curves for edge in edges], amounts)
    mouths: dict[int, Path] = {}
    trimmed: tuple[Trimmed, ...] = ()
    darts = _darts_after(piece)
    for index, edge in enumerate(edges):
        after = (index + 1) % len(edges)
        dart = darts.get(edge.label)
        if dart is not None:
            shaped, out = _over_mouth(
                piece, dart, (edge, edges[after]), (paths[index], paths[after]), table
            )
            paths[index], mouths[index], paths[after] = shaped
            trimmed += out
            continue
        a, b = treatments[edge.label], treatments[edges[after].label]
        paths[index], paths[after] = _corner(
            paths[index], paths[after], edge, edges[after], a, b, table.mitre
        )
    found: list[CutEdge] = []
    for index, edge in enumerate(edges):
        found.append(CutEdge(edge.label, paths[index], amounts[index]))
        if index in mouths:
            found.append(CutEdge(darts[edge.label].name, mouths[index], amounts[index]))
    line = CutLine(tuple(found), trimmed=trimmed)
    return line if is_plain(line.outline) else _rounded(piece, edges, amounts)


def _over_mouth(
    piece: Piece, dart: Dart, edges: tuple[Edge, Edge], beside: tuple[Path, Path], table: Allowances
) -> tuple[Mouth, tuple[Trimmed, ...]]:
    """The cut line over a mouth: shaped by folding, or its fold cut away where that makes a beak."""
    mouth = (edges[0].end, edges[1].start)
    to_first = pressed_to_first(piece, dart, mouth)
    whole = mouth_line(*beside, mouth, dart.tip, to_first)
    out = beak(*whole, dart.tip)
    if dart.kept == 0 or (dart.kept is None and out <= table.beak):
        return whole, ()
    kept = table.dart if dart.kept is None else dart.kept
    shaped = mouth_line(*beside, mouth, dart.tip, to_first, kept, table.mitre * kept)
    return shaped, (Trimmed(dart.name, out, kept, dart.kept is None),)


def _darts_after(piece: Piece) -> dict[str, Dart]:
    """For the label of each edge that ends at the mouth of a dart, that dart."""
    return {piece.beside_mouth(dart.name)[0].label: dart for dart in piece.darts}


def _corner(
    first: Path, second: Path, a: Edge, b: Edge, ta: Treatment, tb: Treatment, mitre: float
) -> Pair:
    """The two cut lines brought together in the way that suits their edges."""
    corner, into, out_of = a.end, end_direction(a.curves), start_direction(b.curves)
    limit = mitre * max(ta.amount, tb.amount)
    if EdgeKind.FOLD in (a.kind, b.kind):
        return mitred(first, second, corner, inf)
    turn = angle_between(into, out_of)
    if tb.turned and not ta.turned and turn > 0:
        return mirrored(first, second, corner, out_of)
    if ta.turned and not tb.turned and turn > 0:
        return mirrored_by_first(first, second, corner, into)
    if turn > 0.2 and abs(turn - pi / 2) > _SLANT:
        open_a, open_b = a.kind in _PRESSED_OPEN, b.kind in _PRESSED_OPEN
        if open_a and not open_b:
            return squared(first, second, corner, into, limit)
        if open_b and not open_a:
            return squared_to_second(first, second, corner, out_of, limit)
    return mitred(first, second, corner, limit)


def _rounded(piece: Piece, edges: list[Edge], amounts: list[float]) -> CutLine:
    """The cut line by a polygon buffer, where edges are too short or too hollow for corners."""
    broken = crossing_of(piece)
    if broken is not None:
        raise GeometryError(
            Message(
                "stitch-line-crosses-itself-near",
                N_(
                    'The stitch line of "{piece}" crosses itself near the corner {corner}, so no '
                    "allowance can be added. Look at the step that drew it last."
                ),
                piece=piece.name,
                corner=broken,
            )
        )
    parts = border_all_round([edge.curves for edge in edges], amounts, piece.outline)
    found = [CutEdge(edges[index].label, path, amounts[index]) for index, path in parts if path]
    there = {edge.label for edge in found}
    swallowed = tuple(
        CutEdge(edge.label, (), amount)
        for edge, amount in zip(edges, amounts, strict=True)
        if edge.label not in there
    )
    return CutLine(tuple(found), True, swallowed)
