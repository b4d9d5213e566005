"""The marks of a finished piece drawn: notches, darts, gathers, zip end, figures along edges."""

from __future__ import annotations

import itertools
from collections.abc import Sequence

from cutwright.drawing.drawn_up import drawn_up
from cutwright.drawing.folded_away import fold_notches
from cutwright.drawing.level_lines import drawn_levels
from cutwright.drawing.primitives import Ink, Item, Layer, Stroke, Words
from cutwright.drawing.signs import (
    SMALL,
    bar,
    bent_arrow,
    bust_point_sign,
    drill_point,
    notch,
    upright,
)
from cutwright.drawing.type import text_width, words_box
from cutwright.finish.finished import FinishedPiece
from cutwright.geometry.curve import Line
from cutwright.geometry.outline import bounds
from cutwright.geometry.path import (
    Path,
    direction_at,
    direction_near,
    distance_from,
    nearest_distance,
    path_length,
    point_at,
)
from cutwright.geometry.point import Point, dot, unit
from cutwright.geometry.room import Room
from cutwright.numerals import amount_with_unit
from cutwright.pattern.edge import Edge, EdgeKind
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.piece import Level, Mark, Piece
from cutwright.pattern.takeup import FOLDS
from cutwright.wording.names import name_text
from cutwright.words import _, ngettext

_NOTCH = 0.6
_LINES = (MarkKind.LINE, MarkKind.OVERLAP)
_DRAWN_UP = (MarkKind.GATHERS, MarkKind.EASE)
_TAKEN_UP = (*_DRAWN_UP, *FOLDS)
_ALONG = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)


def drawn_marks(finished: FinishedPiece) -> list[Item]:
    """Every mark of a finished piece."""
    out: list[Item] = []
    for mark in finished.marks:
        tag = f"{finished.name}: {mark.kind}"
        edge = _edge_of(finished.piece, mark)
        if mark.kind is MarkKind.NOTCH and edge is not None:
            out += _notch(finished, edge, mark, out)
        elif mark.kind is MarkKind.DART_MOUTH:
            out += _dart_mouth(finished, mark)
        elif mark.kind is MarkKind.DRILL:
            out += drill_point(mark.at, tag)
        elif mark.kind is MarkKind.POINT:
            if mark.edge:  # a place of the draft, of no use at the sewing table
                continue
            out += bust_point_sign(mark.at, f"{finished.name}: {mark.text}")
        elif mark.kind in _TAKEN_UP and mark.to is not None:
            out += _taken_up(finished, edge, mark, tag)
        elif mark.kind is MarkKind.ZIP_END:
            out += _across(finished, edge, mark, _zip_words(mark))
        elif mark.kind is MarkKind.MEASURE and edge is not None:
            clear = _clear_of_gathers(finished, edge, 0.5)
            out += _along_edge(edge, mark.at, mark.text, clear)
        elif mark.kind in _LINES and mark.to is not None:
            out += _line(mark, tag)
        elif mark.text:
            out += [*drill_point(mark.at, tag), *_beside(mark.at, mark.text)]
    return out


def _taken_up(finished: FinishedPiece, edge: Edge | None, mark: Mark, tag: str) -> list[Item]:
    if mark.kind in FOLDS and edge is not None:
        return fold_notches(finished, edge, mark, tag)
    return drawn_up(edge, mark, tag)


def _edge_of(piece: Piece, mark: Mark) -> Edge | None:
    """The edge a mark sits on; of several parts the one it touches."""
    if not mark.edge:
        return None
    parts = [edge for edge in piece.edges if edge.answers_to(mark.edge)]
    if len(parts) < 2:
        return parts[0] if parts else None
    return min(parts, key=lambda e: distance_from(e.curves, mark.at))


def _frame(edge: Edge, at: Point) -> tuple[Point, Point]:
    """The direction of travel and the outward direction at a place on an edge."""
    along = direction_near(edge.curves, at)
    return along, along * -1j


def _notch(
    finished: FinishedPiece, edge: Edge, mark: Mark, there: Sequence[Item] = ()
) -> list[Item]:
    allowance = finished.cut_line.edge(edge.label).allowance
    along, out = _frame(edge, mark.at)
    count = int(mark.text) if mark.text.isdigit() else 1
    size = min(_NOTCH, allowance * 0.6) if allowance else _NOTCH * 0.8
    items = notch(mark.at + out * allowance, -out, along, count, size)
    words = mark.text if mark.text and not mark.text.isdigit() else notch_words(mark)
    if words:
        clear = _clear_of_gathers(finished, edge, 0.4)
        at = _inside_ends(edge, mark.at, words)
        rows = [_along_edge(edge, at, words, clear + row * 1.6 * SMALL) for row in range(4)]
        items += next((row for row in rows if not _overlaps(row, there)), rows[0])
    return items


def _inside_ends(edge: Edge, at: Point, words: str) -> Point:
    """The place nearest to a mark at which words along an edge end before the edge does."""
    size, half = edge.length, text_width(words, SMALL) / 2 + 0.3
    if size < 2 * half:
        return at
    return point_at(edge.curves, min(max(nearest_distance(edge.curves, at), half), size - half))


def _overlaps(items: Sequence[Item], there: Sequence[Item]) -> bool:
    """Whether words among some items lie on words that are there already."""
    boxes, taken = ([words_box(w) for w in row if isinstance(w, Words)] for row in (items, there))
    return any(
        a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3] for a in boxes for b in taken
    )


def _clear_of_gathers(finished: FinishedPiece, edge: Edge, usual: float) -> float:
    """How far inside an edge words stand, beyond the sign of gathers or ease where there is one."""
    held = any(m.kind in _DRAWN_UP and m.edge == edge.label for m in finished.marks)
    return 1.9 if held else usual


def notch_words(mark: Mark) -> str:
    """What stands beside a notch: what it meets on the other side, on which parts it is for."""
    out = [name_text(mark.meets)] if mark.meets else []
    if mark.copies:
        parts = ", ".join(map(str, mark.copies))
        out.append(
            ngettext("only on part {parts}", "only on parts {parts}", len(mark.copies)).format(
                parts=parts
            )
        )
    return ", ".join(out)


def _dart_mouth(finished: FinishedPiece, mark: Mark) -> list[Item]:
    """A notch on the cut line where a dart's leg, run on, meets it."""
    if mark.to is None or not mark.edge:
        return []
    cut = finished.cut_line.edge(mark.edge)
    if not cut.curves:
        return []
    foot = min((cut.curves[0].start, cut.curves[-1].end), key=lambda p: abs(p - mark.at))
    inward = unit(mark.to - mark.at)
    return notch(foot, inward, inward * 1j, 1, min(_NOTCH, cut.allowance * 0.6) or _NOTCH * 0.8)


def _across(finished: FinishedPiece, edge: Edge | None, mark: Mark, words: str) -> list[Item]:
    """A bar across the stitch line with words beside it, inside the piece."""
    if edge is None:
        return _beside(mark.at, words)
    along, out = _frame(edge, mark.at)
    start = mark.at - out * 0.7
    anchor = "start" if -out.real > 0 else "end"
    if abs(out.real) < 0.5:
        return [bar(mark.at, out, 1.4), *upright(mark.at - out * 1.2, along, words)]
    place = start - out * 0.25 + 1j * SMALL / 2
    ways: list[list[Item]] = [
        [Words(place + shift * 1j, words, SMALL, Layer.TEXT, anchor=anchor)]
        for shift in (0.0, 0.6, -0.6)
    ]
    beside = along * (text_width(words, SMALL) / 2 + 0.5)
    ways += [upright(mark.at - out * 0.65 + shift, along, words) for shift in (-beside, beside)]
    sign = bar(mark.at, out, 1.4, tag=f"{finished.name}: {mark.kind}")
    lines = [finished.grain, *(level.points for level in finished.piece.levels)]
    return [sign, *_clear(lines, ways)]


def _zip_words(mark: Mark) -> str:
    """ "zip end", with the length of the opening where the mark holds it."""
    if mark.amount is None:
        return mark.text or _("zip end")
    return _("zip end, {length}").format(length=amount_with_unit(mark.amount))


def _along_edge(edge: Edge, at: Point, text: str, clear: float) -> list[Item]:
    """Words along an edge, inside the stitch line."""
    along, out = _frame(edge, at)
    return upright(at - out * (clear + SMALL / 2), along, text)


def _beside(at: Point, text: str) -> list[Item]:
    return [Words(at + 0.5 + 1j * SMALL / 2, text, SMALL, Layer.TEXT)]


def _line(mark: Mark, tag: str) -> list[Item]:
    assert mark.to is not None
    out: list[Item] = [Stroke((Line(mark.at, mark.to),), Ink.MARK, Layer.MARKS, tag=tag)]
    along = unit(mark.to - mark.at)
    if mark.kind is MarkKind.OVERLAP:
        words = _("overlap {length}").format(length=amount_with_unit(mark.amount or 0.0))
        share = 0.75 if abs(mark.to - mark.at) > 2 * text_width(words, SMALL) else 0.5
        out += upright(mark.at + (mark.to - mark.at) * share - along * 1j * 0.4, along, words)
    elif mark.text:
        out += upright((mark.at + mark.to) / 2 + along * 1j * 0.4, along, name_text(mark.text))
    return out


def fold_brackets(piece: Piece) -> list[Item]:
    """A bent arrow at each fold, with the words that say so."""
    out: list[Item] = []
    left, _top, right, _bottom = bounds(piece.outline)
    for edge in piece.edges:
        if edge.kind is not EdgeKind.FOLD:
            continue
        along = unit(edge.end - edge.start)
        size = edge.length
        inset = min(6.0, size * 0.2)
        depth = min(1.5, (right - left) * 0.2)
        inward = along * 1j
        start, end = edge.start + along * inset, edge.end - along * inset
        out += bent_arrow(start, end, inward * depth, Ink.GRAIN)
        words = _("place on the fold of the cloth")
        if text_width(words, SMALL) > size - 2 * inset:
            words = _("fold")
        ways = [start + (end - start) * share + inward * (depth + 0.45) for share in _ALONG]
        lines = [level.points for level in piece.levels]
        out += _clear(lines, [upright(way, along, words) for way in ways])
    return out


def _clear(lines: Sequence[Sequence[Point]], ways: Sequence[list[Item]]) -> list[Item]:
    """The first way of setting some words that none of the lines crosses; else the first."""
    for way in ways:
        if not any(_crosses(line, item) for line in lines for item in way):
            return way
    return ways[0]


def _crosses(line: Sequence[Point], item: Item) -> bool:
    """Whether a polyline runs through some words."""
    if not isinstance(item, Words):
        return False
    left, top, right, bottom = words_box(item)
    middle, half = complex(left + right, top + bottom) / 2, complex(right - left, bottom - top) / 2
    for a, b in itertools.pairwise(line):
        across = unit(b - a) * 1j
        reach = abs(half.real * across.real) + abs(half.imag * across.imag)
        at = ((middle - a) * (b - a).conjugate()).real / max(abs(b - a), 1e-9)
        if abs(dot(across, middle - a)) < reach + 0.1 and -2 < at < abs(b - a) + 2:
            return True
    return False


def levels(finished: FinishedPiece, room: Room) -> list[Item]:
    """Thin lines at the levels of the body, with their names where there is room."""
    if not finished.levels:
        return []
    out: list[Item] = []
    for level in finished.piece.levels:
        if _is_an_edge(finished.piece, level):
            continue
        tag = f"{finished.name}: {level.name}"
        lines = drawn_levels(finished.piece, level)
        out += [Stroke(line, Ink.LEVEL, Layer.MARKS, tag=tag) for line in lines]
        out += _level_name(lines, name_text(level.name), room)
    return out


def _level_name(lines: Sequence[Path], name: str, room: Room) -> list[Item]:
    """The name of a level along its longest stretch, where there is room."""
    wide = text_width(name, SMALL)
    line = max(lines, key=path_length)
    size = path_length(line)
    for share in (0.8, 0.2, 0.65, 0.35, 0.5):
        at, along = point_at(line, share * size), direction_at(line, share * size)
        up = along * (1j if along.real < 0 else -1j)
        if room.is_free(at + up * 0.35, wide + 0.2, SMALL + 0.3):
            return upright(at + up * 0.45, along, name)
    return []


def _is_an_edge(piece: Piece, level: Level) -> bool:
    """Whether a level is an edge of the piece, as where it was cut apart there."""
    return any(edge.name == level.name for edge in piece.edges)
