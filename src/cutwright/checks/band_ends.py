"""A band ends where the garment opens: at a zip, at a slit or at an edge that is sewn to nothing."""

from __future__ import annotations

from cutwright.checks.case import Case, LaidSeam
from cutwright.checks.tally import Outcome, Tally
from cutwright.messages import N_, Message
from cutwright.pattern.edge import EdgeKind
from cutwright.pattern.result import Severity
from cutwright.pattern.seam import SeamKind
from cutwright.pattern.sewing.lap import Lap, laps_of
from cutwright.pattern.sewing.opens import opens_at

CODE = "band-ends"
WHAT = N_("bands that end where the garment is closed")


def band_ends(case: Case) -> Outcome:
    """Walk each waistband's row from where the band begins and look whether it is open there."""
    tally = Tally(CODE, WHAT, 0, "")
    shut = 0
    for laid in case.seams:
        if laid.seam.kind == SeamKind.WAISTBAND:
            for garment, *_band in laps_of(case.pattern, laid.seam):
                tally.count += 1
                if not _open(case, garment):
                    shut += 1
                    _tell(laid, garment, tally)
    if tally.count:
        tally.worst = float(shut)
    return tally.outcome()


def _open(case: Case, lap: Lap) -> bool:
    ends = ((lap.turns[0], lap.turns[0].first), (lap.turns[-1], lap.turns[-1].last))
    return any(
        edge.kind is EdgeKind.FREE
        or ((turn.stretch.piece.name, id(edge)) not in case.sewn and edge.kind is not EdgeKind.FOLD)
        or opens_at(case.pattern, turn.stretch.piece, edge, at)
        for turn, (edge, at) in ends
    )


def _tell(laid: LaidSeam, lap: Lap, tally: Tally) -> None:
    edge, at = lap.turns[0].first
    text = Message(
        "band-ends-where-garment-closed",
        N_(
            'The band ends at "{edge}" of "{piece}", where the garment is closed. Leave a seam open there, such as '
            "with a zip."
        ),
        edge=edge.name,
        piece=lap.turns[0].stretch.piece.name,
    )
    tally.find(Severity.WARNING, laid.where, text, None, at)
