"""The sign of a pleat or tuck: a notch where it begins and where it ends, what it is and what it takes up."""

from __future__ import annotations

from cutwright.drawing.primitives import Ink, Item, Layer, Stroke
from cutwright.drawing.signs import arrow_head, notch, upright
from cutwright.finish.finished import FinishedPiece
from cutwright.geometry.curve import Line
from cutwright.geometry.path import direction_at, nearest_distance, point_at
from cutwright.geometry.point import Point
from cutwright.numerals import amount_with_unit
from cutwright.pattern.edge import Edge
from cutwright.pattern.mark import MarkKind, Pressed
from cutwright.pattern.piece import Mark
from cutwright.words import N_, _

_NOTCH, _WORDS, _ARROW, _REACH, _HEAD = 0.6, 0.9, 1.5, 2.0, 0.3
_PLEATS: dict[Pressed | None, str] = {
    Pressed.APART: N_("box pleat, {length}"),
    Pressed.TOGETHER: N_("inverted pleat, {length}"),
    Pressed.ONWARDS: N_("pleat, {length}"),
    Pressed.BACKWARDS: N_("pleat, {length}"),
    None: N_("pleat, {length}"),
}


def fold_notches(finished: FinishedPiece, edge: Edge, mark: Mark, tag: str) -> list[Item]:
    """Two notches on the cut line and words between them, inside the edge."""
    assert mark.to is not None
    allowance = finished.cut_line.edge(edge.label).allowance
    size = min(_NOTCH, allowance * 0.6) if allowance else _NOTCH * 0.8
    ends = sorted(nearest_distance(edge.curves, p) for p in (mark.at, mark.to))
    out: list[Item] = []
    for distance in ends:
        along = direction_at(edge.curves, distance)
        at = point_at(edge.curves, distance) + along * -1j * allowance
        out += notch(at, along * 1j, along, 1, size)
    middle = sum(ends) / 2
    along = direction_at(edge.curves, middle)
    at, inward = point_at(edge.curves, middle), along * 1j
    reach = along * min(_REACH, (ends[1] - ends[0]) / 2)
    out += upright(at + inward * _WORDS, along, _words(mark))
    return out + _arrows(at + inward * _ARROW, reach, mark.pressed, tag)


def _arrows(at: Point, reach: Point, pressed: Pressed | None, tag: str) -> list[Item]:
    """Which way the folds are pressed."""
    tips = {
        Pressed.APART: ((at, at + reach), (at, at - reach)),
        Pressed.TOGETHER: ((at + reach, at), (at - reach, at)),
        Pressed.ONWARDS: ((at - reach, at + reach),),
        Pressed.BACKWARDS: ((at + reach, at - reach),),
    }
    out: list[Item] = []
    for start, tip in tips[pressed] if pressed else ():
        out.append(Stroke((Line(start, tip),), Ink.MARK, Layer.MARKS, tag=tag))
        out.append(arrow_head(tip, tip - start, Ink.MARK, _HEAD))
    return out


def _words(mark: Mark) -> str:
    if mark.kind is MarkKind.TUCK:
        return _("tuck, {length}").format(length=amount_with_unit(mark.amount or 0.0))
    return _(_PLEATS[mark.pressed]).format(length=amount_with_unit(mark.amount or 0.0))
