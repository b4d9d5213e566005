"""Rule 2 within one edge: no turn too tight to be sewn, no flat spot in a curve, no side that waves."""

from __future__ import annotations

import numpy as np

from cutwright.checks.case import Case
from cutwright.checks.limits import Limits
from cutwright.checks.tally import Outcome, Tally, gather, together
from cutwright.geometry.curve import Cubic
from cutwright.geometry.hollow import curvatures
from cutwright.geometry.path import Path
from cutwright.geometry.point import Point
from cutwright.memo import memoised
from cutwright.messages import N_, Message
from cutwright.pattern.edge import Edge, EdgeKind
from cutwright.pattern.piece import Piece
from cutwright.pattern.result import Severity

TIGHT = "curve-tight"
FLAT = "curve-flat"
WAVY = "side-wave"
WHAT_TIGHT = N_("round edges and sides: tightest radius")
WHAT_FLAT = N_("curves of necklines and armholes: longest flat spot")
WHAT_WAVY = N_("side seams: changes from hollow to round")
_ROUND = (EdgeKind.NECKLINE, EdgeKind.ARMHOLE)
_SIDE_CHANGES = 2
"""A side is hollow at the waist and round over the hip, and may be hollow again under the arm."""
_T = np.linspace(0.0, 1.0, 33)
_STRAIGHT, _BENT = 0.004, 0.015
"""Curvatures in 1/cm: below the first the eye sees a straight line, above the second a curve."""


def edge_bend(case: Case) -> Outcome:
    """Look along every neckline, armhole and side; lines that are drawn straight are left alone."""
    tallies = _blank(case.limits)
    gather(tallies, (_of_piece(piece, case.limits) for piece in case.pattern.pieces))
    return together([tally.outcome() for tally in tallies])


def _blank(limits: Limits) -> tuple[Tally, ...]:
    return (
        Tally(TIGHT, WHAT_TIGHT, None, "cm", least=True),
        Tally(FLAT, WHAT_FLAT, limits.flat, "cm"),
        Tally(WAVY, WHAT_WAVY, _SIDE_CHANGES, ""),
    )


@memoised
def _of_piece(piece: Piece, limits: Limits) -> tuple[Tally, ...]:
    tight, flat, wavy = tallies = _blank(limits)
    for edge in piece.edges:
        cubics = [c for c in edge.curves if isinstance(c, Cubic)]
        if not cubics or edge.kind not in (*_ROUND, EdgeKind.SIDE):
            continue
        bend = curvatures(cubics, _T)
        _tight(piece, edge, cubics, bend, limits, tight)
        if edge.kind is EdgeKind.SIDE:
            _wavy(piece, edge, bend, wavy)
        else:
            _flat(piece, edge, limits, flat)
    return tallies


def _tight(
    piece: Piece, edge: Edge, cubics: list[Cubic], bend: np.ndarray, limits: Limits, tally: Tally
) -> None:
    row, column = np.unravel_index(int(abs(bend).argmax()), bend.shape)
    most = abs(float(bend[row, column]))
    if most < 1e-6:
        return
    radius, where = 1 / most, f"{piece.name}: {edge.label}"
    least = limits.tight_side if edge.kind is EdgeKind.SIDE else limits.tight_round
    tally.see(radius, where)
    if radius < least:
        text = Message(
            "turns-too-tightly",
            N_(
                "This edge turns with a radius of {radius:.1f} cm; less than {limit:g} cm is hard to sew and to press. "
                "Draw it anew, deeper or less wide."
            ),
            radius=radius,
            limit=least,
        )
        tally.find(Severity.WARNING, where, text, radius, cubics[int(row)].at(float(_T[column])))


def _wavy(piece: Piece, edge: Edge, bend: np.ndarray, tally: Tally) -> None:
    seen = bend.ravel()
    changes = int(np.count_nonzero(np.diff(np.sign(seen[abs(seen) > _STRAIGHT]))))
    where = f"{piece.name}: {edge.label}"
    tally.see(changes, where)
    if changes > _SIDE_CHANGES:
        text = Message(
            "side-goes-to-and-fro",
            N_(
                "This side goes to and fro between hollow and round more often than a side seam does ({count}; at most "
                "{limit}). True it."
            ),
            count=changes,
            limit=_SIDE_CHANGES,
        )
        tally.find(Severity.WARNING, where, text, changes, edge.start)


def _flat(piece: Piece, edge: Edge, limits: Limits, tally: Tally) -> None:
    size, at = flat_spot(edge.curves)
    where = f"{piece.name}: {edge.label}"
    tally.see(size, where)
    if size > limits.flat and at is not None:
        text = Message(
            "flat-spot-in-curve",
            N_(
                "The curve of this edge has a flat spot {size:.1f} cm long; {limit:g} cm is the most that the eye does "
                "not see. Draw it anew."
            ),
            size=size,
            limit=limits.flat,
        )
        tally.find(Severity.WARNING, where, text, size, at)


def flat_spot(path: Path) -> tuple[float, Point | None]:
    """The longest straight stretch of a chain with a bend on both sides of it, cm, and its middle.

    Lines that are drawn straight are no flat spots: a style asks for them.
    """
    longest: tuple[float, Point | None] = 0.0, None
    run: list[list[Cubic]] = [[]]
    for curve in path:
        if isinstance(curve, Cubic):
            run[-1].append(curve)
        else:
            run.append([])
    for cubics in run:
        if cubics:
            longest = max(longest, _flat_within(cubics), key=lambda found: found[0])
    return longest


def _flat_within(cubics: list[Cubic]) -> tuple[float, Point | None]:
    bend = abs(curvatures(cubics, _T)).ravel()
    points = np.array([c.at(float(t)) for c in cubics for t in _T])
    along = np.concatenate([[0.0], np.cumsum(abs(np.diff(points)))])
    straight = np.flatnonzero(bend < _STRAIGHT)
    best: tuple[float, Point | None] = 0.0, None
    if not len(straight):
        return best
    for group in np.split(straight, np.flatnonzero(np.diff(straight) > 1) + 1):
        first, last = int(group[0]), int(group[-1])
        if not first or last == len(bend) - 1:
            continue
        if bend[:first].max() > _BENT and bend[last + 1 :].max() > _BENT:
            size = float(along[last] - along[first])
            best = max(best, (size, complex(points[(first + last) // 2])), key=lambda f: f[0])
    return best
