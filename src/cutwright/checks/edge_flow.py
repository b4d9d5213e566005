"""Rule 2: where two pieces meet at the end of a seam, the outline runs on without dip or peak."""

from __future__ import annotations

from math import degrees

from cutwright.checks.case import Case, Laid
from cutwright.checks.corner import Corner, wanted_point
from cutwright.checks.rows import Walked
from cutwright.checks.tally import Outcome, Tally, together
from cutwright.pattern.edge import Edge, Kind
from cutwright.words import N_, _

CODE = "edge-flow"
TURNED = "corner-turned"
WHAT = N_("outlines run on across a seam: largest bend")
WHAT_TURNED = N_("armhole corners at the shoulder: farthest from square")
_FLOWS = (
    Kind.HEM,
    Kind.WAIST,
    Kind.NECKLINE,
    Kind.ARMHOLE,
    Kind.SHOULDER,
    Kind.SEAM,
    Kind.GATHERED,
    Kind.FREE,
)
_SEWN_FLAT = ("plain", "eased")


def edge_flow(case: Case) -> Outcome:
    """Add the two corner angles at each end of each plain seam; they make a straight line.

    Only edges of the same kind run on into each other (hem into hem, armhole into armhole). A line
    of another kind that crosses a seam, such as a side seam at the waist, may bend and is only
    mentioned.
    """
    tally = Tally(CODE, _(WHAT), case.limits.flow, "degrees")
    turned = Tally(TURNED, _(WHAT_TURNED), case.limits.turned, "degrees")
    partners = _partners(case)
    for laid in case.seams:
        if laid.seam.kind not in _SEWN_FLAT or abs(laid.seam.ratio - 1) > 1e-6:
            continue
        a, b = laid.a, laid.b
        ends = (
            (a[0], a[0].first(), b[0], b[0].first()),
            (a[-1], a[-1].last(), b[-1], b[-1].last()),
        )
        for walked_a, corner_a, walked_b, corner_b in ends:
            _meet(case, laid, (walked_a, corner_a), (walked_b, corner_b), tally, turned, partners)
    return together([tally.outcome(), turned.outcome()])


def _partners(case: Case) -> set[frozenset[tuple[str, int]]]:
    """All pairs of edges that are sewn to each other, by piece and identity."""
    return {frozenset((a.key, b.key)) for laid in case.seams for a in laid.a for b in laid.b}


def _meet(
    case: Case,
    laid: Laid,
    a: tuple[Walked, Corner],
    b: tuple[Walked, Corner],
    tally: Tally,
    turned: Tally,
    partners: set[frozenset[tuple[str, int]]],
) -> None:
    next_a, next_b = a[1].other(a[0].edge), b[1].other(b[0].edge)
    if next_a.kind is not next_b.kind or next_a.kind not in (*_FLOWS, Kind.SIDE):
        return
    key_a, key_b = (a[0].piece.name, id(next_a)), (b[0].piece.name, id(next_b))
    if key_a != key_b and frozenset((key_a, key_b)) in partners:
        return
    if any(wanted_point(w.piece, c.at, n) for (w, c), n in ((a, next_a), (b, next_b))):
        return
    inside_a, inside_b = degrees(a[1].inside), degrees(b[1].inside)
    bend = abs(inside_a + inside_b - 180)
    where = _where(a[0], next_a, b[0], next_b)
    loose = next_a.kind is Kind.SIDE
    if not loose:
        tally.see(bend, where)
    if bend > case.limits.flow + 1e-6:
        level = "warning" if loose else "fault"
        text = _(
            "The edge bends where this seam ends: the corners are {a:.1f}° and {b:.1f}°, together "
            "{bend:.1f}° from a straight line; {limit:g}° is allowed. Seam: {seam}."
        ).format(a=inside_a, b=inside_b, bend=bend, limit=case.limits.flow, seam=laid.where)
        tally.find(level, where, text, bend, a[1].at)
    if a[0].edge.kind is Kind.SHOULDER and next_a.kind is Kind.ARMHOLE:
        _square_enough(case, turned, where, (inside_a, inside_b), a[1].at)


def _square_enough(
    case: Case, turned: Tally, where: str, inside: tuple[float, float], at: complex
) -> None:
    off = max(abs(angle - 90) for angle in inside)
    turned.see(off, where)
    if off > case.limits.turned + 0.05:
        text = _(
            "The armhole meets the shoulder at {a:.1f}° and {b:.1f}°; one corner may open by what "
            "the other closes, but at most {limit:g}°."
        ).format(a=inside[0], b=inside[1], limit=case.limits.turned)
        turned.find("warning", where, text, off, at)


def _where(a: Walked, next_a: Edge, b: Walked, next_b: Edge) -> str:
    first = f"{a.piece.name}: {next_a.label} / {a.edge.label}"
    second = f"{b.piece.name}: {next_b.label} / {b.edge.label}"
    return first if first == second else f"{first} ~ {second}"
