"""One allowance along an edge of the garment: hem, neckline or armhole, over all its pieces."""

from __future__ import annotations

from itertools import combinations

from cutwright.checks.case import Case, LaidSeam
from cutwright.checks.corner import entered_at, left_at
from cutwright.checks.tally import Outcome, Tally
from cutwright.messages import N_, Message
from cutwright.pattern.edge import Edge, EdgeKind
from cutwright.pattern.result import Severity
from cutwright.pattern.sewing.rows import Stretch

CODE = "allowance-run"
WHAT = N_("edges that run on across a seam have one allowance: largest step")

Side = tuple[Stretch, Edge]
"""The edge of a row at one end of a seam, and the edge that it meets there."""


def allowance_run(case: Case) -> Outcome:
    """Compare the allowances of edges of one kind on both sides of each seam's ends."""
    tally = Tally(CODE, WHAT, case.limits.allowance, "cm")
    for laid in case.seams if case.allowances else ():
        if laid.seam.on_one_level:
            for a, b in _ends(laid):
                if _run_on(case, a, b):
                    _compare(case, laid, a, b, tally)
    return tally.outcome()


def _ends(laid: LaidSeam) -> list[tuple[Side, Side]]:
    starts = [(row[0], entered_at(row[0]).other(row[0].edge)) for row in laid.rows]
    stops = [(row[-1], left_at(row[-1]).other(row[-1].edge)) for row in laid.rows]
    return [*combinations(starts, 2), *combinations(stops, 2)]


def _run_on(case: Case, a: Side, b: Side) -> bool:
    """Whether two edges are one edge of the garment: of one kind, both sewn to something or neither."""
    if a[1] is b[1]:
        return False
    sewn = [(walked.piece.name, id(edge)) in case.sewn for walked, edge in (a, b)]
    return a[1].kind is b[1].kind and a[1].kind is not EdgeKind.FOLD and sewn[0] == sewn[1]


def _compare(case: Case, laid: LaidSeam, a: Side, b: Side, tally: Tally) -> None:
    one, other = (case.allowances.get((w.piece.name, e.label), 0.0) for w, e in (a, b))
    where = f"{a[0].piece.name}: {a[1].label} / {b[0].piece.name}: {b[1].label}"
    tally.see(abs(one - other), where)
    if abs(one - other) > case.limits.allowance:
        text = Message(
            "these-edges-run-into-each",
            N_(
                "These edges run on into each other where the seam {seam} ends, but have allowances of {a:g} cm "
                "and {b:g} cm. Allow the same for both."
            ),
            seam=laid.where,
            a=one,
            b=other,
        )
        tally.find(Severity.WARNING, where, text, abs(one - other), a[1].start)
