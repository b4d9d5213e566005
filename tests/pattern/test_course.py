"""A row of edges: whether it goes all round."""

from __future__ import annotations

import pytest

from cutwright.geometry.curve import Line
from cutwright.pattern.edge import Edge, EdgeKind, Ref
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.seam import seam
from cutwright.pattern.sewing.course import course_of

KINDS = {
    "top": EdgeKind.WAIST,
    "right": EdgeKind.SIDE,
    "hem": EdgeKind.HEM,
    "left": EdgeKind.SIDE,
}


def panel(name: str, wide: float) -> Piece:
    """A whole sheet, 30 deep, not on any fold."""
    corners = (0j, wide + 0j, complex(wide, 30), 30j)
    edges = tuple(
        Edge(edge, (Line(corners[i], corners[(i + 1) % 4]),), kind)
        for i, (edge, kind) in enumerate(KINDS.items())
    )
    return Piece(name, edges, (5j, 25j))


def tube(*names: str, sewn: int) -> Pattern:
    """Sheets in a row, each sewn to the next, the last to the first; only so many of the seams."""
    pieces = tuple(panel(name, 20.0 + n) for n, name in enumerate(names))
    seams = [
        seam(Ref(one, "right"), Ref(names[(n + 1) % len(names)], "left"))
        for n, one in enumerate(names)
    ]
    return Pattern(pieces, tuple(seams[:sewn]))


@pytest.mark.parametrize("names", [("front", "back"), ("front", "side", "back")])
@pytest.mark.parametrize("edge", ["top", "hem"])
def test_sheets_sewn_to_each_other_all_round_make_a_closed_row(
    names: tuple[str, ...], edge: str
) -> None:
    refs = [Ref(name, edge) for name in names]
    round_it = course_of(tube(*names, sewn=len(names)), refs)
    assert round_it.closed
    assert round_it.whole == pytest.approx(sum(20.0 + n for n in range(len(names))))
    assert not course_of(tube(*names, sewn=len(names) - 1), refs).closed
