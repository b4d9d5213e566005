"""Where the balance marks of every seam go: the one declaration that maker and checker read.

Single notch in front, double behind (common practice; also University of Arkansas, Introduction
to Apparel Production Workbook, ch. 8). Both rows of a seam are walked as they are sewn; a place is
marked on both, and where an edge of one row ends, on the other alone.
"""

from __future__ import annotations

from cutwright.pattern.drawn_up import sewn
from cutwright.pattern.edge import Edge
from cutwright.pattern.lap import laps_of
from cutwright.pattern.mark_pairs import SeamMarks
from cutwright.pattern.mark_places import USUAL, NotchRules
from cutwright.pattern.marking import Marking
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece


def seam_marks(pattern: Pattern, rules: NotchRules = USUAL) -> tuple[SeamMarks, ...]:
    """Where the marks of all seams go; raises LookupFailed where an edge is not there.

    A seam whose edges are sewn to others too keeps its marks clear of theirs.
    """
    mouths = {id(edge): _mouths(p, edge) for p in pattern.pieces for edge in p.edges}
    taken: dict[int, list[float]] = {edge: [] for edge in mouths}
    out: list[SeamMarks] = []
    for seam in pattern.seams:
        for a, b in laps_of(pattern, seam):
            size = min(a.length, b.length)
            if size < 1.0:
                continue
            rows = sewn(seam, a, b, rules.plain_end(size))
            marks = Marking(seam, rows, rules, taken, mouths).done()
            out.append(SeamMarks(seam, *rows, marks))
    return tuple(out)


def _mouths(piece: Piece, edge: Edge) -> list[float]:
    """The ends of an edge at which the mouth of a dart is notched."""
    mouths = [p for dart in piece.darts for p in piece.mouth(dart)]
    ends = ((edge.start, 0.0), (edge.end, edge.length))
    return [own for p, own in ends if any(abs(p - mouth) < 1e-6 for mouth in mouths)]
