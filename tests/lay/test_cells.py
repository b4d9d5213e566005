"""Cells over no-fit polygons: the same overlap as from a look at every edge."""

from __future__ import annotations

import numpy as np

from benchmarks.lay_dress import dress
from cutwright.lay.cells import cells
from cutwright.lay.cloth import Cloth
from cutwright.lay.cuts import cuts
from cutwright.lay.nofit import tables
from cutwright.lay.prepare import stretch
from cutwright.lay.separate import TOLERANCE, depth
from cutwright.lay.stripe import lattice

CLOTH = Cloth(name="plain", width=140)


def slow(edges: np.ndarray, x: float, y: float) -> float:
    """How deep a point lies in the rings, from all edges."""
    odd, best = False, float("inf")
    for x0, y0, ex, ey, inverse, y1 in edges:
        if (y < y0) != (y < y1) and ((x - x0) * ey < (y - y0) * ex) == (ey > 0):
            odd = not odd
        t = min(max(((x - x0) * ex + (y - y0) * ey) * inverse, 0.0), 1.0)
        best = min(best, (x - x0 - t * ex) ** 2 + (y - y0 - t * ey) ** 2)
    return float(np.sqrt(best)) if odd and best > TOLERANCE**2 else 0.0


def test_cells_change_no_overlap() -> None:
    pieces = dress()[:6]
    doubled, _single = cuts(pieces, CLOTH)
    task = stretch(doubled, CLOTH, CLOTH.fold, lattice(pieces, CLOTH, ())).task
    found = tables(task.shapes)
    frame, head, index = cells(found.box, found.start, found.stop, found.edges)
    dice = np.random.default_rng(5)
    many = len(task.shapes)
    deep = 0
    for _ in range(600):
        a, b = sorted(int(k) for k in dice.integers(0, many, 2))
        edges = found.edges[found.start[a, b] : found.stop[a, b]]
        low, high = found.box[a, b, :2], found.box[a, b, 2:]
        x, y = low + (high - low) * dice.random(2)
        if dice.random() < 0.5:  # close to the edge, where cells are cut
            edge = edges[int(dice.integers(len(edges)))]
            x, y = edge[:2] + dice.random() * edge[2:4] + dice.normal(0.0, 0.05, 2)
        got = depth(frame, head, index, found.edges, a, b, x, y)
        assert abs(got - slow(edges, x, y)) < 1e-12
        deep += got > 0
    assert 100 < deep < 500
