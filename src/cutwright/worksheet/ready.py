"""What is needed: cloth, notions worked out from the pattern, tools."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil

from cutwright.checks.case import laid_seams
from cutwright.checks.opening import openings
from cutwright.finish.finished import FinishedPattern
from cutwright.lay.need import need
from cutwright.lay.plan import Lay
from cutwright.numerals import bare, in_inches, length_words, number, short, yards
from cutwright.pattern.edge import EdgeKind
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.parts.facings import is_band
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Material
from cutwright.units import CM_PER_INCH
from cutwright.wording.names import called
from cutwright.words import _
from cutwright.worksheet.amounts import (
    BIAS_SPARE,
    BIAS_WIDTH,
    areas,
    bias_length,
    darts_length,
    free_length,
    gathers_length,
    seams_length,
    staystitch_length,
)
from cutwright.worksheet.making_table import NotionRow
from cutwright.worksheet.parts import bound_edges, in_one_seam, kinds_of
from cutwright.worksheet.sheet import Section, SheetTable

THREAD, SPARE, REEL = 2.5, 1.25, 100
"""Thread for each metre of lockstitch (rough trade figure), what is cut off and tried, metres of a reel."""

ZIP_STEP = 5


def ready_section(finished: FinishedPattern, lays: Sequence[Lay] = ()) -> Section:
    """A table of what is needed: what, how much, how it was worked out."""
    rows = [*_cloth(finished, lays), *(row for row in notions(finished, lays).values())]
    tools = _("tape, ruler, curve, paper, shears, chalk, pins, hand and machine needles, iron")
    rows.append((_("Tools"), "", tools))
    head = (_("What"), _("How much"), _("Worked out"))
    table = SheetTable(head, tuple(rows), (0.19, 0.25, 0.56))
    return Section("ready", _("You will need"), (table,))


Row = tuple[str, str, str]


def notions(
    finished: FinishedPattern, lays: Sequence[Lay] = ()
) -> dict[NotionRow | tuple[NotionRow, int], Row]:
    """What is needed beside the cloth, a row each; zips are numbered."""
    pattern = finished.pattern
    rows: dict[NotionRow | tuple[NotionRow, int], Row] = {}
    for place, row in enumerate(_zips(pattern)):
        rows[NotionRow.ZIP, place] = row
    rows[NotionRow.THREAD] = _thread(pattern)
    for notion, found in (
        (NotionRow.INTERFACING, _interfacing(finished, lays)),
        (NotionRow.BIAS, _bias(pattern)),
        (NotionRow.HOOK, _fastenings(pattern)),
    ):
        if found is not None:
            rows[notion] = found
    return rows


def _cloth(finished: FinishedPattern, lays: Sequence[Lay]) -> list[Row]:
    return [
        _of_cloth(material, amount, lays)
        for material, amount in areas(finished).items()
        if material is not Material.INTERFACING
    ]


def _of_cloth(material: Material, amount: float, lays: Sequence[Lay]) -> Row:
    name = {
        Material.MAIN: _("Main cloth"), Material.SECOND: _("Second cloth"), Material.LINING: _("Lining"),
        Material.INTERLINING: _("Interlining"), Material.INTERFACING: _("Interfacing"),
    }[material]  # fmt: skip
    lay = next((lay for lay in lays if lay.cloth.material == material), None)
    if lay is None:
        much = _("{area} m² in the pieces").format(area=number(amount / 1e4, 2))
        return name, much, _("A lay on your cloth tells the length to buy; it is more than this.")
    wanted = need(lay)
    how = _("the lay takes {used}, before washing {before}").format(
        used=length_words(wanted.used), before=length_words(wanted.before_washing)
    )
    return name, _bought(wanted.to_buy, lay), how


def _bought(to_buy: float, lay: Lay) -> str:
    """The length to buy: metres, or yards in eighths."""
    if in_inches():
        words = _("{length} yd of {cloth}, {width} wide")
        long = yards(to_buy)
    else:
        words, long = _("{length} m of {cloth}, {width} wide"), number(to_buy / 100, 2)
    return words.format(
        length=long, cloth=called(lay.cloth.name), width=length_words(lay.cloth.width, 0)
    )


def _zips(pattern: Pattern) -> list[Row]:
    rows: list[Row] = []
    for opening in in_one_seam(pattern, openings(laid_seams(pattern))):
        step = CM_PER_INCH if in_inches() else ZIP_STEP
        bought = ceil(round(opening.cm, 1) / step) * step
        how = _("opening {cm}; the next {step}, shortened at the lower end").format(
            cm=length_words(opening.cm), step=length_words(step, 0)
        )
        rows.append((_("Zip"), _("1, {length} long").format(length=length_words(bought, 0)), how))
    return rows


def _thread(pattern: Pattern) -> Row:
    parts = (
        (_("seams"), seams_length(pattern)), (_("hems and edges"), free_length(pattern)),
        (_("darts"), darts_length(pattern)), (_("gathers, two rows"), gathers_length(pattern)),
        (_("staystitching"), staystitch_length(pattern)),
    )  # fmt: skip
    metres = [(name, round(length / 100, 1)) for name, length in parts if length >= 5]
    total = round(sum(value for _name, value in metres), 1)
    thread = round(total * THREAD, 2)
    whole = round(thread * SPARE, 2)
    reels = max(ceil(whole / REEL), 1)
    line = " + ".join(f"{name} {number(value)}" for name, value in metres)
    metre = _("{number} m").format(number=number(total))
    line += f" = {metre}; {number(total)} × {number(THREAD)} = {number(thread, 2)}; "
    line += f"{number(thread, 2)} × {number(SPARE, 2)} = {number(whole, 2)} → {ceil(whole)}"
    line += " · " + _("neatening of edges not counted")
    much = _("{metres} m ({reels} × {reel} m)").format(
        metres=short(ceil(whole), 0), reels=reels, reel=REEL
    )
    return (_("Thread"), much, line)


def _interfacing(finished: FinishedPattern, lays: Sequence[Lay]) -> Row | None:
    amount = areas(finished).get(Material.INTERFACING)
    if amount is None:
        return None
    name, much, how = _of_cloth(Material.INTERFACING, ceil(amount / 100) * 100, lays)
    if any(lay.cloth.material == Material.INTERFACING for lay in lays):
        return name, much, how
    return name, much, _("facings and bands, cut like their pieces")


def _bias(pattern: Pattern) -> Row | None:
    edges = bound_edges(pattern)
    if not edges:
        return None
    much = _("{length}, {width} wide").format(
        length=length_words(bias_length(pattern), 0), width=length_words(BIAS_WIDTH, 0)
    )
    parts = [
        (
            bare(
                sum(
                    pattern.piece(r.piece).times * pattern.length(r)
                    for r in edges
                    if kind in kinds_of(pattern, (r,))
                )
            ),
            name,
        )
        for kind, name in ((EdgeKind.NECKLINE, _("neckline")), (EdgeKind.ARMHOLE, _("armholes")))
        if kind in kinds_of(pattern, edges)
    ]
    how = _("{edges}; {spare} more for each round; cut on the bias from what is left, or bought")
    edges_told = " + ".join(f"{name} {length}" for length, name in parts)
    return _("Bias strip"), much, how.format(edges=edges_told, spare=length_words(BIAS_SPARE, 0))


def _fastenings(pattern: Pattern) -> Row | None:
    bands = [
        p for p in pattern.pieces if is_band(p) and any(m.kind is MarkKind.OVERLAP for m in p.marks)
    ]
    if not bands:
        return None
    return _("Hook and bar, or a button"), str(len(bands)), _("for the overlap")
