"""A drafted block measured back with a tape, the way the body was measured.

Everything is read off the paper: edges, darts, diamonds, levels and marks of the pieces as the
draft laid them. Nothing of the draft's own reckoning is used.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import inf

from cutwright.blocks.ease import Ease, ease_for
from cutwright.blocks.upper_step import given_eases
from cutwright.body.body import Body
from cutwright.geometry.crossing import line_distances
from cutwright.geometry.curve import Line
from cutwright.geometry.move import Move
from cutwright.geometry.path import Path, path_length, point_at, split_path
from cutwright.geometry.point import Point
from cutwright.pattern.edge import Edge, EdgeKind
from cutwright.pattern.mark import BUST_POINT
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Diamond, Level, Piece
from cutwright.pattern.result import Result
from cutwright.style.step import Step


@dataclass(frozen=True, slots=True)
class TapedBack:
    """One measure: what was asked for, ease included, and what the tape finds (cm)."""

    measure: str
    asked: float
    found: float

    @property
    def off(self) -> float:
        """How far the paper is from what was asked.

        Returns
        -------
        cm, or degrees for a slope; positive where the paper has more
        """
        return self.found - self.asked


def measured_back(pattern: Pattern, body: Body, ease: Ease) -> tuple[TapedBack, ...]:
    """Measure dress, bodice and skirt pieces that are on the table.

    Girths are all round; across back, across chest and bust point distance are halves.

    Parameters
    ----------
    pattern : what lies on the table
    body : the measured person
    ease : that the block was drafted with, cm

    Returns
    -------
    a row for each measure that the paper shows
    """
    names = {piece.name for piece in pattern.pieces}
    rows: list[TapedBack] = []
    if {"front", "back"} <= names:
        rows += _upper(pattern, body, ease)
    if {"skirt front", "skirt back"} <= names:
        rows += _skirt(pattern, body, ease)
    return tuple(rows)


def _upper(pattern: Pattern, body: Body, ease: Ease) -> Iterator[TapedBack]:
    back, front = pattern.piece("back"), pattern.piece("front")
    value = body.value
    waisted = back.level("waist") is None
    bust_point = _mark(front, BUST_POINT)
    neck = _corner(front, "neckline", "shoulder")
    yield TapedBack("back waist length", value("back_waist_length"), _back_length(back))
    yield TapedBack("bust depth", value("bust_depth"), abs(bust_point - neck))
    below = _below_bust(front, bust_point)
    yield TapedBack(
        "front waist length", value("front_waist_length"), abs(bust_point - neck) + below
    )
    yield TapedBack(
        "half bust points", value("bust_point_width") / 2, _from_centre(front, bust_point)
    )
    yield TapedBack("front shoulder", value("shoulder_length"), front.edge_length("shoulder"))
    eased = sum(s.ease for s in pattern.seams if any(r.edge == "shoulder" for r in s.refs))
    yield TapedBack("back shoulder", value("shoulder_length"), back.edge_length("shoulder") - eased)
    necks = 2 * (back.edge_length("neckline") + front.edge_length("neckline"))
    yield TapedBack("neckline", value("neck_base_girth") + ease.neck, necks)
    yield TapedBack(
        "half across back", value("back_width") / 2 + ease.across_back, _across_back(back)
    )
    chest = value("chest_width") / 2 + ease.across_chest
    yield TapedBack("half across chest", chest, _across_chest(front))
    yield TapedBack(
        "bust", value("bust_girth") + ease.bust, 2 * (_girth(back, "bust") + _girth(front, "bust"))
    )
    if waisted:
        waist = 2 * (back.edge_length("waist") + front.edge_length("waist"))
    else:
        waist = 2 * (_girth(back, "waist") + _girth(front, "waist"))
        yield TapedBack(
            "hip", value("hip_girth") + ease.hip, 2 * (_girth(back, "hip") + _girth(front, "hip"))
        )
        drop = _level_at_side(front, "hip").imag - _level_at_side(front, "waist").imag
        yield TapedBack("waist to hip", value("waist_to_hip"), drop)
    yield TapedBack("waist", value("waist_girth") + ease.waist, waist)
    yield TapedBack("sides", back.edge_length("side"), front.edge_length("side"))
    yield from _legs(back, front)


def _skirt(pattern: Pattern, body: Body, ease: Ease) -> Iterator[TapedBack]:
    back, front = pattern.piece("skirt back"), pattern.piece("skirt front")
    waist = 2 * (back.edge_length("waist") + front.edge_length("waist"))
    yield TapedBack("skirt waist", body.value("waist_girth") + ease.waist, waist)
    hip = 2 * (_girth(back, "hip") + _girth(front, "hip"))
    yield TapedBack("skirt hip", body.value("hip_girth") + ease.hip, hip)
    top = _corner(back, "centre back", "waist")
    drop = _level_at_side(back, "hip").imag - top.imag
    yield TapedBack("skirt waist to hip", body.value("waist_to_hip"), drop)
    yield TapedBack("skirt sides", back.edge_length("side"), front.edge_length("side"))
    yield from _legs(back, front)


def _legs(*pieces: Piece) -> Iterator[TapedBack]:
    """Both legs of every dart that reaches the edge."""
    for piece in pieces:
        for dart in piece.darts:
            one, other = piece.legs(dart)
            yield TapedBack(f"legs of {piece.name}: {dart.name}", one.length, other.length)


def _mark(piece: Piece, text: str) -> Point:
    return next(mark.at for mark in piece.marks if mark.text == text)


def _centre(piece: Piece) -> Edge:
    return next(e for e in piece.edges if e.at_centre)


def _from_centre(piece: Piece, p: Point) -> float:
    """How far a place lies from the centre line, measured level."""
    path = _centre(piece).curves
    crossings = line_distances(path, p, 1 + 0j)
    if not crossings:  # below or above the paper's centre: its straight line is prolonged
        return abs(p.real - path[0].start.real)
    return min(abs(p - point_at(path, at)) for at in crossings)


def _corner(piece: Piece, one: str, other: str) -> Point:
    """Where two edges meet."""
    ends = [q for e in piece.edges if e.name == one for q in (e.start, e.end)]
    return min(
        (q for e in piece.edges if e.name == other for q in (e.start, e.end)),
        key=lambda q: min(abs(q - p) for p in ends),
    )


def _back_length(back: Piece) -> float:
    """Along the centre back from the nape to the waist level or the waist edge."""
    path = _centre(back).curves
    level = back.level("waist")
    if level is None:
        return path_length(path)
    at = line_distances(path, level.points[0], 1 + 0j)[-1]
    return path_length(split_path(path, at)[1])


def _below_bust(front: Piece, bust_point: Point) -> float:
    """From the bust point straight to the waist, along the leg of a dart that stands below it."""
    for diamond in front.diamonds:
        if abs(diamond.top.real - bust_point.real) < 0.01:
            return abs(diamond.top - bust_point) + abs(diamond.top - diamond.near)
    for dart in front.darts:
        leg, _other = front.legs(dart)
        on_waist = front.beside_mouth(dart.name)[0].kind is EdgeKind.WAIST
        if on_waist and abs(dart.tip.real - bust_point.real) < 0.01:
            return abs(dart.tip - bust_point) + leg.length
    level = front.level("waist")
    if level is not None:
        return level.points[0].imag - bust_point.imag
    path: Path = tuple(c for e in front.edges if e.name == "waist" for c in e.curves)
    crossing = point_at(path, line_distances(path, bust_point, 1j)[0])
    return abs(crossing - bust_point)


def _across_back(back: Piece) -> float:
    return _from_centre(back, _mark(back, "across back"))


def _across_chest(front: Piece) -> float:
    """With the bust dart closed: the across point turned back about the bust point."""
    dart = next(d for d in front.darts if d.name == "bust dart")
    mouth = front.mouth(dart)
    neck = _corner(front, "neckline", "shoulder")
    inner, outer = sorted(mouth, key=lambda p: abs(p - neck))
    turn = (inner - dart.pivot) / (outer - dart.pivot)
    closing = Move(turn / abs(turn), dart.pivot - turn / abs(turn) * dart.pivot)
    return _from_centre(front, closing(_mark(front, "across chest")))


def _level_at_side(piece: Piece, name: str) -> Point:
    level = piece.level(name)
    assert level is not None
    side: Path = tuple(c for e in piece.edges if e.kind is EdgeKind.SIDE for c in e.curves)
    return min(
        (level.points[0], level.points[-1]),
        key=lambda p: min((abs(p - q) for c in side for q in (c.at(0.0), c.at(0.5), c.at(1.0))), default=inf),
    )  # fmt: skip


def _girth(piece: Piece, name: str) -> float:
    """Half the garment at a level: the paper's width with every dart folded out."""
    level = piece.level(name)
    assert level is not None
    return level.length - sum(_folded(level, d) for d in piece.diamonds) - _open(level, piece)


def _folded(level: Level, diamond: Diamond) -> float:
    """What a diamond takes out of a level that crosses it."""
    ring = (diamond.top, diamond.far, diamond.bottom, diamond.near)
    sides = [Line(a, b) for a, b in zip(ring, (*ring[1:], ring[0]), strict=True)]
    return sum(_inside(a, b, sides) for a, b in _steps(level))


def _open(level: Level, piece: Piece) -> float:
    """What darts with their mouth on an edge take out of a level, folded about their pivots."""
    out = 0.0
    for dart in piece.darts:
        one, other = piece.mouth(dart)
        sides = [Line(one, dart.pivot), Line(dart.pivot, other)]
        out += sum(_inside(a, b, sides) for a, b in _steps(level))
    return out


def _steps(level: Level) -> Iterator[tuple[Point, Point]]:
    return zip(level.points, level.points[1:], strict=False)


def _inside(a: Point, b: Point, sides: list[Line]) -> float:
    """Length of a straight step between its crossings with a dart's two legs."""
    along = (b - a) / abs(b - a)
    hits = [
        ((side.at(at / abs(side.end - side.start)) - a) * along.conjugate()).real
        for side in sides
        for at in line_distances((side,), a, along)
    ]
    hits = [h for h in hits if -1e-7 <= h <= abs(b - a) + 1e-7]
    return max(hits) - min(hits) if len(hits) > 1 else 0.0


MOVED = {
    "half across back": "draft-across-back-moved",
    "half across chest": "draft-across-chest-moved",
    "front shoulder": "draft-shoulder-shortened",
    "back shoulder": "draft-shoulder-shortened",
}
"""Tapes that a draft may leave if it says so with this finding."""


def off_the_tape(step: Step, before: Pattern, result: Result, body: Body) -> tuple[TapedBack, ...]:
    """The rows of a draft that were to be kept: all but those a finding owns up to.

    Nothing for a step that drafts no block. An across chest that was not taped is free to move.

    Parameters
    ----------
    step : a step; one that drafts nothing gives no rows
    before : what lay on the table
    result : what came of the step
    body : the measured person
    """
    if step.do not in ("draft_dress", "draft_bodice", "draft_skirt"):
        return ()
    ease = ease_for(str(getattr(step, "fit", "close")), **given_eases(step, before, body))
    told = {finding.code for finding in result.findings}
    there = {piece.name for piece in before.pieces}
    drafted = replace(
        result.pattern, pieces=tuple(p for p in result.pattern.pieces if p.name not in there)
    )
    return tuple(
        row
        for row in measured_back(drafted, body, ease)
        if MOVED.get(row.measure) not in told
        and not (row.measure == "half across chest" and not body.taped("chest_width"))
    )
