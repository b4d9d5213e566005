"""A pair becomes a left and a right piece, which are sewn each to its own side and may differ."""

from __future__ import annotations

import pytest

from cutwright.checks.proof import prove
from cutwright.errors import LookupFailed, StepError
from cutwright.finish.document import pattern_json
from cutwright.lay.from_pattern import lay_pieces
from cutwright.pattern.edge import Ref
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.role import BodySide, Role
from cutwright.pattern.sewing.rows import rows_of
from cutwright.steps.facing import Facing
from cutwright.steps.mirror import Mirror
from cutwright.steps.part_sides import PartSides
from cutwright.steps.set_centre import SetCentre
from cutwright.style.document import Style, parse_step
from cutwright.wording.names import name_text
from cutwright.words import set_language
from cutwright.worksheet.making import order_of_making
from cutwright.workshop.gallery import know_all_steps, load_body, shipped
from cutwright.workshop.packet import document_of
from cutwright.workshop.work import Work, work
from tests.hand_pieces import NOBODY, dress
from tests.operations.rows import after

know_all_steps()


def parted(pieces: tuple[str, ...] = ("front",)) -> Pattern:
    seamed = after(SetCentre(pieces=pieces), dress())
    return after(PartSides(pieces=pieces), seamed)


def test_there_are_two_papers_that_know_their_side() -> None:
    now = parted()
    whole = dress().piece("front")
    for side in (BodySide.RIGHT, BodySide.LEFT):
        one = now.piece(f"{side} front")
        assert (one.side, one.role, one.times) == (side, Role.FRONT, 1)
        assert one.area == pytest.approx(whole.area)
        assert {e.name for e in one.edges} == {e.name for e in whole.edges}
    assert now.piece("left front").dart("bust dart").name == "bust dart"
    with pytest.raises(LookupFailed, match="used up by step"):
        now.piece("front")


def test_each_is_sewn_to_its_own_side_and_to_the_other_at_the_centre() -> None:
    names = {s.name for s in parted().seams}
    assert "right front: side + left front: side ~ back: side" in names
    assert "right front: centre front ~ left front: centre front" in names
    both = {s.name for s in parted(("front", "back")).seams}
    assert "left front: side ~ left back: side" in both
    assert "right front: side ~ right back: side" in both


def test_all_seams_walk_the_same_way_round_as_before() -> None:
    now = parted(("front", "back"))
    assert not {f.code for f in prove(now).faults} & {"seam-walk", "seam-lost"}
    for seam in now.seams:
        lengths = now.seam_lengths(seam)
        assert lengths[0] == pytest.approx(lengths[1])
        for row in rows_of(now, seam):
            start, end = row[0].point(0.0), row[-1].point(row[-1].length)
            assert abs(start - end) > 1.0
    side = next(s for s in now.seams if s.name == "left front: side ~ left back: side")
    ends = [row[0].point(0.0).imag for row in rows_of(now, side)]
    assert ends[0] == pytest.approx(ends[1], abs=5.0), "both begin at the same end"


def test_a_piece_on_the_fold_has_no_sides_to_tell_apart() -> None:
    with pytest.raises(StepError, match="not cut as a pair"):
        PartSides(pieces=("front",)).apply(dress(), NOBODY)


def test_an_edge_that_meets_its_own_mirror_is_sewn_right_to_left() -> None:
    now = parted(("back",))
    (centre,) = [s for s in now.seams if "centre back" in s.name]
    assert centre.name == "right back: centre back ~ left back: centre back"


def worked(*more: dict[str, object], body: str = "the-alto") -> Work:
    steps = [
        {"do": "draft_skirt", "back": "seam"},
        {"do": "set_centre", "pieces": ["skirt back"], "zip": 20},
        {"do": "set_centre", "pieces": ["skirt front"], "on": "seam"},
        {"do": "part_sides", "pieces": ["skirt front"]},
        *more,
    ]
    done = work(Style("skirt", tuple(map(parse_step, steps))), load_body(body))
    assert done.trouble is None
    return done


FLARE: tuple[dict[str, object], ...] = (
    {"do": "close_dart", "piece": "left skirt front"},
    {"do": "spread", "piece": "left skirt front", "by": 3},
)


@pytest.mark.parametrize("body", shipped("bodies"))
def test_one_side_is_changed_and_the_other_stays(body: str) -> None:
    plain, flared = worked(body=body), worked(*FLARE, body=body)
    right, left = "right skirt front", "left skirt front"
    one, other = plain.finished.pattern, flared.finished.pattern
    assert other.piece(right).area == pytest.approx(one.piece(right).area)
    assert other.piece(left).edge_length("hem") > one.piece(left).edge_length("hem") + 6
    assert not {f.code for f in plain.faults}
    assert not {f.code for f in flared.faults} & {"seam-walk", "notch-walk", "seam-lost"}
    pieces = {p.name: p for p in lay_pieces(flared.finished)}
    assert [(pieces[n].copies, pieces[n].mirrored) for n in (right, left)] == [(1, False)] * 2
    entries = {p["name"]: p["side"] for p in pattern_json(document_of(flared))["pieces"]}
    assert entries[right], entries[left] == ("right", "left")


def test_both_sides_are_sewn_as_sides_although_one_layer_has_two_edges() -> None:
    tasks = {task.kind: task for task in order_of_making(worked(*FLARE).finished.pattern)}
    assert set(tasks["side"].pieces) == {"right skirt front", "left skirt front", "skirt back"}
    assert "row" not in tasks
    assert set(tasks["centre"].pieces) >= {"right skirt front", "left skirt front"}


def test_a_facing_of_one_side_is_for_that_side() -> None:
    now = parted(("front", "back"))
    faced = Facing(kind="armhole", pieces=("left front", "left back")).apply(now, NOBODY).pattern
    assert faced.piece("left front armhole facing").side is BodySide.LEFT


@pytest.mark.parametrize(
    ("language", "left", "right"),
    [
        ("en", "left front", "right front"),
        ("de", "Vorderteil links", "Vorderteil rechts"),
        ("fr", "devant gauche", "devant droit"),
    ],
)
def test_the_side_is_said_in_the_readers_language(language: str, left: str, right: str) -> None:
    set_language(language)
    try:
        assert (name_text("left front"), name_text("right front")) == (left, right)
    finally:
        set_language("en")


def test_unfolded_paper_and_parted_paper_are_sewn_alike() -> None:
    whole = after(Mirror(pieces=("front", "back")), dress())
    assert {s.name for s in whole.seams} >= {"front: left side ~ back: left side"}
    assert not any(s.refs == (Ref("front", "side"),) * 2 for s in whole.seams)
