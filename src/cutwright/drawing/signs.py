"""The signs of the cutting table: arrows, brackets, notches, drill points, a row of gathers.

Double-ended arrow for the grain, double-ended bent arrow for the fold, crossed circle for the bust
point (University of Arkansas, Introduction to Apparel Production Workbook, ch. 8).
"""

from __future__ import annotations

from cutwright.drawing.primitives import Dot, Ink, Item, Layer, Stroke, Words
from cutwright.geometry.curve import Cubic, Line
from cutwright.geometry.path import Path, polyline
from cutwright.geometry.point import Point, unit

HEAD = 0.9
"""Length of an arrow's head, cm."""

SMALL = 0.28
"""Height of capitals of small words beside marks, cm."""


def arrow_head(tip: Point, along: Point, ink: Ink, size: float = HEAD) -> Stroke:
    """A filled head whose tip points along a direction."""
    back = tip - unit(along) * size
    wing = unit(along) * 1j * size * 0.28
    return Stroke(polyline([tip, back + wing, back - wing, tip]), ink, Layer.MARKS, True, True)


def arrow(start: Point, end: Point, ink: Ink, tag: str = "") -> list[Item]:
    """A line with a head at both ends; the line stops inside the heads."""
    along = unit(end - start)
    size = min(HEAD, abs(end - start) / 3)
    shaft = (Line(start + along * size * 0.8, end - along * size * 0.8),)
    return [
        Stroke(shaft, ink, Layer.MARKS, tag=tag),
        arrow_head(start, -along, ink, size),
        arrow_head(end, along, ink, size),
    ]


def bent_arrow(start: Point, end: Point, inward: Point, ink: Ink) -> list[Item]:
    """A bracket whose two heads point at a line: from the line in, along it, and back."""
    depth = inward
    size = min(HEAD, abs(depth) * 0.7)
    ends = [start + unit(depth) * size * 0.8, start + depth, end + depth]
    ends.append(end + unit(depth) * size * 0.8)
    return [
        Stroke(polyline(ends), ink, Layer.MARKS),
        arrow_head(start, -depth, ink, size),
        arrow_head(end, -depth, ink, size),
    ]


def notch(at: Point, inward: Point, along: Point, count: int, size: float) -> list[Item]:
    """Short strokes from the cut line into the allowance, side by side when there are several."""
    gap = 0.5
    out: list[Item] = []
    for k in range(count):
        foot = at + along * gap * (k - (count - 1) / 2)
        out.append(Stroke((Line(foot, foot + inward * size),), Ink.NOTCH, Layer.MARKS))
    return out


def drill_point(at: Point, tag: str = "") -> list[Item]:
    """A small circle with a cross through it."""
    return _crossed(at, 0.16, 0.3, tag)


def bust_point_sign(at: Point, tag: str = "") -> list[Item]:
    """A crossed circle."""
    return _crossed(at, 0.45, 0.45, tag)


def _crossed(at: Point, radius: float, arm: float, tag: str) -> list[Item]:
    return [
        Dot(at, radius, Ink.MARK, Layer.MARKS, fill=False, tag=tag),
        Stroke((Line(at - arm, at + arm),), Ink.MARK, Layer.MARKS),
        Stroke((Line(at - 1j * arm, at + 1j * arm),), Ink.MARK, Layer.MARKS),
    ]


def bar(at: Point, along: Point, size: float, ink: Ink = Ink.MARK, tag: str = "") -> Item:
    """A short straight stroke through a place."""
    half = unit(along) * size / 2
    return Stroke((Line(at - half, at + half),), ink, Layer.MARKS, tag=tag)


def wave(start: Point, end: Point, height: float, pitch: float = 0.9) -> Path:
    """A row of small waves from one place to another."""
    count = max(2, round(abs(end - start) / pitch)) // 2 * 2
    step = (end - start) / count
    up = unit(step) * 1j * height
    curves = []
    for k in range(count):
        a, b = start + step * k, start + step * (k + 1)
        lift = up if k % 2 else -up
        curves.append(Cubic(a, a + step / 3 + lift, b - step / 3 + lift, b))
    return tuple(curves)


def upright(middle: Point, along: Point, text: str) -> list[Item]:
    """Words about a middle along a direction, turned so that they are read from left or below."""
    way = unit(along)
    if way.real < -1e-3 or (abs(way.real) <= 1e-3 and way.imag > 0):
        way = -way
    base = middle + way * 1j * SMALL / 2
    return [Words(base, text, SMALL, Layer.TEXT, along=way, anchor="middle")]
