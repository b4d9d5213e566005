"""A skirt drawn by hand that obeys every rule, and ways of spoiling it."""

from __future__ import annotations

from dataclasses import replace

from cutwright.body.body import Body
from cutwright.body.card import BodyCard
from cutwright.body.resolve import resolve
from cutwright.geometry.curve import Line
from cutwright.geometry.draw import hermite
from cutwright.geometry.move import Move
from cutwright.geometry.point import Point, direction
from cutwright.pattern.edge import Edge, EdgeKind, Ref
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Cut, Dart, Level, Mark, Piece
from cutwright.pattern.role import Role
from cutwright.pattern.seam import seam

TIP = -9 + 12j
ANGLE = 0.24


def body(**measures: float) -> Body:
    """A person of our own making."""
    taped = {"stature": 168.0, "bust_girth": 88.0, "waist_girth": 70.0, "hip_girth": 96.0}
    return resolve(BodyCard.model_validate({"name": "Ada", "measures": {**taped, **measures}}))


def front(width: float = 18.0, hip: float = 25.5) -> Piece:
    """Half a skirt front on the fold: its waist dart is opened out of a straight waist."""
    fold_out = Move.about(TIP, -ANGLE)
    side_top = fold_out(complex(-width, 0))
    at_hip, at_hem = complex(-hip, 20), complex(-hip - 1.5, 60)
    up = at_hip - at_hem
    edges = (
        Edge("waist", (Line(side_top, fold_out(-9 + 0j)),), EdgeKind.WAIST, (1,)),
        Edge("waist dart", (Line(fold_out(-9 + 0j), TIP),), EdgeKind.LEG, (1,)),
        Edge("waist dart", (Line(TIP, -9 + 0j),), EdgeKind.LEG, (2,)),
        Edge("waist", (Line(-9 + 0j, 0j),), EdgeKind.WAIST, (2,)),
        Edge("centre front", (Line(0j, 60j),), EdgeKind.FOLD),
        Edge("hem", (hermite(60j, -1 + 0j, at_hem, up * -1j),), EdgeKind.HEM),
        Edge(
            "side",
            (Line(at_hem, at_hip), hermite(at_hip, up, side_top, direction(-ANGLE) * -1j)),
            EdgeKind.SIDE,
        ),
    )
    return Piece(
        "skirt front",
        edges,
        (-12 + 20j, -12 + 50j),
        darts=(Dart("waist dart", TIP, TIP),),
        levels=(Level("hip", (at_hip, 20j)),),
        role=Role.FRONT,
    )


def back(width: float = 18.0, hip: float = 25.5, zip_at: float | None = 19.0) -> Piece:
    """Half a skirt back with a seam in its centre, and a zip down to `zip_at` cm below the waist."""
    piece = front(width, hip).moved(Move.mirror(0j, 1j))
    edges = tuple(
        replace(edge, name="centre back", kind=EdgeKind.CENTRE)
        if edge.kind is EdgeKind.FOLD
        else edge
        for edge in piece.edges
    )
    marks = (
        () if zip_at is None else (Mark(MarkKind.ZIP_END, complex(0, zip_at), edge="centre back"),)
    )
    return replace(
        piece, name="skirt back", edges=edges, cut=Cut(2, True), marks=marks, role=Role.BACK
    )


def skirt(front_piece: Piece | None = None, back_piece: Piece | None = None) -> Pattern:
    """The whole skirt with its seams."""
    centre = Ref("skirt back", "centre back")
    return Pattern((front_piece or front(), back_piece or back())).with_seams(
        seam(Ref("skirt front", "side"), Ref("skirt back", "side")),
        seam(centre, centre, same_way=True),
    )


def with_edge(piece: Piece, label: str, *changed: Edge) -> Piece:
    """The piece with one edge replaced."""
    edges = tuple(
        new for edge in piece.edges for new in (changed if edge.label == label else (edge,))
    )
    return replace(piece, edges=edges)


def hem_dropped_at_side(piece: Piece, by: float) -> Piece:
    """The piece with its side lengthened below the hip, the hem drawn straight to it."""
    side, hem = piece.edge("side"), piece.edge("hem")
    foot = hem.end if piece.role is Role.FRONT else hem.start
    low: Point = foot + by * 1j
    curves = tuple(
        Line(low if c.start == foot else c.start, low if c.end == foot else c.end)
        if isinstance(c, Line)
        else c
        for c in side.curves
    )
    ends = (hem.start, low) if piece.role is Role.FRONT else (low, hem.end)
    piece = with_edge(piece, "side", side.with_curves(curves))
    return with_edge(piece, "hem", hem.with_curves((Line(*ends),)))
