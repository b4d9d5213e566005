"""The sign of an edge that is drawn up: from where to where, by how much, gathered or eased."""

from __future__ import annotations

from cutwright.drawing.primitives import Ink, Item, Layer, Stroke
from cutwright.drawing.signs import bar, upright, wave
from cutwright.geometry.offset import offset_path
from cutwright.geometry.path import (
    Path,
    between_distances,
    direction_at,
    nearest_distance,
    path_length,
    point_at,
    polyline,
)
from cutwright.numerals import amount_with_unit
from cutwright.pattern.edge import Edge
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.piece import Mark
from cutwright.words import _

_INSIDE = 0.5
_DASH, _GAP = 0.5, 0.35


def drawn_up(edge: Edge | None, mark: Mark, tag: str) -> list[Item]:
    """A line inside the edge with a bar at each end: waves for gathers, dashes for ease."""
    assert mark.to is not None
    if edge is None:
        inside = polyline([mark.at, mark.to])
    else:
        ends = sorted(nearest_distance(edge.curves, p) for p in (mark.at, mark.to))
        inside = offset_path(between_distances(edge.curves, *ends), -_INSIDE)
    size = path_length(inside)
    lines = _waves(inside, size) if mark.kind is MarkKind.GATHERS else _dashes(inside, size)
    out: list[Item] = [Stroke(line, Ink.MARK, Layer.MARKS, tag=tag) for line in lines]
    for d in (0.0, size):
        out.append(bar(point_at(inside, d), direction_at(inside, d) * 1j, 0.6, tag=tag))
    middle, along = point_at(inside, size / 2), direction_at(inside, size / 2)
    return out + upright(middle + along * 1j * 0.75, along, _words(mark))


def _words(mark: Mark) -> str:
    gathered = mark.kind is MarkKind.GATHERS
    if mark.amount is None:
        return _("gathers") if gathered else _("ease")
    said = _("gather in {length}") if gathered else _("ease in {length}")
    return said.format(length=amount_with_unit(mark.amount))


def _waves(inside: Path, size: float) -> list[Path]:
    """Straight, a few waves about the middle, straight again."""
    wide = min(6.0, size * 0.4)
    middle, along = point_at(inside, size / 2), direction_at(inside, size / 2)
    half, gap = along * wide / 2, (size - wide) / 2
    return [
        between_distances(inside, 0.0, gap),
        wave(middle - half, middle + half, 0.22),
        between_distances(inside, size - gap, size),
    ]


def _dashes(inside: Path, size: float) -> list[Path]:
    """Dashes of even length that begin and end with a whole one."""
    count = max(2, round((size + _GAP) / (_DASH + _GAP)))
    dash = (size - _GAP * (count - 1)) / count
    if dash <= 0.05:
        return [inside]
    return [
        between_distances(inside, k * (dash + _GAP), k * (dash + _GAP) + dash) for k in range(count)
    ]
