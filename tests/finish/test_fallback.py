"""The cut line from a polygon buffer, where corners leave no other way."""

from __future__ import annotations

from itertools import pairwise
from math import pi

import pytest

from cutwright.errors import GeometryError
from cutwright.finish.fallback import border_all_round
from cutwright.geometry.curve import Line
from cutwright.geometry.outline import area
from cutwright.geometry.path import Path
from cutwright.geometry.point import distance_to_line

WIDE, DEEP = 20.0, 30.0
CORNERS = (0j, WIDE + 0j, complex(WIDE, DEEP), complex(0, DEEP))


def sides() -> list[Path]:
    """The four edges of a sheet, each of two lines."""
    found: list[Path] = []
    for start, end in pairwise((*CORNERS, CORNERS[0])):
        middle = (start + end) / 2
        found.append((Line(start, middle), Line(middle, end)))
    return found


@pytest.mark.parametrize(
    "amounts", [(1.0, 2.0, 3.0, 1.5), (1.0, 1.0, 1.0, 1.0), (0.0, 2.0, 0.5, 2.0)]
)
def test_a_sheet_gets_a_strip_along_each_edge_and_a_round_corner(
    amounts: tuple[float, ...],
) -> None:
    """20 x 30 with strips a, b, c, d; at each corner a quarter of a circle of the lesser strip (closed form)."""
    paths = sides()
    found = border_all_round(paths, amounts, tuple(c for path in paths for c in path))
    ring = tuple(c for _edge, path in found for c in path)
    strips = sum(
        abs(path[-1].end - path[0].start) * amount
        for path, amount in zip(paths, amounts, strict=True)
    )
    quarters = sum(pi / 4 * min(one, other) ** 2 for one, other in pairwise((*amounts, amounts[0])))
    assert area(ring) == pytest.approx(WIDE * DEEP + strips + quarters, abs=0.05)
    for one, other in pairwise((*ring, ring[0])):
        assert abs(one.end - other.start) < 1e-9


def test_each_stretch_lies_beside_its_edge_and_they_come_in_order() -> None:
    amounts = (1.0, 2.0, 3.0, 1.5)
    paths = sides()
    found = border_all_round(paths, amounts, tuple(c for path in paths for c in path))
    order = [edge for edge, _path in found]
    first = order.index(0)
    assert [*order[first:], *order[:first]] == [0, 1, 2, 3]
    for edge, path in found:
        longest = max(path, key=lambda c: abs(c.end - c.start))
        a, b = CORNERS[edge], CORNERS[(edge + 1) % 4]
        for place in (longest.start, longest.end):
            assert distance_to_line(place, a, b) == pytest.approx(amounts[edge], abs=0.001)


def test_paper_that_falls_apart_is_refused() -> None:
    """Two sheets that touch nowhere are no piece."""
    far = tuple(Line(c.start + 200, c.end + 200) for path in sides() for c in path)
    with pytest.raises(GeometryError, match="falls apart"):
        border_all_round(
            [*sides(), far[:2]], (1.0, 1.0, 1.0, 1.0, 1.0), tuple(c for p in sides() for c in p)
        )
