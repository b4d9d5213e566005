"""Cloth taken up along an edge; a box pleat that only the tests know goes through everything."""

from __future__ import annotations

from dataclasses import replace

import pytest

from cutwright.checks.proof import prove
from cutwright.drawing.primitives import Stroke, Words
from cutwright.finish.document import pattern_json
from cutwright.finish.read_document import read_document
from cutwright.lay.from_pattern import lay_pieces
from cutwright.pattern.edge import Ref
from cutwright.pattern.mark import MarkKind, Pressed
from cutwright.pattern.sewing.drawn_up import Zone, _between
from cutwright.pattern.sewing.seam_marks import seam_marks
from cutwright.pattern.takeup import TakeUpKind, take_ups
from cutwright.steps.dart_to_gathers import DartToGathers
from cutwright.steps.facing import Facing
from cutwright.style.document import Style, parse_step
from cutwright.style.step import Step
from cutwright.worksheet.making import order_of_making
from cutwright.workshop.gallery import know_all_steps, load_body, shipped
from cutwright.workshop.packet import document_of
from cutwright.workshop.work import Work, work
from tests.hand_pieces import NOBODY, dress
from tests.pattern.folds import BoxPleat, KnifePleat, Tuck

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
KNIFE = KnifePleat(piece="skirt front", share=0.25)
TUCK = Tuck(piece="skirt front", share=0.25)
TAKEN = {"box_pleat": 8.0, "knife_pleat": 4.0, "tuck": 1.0}
FOLDS = pytest.mark.parametrize("fold", [PLEAT, KNIFE, TUCK], ids=list(TAKEN))


def _worked(*between: Step, body: str = "the-alto") -> Work:
    steps = [*map(parse_step, SKIRT), *between, parse_step(BAND)]
    done = work(Style("skirt", tuple(steps)), load_body(body))
    assert done.trouble is None
    return done


@FOLDS
@pytest.mark.parametrize("body", shipped("bodies"))
def test_a_fold_leaves_the_waist_as_long_and_the_proof_as_it_was(body: str, fold: Step) -> None:
    plain, folded = _worked(body=body), _worked(fold, body=body)
    told = [
        [(f.code, f.where, round(f.value or 0, 3)) for f in done.findings]
        for done in (plain, folded)
    ]
    assert told[0] == told[1]
    one, other = (done.finished.pattern for done in (plain, folded))
    for piece in ("skirt front", "waistband"):
        lengths = [p.length(Ref(piece, "waist")) for p in (one, other)]
        assert lengths[0] == pytest.approx(lengths[1], abs=1e-6)
    front, taken = other.piece("skirt front"), TAKEN[fold.do]
    assert front.paper_length("waist") == pytest.approx(front.edge_length("waist") + taken)
    hem = one.piece("skirt front").edge_length("hem")
    assert front.paper_length("hem") == pytest.approx(hem + taken, abs=0.02)
    stitched = taken if fold.do == "tuck" else 0.0
    assert front.edge_length("hem") == pytest.approx(hem + taken - stitched, abs=0.02)


@FOLDS
def test_its_cut_line_has_trade_corners_and_its_notches_meet(fold: Step) -> None:
    done = _worked(fold)
    (front,) = [p for p in done.finished.pieces if p.name == "skirt front"]
    assert not front.cut_line.rounded
    plain = _worked()
    counts = [
        len([m for p in d.finished.pattern.pieces for m in p.marks if m.kind is MarkKind.NOTCH])
        for d in (plain, done)
    ]
    assert counts[0] == counts[1] > 0


def _strokes(fold: Step) -> int:
    items = dict(_worked(fold).drawings())["skirt front"].items
    return len([i for i in items if isinstance(i, Stroke) and i.tag == "skirt front: pleat"])


def test_it_is_drawn_with_what_it_takes_up_and_which_way_it_is_pressed() -> None:
    said = {}
    for fold in (PLEAT, KNIFE, TUCK):
        items = dict(_worked(fold).drawings())["skirt front"].items
        said[fold.do] = [
            i.text
            for i in items
            if isinstance(i, Words) and ("pleat" in i.text or "tuck" in i.text)
        ]
    assert said == {
        "box_pleat": ["box pleat, 8 cm"],
        "knife_pleat": ["pleat, 4 cm"],
        "tuck": ["tuck, 1 cm"] * 2,
    }
    assert [_strokes(PLEAT.replaced(pressed=p)) for p in Pressed] == [1, 1, 2, 2]
    assert _strokes(KNIFE) == 1


@FOLDS
def test_it_is_folded_before_the_band_is_sewn_on(fold: Step) -> None:
    tasks = order_of_making(_worked(fold).finished.pattern)
    kinds = [task.kind for task in tasks]
    assert kinds.index("pleats") < kinds.index("row waist")
    (task,) = [task for task in tasks if task.kind == "pleats"]
    hem = (Ref("skirt front", "hem"),) if fold.do == "tuck" else ()
    assert task.edges == (Ref("skirt front", "waist"), *hem)
    assert "pleats" not in [t.kind for t in order_of_making(_worked().finished.pattern)]


def test_a_hem_is_turned_up_after_the_tuck_that_ends_in_it_is_sewn() -> None:
    tasks = order_of_making(_worked(TUCK).finished.pattern)
    kinds = [task.kind for task in tasks]
    assert kinds.index("pleats") < kinds.index("hem")
    (hem,) = [task for task in tasks if task.kind == "hem"]
    assert "pleats" in hem.needs


@FOLDS
def test_it_stands_in_the_document(fold: Step) -> None:
    data = pattern_json(document_of(_worked(fold)))
    read_document(data)
    (front,) = [p for p in data["pieces"] if p["name"] == "skirt front"]
    kind = "tuck" if fold.do == "tuck" else "pleat"
    mark, *more = [m for m in front["marks"] if m["kind"] == kind]
    pressed = {"box_pleat": "apart", "knife_pleat": "onwards"}.get(fold.do)
    assert (mark["amount"], mark.get("pressed"), mark["edge"]) == (TAKEN[fold.do], pressed, "waist")
    assert [m["edge"] for m in more] == (["hem"] if kind == "tuck" else [])


@FOLDS
def test_a_fold_that_takes_up_too_little_is_a_fault(fold: Step) -> None:
    pattern = _worked(fold).replay.pattern
    front = pattern.piece("skirt front")
    marks = tuple(replace(m, amount=0.4) if m.amount else m for m in front.marks)
    wrong = pattern.with_pieces(replace(front, marks=marks))
    assert not [f for f in prove(pattern).faults if f.code == "seam-walk"]
    assert [f for f in prove(wrong).faults if f.code == "seam-walk"]


@FOLDS
def test_it_lies_open_on_the_cloth(fold: Step) -> None:
    wide = []
    for done in (_worked(), _worked(fold)):
        (front,) = [p for p in lay_pieces(done.finished) if p.name == "skirt front"]
        across = [p.real for p in front.outline]
        wide.append(max(across) - min(across))
    assert wide[1] - wide[0] == pytest.approx(TAKEN[fold.do], abs=0.05)


@FOLDS
def test_a_facing_copies_the_edge_with_the_fold_shut(fold: Step) -> None:
    plain = dress()
    plain = plain.with_pieces(replace(plain.piece("back"), diamonds=()))
    pleated = fold.replaced(piece="back", edge="neckline", depth=0.25)
    pattern = pleated.apply(plain, NOBODY).pattern
    done = Facing(kind="neck", pieces=("front", "back"), width=4.0).apply(pattern, NOBODY).pattern
    back, facing = done.piece("back"), done.piece("back neck facing")
    assert facing.edge_length("neckline") == pytest.approx(back.edge_length("neckline"), abs=1e-6)
    assert back.paper_length("neckline") > back.edge_length("neckline") + 0.4
    assert not [f for f in prove(done).faults if f.code == "seam-walk"]


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
    row = next(r for r in marks.rows if any(z.folded for z in r.zones))
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
