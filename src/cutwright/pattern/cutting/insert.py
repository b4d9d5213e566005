"""Letting paper in across a piece, or folding a tuck of it out: longer and shorter at a level."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import accumulate

from cutwright.errors import LookupFailed, StepError
from cutwright.geometry.crossing import line_distances
from cutwright.geometry.curve import curve_length
from cutwright.geometry.draw import hermite
from cutwright.geometry.move import STAY, Move
from cutwright.geometry.path import (
    direction_at,
    end_direction,
    is_straight,
    passes_within,
    path_length,
    point_at,
    split_path,
    start_direction,
)
from cutwright.geometry.point import Point, dot, unit
from cutwright.geometry.rejoin import rejoined
from cutwright.messages import N_, Message
from cutwright.pattern.cutting.cut_darts import (
    crossed_darts,
    moved_diamond,
    redrawn_darts,
    refuse_cut_mouths,
)
from cutwright.pattern.edge import Edge
from cutwright.pattern.loop import Spot, run_between, weld
from cutwright.pattern.piece import Piece

_REACH = 5.0
"""How far below the cut an edge is drawn anew at least, cm."""
_STRAIGHT = 1e-6


@dataclass(frozen=True, slots=True)
class StraightCut:
    """A straight cut across a piece: where it meets the outline on the way down and on the way up.

    `down` is the edge that is walked downwards, `up` the one walked upwards; `along` is the grain.
    """

    piece: Piece
    at: Point
    along: Point
    down: str
    up: str

    @property
    def start(self) -> Point:
        """Where the cut meets the edge that is walked downwards."""
        edge = self.piece.edge(self.down)
        return point_at(edge.curves, _meets(edge, self.at, self.along))

    @property
    def end(self) -> Point:
        """Where the cut meets the edge that is walked upwards."""
        edge = self.piece.edge(self.up)
        return point_at(edge.curves, _meets(edge, self.at, self.along))


def cut_across(piece: Piece, level: str, below: float) -> StraightCut:
    """The cut square to the grain at a level, or so far below it.

    Parameters
    ----------
    piece : the paper before
    level : name of the level, such as "hip"
    below : how far below the level's end at the centre, along the grain, cm; above it where
        negative

    Returns
    -------
    the cut from one edge to one other

    Raises
    ------
    LookupFailed : the piece has no such level
    StepError : the cut runs through the mouth of a dart, or meets the outline, dart legs left out,
        more or less than twice
    """
    found = piece.level(level)
    if found is None:
        raise LookupFailed(
            Message(
                "no-level-say-hem",
                N_('"{piece}" has no level "{level}". It has: {there}, or say "hem".'),
                piece=piece.name,
                level=level,
                there=", ".join(x.name for x in piece.levels) or Message("none", N_("none")),
            )
        )
    along = unit(piece.grain[1] - piece.grain[0])
    start = _centre_end(piece, found.points[0], found.points[-1])
    at = start + along * below
    refuse_cut_mouths(piece, at, along, 0.0)
    sewn = list(piece.outer_edges)
    met = [e for e in sewn for _d in line_distances(e.curves, at, along * 1j)]
    if len(met) != 2:
        raise StepError(
            Message(
                "cut-across-not-run-edge",
                N_(
                    'A cut across "{piece}" there does not run from one edge to one other. Choose another level.'
                ),
                piece=piece.name,
            )
        )
    first, second = met
    down_first = dot(direction_at(first.curves, _meets(first, at, along)), along) > 0
    down, up = (first, second) if down_first else (second, first)
    return StraightCut(piece, at, along, down.label, up.label)


def _centre_end(piece: Piece, a: Point, b: Point) -> Point:
    """The end of a level that lies on a centre; the first where neither does."""
    for p in (a, b):
        for edge in piece.edges:
            if edge.at_centre and passes_within(edge.curves, p, 1e-3):
                return p
    return a


def _meets(edge: Edge, at: Point, along: Point) -> float:
    return line_distances(edge.curves, at, along * 1j)[0]


@dataclass(frozen=True, slots=True)
class _Join:
    """An edge that was cut: how much of it lies before the cut and after it in walking order."""

    old: Edge
    before: float
    after: float
    downwards: bool


def let_in(cut: StraightCut, by: float) -> Piece:
    """The piece longer by an amount at the cut (shorter where it is below 0).

    A tuck is folded out below the cut. Edges that no longer run on are drawn smooth from the cut
    downwards, so that the girth at the cut stays.

    Parameters
    ----------
    cut : where the paper is cut
    by : how much longer, cm; below 0 shorter

    Returns
    -------
    the piece; what lies below the cut went down, or up, with its paper

    Raises
    ------
    StepError : a tuck does not fit along an edge or runs through the mouth of a dart, or a dart
        would be left shorter than 2 cm
    """
    upper, lower = cut.at, cut.at + cut.along * max(-by, 0.0)
    if by < 0:
        refuse_cut_mouths(cut.piece, upper, cut.along, -by)
        _refuse_tucked(cut, upper, lower)
    piece, down, up = cut.piece, cut.piece.edge(cut.down), cut.piece.edge(cut.up)
    places = [
        (Spot(piece.edges.index(e), _meets(e, p, cut.along)))
        for e, p in ((up, upper), (down, upper), (down, lower), (up, lower))
    ]
    top = run_between(piece.edges, places[0], places[1])
    bottom = run_between(piece.edges, places[2], places[3])
    move = Move.by(cut.along * by)
    out = replace(piece, edges=weld([top, tuple(e.moved(move) for e in bottom)]))
    joins = (
        _Join(down, places[1].distance, down.length - places[2].distance, downwards=True),
        _Join(up, places[3].distance, up.length - places[0].distance, downwards=False),
    )
    for join in joins:
        out = _rejoined(_smoothed(out, join, by), join.old.label)
    return _things_moved(out, cut, move)


def _rejoined(piece: Piece, label: str) -> Piece:
    """An edge with as few curves as its way needs, so that many cuts do not make it heavy."""
    return replace(
        piece,
        edges=tuple(
            e.with_curves(rejoined(e.curves)) if e.label == label else e for e in piece.edges
        ),
    )


def _refuse_tucked(cut: StraightCut, upper: Point, lower: Point) -> None:
    band = abs(dot(cut.along, lower - upper))
    for label in (cut.down, cut.up):
        edge = cut.piece.edge(label)
        for place in (upper, lower):
            if len(line_distances(edge.curves, place, cut.along * 1j)) != 1:
                raise StepError(
                    Message(
                        "tuck-cm-not-fit-along",
                        N_(
                            'A tuck of {size:.1f} cm does not fit along the "{edge}" of "{piece}". Take less, or shorten at '
                            "another level."
                        ),
                        size=band,
                        edge=edge.name,
                        piece=cut.piece.name,
                    )
                )


def _smoothed(piece: Piece, join: _Join, by: float) -> Piece:
    """A bent edge redrawn from the cut downwards, as far as the next joint where one is near.

    So cutting an edge again and again leaves no short curve each time.
    """
    edge = piece.edge(join.old.label)
    size = path_length(edge.curves)
    reach = _reach(join, by)
    joints = list(accumulate(curve_length(curve) for curve in edge.curves[:-1]))
    start, end = join.before, size - join.after
    if join.downwards:
        end = min(end + reach, size)
        end = next((joint for joint in joints if end < joint <= end + reach), end)
    else:
        start = max(start - reach, 0.0)
        start = next((j for j in reversed(joints) if start - reach <= j < start), start)
    before, rest = split_path(edge.curves, start)
    middle, after = split_path(rest, end - start)
    if is_straight(middle, _STRAIGHT):
        return piece
    leaving, arriving = start_direction(middle), end_direction(middle)
    if join.downwards:
        leaving = direction_at(join.old.curves, join.before)
    else:
        arriving = direction_at(join.old.curves, join.old.length - join.after)
    path = rejoined((*before, hermite(middle[0].start, leaving, middle[-1].end, arriving), *after))
    return replace(
        piece,
        edges=tuple(e.with_curves(path) if e.label == edge.label else e for e in piece.edges),
    )


def _reach(join: _Join, by: float) -> float:
    """How far below the cut an edge is drawn anew: all of it where it is straight there."""
    old = join.old
    below = (
        split_path(old.curves, old.length - join.after)[1]
        if join.downwards
        else split_path(old.curves, join.before)[0]
    )
    if below and is_straight(below, _STRAIGHT):
        return path_length(below)
    return max(_REACH, 2 * abs(by))


def below_cut(cut: StraightCut, label: str) -> str:
    """The edge that a cut edge meets at its lower end.

    Parameters
    ----------
    cut : where the paper is cut
    label : which of the two edges that it meets, `cut.down` or `cut.up`

    Returns
    -------
    the label of its neighbour

    Raises
    ------
    LookupFailed : the piece has no such edge
    """
    edges = cut.piece.edges
    index = edges.index(cut.piece.edge(label))
    return edges[(index + (1 if label == cut.down else -1)) % len(edges)].label


def _things_moved(piece: Piece, cut: StraightCut, move: Move) -> Piece:
    """Darts, marks, levels and grain below the cut go down with the paper."""

    tuck = max(-dot(cut.along, move.shift), 0.0)

    def of(p: Point) -> Move:
        below = dot(cut.along, p - cut.at)
        if below <= 1e-9:
            return STAY
        return move if below >= tuck else Move.by(-cut.along * below)

    grain = piece.grain[0], of(piece.grain[1])(piece.grain[1])
    names = {d.name for d in crossed_darts(cut.piece, of)}
    piece = replace(
        piece,
        darts=tuple(d if d.name in names else d.moved(of(d.tip)) for d in piece.darts),
        diamonds=tuple(moved_diamond(d, of, piece.name) for d in piece.diamonds),
        marks=tuple(m.moved(of(m.at)) for m in piece.marks),
        levels=tuple(x.moved(of(sum(x.points) / len(x.points))) for x in piece.levels),
        grain=grain,
    )
    return redrawn_darts(cut.piece, piece, of)
