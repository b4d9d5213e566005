"""The grain line, placed inside the piece where it can be laid against the selvedge and read."""

from __future__ import annotations

from cutwright.geometry.outline import flattened
from cutwright.geometry.point import Point, unit
from cutwright.geometry.room import Room, room_in
from cutwright.memo import memoised
from cutwright.pattern.edge import EdgeKind
from cutwright.pattern.piece import Piece

LONGEST = 40.0
CLEAR = 1.2
WORDS_CLEAR = 0.45
"""How far words stay from lines, cm."""
_LABELS = ((4.4, 4.0), (2.4, 5.6), (5.6, 2.4))
"""Blocks one of which a small label needs beside the grain line, wide and high, cm."""

_WISHES = ((0.5, 0.68), (0.9, 0.5), (0.1, 0.5), (0.5, 0.9), (0.5, 0.1))
"""Where the middle of the grain line should lie, along it and across, in shares of the piece."""
_SHARES = (0.6, 0.5, 0.4, 0.3, 0.2, 0.12, 0.06)


@memoised
def paper_room(piece: Piece) -> Room:
    """The room for words and lines on a piece's paper, along the x axis."""
    return room_in(piece.outline, 1 + 0j, WORDS_CLEAR)


@memoised
def grain_line(piece: Piece) -> tuple[Point, Point]:
    """The two ends of the grain line: the direction of the draft, in a place clear of all lines.

    At most 40 cm and six tenths of the piece long, beside its middle so that the middle stays
    free for words, clear of the stitch line and of darts by 1.2 cm (common practice). It is shorter
    on a piece so narrow that no label would find room beside it.
    """
    start, end = piece.grain
    along = unit(end - start) or 1j
    level, upright = abs(along.imag) < 1e-9, abs(along.real) < 1e-9
    if level or upright:
        room = paper_room(piece)
    else:
        room = room_in(piece.outline, along, WORDS_CLEAR)
    room = room.without(dart_lines(piece), WORDS_CLEAR)
    folds = [[e.start, e.end] for e in piece.edges if e.kind is EdgeKind.FOLD]
    if folds:  # room for the bracket and its words
        room = room.without(folds, 3.0 - CLEAR + WORDS_CLEAR)
    ring = [p * along.conjugate() for p in flattened(piece.outline, 0.1)]
    left, right = min(p.real for p in ring), max(p.real for p in ring)
    top, bottom = min(p.imag for p in ring), max(p.imag for p in ring)
    wishes = [
        complex(left + (right - left) * x, top + (bottom - top) * y) * along for x, y in _WISHES
    ]
    beside = 2 * (CLEAR - WORDS_CLEAR)
    found: tuple[Point, Point] | None = None
    for share in _SHARES:
        size = min(LONGEST, (right - left) * share)
        long, wide = size + beside, beside
        for wish in wishes:
            middle = room.fits(wide, long, wish) if upright else room.fits(long, wide, wish)
            if middle is None:
                break
            ends = (middle - along * size / 2, middle + along * size / 2)
            if _leaves_room(room, ends, middle):
                return ends
            found = found or ends
    if found is not None:
        return found
    centre = complex((left + right) / 2, (top + bottom) / 2) * along
    half = min(1.0, (right - left) / 4)
    return centre - along * half, centre + along * half


def _leaves_room(room: Room, ends: tuple[Point, Point], middle: Point) -> bool:
    """Whether a label finds room beside a grain line."""
    left = room.without([list(ends)], WORDS_CLEAR)
    return any(left.fits(wide, high, middle) is not None for wide, high in _LABELS)


def dart_lines(piece: Piece) -> list[list[Point]]:
    """The lines of all darts as polylines, legs and the crease between them."""
    lines: list[list[Point]] = []
    for dart in piece.darts:
        a, b = piece.mouth(dart)
        lines += [[a, dart.tip, b], [(a + b) / 2, dart.tip]]
    for d in piece.diamonds:
        lines += [[d.top, d.near, d.bottom, d.far, d.top], [d.top, d.bottom]]
    return lines
