"""Laying out: what the cutter may count on, whatever the pieces are."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest

from benchmarks.lay_dress import dress
from cutwright.errors import LayError
from cutwright.lay.cloth import Cloth, Match
from cutwright.lay.layout import best_lay, lay_out
from cutwright.lay.piece import LayPiece
from cutwright.lay.plan import Lay
from cutwright.lay.search import Budget
from cutwright.lay.stripe import lattice, off_by
from cutwright.lay.verify import faults
from tests.lay.shapes import box, wedge

PLACES = 400_000
PLAIN = Cloth(name="plain", width=140)


def laid(cloth: Cloth, matches: tuple[Match, ...] = (), places: int = PLACES) -> Lay:
    return best_lay(dress(), cloth, Budget(places), matches=matches)


@pytest.fixture(scope="module")
def lays() -> list[Lay]:
    return list(lay_out(dress(), PLAIN, Budget(PLACES)))


@pytest.fixture(scope="module")
def plain(lays: list[Lay]) -> Lay:
    return lays[-1]


def test_lays_come_better_and_better_and_verified(lays: list[Lay]) -> None:
    assert len(lays) > 1
    assert all(later.length <= sooner.length for sooner, later in pairwise(lays))
    assert all(lay.verified and not faults(lay, dress(), PLAIN) for lay in lays)


def test_the_same_seed_gives_the_same_lay_bit_for_bit(plain: Lay) -> None:
    assert laid(PLAIN).model_dump_json() == plain.model_dump_json()


def test_it_stops_when_asked_and_keeps_what_it_has() -> None:
    seen: list[Lay] = []
    budget = Budget(10**9, stop=lambda: len(seen) >= 2)
    lay = best_lay(dress(), PLAIN, budget, shown=seen.append)
    assert len(seen) == 2
    assert lay.verified


def test_the_length_obeys_its_lower_bounds(plain: Lay) -> None:
    assert plain.utilisation <= 1
    assert plain.length >= 92  # the longest piece, a tie
    assert len(plain.placements) == 14


def test_one_way_cloth_is_never_shorter(plain: Lay) -> None:
    one_way = laid(PLAIN.model_copy(update={"nap": "one way"}))
    assert one_way.length >= plain.length * 0.99
    pieces = {p.name: p for p in dress()}
    for p in one_way.placements:
        assert (p.of(pieces[p.piece].grain or 1) - p.of(0)).real > 0


MATCHES = (
    Match(points=("bodice front: side waist", "bodice back: side waist"), across=True),
    Match(points=("skirt front: side waist", "skirt back: side waist"), across=True),
    Match(
        points=("skirt front: centre waist", "bodice front: centre waist"), along=False, across=True
    ),
)


def test_a_check_is_never_shorter_and_the_seams_match(plain: Lay) -> None:
    checked = PLAIN.model_copy(update={"repeat_along": 8.0, "repeat_across": 8.0})
    lay = laid(checked, MATCHES)
    assert lay.length >= plain.length * 0.99
    marks = {}
    named = {p.name: p for p in dress()}
    for p in lay.placements:
        for mark, z in named[p.piece].marks.items():
            marks[p.piece, mark] = p.of(z), p
    for one, other in [
        (("bodice front", "side waist"), ("bodice back", "side waist")),
        (("skirt front", "side waist"), ("skirt back", "side waist")),
    ]:
        (a, pa), (b, pb) = marks[one], marks[other]
        # The check looks the same both ways about its lines, so a turned piece counts from the other side.
        turned = [math.cos(math.radians(p.rotation) + math.pi / 2) for p in (pa, pb)]
        assert off_by(a.real, 8) == pytest.approx(off_by(b.real, 8), abs=0.01), turned
        assert off_by(a.imag, 8) == pytest.approx(off_by(b.imag, 8), abs=0.01), turned


def test_matches_that_contradict_each_other_are_refused() -> None:
    cloth = PLAIN.model_copy(update={"repeat_along": 8.0})
    pieces = [
        box("front", 30, 20, marks={"top": 0j, "foot": 30 + 0j}),
        box("back", 33, 20, marks={"top": 0j, "foot": 33 + 0j}),
    ]
    both = [Match(points=("front: top", "back: top")), Match(points=("front: foot", "back: foot"))]
    lattice(pieces, cloth, both[:1])
    with pytest.raises(LayError, match=r"3\.0 cm out of step"):
        lattice(pieces, cloth, both)
    with pytest.raises(LayError, match="has no mark"):
        lattice(pieces, cloth, [Match(points=("front: hip",))])


def test_a_wider_cloth_is_never_longer_and_takes_about_the_same_area() -> None:
    """Common widths of 90 to 150: lengths fall, area within 15 % unless a piece is too wide."""
    pieces = [
        wedge("front", 50, 24, copies=6, mirrored=True),
        wedge("back", 48, 20, copies=6, mirrored=True),
        box("sleeve", 30, 22, copies=4),
        box("cuff", 20, 8, copies=4),
        wedge("pocket", 20, 18, copies=4, mirrored=True),
    ]
    lays = [
        best_lay(pieces, Cloth(name=str(w), width=w, fold="open"), Budget(PLACES))
        for w in (90, 115, 140, 150)
    ]
    for narrow, wide in pairwise(lays):
        assert wide.length <= narrow.length * 1.01
    areas = [lay.length * lay.cloth.usable for lay in lays]
    assert max(areas) <= min(areas) * 1.15


def test_a_piece_wider_than_half_is_opened_out_on_a_single_stretch_at_the_end() -> None:
    pieces = [
        LayPiece("skirt", (0j, 60 + 0j, 50 + 80j, 10 + 80j), 1 + 0j, fold=(0j, 60 + 0j)),
        box("band", 30, 10, copies=2),
    ]
    with pytest.raises(LayError, match="too wide"):
        best_lay(pieces, PLAIN, Budget(2000))
    lay = best_lay(pieces, Cloth(name="wide", width=160), Budget(2000))
    assert [part.fold for part in lay.parts] == ["lengthwise"]
    narrow = [box("panel", 50, 90, copies=2), box("band", 30, 10, copies=2)]
    lay = best_lay(narrow, PLAIN, Budget(2000))
    assert [part.fold for part in lay.parts] == ["lengthwise", "open"]
    assert lay.length == pytest.approx(30 + 100, abs=0.01)
    assert lay.parts[1].start == pytest.approx(30, abs=0.01)


def test_pairs_on_open_cloth_come_left_and_right_and_an_odd_one_gives_a_spare() -> None:
    pieces = [wedge("front", 30, 20, copies=4, mirrored=True), wedge("flap", 10, 8, copies=1)]
    open_ = best_lay(pieces, PLAIN.model_copy(update={"fold": "open"}), Budget(3000))
    assert sum(p.mirrored for p in open_.placements if p.piece == "front") == 2
    doubled = best_lay(pieces, PLAIN, Budget(3000))
    assert [p.spare for p in doubled.placements if p.piece == "flap"] == [True]


def test_copies_of_one_hand_are_not_cut_as_a_pair_on_doubled_cloth() -> None:
    pieces = [wedge("flap", 10, 8, copies=2), box("band", 30, 10, copies=2)]
    lay = best_lay(pieces, PLAIN, Budget(3000))
    flaps = [p for p in lay.placements if p.piece == "flap"]
    assert len(flaps) == 2
    assert len({p.mirrored for p in flaps}) == 1


def test_a_crosswise_fold_takes_twice_the_length_and_refuses_nap() -> None:
    cloth = Cloth(name="cross", width=100, fold="crosswise")
    lay = best_lay([box("panel", 40, 100, copies=2)], cloth, Budget(2000))
    assert lay.length == pytest.approx(80, abs=0.01)
    with pytest.raises(LayError, match="nap of the lower layer"):
        best_lay([box("panel", 40, 90, copies=2)], cloth.model_copy(update={"nap": "one way"}))


def test_a_strip_too_long_for_the_width_is_pieced_in_equal_parts() -> None:
    strip = box("frill", 10, 302, strip=True, join=1.0)
    lay = best_lay([strip], Cloth(name="c", width=140, fold="open"), Budget(2000))
    names = sorted(p.piece for p in lay.placements)
    assert names == [f"frill, part {n} of 3" for n in (1, 2, 3)]
    assert lay.length == pytest.approx(30, abs=0.01)


def test_grain_tolerance_lets_a_piece_lean_but_no_further() -> None:
    leaning = Cloth(name="c", width=40, fold="open", grain_tolerance=2.0)
    lay = best_lay([wedge("a", 50, 30, copies=4)], leaning, Budget(60_000))
    assert all(min(p.rotation % 180, 180 - p.rotation % 180) <= 2.001 for p in lay.placements)


def test_pinned_pieces_stay_and_the_rest_goes_round_them(plain: Lay) -> None:
    pin = next(p for p in plain.placements if p.piece == "sleeve")
    moved = pin.model_copy(update={"x": pin.x + 30.0})
    lay = best_lay(dress(), PLAIN, Budget(PLACES), pins=[moved])
    now = next(p for p in lay.placements if p.piece == "sleeve")
    assert (now.x, now.y, now.rotation) == pytest.approx((moved.x, moved.y, moved.rotation))


@pytest.mark.parametrize(
    ("pieces", "words"),
    [
        ([box("panel", 50, 150)], "“panel” is 10.0 cm too wide .* it is only 50.0 cm that way"),
        ([box("panel", 300, 150)], "at least 150.0 cm"),
        ([LayPiece("bow", (0j, 10 + 10j, 10 + 0j, 10j))], "crosses or touches itself"),
        ([LayPiece("line", (0j, 10 + 0j, 20 + 0j))], "no area|crosses or touches"),
        ([LayPiece("dot", (0j, 1 + 0j))], "not a closed line"),
        ([LayPiece("far", (0j, complex(math.inf, 0), 1j))], "not a closed line"),
        ([LayPiece("f", (0j, 9 + 0j, 9 + 9j, 9j), 1 + 0j, fold=(0j, 9j))], "not on the grain"),
        (
            [LayPiece("f", (-5j, 9 + 0j, 9 + 9j, 9j), 1 + 0j, fold=(0j, 9 + 0j))],
            "its own fold edge",
        ),
        ([box("a", 5, 5), box("a", 6, 6)], "Two pieces are called"),
        ([box("a", 5, 5, material="lining")], "nothing to cut"),
        ([box("a", 5, 5, copies=-1)], "cannot be cut -1 times"),
    ],
)
def test_bad_input_is_told_in_a_cutters_words(pieces: list[LayPiece], words: str) -> None:
    with pytest.raises(LayError, match=words):
        best_lay(pieces, PLAIN, Budget(2000))


@pytest.mark.parametrize("copies", [12, 40, 100])
def test_no_more_places_are_tried_than_were_allowed(copies: int) -> None:
    """One more round of a single piece at most, however many pieces there are."""
    pieces = [wedge("flounce part", 30, 20, copies=copies), box("band", 40, 8, copies=2)]
    budget = Budget(1000)
    best_lay(pieces, Cloth(name="plain", width=90, fold="open"), budget)
    assert 0 < budget.used <= 1150 + 0.3 * (copies + 2) ** 2


def test_more_pieces_than_can_be_laid_are_refused() -> None:
    ribbon = box("flounce part", 6, 4000, strip=True, copies=4)
    with pytest.raises(LayError, match="more than 600 pieces"):
        best_lay([ribbon], Cloth(name="narrow", width=24, fold="open"), Budget(1000))
