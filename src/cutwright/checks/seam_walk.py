"""Rule 1: edges that are sewn together are equally long, or differ by what is stated."""

from __future__ import annotations

from cutwright.checks.case import Case, LaidSeam
from cutwright.checks.limits import Limits
from cutwright.checks.tally import Outcome, Tally, gather, together
from cutwright.memo import memoised
from cutwright.messages import N_, Message
from cutwright.pattern.edge import EdgeKind
from cutwright.pattern.result import Severity
from cutwright.pattern.seam import SeamLayer
from cutwright.pattern.sewing.rows import Row

CODE = "seam-walk"
MISSING = "seam-missing"
WHAT = N_("sewn edges walked against each other: widest gap")
WHAT_MISSING = N_("edges with nothing sewn to them")
_MUST = (EdgeKind.SIDE, EdgeKind.SHOULDER, EdgeKind.CENTRE, EdgeKind.SEAM, EdgeKind.GATHERED)


def seam_walk(case: Case) -> Outcome:
    """Walk every seam; the stated ease or gather ratio is taken into account."""
    tally = Tally(CODE, WHAT, case.limits.walk, "cm")
    gather([tally], ([_of_seam(laid, case.limits)] for laid in case.seams))
    tally.findings.extend(case.lost)
    return together([tally.outcome(), _unsewn(case)])


@memoised
def _of_seam(laid: LaidSeam, limits: Limits) -> Tally:
    limit = limits.walk
    tally = Tally(CODE, WHAT, limit, "cm")
    base = laid.rows[laid.seam.base].whole
    for number, (layer, row) in enumerate(zip(laid.seam.layers, laid.rows, strict=True)):
        if number == laid.seam.base:
            continue
        gap = abs(row.whole - layer.wanted(base))
        where = _where(laid, layer)
        tally.see(gap, where)
        if gap > limit + 1e-9:
            text = _told(layer, row.whole, base, limit)
            tally.find(Severity.FAULT, where, text, gap, _place(row))
    return tally


def _where(laid: LaidSeam, layer: SeamLayer) -> str:
    """The seam; of more than two layers the two that are compared."""
    seam = laid.seam
    return seam.name if len(seam.layers) == 2 else f"{layer.name} ~ {seam.layers[seam.base].name}"


def _place(row: Row) -> complex:
    last = row[-1]
    return last.edge.start if last.backwards else last.edge.end


def _told(layer: SeamLayer, a: float, b: float, limit: float) -> Message:
    wanted = layer.wanted(b)
    if layer.ratio == 1 and not layer.ease:
        return Message(
            "these-two-edges-not-walk",
            N_(
                "These two edges do not match: {a:.2f} cm against {b:.2f} cm, {gap:.2f} cm apart; "
                "{limit:.2f} cm is allowed. True one of them, or state the ease."
            ),
            a=a,
            b=b,
            gap=abs(a - b),
            limit=limit,
        )
    return Message(
        "cm-sewn-onto-cm-ratio",
        N_(
            "{a:.2f} cm is to be sewn onto {b:.2f} cm with ratio {ratio:.4g} and ease {ease:.2f} cm, "
            "which asks for {wanted:.2f} cm; it is {gap:.2f} cm off, {limit:.2f} cm is allowed."
        ),
        a=a,
        b=b,
        ratio=layer.ratio,
        ease=layer.ease,
        wanted=wanted,
        gap=abs(a - wanted),
        limit=limit,
    )


def _unsewn(case: Case) -> Outcome:
    """Find edges whose kind says they are sewn although no seam names them."""
    tally = Tally(MISSING, WHAT_MISSING, 0, "")
    missing = 0
    for piece in case.pattern.pieces:
        for edge in piece.edges:
            if edge.kind not in _MUST:
                continue
            tally.count += 1
            if (piece.name, id(edge)) in case.sewn:
                continue
            missing += 1
            text = Message(
                "edge-meant-sewn-but-nothing",
                N_("This edge is meant to be sewn, but nothing is sewn to it."),
            )
            tally.find(Severity.WARNING, f"{piece.name}: {edge.label}", text, None, edge.start)
    if tally.count:
        tally.worst = float(missing)
    return tally.outcome()
