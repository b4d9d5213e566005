"""Each limit of the verifier from both sides: just within it a lay is good, just beyond it is not."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from cutwright.lay.cloth import Cloth, Fold, Match
from cutwright.lay.cuts import pieces_for
from cutwright.lay.layout import best_lay
from cutwright.lay.piece import LayPiece, extent
from cutwright.lay.plan import ClothPart, Lay, Placement
from cutwright.lay.search import Budget
from cutwright.lay.verify import faults
from tests.lay.shapes import box, wedge

OPEN = Cloth(name="plain", width=40, fold="open")
FOLDED = Cloth(name="folded", width=80)
PIECE = LayPiece("tab", (0j, 10 + 0j, 10 + 5j, 5j))
BOTH_HALVES = LayPiece("front", (0j, 20 + 0j, 18 + 12j, 12j), fold=(0j, 20 + 0j))


def at(name: str, x: float, y: float, **more: object) -> Placement:
    """A piece laid plain at a place, first copy."""
    place: dict[str, object] = {
        "piece": name, "copies": (1,), "x": x, "y": y, "rotation": 0.0, "mirrored": False,
    }  # fmt: skip
    return Placement.model_validate({**place, **more})


def a_lay(cloth: Cloth, placements: Sequence[Placement], *parts: ClothPart) -> Lay:
    """A lay of so many stretches; without any, one of 30 cm."""
    whole = parts or (
        ClothPart(fold=cloth.fold, start=0.0, length=30.0, height=cloth.height_of(cloth.fold)),
    )
    return Lay(
        cloth=cloth, parts=whole, placements=tuple(placements), utilisation=0.5, engine="hand",
        length=whole[-1].start + whole[-1].length, seed=0,
    )  # fmt: skip


def codes(lay: Lay, *pieces: LayPiece, matches: Sequence[Match] = ()) -> set[str]:
    return {found.code for found in faults(lay, pieces, lay.cloth, matches)}


@pytest.mark.parametrize(
    ("x", "y", "out_x", "out_y"),
    [(0.0, 0.0, -1, 0), (20.0, 0.0, 1, 0), (0.0, 0.0, 0, -1), (0.0, 35.0, 0, 1)],
    ids=["start", "end", "upper edge", "lower edge"],
)
def test_a_piece_may_reach_over_an_edge_by_rounding_only(
    x: float, y: float, out_x: int, out_y: int
) -> None:
    for over, bad in ((0.0, set()), (0.0045, set()), (0.0055, {"reaches-cm-over-edge-cloth"})):
        lay = a_lay(OPEN, [at("tab", x + over * out_x, y + over * out_y)])
        assert codes(lay, PIECE) == bad


@pytest.mark.parametrize(("over", "bad"), [(0.004, False), (0.006, True), (3.0, True)])
def test_a_strip_wider_than_the_cloth_is_no_good_lay(over: float, bad: bool) -> None:
    strip = box("frill", 10, 40 + over, strip=True)
    found = codes(a_lay(OPEN, [at("frill", 0.0, 0.0)]), strip)
    assert found == ({"reaches-cm-over-edge-cloth"} if bad else set())


@pytest.mark.parametrize("length", [40.0, 40.01, 78.0, 78.01, 301.5])
def test_a_strip_is_cut_in_parts_that_fit_and_make_up_its_length(length: float) -> None:
    parts = pieces_for([box("frill", 10, length, strip=True, join=1.0)], OPEN)
    across = [extent(part)[1] for part in parts]
    assert max(across) <= OPEN.usable + 1e-6
    assert sum(across) - 2 * (len(parts) - 1) == pytest.approx(length)
    one_less = (OPEN.usable - 2) * (len(parts) - 1) + 2
    assert one_less < length - 1e-6 or len(parts) == 1
    lay = best_lay(parts, OPEN, Budget(0))
    assert codes(lay, *parts) == set()


@pytest.mark.parametrize(("deep", "bad"), [(0.0, False), (0.0019, False), (0.0022, True)])
def test_two_pieces_may_touch_but_not_share_cloth(deep: float, bad: bool) -> None:
    pair = box("tab", 10, 5, copies=2)
    lay = a_lay(OPEN, [at("tab", 0.0, 0.0), at("tab", 10.0 - deep, 0.0, copies=(2,))])
    assert codes(lay, pair) == ({"overlap-square-cm"} if bad else set())


def test_pieces_on_two_stretches_do_not_share_cloth_though_their_figures_do() -> None:
    pair = box("tab", 10, 5, copies=2)
    parts = [ClothPart(fold="open", start=s, length=30.0, height=40.0) for s in (0.0, 5.0)]
    placed = [at("tab", 8.0, 0.0), at("tab", 8.0, 0.0, copies=(2,), part=1)]
    assert codes(a_lay(OPEN, placed, *parts), pair) == {"two-stretches-cloth-overlap"}


@pytest.mark.parametrize(("off", "bad"), [(0.9e-6, False), (1.2e-6, True), (-1.2e-6, True)])
def test_a_fold_edge_lies_on_the_fold(off: float, bad: bool) -> None:
    lay = a_lay(FOLDED, [at("front", 0.0, off, on_fold=True)])
    assert codes(lay, BOTH_HALVES) == ({"fold-edge-cm-off-fold"} if bad else set())


def test_a_fold_edge_needs_a_fold_to_lie_on() -> None:
    crosswise = FOLDED.model_copy(update={"fold": "crosswise"})
    for cloth, on_fold in ((FOLDED, False), (crosswise, True)):
        parts = ClothPart(fold=cloth.fold, start=0, length=30, height=cloth.height_of(cloth.fold))
        lay = a_lay(cloth, [at("front", 0.0, 0.0, on_fold=on_fold)], parts)
        assert "fold-edge-cm-off-fold" in codes(lay, BOTH_HALVES)


@pytest.mark.parametrize("allowed", [0.0, 2.0])
def test_the_grain_may_lean_as_far_as_the_cloth_allows(allowed: float) -> None:
    cloth = OPEN.model_copy(update={"grain_tolerance": allowed})
    for way in (-1, 1):
        for turn in (0.0, 180.0):
            for off, bad in ((0.0009, False), (0.0011, True)):
                rotation = turn + way * (allowed + off)
                lay = a_lay(cloth, [at("tab", 15.0, 20.0, rotation=rotation)])
                assert codes(lay, PIECE) == ({"lies-off-grain-allowed"} if bad else set())


def test_a_fold_edge_may_lie_half_a_degree_off_its_own_grain() -> None:
    from cmath import rect
    from dataclasses import replace
    from math import radians

    for off, bad in ((0.5005, False), (0.502, True)):
        piece = replace(BOTH_HALVES, grain=rect(1, radians(off)))
        lay = a_lay(FOLDED, [at("front", 0.0, 0.0, on_fold=True)])
        assert codes(lay, piece) == ({"lies-off-grain-allowed"} if bad else set())


def test_a_cloth_with_nap_takes_a_piece_one_way_only() -> None:
    cloth = OPEN.model_copy(update={"nap": "one way"})
    assert codes(a_lay(cloth, [at("tab", 0.0, 0.0)]), PIECE) == set()
    turned = a_lay(cloth, [at("tab", 10.0, 5.0, rotation=180.0)])
    assert codes(turned, PIECE) == {"lies-against-nap"}


@pytest.mark.parametrize(("off", "bad"), [(0.0095, False), (0.0105, True), (2.0, True)])
def test_a_matched_point_lies_at_its_place_in_the_repeat(off: float, bad: bool) -> None:
    cloth = OPEN.model_copy(update={"repeat_along": 4.0, "repeat_across": 4.0})
    piece = box("tab", 10, 5, marks={"foot": 0j})
    match = Match(points=("tab: foot",), along=True, across=True)
    for x, y in ((off, 0.0), (-off, 0.0), (0.0, off), (0.0, -off)):
        lay = a_lay(cloth, [at("tab", 8.0 + x, 8.0 + y)])
        found = codes(lay, piece, matches=[match])
        assert found == ({"lies-cm-off-place-repeat"} if bad else set())


@pytest.mark.parametrize(
    ("fold", "height"),
    [("lengthwise", 40.0), ("selvedges to the middle", 40.0), ("open", 80.0), ("crosswise", 80.0)],
)
def test_a_stretch_is_as_high_as_the_cloth_lies(fold: Fold, height: float) -> None:
    cloth = FOLDED.model_copy(update={"fold": fold})
    pair = box("tab", 10, 5, copies=1 if fold == "open" else 2)
    copies = (1,) if fold == "open" else (1, 2)
    for off, bad in ((0.0, False), (1e-8, True), (-1e-8, True)):
        part = ClothPart(fold=fold, start=0.0, length=30.0, height=height + off)
        lay = a_lay(cloth, [at("tab", 0.0, 0.0, copies=copies)], part)
        lay = lay.model_copy(update={"length": 60.0 if fold == "crosswise" else 30.0})
        assert codes(lay, pair) == ({"stretch-cm-high-cloth-allows"} if bad else set())


def test_the_stretches_follow_each_other_and_make_up_the_length() -> None:
    pair = box("tab", 10, 5, copies=2)
    placed = [at("tab", 0.0, 0.0), at("tab", 30.0, 0.0, copies=(2,), part=1)]
    for off, bad in ((0.0, False), (1e-8, True), (-1e-8, False)):
        parts = (
            ClothPart(fold="open", start=0.0, length=30.0 + off, height=40.0),
            ClothPart(fold="open", start=30.0, length=30.0, height=40.0),
        )
        found = codes(a_lay(OPEN, placed, *parts), pair)
        assert found == ({"two-stretches-cloth-overlap"} if bad else set())
    good = a_lay(OPEN, placed, parts[0].model_copy(update={"length": 30.0}), parts[1])
    for off, bad in ((0.9e-6, False), (1.2e-6, True), (-1.2e-6, True)):
        lay = good.model_copy(update={"length": 60.0 + off})
        assert codes(lay, pair) == ({"lay-says-cm-stretches-take"} if bad else set())


@pytest.mark.parametrize("fold", ["lengthwise", "selvedges to the middle", "crosswise", "open"])
def test_a_piece_gives_as_many_copies_as_there_are_layers(fold: Fold) -> None:
    cloth = FOLDED.model_copy(update={"fold": fold})
    layers = 1 if fold == "open" else 2
    length = 60.0 if fold == "crosswise" else 30.0
    for copies, spare in (((1,), False), ((1,), True), ((1, 2), False), ((1, 2), True)):
        piece = box("tab", 10, 5, copies=len(copies))
        lay = a_lay(cloth, [at("tab", 0.0, 0.0, copies=copies, spare=spare)])
        found = codes(lay.model_copy(update={"length": length}), piece)
        good = len(copies) + spare == layers
        assert found == (set() if good else {"cut-layers-but-gives"})


def test_hands_are_counted() -> None:
    left_and_right = wedge("flap", 10, 5, copies=2, mirrored=True)
    for hands, bad in (((False, True), False), ((False, False), True), ((True, True), True)):
        placed = [
            at("flap", 0.0, 10.0 + 10.0 * n, copies=(n + 1,), mirrored=hand)
            for n, hand in enumerate(hands)
        ]
        found = codes(a_lay(OPEN, placed), left_and_right)
        assert found == ({"come-out-mirrored-should"} if bad else set())
