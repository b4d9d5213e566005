"""How a lay is drawn: the cloth with its fold, nap and repeat, and the pieces as they lie on it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from math import radians

from cutwright.drawing.lay_words import copies_words
from cutwright.drawing.primitives import Drawing, Ink, Item, Layer, Stroke, Words
from cutwright.drawing.signs import arrow, arrow_head
from cutwright.drawing.type import text_width
from cutwright.finish.finished import FinishedPattern, FinishedPiece
from cutwright.finish.grain import dart_lines
from cutwright.geometry.curve import Line
from cutwright.geometry.move import Move
from cutwright.geometry.outline import bounds
from cutwright.geometry.path import Path, polyline
from cutwright.geometry.point import Point, direction
from cutwright.geometry.room import room_in, roomiest
from cutwright.lay.by_hand import upper_only
from cutwright.lay.cloth import ALONG, Cloth
from cutwright.lay.piece import LayPiece, whole
from cutwright.lay.plan import ClothPart, Lay, Placement
from cutwright.numerals import bare, by_custom, in_inches, length_words
from cutwright.units import CM_PER_INCH
from cutwright.wording.names import called, name_text
from cutwright.words import _

_SMALL, _LARGE = 1.4, 6.0
"""Least and largest capitals of the words, cm on the cloth."""

_MOST_LINES = 400
_TICKS = {"cm": (10.0, 5), "in": (6 * CM_PER_INCH, 3)}
"""How far apart the strokes of the scale stand, cm, and how many there are from figure to figure."""


def draw_lay(
    lay: Lay, pieces: Mapping[str, LayPiece], finished: FinishedPattern | None = None
) -> Drawing:
    """A lay on its cloth, in cm: x along the cloth, y from the fold or selvedge downwards.

    `pieces` are those that were laid, by name; with the finished pattern their true curves and
    grain lines are drawn. Pieces are numbered in the order of cutting.
    """
    items = list(cloth_items(lay))
    for placed in placed_items(lay, pieces, finished):
        items += placed
    return Drawing(tuple(items))


def cloth_items(lay: Lay) -> Iterator[Item]:
    """The bare cloth with its fold, nap and repeat, stretch by stretch."""
    for part in lay.parts:
        yield from _cloth(part, lay.cloth, _capitals(lay))
    yield from _scale(lay)


def _scale(lay: Lay) -> Iterator[Item]:
    """A scale along the cloth, from its end: a stroke every 10 cm and a figure every 50, or every 6 and 18 inches."""
    capitals = _capitals(lay)
    tick, named = _TICKS["in" if in_inches() else "cm"]
    y = max(part.height for part in lay.parts) + 3.2 * capitals
    end = max(part.start + part.length for part in lay.parts)
    yield Stroke((Line(complex(0, y), complex(end, y)),), Ink.NOTE, Layer.CLOTH, tag="scale")
    for k in range(int(end / tick) + 1):
        x, large = k * tick, not k % named
        high = capitals * (0.7 if large else 0.35)
        yield Stroke((Line(complex(x, y), complex(x, y + high)),), Ink.NOTE, Layer.CLOTH)
        if large:
            at = complex(x, y + 1.7 * capitals)
            anchor = "middle" if k else "start"
            text = bare(x, 0) if k else length_words(0.0, 0)
            yield Words(at, text, capitals * 0.7, Layer.TEXT, Ink.NOTE, anchor=anchor)


def placed_items(
    lay: Lay, pieces: Mapping[str, LayPiece], finished: FinishedPattern | None = None
) -> Iterator[tuple[Item, ...]]:
    """What is drawn for each placement of a lay, in the order of cutting."""
    by_name = {p.name: p for p in finished.pieces} if finished else {}
    for number, placement in enumerate(lay.placements, 1):
        piece = pieces[placement.piece]
        how = copies_words(placement, upper_only(placement, lay.parts[placement.part]))
        lines = (f"{number}. {name_text(placement.piece)}", how)
        yield tuple(_piece(placement, piece, by_name.get(placement.piece), lines, _capitals(lay)))


def _capitals(lay: Lay) -> float:
    """The height of the words, cm on the cloth: legible when the lay fills a page."""
    return min(max(0.011 * lay.length, _SMALL), _LARGE)


def _cloth(part: ClothPart, cloth: Cloth, capitals: float) -> Iterator[Item]:
    left, right, high = part.start, part.start + part.length, part.height
    corners = [complex(left, 0), complex(right, 0), complex(right, high), complex(left, high)]
    ground = polyline([*corners, corners[0]])
    yield Stroke(ground, Ink.CLOTH, Layer.CLOTH, closed=True, fill=True, tag="cloth")
    for path in _repeat(part, cloth):
        yield Stroke(path, Ink.LEVEL, Layer.CLOTH)
    yield Stroke(ground, Ink.CLOTH, Layer.CLOTH, closed=True)
    twice = part.fold == "selvedges to the middle"
    if part.fold in ALONG:
        yield Stroke((Line(corners[0], corners[1]),), Ink.FOLD, Layer.CLOTH)
    if twice:
        yield Stroke((Line(corners[3], corners[2]),), Ink.FOLD, Layer.CLOTH)
        yield from _seen_from_the_end(part, capitals)
    top = _("fold") if part.fold in ALONG else _("selvedge")
    foot = _("fold") if twice else _("selvedge")
    yield _words(complex(left + 1, -0.6 * capitals), top, capitals)
    yield _words(complex(left + 1, high + 1.6 * capitals), foot, capitals)
    if cloth.nap == "one way":
        at = complex(left + 14 * capitals, high + 1.2 * capitals)
        yield Stroke((Line(at, at + 12),), Ink.ARROW, Layer.CLOTH, tag="nap")
        yield arrow_head(at + 14, 1 + 0j, Ink.ARROW, 3.0)
        yield _words(at + complex(16, 0.8), _("nap, one way"), capitals)


def _seen_from_the_end(part: ClothPart, capitals: float) -> Iterator[Item]:
    """Where the selvedges meet, and beside it the folded cloth as it looks from its end."""
    left, high = part.start, part.height
    yield Stroke(
        (Line(complex(left, high / 2), complex(left + part.length, high / 2)),),
        Ink.CLOTH, Layer.CLOTH, tag="meeting",
    )  # fmt: skip
    lower, upper, gap = left - 2.6 * capitals, left - 1.4 * capitals, 0.9 * capitals
    for fold, meets in ((0.0, high / 2 - gap), (high, high / 2 + gap)):
        corners = [(lower, high / 2), (lower, fold), (upper, fold), (upper, meets)]
        yield Stroke(polyline([complex(*at) for at in corners]), Ink.NOTE, Layer.CLOTH)
    at = complex(lower - 0.6 * capitals, high / 2)
    text, size = _("both selvedges to the middle"), capitals * 0.8
    yield Words(at, text, size, Layer.TEXT, Ink.NOTE, -1j, "middle", tag="from the end")


def _words(at: Point, text: str, capitals: float) -> Words:
    return Words(at, text, capitals * 0.8, Layer.TEXT, Ink.NOTE)


def _repeat(part: ClothPart, cloth: Cloth) -> Iterator[Path]:
    """Lines of the repeat, across and along, as they show on this stretch."""
    right = part.start + part.length
    if cloth.repeat_along:
        count = min(int(part.length / cloth.repeat_along), _MOST_LINES)
        for k in range(1, count + 1):
            x = part.start + k * cloth.repeat_along
            yield (Line(complex(x, 0), complex(x, part.height)),)
    if cloth.repeat_across:
        start = 0.0 if part.fold == "lengthwise" else (cloth.usable / 2) % cloth.repeat_across
        count = min(int((part.height - start) / cloth.repeat_across), _MOST_LINES)
        for k in range(0 if start else 1, count + 1):
            y = start + k * cloth.repeat_across
            yield (Line(complex(part.start, y), complex(right, y)),)


def move_of(placement: Placement) -> Move:
    """The rigid move that puts a piece of paper where it lies on the cloth."""
    return Move(
        direction(radians(placement.rotation)),
        complex(placement.x, placement.y),
        placement.mirrored,
    )


def _piece(
    placement: Placement,
    piece: LayPiece,
    finished: FinishedPiece | None,
    lines: tuple[str, str],
    capitals: float,
) -> Iterator[Item]:
    move = move_of(placement)
    outline = _outline(placement, piece, finished)
    path = tuple(curve.moved(move) for curve in outline)
    tag = f"{placement.piece}: {lines[0].partition('.')[0]}"
    yield Stroke(path, Ink.PAPER, Layer.CUT, closed=True, fill=True, tag=tag)
    inside, taken = path, list[list[Point]]()
    if finished and not placement.opened and piece.name == finished.name:
        taken = [list(map(move, line)) for line in dart_lines(finished.piece)]
        taken.append([move(end) for end in finished.grain])
        inside = tuple(curve.moved(move) for curve in finished.piece.outline)
        yield Stroke(inside, Ink.STITCH, Layer.STITCH, closed=True)
        yield from arrow(move(finished.grain[0]), move(finished.grain[1]), Ink.GRAIN)
    yield Stroke(path, Ink.CUT, Layer.CUT, closed=True, tag=tag)
    if placement.on_fold and piece.fold:
        yield Stroke((Line(move(piece.fold[0]), move(piece.fold[1])),), Ink.FOLD, Layer.CUT)
    yield from _name(inside, taken, lines, capitals)


def _outline(placement: Placement, piece: LayPiece, finished: FinishedPiece | None) -> Path:
    if placement.opened:
        ring = whole(piece).outline
    elif finished is not None and piece.name == finished.name:
        return finished.cut_line.outline
    else:
        ring = piece.outline
    return polyline([*ring, ring[0]])


_SHARES = (1.0, 0.85, 0.7, 0.6, 0.5, 0.4, 0.33)
"""How much smaller a name may be written to stand clear of lines."""


def _name(
    path: Path, taken: Sequence[Sequence[Point]], lines: tuple[str, str], capitals: float
) -> Iterator[Words]:
    """Number and name, and below how it is cut, as large as they fit; in a sliver the number."""
    left, top, right, bottom = bounds(path)
    ways = (1j, 1 + 0j) if bottom - top > (right - left) * 1.6 else (1 + 0j, 1j)
    for told_ in (lines, lines[:1], (lines[0].partition(" ")[0],)):
        longest = max(text_width(line, 1.0, bold=True) for line in told_)
        for along in ways:
            found = _place(path, taken, along, (longest, 1.7 * len(told_) - 0.4), capitals)
            if found is not None:
                yield from _set(told_, *found, along)
                return
    wish, reach = roomiest(path)
    yield from _set((lines[0].partition(" ")[0],), wish, min(capitals, 0.6 * reach), 1 + 0j)


def _set(lines: Sequence[str], middle: Point, size: float, along: Point) -> Iterator[Words]:
    first = 0.5 - 0.85 * (len(lines) - 1)
    for k, line in enumerate(lines):
        at = middle + along * 1j * ((first + 1.7 * k) * size)
        yield Words(at, line, size, Layer.TEXT, Ink.TEXT, along, "middle", bold=k == 0)


def _place(
    path: Path,
    taken: Sequence[Sequence[Point]],
    along: Point,
    block: tuple[float, float],
    capitals: float,
) -> tuple[Point, float] | None:
    """Where a block of words goes in and how large: clear of darts and grain if there is room.

    `block` is its width and height for capitals of 1 cm.
    """
    wish, _reach = roomiest(path)
    inside = room_in(path, along, 0.15 * capitals)
    for room in (inside.without(taken, 0.25 * capitals), inside):
        for size in (capitals * share for share in _SHARES):
            middle = room.fits(block[0] * size, block[1] * size, wish)
            if middle is not None:
                return middle, size
    return None


def lay_captions(lay: Lay, bought: str) -> tuple[str, ...]:
    """What stands beside the drawing: length, utilisation and the verifier's word."""
    ended = "ended early" in lay.engine
    return (
        by_custom(
            _("{cloth}: {length} used, {share:.0f} % of the cloth in the pieces").format(
                cloth=called(lay.cloth.name),
                length=length_words(lay.length),
                share=100 * lay.utilisation,
            )
        ),
        bought,
        _("checked: every copy there, no overlap, grain, fold and repeat kept")
        if lay.verified
        else _("not checked"),
        *([_("The second search ended early; this is the best lay found.")] if ended else []),
    )
