"""Where the balance marks of every seam go: the one declaration that maker and checker read.

Single notch in front, double behind (common practice; also University of Arkansas, Introduction
to Apparel Production Workbook, ch. 8). All rows of a seam are walked as they are sewn; a place is
marked on each, and where an edge of one row ends, on the others alone.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import islice

from cutwright.memo import memoised
from cutwright.pattern.edge import Edge
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.seam import Seam
from cutwright.pattern.sewing.drawn_up import sewn
from cutwright.pattern.sewing.lap import Turn, laps_of, turns_in_order
from cutwright.pattern.sewing.mark_pairs import SeamMarks
from cutwright.pattern.sewing.mark_places import USUAL, NotchRules
from cutwright.pattern.sewing.marking import Marking
from cutwright.pattern.sewing.rows import Stretch
from cutwright.pattern.takeup import on_part

_SHORTEST = 1.0
"""A seam shorter than this, cm, has no marks."""

Taken = tuple[tuple[float, ...], ...]
"""What is marked on each edge of all rows, from the start of the edge, cm."""


def seam_marks(pattern: Pattern, rules: NotchRules = USUAL) -> tuple[SeamMarks, ...]:
    """Where the marks of all seams go.

    A seam whose edges are sewn to others too keeps its marks clear of theirs. Notches that the
    pieces have do not matter: the pieces spoken of in the answer are without. A seam on whose edges
    nothing changed is not marked anew.

    Parameters
    ----------
    pattern : the pattern
    rules : when a seam is marked

    Returns
    -------
    one for each place at which a seam is sewn; none for a seam shorter than 1 cm

    Raises
    ------
    LookupFailed : an edge of a seam is not there
    """
    bare = replace(pattern, pieces=tuple(_bare(piece) for piece in pattern.pieces))
    taken: dict[int, tuple[float, ...]] = {id(e): () for p in bare.pieces for e in p.edges}
    out: list[SeamMarks] = []
    for seam in bare.seams:
        for laps in laps_of(bare, seam):
            if min(lap.length for lap in laps) < _SHORTEST:
                continue
            turns = [turn for lap in laps for turn in lap.turns]
            stretches = [turn.stretch for turn in turns]
            marks, after = _marked(
                seam,
                *stretches,
                counts=tuple(len(lap.turns) for lap in laps),
                flipped=tuple(turn.flipped for turn in turns),
                taken=tuple(taken[id(s.edge)] for s in stretches),
                rules=rules,
            )
            out.append(marks)
            taken |= zip((id(s.edge) for s in stretches), after, strict=True)
    return tuple(out)


@memoised
def _marked(
    seam: Seam,
    *stretches: Stretch,
    counts: tuple[int, ...],
    flipped: tuple[bool, ...],
    taken: Taken,
    rules: NotchRules,
) -> tuple[SeamMarks, Taken]:
    """One seam marked: everything it depends on is named here. Also what is then taken.

    `counts` tells how many of the stretches are those of each row.
    """
    turns = (Turn(s, other) for s, other in zip(stretches, flipped, strict=True))
    places = {id(s.edge): list(there) for s, there in zip(stretches, taken, strict=True)}
    mouths = {id(s.edge): _mouths(s.piece)[id(s.edge)] for s in stretches}
    laps = [turns_in_order(list(islice(turns, count))) for count in counts]
    rows = sewn(seam, laps, rules.plain_end(min(lap.length for lap in laps)))
    found = Marking(seam, rows, rules, places, mouths).done()
    return SeamMarks(seam, rows, found), tuple(tuple(places[id(s.edge)]) for s in stretches)


@memoised
def _bare(piece: Piece) -> Piece:
    """The piece without notches; the very same before it was notched and after."""
    marks = tuple(mark for mark in piece.marks if mark.kind is not MarkKind.NOTCH)
    return _with_edges(piece.edges, piece=replace(piece, edges=(), marks=marks))


@memoised
def _with_edges(edges: tuple[Edge, ...], *, piece: Piece) -> Piece:
    return replace(piece, edges=edges)


@memoised
def _mouths(piece: Piece) -> dict[int, list[float]]:
    """For each edge of a piece, by identity, where it has the notches of a fold: darts at its ends, pleats and tucks."""
    mouths = [p for dart in piece.darts for p in piece.mouth(dart)]
    found: dict[int, list[float]] = {}
    for edge in piece.edges:
        ends = ((edge.start, 0.0), (edge.end, edge.length))
        near = [own for p, own in ends if any(abs(p - mouth) < 1e-6 for mouth in mouths)]
        folds = [p for one in on_part(piece, edge) if one.folded for p in (one.begin, one.end)]
        found[id(edge)] = near + folds
    return found
