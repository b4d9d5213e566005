"""The measures of the sheet: where each is taken, its value, and the ease and the finished measure."""

from __future__ import annotations

from collections.abc import Sequence

from cutwright.body.body import Body
from cutwright.body.estimate import Reading
from cutwright.body.family import Family
from cutwright.body.measures import measure
from cutwright.checks.case import laid_seams
from cutwright.checks.rings import rings
from cutwright.checks.round_body import LEVELS
from cutwright.drawing.body_figure import body_figure
from cutwright.drawing.type import whole_box
from cutwright.numerals import CLOTH, bare, in_inches, number
from cutwright.pattern.pattern import Pattern
from cutwright.units import CM_PER_INCH
from cutwright.wording.names import name_text, sentence_case
from cutwright.words import _
from cutwright.worksheet.looks import CAPITALS
from cutwright.worksheet.sheet import Beside, Block, Picture, Pictures, Section, SheetTable, Text

FEW = 8
"""So many measures leave room beside the figure for the table of ease too."""

_SCALE = 0.052
"""How large the figure is on paper."""


def measures_section(body: Body, used: frozenset[str], pattern: Pattern) -> Section:
    """The measures the style asks for, with a figure, and the ease at each level."""
    wanted = [r for r in body.readings() if r.measure in used]
    blocks: list[Block] = [
        Text(_("The measures this style asks for. Estimated ones are worth measuring."), "note"),
        *sums_note(),
    ]
    beside = [_taken(wanted, body.kind)] if wanted else []
    below: list[SheetTable] = []
    ease = ease_rows(body, pattern)
    if ease:
        head = (_("Level"), _("Body"), _("Ease"), _("Garment"), _("Pieces"))
        (beside if 0 < len(wanted) <= FEW else below).append(
            SheetTable(head, tuple(ease), (0.18, 0.14, 0.17, 0.2, 0.31), frozenset({1, 2, 3}))
        )
    if wanted:
        blocks.append(Beside(figure_block(wanted, body.kind), tuple(beside)))
    blocks += below
    return Section("measures", measures_heading(), tuple(blocks))


def sums_note() -> tuple[Text, ...]:
    """In inches: why the sums of the steps stand in centimetres."""
    if not in_inches():
        return ()
    words = _(
        "Sums are worked in centimetres, so that they add up; the result stands in inches behind them."
    )
    return (Text(words, "note"),)


def measures_heading() -> str:
    """The title of the section, with the unit."""
    if in_inches():
        return _("Measures, in (and cm)")
    return _("Measures, cm")


def figure_block(wanted: Sequence[Reading], kind: Family) -> Pictures:
    """The figure with the numbers of the wanted measures."""
    numbered = [(kind.tape(r.measure), str(count)) for count, r in enumerate(wanted, start=1)]
    drawing = body_figure(numbered, kind.outline, CAPITALS * 0.8 / _SCALE)
    left, top, right, bottom = whole_box(drawing)
    box = (left - 2, top - 1, right + 2, bottom + 1)
    return Pictures((Picture(drawing, box, _("Where each measure is taken"), scale=_SCALE),))


def _taken(wanted: Sequence[Reading], kind: Family) -> SheetTable:
    """Every measure with its number in the figure, its value and how it was come by."""
    rows = tuple(_row(count, reading, kind) for count, reading in enumerate(wanted, start=1))
    head = ("", _("Measure"), _("Value"), _("How"))
    return SheetTable(head, rows, (0.07, 0.46, 0.15, 0.32), frozenset({2}))


def _row(count: int, reading: Reading, kind: Family) -> tuple[str, ...]:
    name = _(kind.tape(reading.measure).name)
    return str(count), name, value_of(reading), taken_words(reading)


def value_of(reading: Reading) -> str:
    """The value of a measure, with its sign where it is an angle."""
    if measure(reading.measure).unit == "degree":
        return number(reading.value) + "°"
    if in_inches():  # the sums below are in centimetres, so that they add up
        return f"{bare(reading.value)} ({number(reading.value)})"
    return number(reading.value)


def taken_words(reading: Reading) -> str:
    """Whether a measure was taken or estimated, and how far the estimate may be out."""
    if reading.taped:
        return _("taken")
    if not reading.spread:
        return _("estimated")
    return _("estimated ± {spread}").format(spread=_spread(reading))


def read_off(value: float) -> float:
    """A length as it is read off the tape, cm: to the millimetre, or to an eighth of an inch."""
    step = CM_PER_INCH / CLOTH
    return round(value / step) * step if in_inches() else round(value, 1)


def _spread(reading: Reading) -> str:
    angle = measure(reading.measure).unit == "degree"
    spread = reading.spread or 0.0
    return number(spread) if angle else bare(spread)


def ease_rows(body: Body, pattern: Pattern) -> list[tuple[str, ...]]:
    """Body, ease and finished measure at each level the garment goes round."""
    rows: list[tuple[str, ...]] = []
    for ring in rings(laid_seams(pattern, body), LEVELS):
        if not ring.closed:
            continue
        girth = body.value(f"{ring.name}_girth")
        garment, taken = read_off(ring.cm), read_off(girth)
        pieces = ", ".join(name_text(piece.name) for piece, _width in ring.parts)
        rows.append(
            (
                sentence_case(name_text(ring.name)),
                bare(taken),
                bare(garment - taken),
                bare(garment),
                pieces,
            )
        )
    return rows
