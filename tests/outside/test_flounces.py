"""Flounces against published figures and against sums of common practice."""

from __future__ import annotations

from math import degrees

import pytest

from cutwright.body.body import Body
from cutwright.body.resolve import resolve
from cutwright.body.size_charts import size
from cutwright.geometry.curve import Line
from cutwright.geometry.point import angle_between
from cutwright.pattern.edge import Edge, EdgeKind, Ref
from cutwright.pattern.parts.shapes import ring_part
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Cut, Piece
from cutwright.pattern.result import Result
from cutwright.pattern.role import Role
from cutwright.pattern.seam import seam
from cutwright.style.document import parse_step
from cutwright.wording.figures import how
from cutwright.workshop.gallery import know_all_steps

know_all_steps()


@pytest.fixture(scope="module")
def body() -> Body:
    """Any body: flounces measure edges only."""
    return resolve(size(88, "regular"))


def half(name: str, hem: float, fold: bool, flip: bool) -> Piece:
    """Half a plain panel with a straight hem of a given length."""
    centre, side = (0.0, hem) if not flip else (0.0, -hem)
    low, high = complex(centre, 50), complex(centre, 0)
    out, up = complex(side, 50), complex(side, 0)
    kind = EdgeKind.FOLD if fold else EdgeKind.CENTRE
    rows = (
        (
            ("waist", EdgeKind.WAIST, up, high),
            ("centre front", kind, high, low),
            ("hem", EdgeKind.HEM, low, out),
            ("side", EdgeKind.SIDE, out, up),
        )
        if flip
        else (
            ("waist", EdgeKind.WAIST, high, up),
            ("side", EdgeKind.SIDE, up, out),
            ("hem", EdgeKind.HEM, out, low),
            ("centre back", kind, low, high),
        )
    )
    edges = tuple(Edge(n, (Line(a, b),), k) for n, k, a, b in rows)
    cut = Cut(1) if fold else Cut(2, mirrored=True)
    middle = complex(side / 2, 10)
    return Piece(name, edges, (middle, middle + 20j), cut)


def panels(front: float, back: float) -> Pattern:
    """A front on the fold and a back in two halves, sewn at side and centre back."""
    return Pattern(
        (half("front", front, fold=True, flip=True), half("back", back, fold=False, flip=False)),
        (
            seam(Ref("front", "side"), Ref("back", "side")),
            seam(Ref("back", "centre back"), Ref("back", "centre back"), same_way=True),
        ),
    )


def done(pattern: Pattern, body: Body, **fields: object) -> Result:
    """One flounce sewn to the whole hem."""
    edges = [{"piece": "front", "edge": "hem"}, {"piece": "back", "edge": "hem"}]
    return parse_step({"edges": edges, **fields}).apply(pattern, body)


def test_a_straight_flounce_reckons_as_cutters_do(body: Body) -> None:
    """26 + 27 = 53, whole 106, x 1.7 = 180.2, cut 180 (common practice, no source)."""
    result = done(panels(26, 27), body, do="flounce_straight", ratio=1.7, depth=22, round="nearest")
    line = "; ".join(how(figure) for figure in result.figures)
    for part in ("= 53.0", "= 106.0", "= 180.2", "→ 180.0"):
        assert part in line
    flounce = result.pattern.piece("flounce")
    assert flounce.edge_length("top") * flounce.cut.copies == pytest.approx(180.0)
    assert flounce.edge_length("right end") == pytest.approx(22.0)
    fullness = next(f.value for f in result.figures if f.code == "fullness")
    assert fullness == pytest.approx(
        flounce.cut.copies * flounce.edge_length("top") / 106, abs=0.005
    )


def test_a_flounce_in_two_parts_rounds_each(body: Body) -> None:
    """72 x 1.7 = 122.4, taken to 125, in two equal parts of 62.5, cut 63 (common practice, no source)."""
    result = done(
        panels(18, 18), body, do="flounce_straight", ratio=1.7, depth=22, round_to=5, parts=2
    )
    sums = {figure.code: how(figure) for figure in result.figures}
    assert "= 122.4 → 125.0" in sums["flounce-length"]
    assert "÷ 2 parts = 62.5 → 63.0" in sums["each-part"]
    flounce = result.pattern.piece("flounce")
    assert flounce.cut.copies == 2
    assert flounce.edge_length("top") == pytest.approx(63.0)
    fullness = next(f.value for f in result.figures if f.code == "fullness")
    assert fullness == pytest.approx(2 * 63 / 72)


def test_five_slashes_each_side_leave_the_sewn_edge_as_it_was(body: Body) -> None:
    """Five slashes on each side of the middle (common practice, no source)."""
    result = done(panels(18, 18), body, do="flounce_slashed", depth=22, cuts=5, by=3)
    flounce = result.pattern.piece("flounce")
    assert flounce.edge_length("top") == pytest.approx(72.0, abs=1e-4)
    assert flounce.edge_length("hem") == pytest.approx(72.0 + 10 * 3, abs=0.3)


@pytest.mark.parametrize(
    ("inner", "outer", "depth", "radius", "area", "angle"),
    [
        # Laura I. Baldt, Clothing for Women, 1916, "Draft of circular flounce for petticoat, Fig. 56":
        # depth 12 in, top 72, bottom 112, radius 72 x 12 / 40 = 21.6 in. Area and angle follow.
        (72, 112, 12, 21.6, 1104, 190.986),
        # closed forms of the annular sector
        (60, 120, 20, 20.0, 1800, 171.887),
        (44, 88, 15, 15.0, 990, 168.068),
    ],
)
def test_a_circular_flounce_has_baldts_radius(
    inner: float, outer: float, depth: float, radius: float, area: float, angle: float, body: Body
) -> None:
    """r = s d / (S - s), angle = (S - s) / d, area = d (s + S) / 2."""
    result = done(
        panels(inner / 4, inner / 4), body,
        do="flounce_circular", depth=depth, fullness=outer / inner, widest=340,
    )  # fmt: skip
    flounce = result.pattern.piece("flounce")
    copies = flounce.cut.copies
    assert flounce.edge_length("top") * copies == pytest.approx(inner, abs=1e-3)
    assert flounce.edge_length("hem") * copies == pytest.approx(outer, abs=1e-3)
    assert flounce.area * copies == pytest.approx(area, rel=1e-5)
    right, left = flounce.edge("right end"), flounce.edge("left end")
    turn = angle_between(right.end - right.start, left.start - left.end)
    assert abs(degrees(turn)) % 360 == pytest.approx(min(angle, 360 - angle), abs=0.01)
    radius_line = next(f for f in result.figures if f.code == "radius")
    assert radius_line.value == pytest.approx(radius, abs=0.005)


@pytest.mark.parametrize(
    ("diameter", "depth", "seam_length", "edge"), [(1, 1, 3.14, 9.42), (2, 1, 6.28, 12.56)]
)
def test_fullness_is_one_plus_depth_over_radius(
    diameter: float, depth: float, seam_length: float, edge: float
) -> None:
    """Whole rings: seam and edge as printed by cloningcouture.com, 27 June 2017."""
    part = ring_part(
        "ring", diameter / 2, depth, 3.14159265 * 2 * 0.999999, Cut(), Role.CIRCULAR_FLOUNCE
    )
    assert part.edge_length("top") == pytest.approx(seam_length, abs=0.005)
    assert part.edge_length("hem") == pytest.approx(edge, abs=0.01)


@pytest.mark.parametrize(
    ("finished", "ratio", "flat"), [(15, 2.5, 37.5), (10, 1.5, 15), (10, 2, 20), (10, 3, 30)]
)
def test_gathers_multiply(finished: float, ratio: float, flat: float, body: Body) -> None:
    """15 in at 2.5 : 1 = 37.5 in (stitchcoach.blogspot.com, 2017); 10 in: 15, 20, 30 (a ruffle gauge)."""
    front = int(finished * 10 / 4) / 10  # tapes read whole millimetres
    result = done(
        panels(front, finished / 2 - front), body,
        do="flounce_straight", ratio=ratio, depth=5, round="none",
    )  # fmt: skip
    assert result.figures[1].value == pytest.approx(flat, abs=1e-9)
