"""The first of the home tiles: the scale square, what to do, and a small picture of the whole."""

from __future__ import annotations

from collections.abc import Sequence

from cutwright.drawing.primitives import Drawing, Ink, Item, Layer, Stroke, Words
from cutwright.drawing.type import text_width, wrapped
from cutwright.geometry.room import roomiest
from cutwright.paper.arrange import ArrangedShape, PaperSpread
from cutwright.paper.furniture import (
    SQUARE,
    drawn_rectangle,
    fault_words,
    fitting_height,
    line,
    scale_square,
    title_words,
)
from cutwright.paper.grid import Grid, Paper, Place, code, row_word
from cutwright.paper.pdf import Plate, PlatePart
from cutwright.paper.pieces import PlacedPiece, Title
from cutwright.wording.names import name_text, sentence_case
from cutwright.words import _, ngettext

_TEXT = 0.21
_LEAD = 0.36


def plan_parts(
    spread: PaperSpread,
    pieces: Sequence[PlacedPiece],
    grid: Grid,
    places: set[Place],
    paper: Paper,
    title: Title,
) -> list[PlatePart]:
    """The plates of the first sheet, in its frame; `pieces` are those of the spread in place."""
    margin = complex(paper.margin, paper.margin)
    words, low = title_words(title, 0j, paper.wide)
    square_top = complex(0, low + 0.2)
    beside = paper.wide - SQUARE - 0.8
    advice, advice_low = _advice(grid, places, paper, square_top + SQUARE + 0.8, beside)
    below = max(square_top.imag + SQUARE, advice_low) + 0.5
    faults, low = fault_words(title.faults, complex(0, below), paper.wide)
    top = low + (0.5 if title.faults else 0.0)
    head = words + advice + faults
    scale, corner = _room(grid, paper, top)
    plan = _plan(grid, places, scale, corner) + _names(spread, scale, corner)
    return [
        PlatePart(Plate("title", scale_square()), margin + square_top),
        PlatePart(Plate("title", head), margin),
        PlatePart(Plate("title", _outlines(pieces), scale), margin + corner),
        PlatePart(Plate("title", plan), margin),
    ]


def _advice(
    grid: Grid, places: set[Place], paper: Paper, at: complex, width: float
) -> tuple[Drawing, float]:
    count = ngettext(
        "{count} sheet of {paper} and this one.",
        "{count} sheets of {paper} and this one.",
        len(places),
    )
    texts = [
        count.format(count=len(places), paper=paper.name),
        _(
            "1. Print this sheet alone at 100 % (“actual size”, never “fit to page”) and measure the square. Go on only if it is right."
        ),
        _(
            "2. Each sheet has the word of its row and its number in the row: {first}, {second} …"
        ).format(first=code((0, 0)), second=code((0, 1))),
        _(
            "3. Where an edge says so, cut the margin off. A steel rule and a fresh blade go straight; keep your fingers behind the rule and cut away from yourself."
        ),
        _(
            "4. Lay the cut edge on the dashed line of the neighbour that names it. Each cross is half on either sheet: make it whole, then tape."
        ),
        _("5. Join the sheets of a row, then the rows."),
    ]
    if len(places) < grid.rows * grid.columns:
        texts.append(_("Nothing is printed where the plan is crossed out; leave that place open."))
    items: list[Item] = []
    y = at.imag
    for index, text in enumerate(texts):
        for part in wrapped(text, _TEXT, width, bold=index == 0):
            y += _LEAD
            items.append(Words(complex(at.real, y), part, _TEXT, bold=index == 0))
        y += 0.14
    return Drawing(tuple(items)), y


def _room(grid: Grid, paper: Paper, top: float) -> tuple[float, complex]:
    """How large the plan is drawn, and where its left upper corner lies."""
    names = 1.9
    wide = grid.columns * grid.across + grid.overlap
    high = grid.rows * grid.down + grid.overlap
    scale = min((paper.wide - names) / wide, (paper.high - top - 0.6) / high, 0.25)
    return scale, complex(names + (paper.wide - names - wide * scale) / 2, top + 0.4)


def _outlines(pieces: Sequence[PlacedPiece]) -> Drawing:
    """The outline of every piece, or all its lines where it has no closed outline."""
    items: list[Item] = []
    for piece in pieces:
        strokes = [i for i in piece.drawing.items if isinstance(i, Stroke)]
        rings = [s for s in strokes if s.closed and s.ink in (Ink.PAPER, Ink.CUT)]
        found = rings[:1] or strokes
        items += [Stroke(s.path, Ink.MARK, Layer.TEXT, closed=s.closed) for s in found]
    return Drawing(tuple(items))


def _plan(grid: Grid, places: set[Place], scale: float, corner: complex) -> Drawing:
    items: list[Item] = []
    size = min(0.26, 0.2 * grid.across * scale)
    for row in range(grid.rows):
        y = corner.imag + row * grid.down * scale
        word = row_word(row)
        fits = fitting_height(word, 0.24, 1.6, bold=True)
        middle = y + grid.down * scale / 2 + fits / 2
        at = complex(corner.real - 0.25, middle)
        items.append(Words(at, word, fits, ink=Ink.TEXT, anchor="end", bold=True))
        for column in range(grid.columns):
            items += _cell(grid, (row, column), (row, column) in places, scale, corner, size)
    return Drawing(tuple(items))


def _cell(
    grid: Grid, place: Place, printed: bool, scale: float, corner: complex, size: float
) -> list[Item]:
    at = corner + grid.corner(place) * scale
    wide = (grid.wide if place[1] == grid.columns - 1 else grid.across) * scale
    high = (grid.high if place[0] == grid.rows - 1 else grid.down) * scale
    items: list[Item] = [drawn_rectangle(at.real, at.imag, wide, high, Ink.FRAME)]
    if not printed:
        far = at + complex(wide, high)
        return [
            *items,
            line(at, far, Ink.LEVEL),
            line(complex(at.real, far.imag), complex(far.real, at.imag), Ink.LEVEL),
        ]
    number = str(place[1] + 1)
    where = at + complex(0.12, size + 0.12)
    return [*items, Words(where, number, size, ink=Ink.NOTE)]


def _middle(shape: ArrangedShape) -> complex:
    """Where a piece has most room, from the corner of its box."""
    for item in shape.piece.drawing.items:
        if isinstance(item, Stroke) and item.closed and item.ink is Ink.PAPER:
            return shape.move(roomiest(item.path)[0])
    return complex(shape.width, shape.height) / 2


def _names(spread: PaperSpread, scale: float, corner: complex) -> Drawing:
    """Each piece's name where its small picture has most room, in a hollow one not beside it."""
    items: list[Item] = []
    for shape, at in spread.placed:
        middle = corner + (_middle(shape) + at) * scale
        room = max(shape.width * scale * 0.9, 0.8)
        lines = wrapped(sentence_case(name_text(shape.piece.name)), 0.2, room, bold=True)
        if not lines:
            continue
        longest = max(text_width(part, 0.2, bold=True) for part in lines)
        size = max(0.2 * min(1.0, room / longest), 0.12)
        y = middle.imag - (len(lines) - 1) * size * 0.85 + size / 2
        for part in lines:
            items.append(Words(complex(middle.real, y), part, size, anchor="middle", bold=True))
            y += size * 1.7
    return Drawing(tuple(items))
