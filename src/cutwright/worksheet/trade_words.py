"""The words of the trade that a sheet uses, each with what it means; both names where two are common."""

from __future__ import annotations

from cutwright.words import N_, _
from cutwright.worksheet.sheet import Section, SheetTable

TERMS = (
    (N_("seam allowance"), N_("the strip of cloth between the stitch line and the cut line")),
    (N_("grainline"), N_("the line on a piece that lies parallel to the selvedge")),
    (N_("selvedge"), N_("the woven edge along both sides of the cloth")),
    (N_("bias"), N_("the direction at 45 degrees to the selvedge, in which cloth stretches")),
    (N_("fold"), N_("where the cloth is folded; a piece laid there is cut whole")),
    (N_("lay, or cutting layout"), N_("how the pieces lie on the cloth")),
    (N_("notch"), N_("a short snip in the allowance; notches of two edges are sewn onto each other")),
    (N_("dart"), N_("a wedge of cloth folded and sewn to a point, which shapes flat cloth to the body")),
    (N_("ease"), N_("what the garment measures more than the body; eased in: a longer edge sewn to a shorter one without folds")),
    (N_("gathers"), N_("small folds drawn up on threads, by which a long edge fits a short one")),
    (N_("flounce, or ruffle"), N_("a strip that falls wide at its free edge, cut round or gathered")),
    (N_("facing"), N_("a piece sewn to an edge and turned inside, which finishes the edge")),
    (N_("to true"), N_("to redraw a line smooth after the paper was cut, closed or spread")),
    (N_("block, or sloper"), N_("the plain pattern of a body, from which styles are made")),
    (N_("toile, or muslin"), N_("a trial garment in cheap cloth")),
    (N_("to tape, or to measure"), N_("to take a measure of the body with the tape")),
)  # fmt: skip


def trade_words_section() -> Section:
    """The words in the order in which a garment is cut and sewn."""
    rows = tuple((_(term), _(meaning)) for term, meaning in TERMS)
    table = SheetTable((_("Word"), _("What it means")), rows, (0.26, 0.74))
    return Section("words", _("Words of the trade"), (table,))
