"""A waistband sits at the waist: little ease, or it slides down; none, or it does not close.

The limits are common practice, without a source.
"""

from __future__ import annotations

from cutwright.checks.case import Case
from cutwright.checks.tally import Outcome, Tally
from cutwright.messages import N_, Message
from cutwright.pattern.edge import EdgeKind
from cutwright.pattern.result import Severity
from cutwright.pattern.seam import LayerPart, SeamKind
from cutwright.pattern.sewing.rows import Row

CODE = "band-ease"
WHAT = N_("ease of a waistband at the waist: most")


def band_ease(case: Case) -> Outcome:
    """Measure every waistband on its sewn edge, closed, and hold it against the waist."""
    tally = Tally(CODE, WHAT, case.limits.band_most, "cm")
    for laid in case.seams if case.body is not None else ():
        if laid.seam.kind == SeamKind.WAISTBAND and all(
            w.edge.kind is EdgeKind.WAIST for w in laid
        ):
            rows = zip(laid.seam.layers, laid.rows, strict=True)
            for band in (row for layer, row in rows if layer.part is LayerPart.BAND):
                _hold(case, band, tally)
    return tally.outcome()


def _hold(case: Case, row: Row, tally: Tally) -> None:
    assert case.body is not None
    band = sum(w.piece.times * w.sewn for w in row)
    girth = case.body.value("waist_girth")
    ease = band - girth
    least, most = case.limits.band_least, case.limits.band_most
    where = row[0].label
    tally.see(ease, where)
    if least - 0.005 <= ease <= most + 0.005:
        return
    text = Message(
        "waistband-measures-cm-closed-waist",
        N_(
            "The waistband measures {band:.1f} cm closed and the waist {girth:.1f} cm: {ease:.1f} cm "
            "ease; from {least:g} to {most:g} cm is usual under a band. Draft the waist with that "
            "much ease, or ease the rest in under the band."
        ),
        band=band,
        girth=girth,
        ease=ease,
        least=least,
        most=most,
    )
    tally.find(
        Severity.FAULT if ease < least else Severity.WARNING,
        where,
        text,
        ease,
        row[0].edge.start,
    )
