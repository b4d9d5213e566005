"""The upper body's edges: what a dress block and a bodice block have in common above the waist."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

from cutwright.blocks.armhole import armhole_arcs
from cutwright.blocks.shoulders import SHORT, Wedge
from cutwright.blocks.side_seam import SideSeam, point_at_level
from cutwright.blocks.upper import Upper
from cutwright.geometry.curve import Line, curve_length
from cutwright.geometry.move import Move
from cutwright.geometry.path import Path, moved_path, nearest_distance, path_length, split_path
from cutwright.geometry.point import Point, between, unit
from cutwright.pattern.edge import Edge, EdgeKind
from cutwright.pattern.mark import BUST_POINT, MarkKind
from cutwright.pattern.piece import Dart, Level, Mark, legs_of


@dataclass(frozen=True, slots=True)
class Top:
    """The edges of a half from the centre neck to the end of the side, with what lies on them."""

    edges: tuple[Edge, ...]
    darts: tuple[Dart, ...]
    marks: tuple[Mark, ...]
    bust: Level
    armhole: float


def back_top(upper: Upper, depth: float, side: SideSeam, rest: Path, at_bust: Point) -> Top:
    """The back: neckline, shoulder, armhole and side; `rest` is the side below the waist.

    Parameters
    ----------
    upper : neck, shoulders and widths as drawn
    depth : y of the underarm, cm
    side : the side seam of the upper body
    rest : the side below the waist, or nothing
    at_bust : the centre at bust level, cm

    Returns
    -------
    edges, darts and marks; the armhole in cm
    """
    shoulder, across = upper.back, upper.across.back
    upward = side.moved(upper.back_bust)
    hole = armhole_arcs(
        shoulder.end, -(shoulder.outer + upper.turn), across, upward[0].start, pi / 2 - side.lean
    )
    edges = [Edge("neckline", (upper.back_neck,), EdgeKind.NECKLINE)]
    darts: tuple[Dart, ...] = ()
    if shoulder.wedge is None:
        edges.append(Edge("shoulder", (Line(shoulder.neck, shoulder.end),), EdgeKind.SHOULDER))
    else:
        edges += _parted(shoulder.neck, shoulder.wedge, shoulder.end, "shoulder dart")
        darts = (Dart("shoulder dart", shoulder.wedge.pivot, shoulder.wedge.tip),)
    edges.append(Edge("armhole", hole, EdgeKind.ARMHOLE))
    edges.append(Edge("side", (*upward, *rest), EdgeKind.SIDE))
    end = point_at_level(upward, at_bust.imag)
    return Top(
        tuple(edges),
        darts,
        (Mark(MarkKind.POINT, across, "across back", edge="armhole"),),
        Level("bust", (at_bust, end)),
        sum(map(curve_length, hole)),
    )


def _parted(neck: Point, wedge: Wedge, end: Point, name: str) -> list[Edge]:
    return [
        Edge("shoulder", (Line(neck, wedge.near),), EdgeKind.SHOULDER),
        *legs_of(name, wedge.near, wedge.tip, wedge.far),
        Edge("shoulder", (Line(wedge.far, end),), EdgeKind.SHOULDER),
    ]


def front_top(upper: Upper, excess: float, side: SideSeam, rest: Path, bust_level: float) -> Top:
    """The front: neckline, shoulder with the bust dart, armhole and side.

    The outer part is turned back about the bust point by the excess of the bust dart (radians),
    which opens as a dart from the side (own method, docs/drafting.md, section 4).

    Parameters
    ----------
    upper : neck, shoulders and widths as drawn
    excess : what goes into a dart from the side, radians
    side : the side seam of the upper body
    rest : the side below the waist, or nothing
    bust_level : y of the bust point, cm

    Returns
    -------
    edges, darts and marks; the armhole in cm
    """
    shoulder, across = upper.front, upper.across.chest
    upward = side.moved(upper.front_bust)
    hole = armhole_arcs(
        shoulder.end, -(shoulder.outer - upper.turn), across, upward[0].start, pi / 2 - side.lean
    )
    wedge = shoulder.wedge
    assert wedge is not None  # the front always has its bust dart
    turn = Move.about(upper.bust_point, -excess)
    wedge = _narrowed(wedge, turn) if excess else wedge
    edges = [
        Edge("neckline", (upper.front_neck,), EdgeKind.NECKLINE),
        *_parted(shoulder.neck, wedge, turn(shoulder.end), "bust dart"),
        Edge("armhole", moved_path(hole, turn), EdgeKind.ARMHOLE),
    ]
    darts = [Dart("bust dart", wedge.pivot, wedge.tip)]
    whole: Path = (*upward, *rest)
    level = Level("bust", (complex(0, bust_level), point_at_level(upward, bust_level)))
    if excess:
        before, after = split_path(whole, _side_dart_at(upward, bust_level))
        side_edges, side_dart = _side_dart(moved_path(before, turn), after, upper.bust_point)
        edges += side_edges
        darts.append(side_dart)
        level = _turned_level(level, upper.bust_point, after[0].start, turn)
    else:
        edges.append(Edge("side", whole, EdgeKind.SIDE))
    marks = (
        Mark(MarkKind.POINT, upper.bust_point, BUST_POINT),
        Mark(MarkKind.POINT, turn(across), "across chest", edge="armhole"),
    )
    return Top(tuple(edges), tuple(darts), marks, level, sum(map(curve_length, hole)))


def _narrowed(wedge: Wedge, turn: Move) -> Wedge:
    far = turn(wedge.far)
    axis = unit(between(wedge.near, far, 0.5) - wedge.pivot)
    return Wedge(wedge.near, far, wedge.pivot, wedge.pivot + SHORT * axis)


def _side_dart_at(upward: Path, bust_level: float) -> float:
    """Where on the side its dart opens: just below the bust, so that it clears the waist darts."""
    wanted = max(bust_level + 1.0, upward[0].start.imag + 2.5)
    at = nearest_distance(upward, point_at_level(upward, wanted))
    return min(at, path_length(upward) - 3.0)


def _side_dart(before: Path, after: Path, bust_point: Point) -> tuple[list[Edge], Dart]:
    near, far = before[-1].end, after[0].start
    tip = bust_point + SHORT * unit(between(near, far, 0.5) - bust_point)
    edges = [
        Edge("side", before, EdgeKind.SIDE),
        *legs_of("side dart", near, tip, far),
        Edge("side", after, EdgeKind.SIDE),
    ]
    return edges, Dart("side dart", bust_point, tip)


def _turned_level(level: Level, bust_point: Point, mouth: Point, turn: Move) -> Level:
    """The bust level of a front with a side dart: its outer part turned with the paper."""
    centre, end = level.points
    share = (centre.imag - bust_point.imag) / (mouth.imag - bust_point.imag)
    meets = between(bust_point, mouth, max(share, 0.0))
    points = (centre, meets, turn(meets), turn(end))
    return Level(
        "bust", points if abs(points[2] - points[1]) > 1e-9 else (centre, meets, points[3])
    )
