"""Rule 2 within one piece: an edge has no corner and no wave that the style did not ask for."""

from __future__ import annotations

from itertools import pairwise
from math import degrees

import numpy as np

from cutwright.checks.case import Case
from cutwright.checks.corner import arriving, corners, leaving, wanted_point
from cutwright.checks.limits import Limits
from cutwright.checks.tally import Outcome, Tally, gather, together
from cutwright.geometry.curve import Cubic
from cutwright.geometry.hollow import curvatures
from cutwright.geometry.point import Point, angle_between
from cutwright.memo import memoised
from cutwright.messages import N_, Message
from cutwright.pattern.edge import Edge, EdgeKind
from cutwright.pattern.piece import Piece
from cutwright.pattern.result import Severity
from cutwright.pattern.takeup import folded_edge

CODE = "edge-corner"
WAVE = "curve-wave"
WHAT = N_("curves run into each other within an edge: largest bend")
WHAT_WAVE = N_("necklines and armholes with a wrong-way curve")
_ROUND = (EdgeKind.NECKLINE, EdgeKind.ARMHOLE)
_FLAT = 0.0025
"""Curvature in 1/cm that the eye takes for straight (a radius of 4 m)."""


def edge_smooth(case: Case) -> Outcome:
    """Look along every edge for corners between its curves, and along round ones for waves."""
    tally, waves = _blank(case.limits)
    gather((tally, waves), (_of_piece(piece, case.limits) for piece in case.pattern.pieces))
    if waves.count:
        waves.worst = float(len(waves.findings))
    return together([tally.outcome(), waves.outcome()])


def _blank(limits: Limits) -> tuple[Tally, Tally]:
    return (
        Tally(CODE, WHAT, limits.mouth, "degrees"),
        Tally(WAVE, WHAT_WAVE, 0, ""),
    )


@memoised
def _of_piece(piece: Piece, limits: Limits) -> tuple[Tally, Tally]:
    tally, waves = _blank(limits)
    for edge, at, bend in _bends(piece):
        where = f"{piece.name}: {edge.label}"
        if bend > limits.mouth and wanted_point(piece, at, edge):
            continue
        tally.see(bend, where)
        if bend > limits.mouth + 1e-6:
            text = Message(
                "edge-corner-style-did-not",
                N_(
                    "This edge has a corner of {bend:.1f}° in it that the style did not ask for; "
                    "{limit:g}° is allowed. True it."
                ),
                bend=bend,
                limit=limits.mouth,
            )
            tally.find(Severity.WARNING, where, text, bend, at)
    _waves(piece, waves)
    return tally, waves


def _bends(piece: Piece) -> tuple[tuple[Edge, Point, float], ...]:
    """Every join of curves within an edge or between its parts: edge, place, bend in degrees."""
    out: list[tuple[Edge, Point, float]] = []
    for edge in piece.outer_edges:
        for one, two in pairwise(folded_edge(piece, edge).path):
            bend = angle_between(arriving(one), leaving(two))
            out.append((edge, one.end, abs(degrees(bend))))
        corner = corners(piece).ending(edge)
        if corner.after.name == edge.name and corner.after is not edge and not corner.darts:
            out.append((edge, corner.at, abs(degrees(corner.turn))))
    return tuple(out)


def _waves(piece: Piece, tally: Tally) -> None:
    for edge, at, sharpest in _bent_both_ways(piece):
        where = f"{piece.name}: {edge.label}"
        tally.count += 1
        if at is None:
            continue
        tally.where = where
        text = Message(
            "edge-bends-way-then-other",
            N_(
                "This edge bends one way and then the other (curvature {value:.3f} per cm against its "
                "run); a neckline or an armhole bends one way only."
            ),
            value=sharpest,
        )
        tally.find(Severity.WARNING, where, text, sharpest, at)


def _bent_both_ways(piece: Piece) -> tuple[tuple[Edge, Point | None, float], ...]:
    """For each round edge the place where it bends against its run, or None."""
    round_edges = [edge for edge in piece.edges if edge.kind in _ROUND]
    cubics = [(e, c) for e in round_edges for c in e.curves if isinstance(c, Cubic)]
    if not cubics:
        return ()
    bends = curvatures([curve for _edge, curve in cubics], _T)
    out: list[tuple[Edge, Point | None, float]] = []
    for edge in round_edges:
        rows = [i for i, (owner, _curve) in enumerate(cubics) if owner is edge]
        if rows:
            out.append((edge, *_against([cubics[i][1] for i in rows], bends[rows])))
    return tuple(out)


def _against(cubics: list[Cubic], bend: np.ndarray) -> tuple[Point | None, float]:
    """Where a chain bends most against its run, and how sharply; (None, 0) where it does not."""
    most, least = float(bend.max()), float(bend.min())
    against = min(most, -least)
    if against <= _FLAT:
        return None, 0.0
    index = int(bend.argmin() if most > -least else bend.argmax())
    row, column = divmod(index, bend.shape[1])
    return cubics[row].at(float(_T[column])), against


_T = np.linspace(0.02, 0.98, 13)
