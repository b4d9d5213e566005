"""Each piece is one closed outline the right way round that does not cross itself."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from cutwright.checks.case import Case
from cutwright.checks.chords import chords
from cutwright.checks.tally import Outcome, Tally, gather
from cutwright.geometry.outline import polygon
from cutwright.geometry.point import Point
from cutwright.memo import memoised
from cutwright.messages import N_, Message
from cutwright.pattern.piece import Piece
from cutwright.pattern.result import Severity

if TYPE_CHECKING:
    from shapely import Polygon

CODE = "outline-simple"
TWICE = "name-twice"
WHAT = N_("outlines closed and free of crossings: widest gap between two edges")
_GAP = 1e-6
_LEAST = 0.5
"""A piece smaller than this is a slip, cm2."""


def outline_simple(case: Case) -> Outcome:
    """Look at the outline of every piece."""
    tally = Tally(CODE, WHAT, _GAP, "cm")
    gather([tally], ([_of_piece(piece)] for piece in case.pattern.pieces))
    return tally.outcome()


@memoised
def _of_piece(piece: Piece) -> Tally:
    tally = Tally(CODE, WHAT, _GAP, "cm")
    gap, at, crossing = _looked_at(piece)
    _names(piece, tally)
    tally.see(gap, piece.name)
    if gap > _GAP:
        text = Message(
            "outline-not-closed-two-edges",
            N_("The outline is not closed: two edges are {gap:.4f} cm apart."),
            gap=gap,
        )
        tally.find(Severity.FAULT, piece.name, text, gap, at)
    area = piece.area
    if area < _LEAST:
        text = Message(
            "outline-encloses-cm-runs-wrong",
            N_("The outline encloses {area:.1f} cm²: it runs the wrong way round or has no paper."),
            area=area,
        )
        tally.find(Severity.FAULT, piece.name, text, area)
    elif crossing is not None:
        text = Message(
            "paper-overlaps-itself-outline-crosses",
            N_("The paper overlaps itself: the outline crosses itself here."),
        )
        tally.find(Severity.FAULT, piece.name, text, None, crossing)
    return tally


def _names(piece: Piece, tally: Tally) -> None:
    """Find an edge name that a piece has twice: nothing could be said about either."""
    labels = [edge.label for edge in piece.edges]
    if len(set(labels)) == len(labels):
        return
    twice = sorted({label for label in labels if labels.count(label) > 1})
    text = Message(
        "two-edges-piece-same-name",
        N_("Two edges of this piece have the same name: {names}."),
        names=", ".join(twice),
    )
    tally.find(Severity.FAULT, piece.name, text, float(len(twice)), code=TWICE)


def _looked_at(piece: Piece) -> tuple[float, Point, Point | None]:
    """The widest gap with its place, and where the outline crosses itself if it does."""
    chain = piece.outline
    gap, at = max(
        ((abs(curve.start - chain[i - 1].end), curve.start) for i, curve in enumerate(chain)),
        key=lambda pair: pair[0],
    )
    if _simple(piece):
        return gap, at, None
    shape = polygon(chain)
    if shape.is_valid:
        return gap, at, None
    return gap, at, _crossing(shape, chain[0].start)


def _simple(piece: Piece) -> bool:
    """A quick look with few chords; only where that looks wrong the fine outline decides."""
    from shapely import is_valid, polygons

    ring = chords(piece).points
    pairs = np.stack([ring.real, ring.imag], axis=1)
    return bool(len(pairs) > 2 and is_valid(polygons(pairs)))


def _crossing(shape: Polygon, otherwise: Point) -> Point:
    """The place that shapely names as the reason."""
    from re import findall

    from shapely.validation import explain_validity

    numbers = findall(r"-?\d+(?:\.\d+)?(?:e-?\d+)?", explain_validity(shape))
    return complex(float(numbers[0]), float(numbers[1])) if len(numbers) >= 2 else otherwise
