"""Dress, bodice and skirt block: ranges a practised eye expects, wishes, refusals and warnings."""

from __future__ import annotations

from cmath import phase
from dataclasses import replace
from math import degrees, radians

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString

from cutwright.blocks import register_all
from cutwright.blocks.draft_bodice import DraftBodice
from cutwright.blocks.draft_dress import DraftDress
from cutwright.blocks.draft_skirt import DraftSkirt
from cutwright.blocks.dress import Dress, DressWish, draft_dress
from cutwright.blocks.ease import EASES, ease_for
from cutwright.blocks.measured_back import measured_back
from cutwright.blocks.plan import UpperWish
from cutwright.blocks.shares import split
from cutwright.blocks.shoulders import Shoulder
from cutwright.blocks.tapes import Tapes
from cutwright.body import Body, BodyCard, resolve
from cutwright.body.size_charts import size, sizes
from cutwright.errors import DraftError, StepError
from cutwright.geometry.outline import polygon
from cutwright.pattern.edge import EdgeKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Level
from cutwright.style.registry import all_steps
from cutwright.wording.figures import how
from cutwright.wording.sentences import sentence
from tests.blocks import laws
from tests.printed_sums import printed_last, wrong

EIGHTY_EIGHT = resolve(size(88))


def body(**measures: float) -> Body:
    return resolve(BodyCard(name="of no one", measures=measures))


@pytest.fixture(scope="module")
def dress() -> Dress:
    return draft_dress(Tapes.of(EIGHTY_EIGHT), DressWish(UpperWish(EASES["close"])))


def between(value: float, low: float, high: float) -> bool:
    return low <= value <= high


def chord_slope(shoulder: Shoulder) -> float:
    """Slope of the straight line from side neck point to shoulder end, radians below level."""
    return phase(shoulder.end - shoulder.neck)


def test_the_ranges_of_a_practised_eye(dress: Dress) -> None:
    """Bust 88, waist 70, hip 96, height 168, close (common practice, no source)."""
    upper = dress.upper
    assert between(sum(dress.armholes), 41, 45)
    assert between(dress.plan.depth, 20.5, 22.5)
    assert between(upper.neck_width, 6.8, 7.8)
    assert between(-upper.back.neck.imag, 1.5, 2.5)
    assert between(upper.front_neck.start.imag - upper.front.neck.imag, 7, 8.5)
    assert between(degrees(chord_slope(upper.back)), 17, 21)
    assert between(degrees(upper.front.inner), 8, 18)
    assert between(degrees(upper.front.outer), 25, 34)
    assert between(degrees(chord_slope(upper.front)), 17, 24)
    dart = dress.front.dart("bust dart")
    assert between(dress.front.intake(dart), 6, 9)  # type: ignore[arg-type]
    assert between(upper.across.back.real, 16.5, 18.5)


def test_names_of_the_paper() -> None:
    pattern = DraftDress().apply(Pattern(), EIGHTY_EIGHT).pattern
    front, back = pattern.piece("front"), pattern.piece("back")
    assert [e.label for e in front.edges] == [
        "centre front", "hem", "side", "armhole", "shoulder.1", "bust dart.1", "bust dart.2",
        "shoulder.2", "neckline",
    ]  # fmt: skip
    assert [e.label for e in back.edges] == [
        "neckline", "shoulder.1", "shoulder dart.1", "shoulder dart.2", "shoulder.2", "armhole",
        "side", "hem", "centre back",
    ]  # fmt: skip
    assert front.edge("centre front").kind is EdgeKind.FOLD
    assert back.edge("centre back").kind is EdgeKind.CENTRE
    assert [d.name for d in front.diamonds] == ["waist dart"]
    assert all(p.level(name) for p in (front, back) for name in ("bust", "waist", "hip"))
    tip, pivot = front.darts[0].tip, front.darts[0].pivot
    assert abs(tip - pivot) == pytest.approx(2.0)
    assert max(q.real for e in front.edges for q in (e.start, e.end)) == 0
    assert min(q.real for e in back.edges for q in (e.start, e.end)) == 0


def test_back_on_the_fold_with_an_eased_shoulder() -> None:
    step = DraftDress(back="fold", back_shoulder="ease", front="seam")
    pattern = step.apply(Pattern(), EIGHTY_EIGHT).pattern
    back, front = pattern.piece("back"), pattern.piece("front")
    assert back.edge("centre back").kind is EdgeKind.FOLD
    assert front.edge("centre front").kind is EdgeKind.CENTRE
    assert not back.darts
    (shoulder,) = [s for s in pattern.seams if s.refs[0].edge == "shoulder"]
    one, other = pattern.seam_lengths(shoulder)
    assert one - other == pytest.approx(0.8)
    assert shoulder.ease == pytest.approx(0.8)


@pytest.mark.parametrize("name", ["bust", "waist", "hip", "neck"])
def test_each_ease_can_be_set(name: str) -> None:
    step = DraftDress.model_validate({f"{name}_ease": 4.5})
    pattern = step.apply(Pattern(), EIGHTY_EIGHT).pattern
    ease = ease_for("close", **{name: 4.5})
    rows = {row.measure: row for row in measured_back(pattern, EIGHTY_EIGHT, ease)}
    row = rows["neckline" if name == "neck" else name]
    assert row.off == pytest.approx(0, abs=0.001)
    assert "4.5 cm" in sentence(step)


def test_a_sum_as_length() -> None:
    step = DraftSkirt(length="waist_to_knee - 5")
    skirt = step.apply(Pattern(), EIGHTY_EIGHT).pattern.piece("skirt back")
    wanted = EIGHTY_EIGHT.value("waist_to_knee") - 5
    assert skirt.edge_length("centre back") == pytest.approx(wanted)


def test_bodice_and_skirt_are_joined() -> None:
    bodice = DraftBodice().apply(Pattern(), EIGHTY_EIGHT)
    both = DraftSkirt().apply(bodice.pattern, EIGHTY_EIGHT)
    waist = [s for s in both.pattern.seams if s.refs[0].edge == "waist"]
    assert [s.name for s in waist] == [
        "front: waist ~ skirt front: waist",
        "back: waist ~ skirt back: waist",
    ]
    for seam in waist:
        one, other = both.pattern.seam_lengths(seam)
        assert one == pytest.approx(other, abs=0.001)
    other_way = DraftBodice().apply(
        DraftSkirt().apply(Pattern(), EIGHTY_EIGHT).pattern, EIGHTY_EIGHT
    )
    assert len([s for s in other_way.pattern.seams if s.refs[0].edge == "waist"]) == 2


def test_a_skirt_with_other_ease_keeps_it() -> None:
    bodice = DraftBodice().apply(Pattern(), EIGHTY_EIGHT)
    both = DraftSkirt(fit="easy").apply(bodice.pattern, EIGHTY_EIGHT)
    assert "draft-waists-differ" in {f.code for f in both.findings}
    skirt = [
        r for r in measured_back(both.pattern, EIGHTY_EIGHT, EASES["easy"]) if "skirt" in r.measure
    ]
    assert all(abs(row.off) < 0.001 for row in skirt)


def test_darts_stand_over_each_other() -> None:
    """Front darts of the skirt start where those of the bodice do, when there are as many."""
    woman = body(bust_girth=90, waist_girth=72, hip_girth=94, stature=168)
    bodice = DraftBodice().apply(Pattern(), woman)
    both = DraftSkirt().apply(bodice.pattern, woman).pattern
    upper = [e.length for e in both.piece("front").edge_parts("waist")]
    lower = [e.length for e in both.piece("skirt front").edge_parts("waist")]
    assert len(upper) == len(lower) == 2
    assert sorted(upper) == pytest.approx(sorted(lower), abs=0.001)


def test_darts_stand_over_each_other_whichever_block_comes_first() -> None:
    woman = body(bust_girth=90, waist_girth=72, hip_girth=94, stature=168)
    skirt = DraftSkirt().apply(Pattern(), woman)
    both = DraftBodice().apply(skirt.pattern, woman).pattern
    for name in ("front", "back"):
        upper = [e.length for e in both.piece(name).edge_parts("waist")]
        lower = [e.length for e in both.piece(f"skirt {name}").edge_parts("waist")]
        assert len(upper) == len(lower)
        assert sorted(upper) == pytest.approx(sorted(lower), abs=0.001)


def test_a_half_in_which_the_bodice_has_no_dart_is_free() -> None:
    """Waist 76 under a bust of 80: the bodice front has no waist dart, the skirt front has its own."""
    woman = body(bust_girth=80, waist_girth=76, hip_girth=100, stature=168)
    bodice = DraftBodice().apply(Pattern(), woman).pattern
    assert not [d for d in bodice.piece("front").darts if "waist" in d.name]
    skirt = DraftSkirt().apply(bodice, woman).pattern
    alone = DraftSkirt().apply(Pattern(), woman).pattern
    assert len(skirt.piece("skirt front").darts) == len(alone.piece("skirt front").darts) == 1


def test_a_large_bust_gets_a_dart_from_the_side() -> None:
    result = DraftDress().apply(Pattern(), resolve(size(122)))
    front = result.pattern.piece("front")
    assert {d.name for d in front.darts} == {"bust dart", "side dart"}
    assert "draft-bust-dart-split" in {f.code for f in result.findings}
    angles = [abs(degrees(front.dart_angle(d))) for d in front.darts]
    assert max(angles) <= 24 + 1e-9
    assert min(angles) >= 6 - 1e-9
    assert sum(angles) == pytest.approx(degrees(Tapes.of(resolve(size(122))).dart_angle()))
    assert laws.valid(front)


@pytest.mark.parametrize("bust", [116, 122, 134])
def test_the_side_dart_opens_just_below_the_bust_and_the_underarm(bust: float) -> None:
    """1 below the bust level or 2.5 below the underarm, whichever is lower (docs/drafting.md)."""
    front = DraftDress().apply(Pattern(), resolve(size(bust))).pattern.piece("front")
    (dart,) = (one for one in front.darts if one.name == "side dart")
    mouth = min(front.mouth(dart), key=lambda p: abs(p - front.edge("armhole").start))
    under = front.edge("armhole").start
    back = DraftDress().apply(Pattern(), resolve(size(bust))).pattern.piece("back")
    bust_level = back.level("bust")
    assert bust_level is not None
    armhole_back = max(e.imag for e in (back.edge("armhole").start, back.edge("armhole").end))
    wanted = max(1.0, 2.5 - (bust_level.points[0].imag - armhole_back))
    below = abs(mouth - under)
    assert below == pytest.approx(bust_level.points[0].imag - armhole_back + wanted, abs=0.2)


def test_measuring_back_takes_a_dart_out_where_the_tape_crosses_it() -> None:
    """A tape laid across a waist dart anywhere between its points loses what lies inside it there."""
    pattern = DraftDress().apply(Pattern(), EIGHTY_EIGHT).pattern
    for share in (0.3, 0.8):
        moved, wanted = [], 0.0
        for piece in pattern.pieces:
            dart = piece.diamonds[0]
            y = dart.top.imag + share * (dart.near.imag - dart.top.imag)
            ring = polygon(piece.outline)
            ends = ring.intersection(LineString([(-300, y), (300, y)])).bounds
            level = Level("bust", (complex(ends[0], y), complex(ends[2], y)))
            kept = tuple(one for one in piece.levels if one.name != "bust")
            moved.append(replace(piece, levels=(*kept, level)))
            wanted += 2 * (ends[2] - ends[0] - sum(share * d.intake for d in piece.diamonds))
        rows = measured_back(pattern.with_pieces(*moved), EIGHTY_EIGHT, EASES["close"])
        assert next(r for r in rows if r.measure == "bust").found == pytest.approx(wanted, abs=0.02)


@pytest.mark.parametrize("bust", sorted({bust for bust, _row in sizes()}))
def test_every_size_of_the_chart(bust: float) -> None:
    for step in (DraftDress(), DraftBodice(), DraftSkirt()):
        result = step.apply(Pattern(), resolve(size(bust)))
        assert all(laws.valid(p) for p in result.pattern.pieces)
        assert not any(f.level == "fault" for f in result.findings)


def test_front_lengths_that_disagree_are_refused() -> None:
    with pytest.raises(DraftError, match=r"Front waist length 36\.0 and bust depth 30\.0 disagree"):
        DraftDress().apply(
            Pattern(),
            body(bust_girth=88, hip_girth=96, stature=168, front_waist_length=36, bust_depth=30),
        )


def test_a_long_front_is_refused_or_warned_of() -> None:
    measures = {"bust_girth": 88, "hip_girth": 96, "stature": 168, "back_waist_length": 40}
    warned = DraftDress().apply(Pattern(), body(**measures, front_waist_length=48, bust_depth=27))
    assert "draft-front-slope" in {f.code for f in warned.findings}
    with pytest.raises(DraftError, match="disagree"):
        DraftDress().apply(Pattern(), body(**measures, front_waist_length=62, bust_depth=28))


def test_taped_widths_are_left_only_with_a_word() -> None:
    woman = body(bust_girth=88, hip_girth=96, stature=168, back_width=44, chest_width=30)
    result = DraftDress().apply(Pattern(), woman)
    told = {f.code: f.value for f in result.findings}
    rows = {r.measure: r for r in measured_back(result.pattern, woman, EASES["close"])}
    back = rows["half across back"].off
    assert told["draft-across-back-moved"] == pytest.approx(back, abs=0.001)
    chest = rows["half across chest"].off
    assert abs(chest) < 0.05 or told["draft-across-chest-moved"] == pytest.approx(chest, abs=0.001)


@pytest.mark.parametrize("bust", [80, 88, 96, 104])
def test_an_across_chest_that_was_not_taped_stays_where_the_armhole_has_room(bust: float) -> None:
    woman = resolve(size(bust))
    result = DraftDress().apply(Pattern(), woman)
    rows = {r.measure: r for r in measured_back(result.pattern, woman, EASES["close"])}
    assert rows["half across chest"].off == pytest.approx(0, abs=0.001)


@pytest.mark.parametrize(("shoulder", "back"), [(14, 32), (15, None), (15, 35)])
def test_how_much_a_width_was_widened_for_the_shoulder_is_what_the_tape_finds(
    shoulder: float, back: float | None
) -> None:
    measures = {"bust_girth": 88, "hip_girth": 96, "stature": 168, "shoulder_length": shoulder}
    woman = body(**measures, **({} if back is None else {"back_width": back}))
    result = DraftDress().apply(Pattern(), woman)
    rows = {r.measure: r for r in measured_back(result.pattern, woman, EASES["close"])}
    told = {f.code: f.value for f in result.findings}
    assert told["draft-across-widened"] == pytest.approx(rows["half across back"].off, abs=0.001)
    assert rows["half across back"].off > 0.2


@pytest.mark.parametrize(("waist", "hip"), [(60, 100), (60, 110), (58, 120), (64, 128), (88, 96)])
@pytest.mark.parametrize("largest", [3.0, 4.0])
def test_no_dart_is_too_large_while_others_have_room(
    waist: float, hip: float, largest: float
) -> None:
    """Three darts on each half: as long as they can hold the intake, none takes more than the largest."""
    woman = body(bust_girth=92, waist_girth=waist, hip_girth=hip, stature=168)
    pieces = DraftSkirt(largest_dart=largest).apply(Pattern(), woman).pattern.pieces
    intakes = [piece.intake(dart) for piece in pieces for dart in piece.darts]
    if sum(intakes) <= 6 * largest:
        assert max(intakes, default=0.0) <= largest + 1e-6
    assert len(intakes) <= 6


def test_too_short_is_refused() -> None:
    for step in (DraftDress(length=16), DraftSkirt(length=16)):
        with pytest.raises(DraftError, match="below the hip"):
            step.apply(Pattern(), EIGHTY_EIGHT)


def test_pieces_are_not_laid_over_others() -> None:
    there = DraftDress().apply(Pattern(), EIGHTY_EIGHT).pattern
    with pytest.raises(StepError, match="already a piece"):
        DraftBodice().apply(there, EIGHTY_EIGHT)


def test_measuring_back_sees_a_wrong_body() -> None:
    """The tape finds what differs: the comparison can fail."""
    pattern = DraftDress().apply(Pattern(), EIGHTY_EIGHT).pattern
    other = resolve(size(92))
    rows = measured_back(pattern, other, EASES["close"])
    off = {row.measure for row in rows if abs(row.off) > 0.1}
    assert {"bust", "waist", "hip", "neckline", "front waist length", "half bust points"} <= off


def test_darts_are_split() -> None:
    assert split(0) == ()
    assert split(3.9) == (3.9,)
    for total in (4.1, 6.0, 7.9, 8.1, 11.9):
        darts = split(total)
        assert sum(darts) == pytest.approx(total)
        assert max(darts) <= 4.0 + 1e-9
        assert len(darts) == (2 if total <= 8 else 3)


@pytest.mark.parametrize("bust", [80, 88, 122])
def test_the_arithmetic_holds_as_printed(bust: float) -> None:
    woman = resolve(size(bust))
    for step in (DraftDress(), DraftBodice(fit="easy"), DraftSkirt()):
        figures = step.apply(Pattern(), woman).figures
        lines = [how(figure) for figure in figures]
        assert not [fault for line in lines for fault in wrong(line)]
        assert sum(printed_last(line) is not None for line in lines) >= 8


def test_the_steps_are_known_by_name() -> None:
    register_all()
    assert {"draft_dress", "draft_bodice", "draft_skirt", "draft_circle_skirt"} <= set(all_steps())


@given(
    bust=st.floats(76, 140),
    waist=st.floats(-28, 8),
    hip=st.floats(-14, 24),
    stature=st.floats(147, 186),
    slope=st.floats(11, 27),
    back=st.floats(-2, 2),
    chest=st.booleans(),
)
def test_invented_bodies_are_drafted_clean_or_refused(
    bust: float, waist: float, hip: float, stature: float, slope: float, back: float, chest: bool
) -> None:
    measures = {
        "bust_girth": bust, "waist_girth": max(bust + waist, 52), "hip_girth": bust + hip,
        "stature": stature, "shoulder_slope": slope,
    }  # fmt: skip
    woman = body(**measures)
    measures["back_waist_length"] = woman.value("back_waist_length") + back
    if chest:
        measures["chest_width"] = woman.value("chest_width") - 1
    woman = body(**measures)
    for step in (DraftDress(length=70), DraftBodice(), DraftSkirt(length=70)):
        try:
            result = step.apply(Pattern(), woman)
        except DraftError:
            continue
        for piece in result.pattern.pieces:
            assert laws.valid(piece)
            assert all(abs(a - 90) < 1 for a in laws.centre_angles(piece).values())
            bent = [e.label for e in piece.edges if e.kind in laws.ROUND and laws.bends(e)]
            assert bent == []


def test_the_angle_asked_for_is_drafted() -> None:
    pattern = DraftDress(bust_dart=12).apply(Pattern(), EIGHTY_EIGHT).pattern
    front = pattern.piece("front")
    dart = front.darts[0]
    assert abs(front.dart_angle(dart)) == pytest.approx(radians(12))
