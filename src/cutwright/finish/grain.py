"""The grain line, placed inside the piece where it can be laid against the selvedge and read."""

from __future__ import annotations

from cutwright.geometry.outline import bounds
from cutwright.geometry.path import Path
from cutwright.geometry.point import Point, unit
from cutwright.geometry.room import room_in
from cutwright.pattern.edge import Kind
from cutwright.pattern.piece import Piece

LONGEST = 40.0
CLEAR = 1.2
_SHARES = (0.6, 0.5, 0.4, 0.3, 0.2, 0.12, 0.06)


def grain_line(piece: Piece) -> tuple[Point, Point]:
    """The two ends of the grain line: the direction of the draft, in a place clear of all lines.

    At most 40 cm and six tenths of the piece long, beside its middle so that the middle stays
    free for words, clear of the stitch line and of darts by 1.2 cm (common practice).
    """
    start, end = piece.grain
    along = unit(end - start)
    if not along:
        along = 1j
    room = room_in(piece.outline, along, CLEAR, 1200).without(dart_lines(piece), CLEAR * 0.6)
    folds = [[e.start, e.end] for e in piece.edges if e.kind is Kind.FOLD]
    if folds:  # room for the bracket and its words
        room = room.without(folds, 3.0)
    left, top, right, bottom = bounds(list(turned(piece.outline, along)))
    long = right - left
    wish = complex((left + right) / 2, top + (bottom - top) * 0.68) * along
    for share in _SHARES:
        size = min(LONGEST, long * share)
        middle = room.fits(size, 0.4, wish)
        if middle is not None:
            return middle - along * size / 2, middle + along * size / 2
    centre = complex((left + right) / 2, (top + bottom) / 2) * along
    half = min(1.0, long / 4)
    return centre - along * half, centre + along * half


def turned(path: Path, along: Point) -> Path:
    """The path in a frame whose x axis runs along a direction."""
    from cutwright.geometry.move import Move
    from cutwright.geometry.path import moved_path

    return moved_path(path, Move(along.conjugate()))


def dart_lines(piece: Piece) -> list[list[Point]]:
    """The lines of all darts as polylines, legs and the crease between them."""
    lines: list[list[Point]] = []
    for dart in piece.darts:
        a, b = piece.mouth(dart)
        lines += [[a, dart.tip, b], [(a + b) / 2, dart.tip]]
    for d in piece.diamonds:
        lines += [[d.top, d.near, d.bottom, d.far, d.top], [d.top, d.bottom]]
    return lines
