"""The outline of a piece as short chords, drawn once for every check that needs a polygon."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from cutwright.geometry.curve import Cubic
from cutwright.geometry.point import Point
from cutwright.memo import memoised
from cutwright.pattern.edge import Edge
from cutwright.pattern.piece import Piece

COUNT = 12
"""Chords for a cubic; a long armhole is then met within 0.03 cm."""
_T = np.arange(COUNT) / COUNT
_BASIS = np.stack([(1 - _T) ** 3, 3 * _T * (1 - _T) ** 2, 3 * _T**2 * (1 - _T), _T**3])


@dataclass(frozen=True, slots=True)
class Chords:
    """The corners of the closed ring, shape (n,), and for each chord the index of its edge."""

    points: np.ndarray
    edges: np.ndarray

    def gaps(self, places: Sequence[Point]) -> np.ndarray:
        """How far each place lies from each chord, cm, shape (places, n)."""
        return _gaps(self.points, np.append(self.points[1:], self.points[:1]), places)


def _gaps(start: np.ndarray, end: np.ndarray, places: Sequence[Point]) -> np.ndarray:
    """How far each place lies from each of the straight lines, cm, shape (places, lines)."""
    step = end - start
    size = np.maximum(step.real**2 + step.imag**2, 1e-18)
    away = np.array(places)[:, None] - start
    share = np.clip((away * step.conj()).real / size, 0.0, 1.0)
    gaps: np.ndarray = np.abs(away - step * share)
    return gaps


def gap_to(edge: Edge, places: Sequence[Point]) -> float:
    """How far the farthest of some places lies from an edge, cm, within 0.03."""
    parts = [
        np.array(c.controls) @ _BASIS if isinstance(c, Cubic) else np.array([c.start])
        for c in edge.curves
    ]
    start = np.concatenate(parts)
    return float(_gaps(start, np.append(start[1:], edge.end), places).min(axis=1).max())


@memoised
def chords(piece: Piece) -> Chords:
    """The ring of a piece: lines as they are, each cubic as 12 chords."""
    curves = [(index, curve) for index, edge in enumerate(piece.edges) for curve in edge.curves]
    cubics = [curve.controls for _index, curve in curves if isinstance(curve, Cubic)]
    bent = iter(np.array(cubics) @ _BASIS) if cubics else iter(())
    points: list[np.ndarray] = []
    edges: list[int] = []
    for index, curve in curves:
        part = next(bent) if isinstance(curve, Cubic) else np.array([curve.start])
        points.append(part)
        edges += [index] * len(part)
    return Chords(np.concatenate(points), np.array(edges))


def near_edges(piece: Piece, places: Sequence[Point], within: float) -> list[dict[int, float]]:
    """For each place the edges (by index) that come within a distance of it, with their distances."""
    ring = chords(piece)
    out: list[dict[int, float]] = []
    for row in ring.gaps(places):
        found: dict[int, float] = {}
        for at in np.flatnonzero(row < within).tolist():
            index = int(ring.edges[at])
            found[index] = min(found.get(index, within), float(row[at]))
        out.append(found)
    return out
