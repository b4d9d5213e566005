"""A cut line all round by a polygon buffer, for pieces whose corners leave no other way."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from cutwright.errors import GeometryError
from cutwright.geometry.curve import Line
from cutwright.geometry.outline import flattened, polygon
from cutwright.geometry.path import Path
from cutwright.messages import N_, Message


def border_all_round(
    paths: Sequence[Path], amounts: Sequence[float], outline: Path
) -> list[tuple[int, Path]]:
    """The border of the stitch line's paper together with a strip of each allowance.

    An edge whose strip is swallowed by its neighbours has no stretch.

    Parameters
    ----------
    paths : the edges of a piece, clockwise, dart mouths between them open, cm
    amounts : the allowance of each, cm; none negative
    outline : the whole stitch line, closed, cm

    Returns
    -------
    (index of the edge, its stretch of the border) in the order of the outline; straight chords
    within 0.001 cm

    Raises
    ------
    GeometryError : the border falls apart
    """
    import shapely

    lines = [shapely.LineString([(p.real, p.imag) for p in flattened(path)]) for path in paths]
    strips = [
        line.buffer(amount, cap_style="flat", join_style="mitre", mitre_limit=2.5)
        for line, amount in zip(lines, amounts, strict=True)
        if amount > 0
    ]
    paper = polygon(outline).buffer(0)
    corners = [
        shapely.Point(path[-1].end.real, path[-1].end.imag).buffer(min(a, b))
        for path, a, b in zip(paths, amounts, [*amounts[1:], amounts[0]], strict=True)
        if min(a, b) > 0
    ]
    whole = shapely.union_all([paper, *strips, *corners])
    if not isinstance(whole, shapely.Polygon):
        raise GeometryError(
            Message(
                "allowance-falls-apart-piece-too",
                N_("The allowance falls apart; the piece is too narrow for it."),
            )
        )
    ring = shapely.geometry.polygon.orient(whole, 1.0).exterior.simplify(0.001)
    points = [complex(x, y) for x, y in ring.coords]
    ends = np.array(points)
    middle = (ends[:-1] + ends[1:]) / 2
    middles = shapely.points(middle.real, middle.imag)
    gaps = [
        abs(shapely.distance(middles, line) - amount)
        for line, amount in zip(lines, amounts, strict=True)
    ]
    owners = np.argmin(np.stack(gaps), axis=0).tolist()
    return _by_owner(points, owners)


def _by_owner(points: list[complex], owners: list[int]) -> list[tuple[int, Path]]:
    """Runs of chords that belong to one edge, beginning where the first owner changes."""
    count = len(owners)
    begin = next((i for i in range(count) if owners[i] != owners[i - 1]), 0)
    out: list[tuple[int, Path]] = []
    for k in range(count):
        i = (begin + k) % count
        chord = Line(points[i], points[i + 1])
        if out and out[-1][0] == owners[i]:
            out[-1] = (owners[i], (*out[-1][1], chord))
        else:
            out.append((owners[i], (chord,)))
    return out
