"""Cloth taken up along an edge; a box pleat that only the tests know goes through everything."""

from __future__ import annotations

from dataclasses import replace

import pytest

from cutwright.checks.proof import prove
from cutwright.drawing.primitives import Stroke, Words
from cutwright.finish.document import pattern_json
from cutwright.finish.read_document import read_document
from cutwright.pattern.drawn_up import Zone, _between
from cutwright.pattern.edge import Ref
from cutwright.pattern.mark import MarkKind, Pressed
from cutwright.pattern.seam_marks import seam_marks
from cutwright.pattern.takeup import TakeUpKind, take_ups
from cutwright.steps.dart_to_gathers import DartToGathers
from cutwright.style.document import Style, parse_step
from cutwright.style.step import Step
from cutwright.worksheet.making import order_of_making
from cutwright.workshop.gallery import know_all_steps, load_body, shipped
from cutwright.workshop.packet import document_of
from cutwright.workshop.work import Work, work
from tests.hand_pieces import NOBODY, dress
from tests.pattern.box_pleat import BoxPleat

know_all_steps()

SKIRT = [
    {"do": "draft_skirt", "back": "seam"},
    {"do": "set_centre", "pieces": ["skirt back"], "zip": 20},
]
BAND = {
    "do": "waistband",
    "ease": 1,
    "edges": [{"piece": name, "edge": "waist"} for name in ("skirt back", "skirt front")],
}
PLEAT = BoxPleat(piece="skirt front", share=0.25)


def _worked(*between: Step, body: str = "the-alto") -> Work:
    steps = [*map(parse_step, SKIRT), *between, parse_step(BAND)]
    done = work(Style("skirt", tuple(steps)), load_body(body))
    assert done.trouble is None
    return done


@pytest.mark.parametrize("body", shipped("bodies"))
def test_a_box_pleat_leaves_the_waist_as_long_and_the_proof_as_it_was(body: str) -> None:
    plain, pleated = _worked(body=body), _worked(PLEAT, body=body)
    told = [
        [(f.code, f.where, round(f.value or 0, 3)) for f in done.findings]
        for done in (plain, pleated)
    ]
    assert told[0] == told[1]
    one, other = (done.finished.pattern for done in (plain, pleated))
    for piece in ("skirt front", "waistband"):
        lengths = [p.length(Ref(piece, "waist")) for p in (one, other)]
        assert lengths[0] == pytest.approx(lengths[1], abs=1e-6)
    front = other.piece("skirt front")
    assert front.paper_length("waist") == pytest.approx(front.edge_length("waist") + 8)
    assert front.edge_length("hem") == pytest.approx(
        one.piece("skirt front").edge_length("hem") + 8, abs=0.02
    )


def test_its_cut_line_has_trade_corners_and_its_notches_meet() -> None:
    done = _worked(PLEAT)
    (front,) = [p for p in done.finished.pieces if p.name == "skirt front"]
    assert not front.cut_line.rounded
    plain = _worked()
    counts = [
        len([m for p in d.finished.pattern.pieces for m in p.marks if m.kind is MarkKind.NOTCH])
        for d in (plain, done)
    ]
    assert counts[0] == counts[1] > 0


def test_it_is_drawn_with_what_it_takes_up_and_which_way_it_is_pressed() -> None:
    drawings = dict(_worked(PLEAT).drawings())
    (words,) = [
        i for i in drawings["skirt front"].items if isinstance(i, Words) and "pleat" in i.text
    ]
    assert words.text == "box pleat, 8 cm"
    strokes = {
        pressed: [
            i
            for i in dict(_worked(PLEAT.replaced(pressed=pressed)).drawings())["skirt front"].items
            if isinstance(i, Stroke) and i.tag == "skirt front: pleat"
        ]
        for pressed in Pressed
    }
    assert [len(strokes[p]) for p in Pressed] == [1, 1, 2, 2]


def test_it_is_folded_before_the_band_is_sewn_on() -> None:
    tasks = order_of_making(_worked(PLEAT).finished.pattern)
    kinds = [task.kind for task in tasks]
    assert kinds.index("pleats") < kinds.index("row waist")
    (task,) = [task for task in tasks if task.kind == "pleats"]
    assert task.edges == (Ref("skirt front", "waist"),)
    assert "pleats" not in [t.kind for t in order_of_making(_worked().finished.pattern)]


def test_it_stands_in_the_document() -> None:
    data = pattern_json(document_of(_worked(PLEAT)))
    read_document(data)
    (front,) = [p for p in data["pieces"] if p["name"] == "skirt front"]
    (mark,) = [m for m in front["marks"] if m["kind"] == "pleat"]
    assert (mark["amount"], mark["pressed"], mark["edge"]) == (8.0, "apart", "waist")


def test_a_pleat_that_takes_up_too_little_is_a_fault() -> None:
    pattern = _worked(PLEAT).replay.pattern
    front = pattern.piece("skirt front")
    marks = tuple(replace(m, amount=7.0) if m.kind is MarkKind.PLEAT else m for m in front.marks)
    wrong = pattern.with_pieces(replace(front, marks=marks))
    assert not [f for f in prove(pattern).faults if f.code == "seam-walk"]
    assert [f for f in prove(wrong).faults if f.code == "seam-walk"]


def test_darts_pleats_and_gathers_stand_in_the_order_of_their_edge() -> None:
    front = _worked(PLEAT).finished.pattern.piece("skirt front")
    pleat, dart = take_ups(front, "waist")
    assert (pleat.kind, dart.kind) == (TakeUpKind.PLEAT, TakeUpKind.DART)
    assert pleat.end - pleat.begin == pytest.approx(8.0)
    assert dart.begin == dart.end
    assert dart.amount == pytest.approx(front.intake(front.darts[0]))
    assert (pleat.folded, pleat.pressed) == (True, Pressed.APART)
    drawn = DartToGathers(piece="front", dart="bust dart").apply(dress(), NOBODY).pattern
    (gathers,) = [
        one
        for name in drawn.piece("front").edge_names()
        for one in take_ups(drawn.piece("front"), name)
        if one.kind is TakeUpKind.GATHERS
    ]
    assert not gathers.folded
    assert gathers.amount > 0


def test_ease_beside_a_pleat_lies_in_what_is_left_of_the_edge() -> None:
    pattern = _worked(PLEAT).finished.pattern
    (marks,) = [m for m in seam_marks(pattern) if m.seam.kind == "waistband"]
    row = next(r for r in (marks.a, marks.b) if any(z.folded for z in r.zones))
    folded = [zone for zone in row.zones if zone.folded]
    assert all(zone.amount == pytest.approx(8.0) for zone in folded)
    assert sum(zone.amount for zone in row.drawn) == pytest.approx(1.0, abs=0.01)
    for zone, after in zip(row.zones, row.zones[1:], strict=False):
        assert zone.end <= after.begin + 1e-9
    places = [row.length * k / 40 for k in range(41)]
    assert [row.along(row.back(p)) for p in places] == pytest.approx(places, abs=1e-9)


def test_what_lies_between_folds() -> None:
    folds = [Zone(3, 5, 2, True), Zone(8, 10, 2, True)]
    assert _between(folds, 0, 12) == [(0, 3), (5, 8), (10, 12)]
    assert _between(folds, 4, 9) == [(5, 8)]
