"""A piece is cut in one cloth or in several; everything that cuts, lays, buys and lists follows."""

from __future__ import annotations

from dataclasses import replace

import pytest

from cutwright.drawing.primitives import Words
from cutwright.finish.document import pattern_json
from cutwright.finish.read_document import read_document
from cutwright.geometry.outline import area
from cutwright.lay.cuts import pieces_for
from cutwright.lay.from_pattern import lay_pieces
from cutwright.lay.search import Budget
from cutwright.pattern.piece import Cut, Material
from cutwright.steps.facing import Facing
from cutwright.steps.set_centre import SetCentre
from cutwright.style.document import Style, parse_step
from cutwright.wording.sentences import sentence
from cutwright.worksheet.cutting import cutting_section
from cutwright.worksheet.making import order_of_making
from cutwright.worksheet.making_table import NotionRow
from cutwright.worksheet.ready import notions
from cutwright.worksheet.sheet import SheetTable
from cutwright.workshop.gallery import know_all_steps, load_body
from cutwright.workshop.laying import lay_work, load_cloth
from cutwright.workshop.packet import document_of
from cutwright.workshop.work import Work, work
from tests.hand_pieces import NOBODY, dress

know_all_steps()


def _skirt(*, interfacing: bool) -> Work:
    rows: list[dict[str, object]] = [
        {"do": "draft_skirt", "back": "seam"},
        {"do": "set_centre", "pieces": ["skirt back"], "zip": 20},
        {
            "do": "waistband",
            "edges": [{"piece": name, "edge": "waist"} for name in ("skirt back", "skirt front")],
            "interfacing": interfacing,
        },
    ]
    return work(Style("skirt", tuple(map(parse_step, rows))), load_body("the-alto"))


def test_a_band_is_cut_in_interfacing_unless_it_is_not_wanted() -> None:
    stiff, soft = (
        _skirt(interfacing=wish).finished.pattern.piece("waistband") for wish in (True, False)
    )
    assert [cut.material for cut in stiff.cuts] == [Material.MAIN, Material.INTERFACING]
    assert [cut.material for cut in soft.cuts] == [Material.MAIN]


def test_list_label_order_and_what_to_buy_follow_the_cuts() -> None:
    for wish in (True, False):
        done = _skirt(interfacing=wish)
        table = next(b for b in cutting_section(done.finished).blocks if isinstance(b, SheetTable))
        (row,) = [row for row in table.rows if row[1] == "Waistband"]
        told = "Cut 1 in main cloth, the same in interfacing" if wish else "Cut 1 in main cloth"
        assert row[2] == told
        (label,) = [p.label for p in done.finished.pieces if p.name == "waistband"]
        assert str(label.cut) == told
        assert (label.cut,) in label.lines
        assert (NotionRow.INTERFACING in notions(done.finished)) is wish
        kinds = [task.kind for task in order_of_making(done.finished.pattern)]
        assert ("interface" in kinds) is wish
        words = [w.text for w in dict(done.drawings())["waistband"].items if isinstance(w, Words)]
        assert any("in interfacing" in text for text in words) is wish


def test_interfacing_is_laid_on_its_own_cloth_and_bought_by_that_lay() -> None:
    done = _skirt(interfacing=True)
    cloth = load_cloth("interfacing-90")
    laid = lay_work(done, cloth, Budget(2000))
    assert [p.piece for p in laid.lay.placements] == ["waistband"]
    bought = notions(done.finished, [laid.lay])[NotionRow.INTERFACING]
    assert f"{laid.need.to_buy / 100:.2f} m of" in bought[1]
    main = pieces_for(lay_pieces(done.finished), load_cloth("plain-cotton-140"))
    assert {p.name for p in main} == {"skirt front", "skirt back", "waistband"}


def test_copies_may_differ_from_cloth_to_cloth() -> None:
    done = _skirt(interfacing=True)
    (band,) = [p for p in done.finished.pieces if p.name == "waistband"]
    two = replace(band.piece, cut=Cut(2), also=(Cut(1, material=Material.LINING),))
    pieces = lay_pieces(replace(done.finished, pieces=(replace(band, piece=two),)))
    assert [(p.material, p.copies) for p in pieces] == [("main", 2), ("lining", 1)]
    assert two.times == 2
    assert two.cut_in(Material.LINING) == Cut(1, material=Material.LINING)
    assert two.cut_in(Material.INTERFACING) is None


def test_the_document_tells_every_cloth() -> None:
    data = pattern_json(document_of(_skirt(interfacing=True)))
    read_document(data)
    band = next(p for p in data["pieces"] if p["name"] == "waistband")
    assert [c["material"] for c in (band["cut"], *band["also"])] == ["main", "interfacing"]
    assert next(p for p in data["pieces"] if p["name"] == "skirt front")["also"] == []


@pytest.mark.parametrize("interfacing", [True, False])
def test_a_facing_is_cut_as_often_in_interfacing_as_in_cloth(interfacing: bool) -> None:
    step = Facing(kind="armhole", width=5, interfacing=interfacing)
    made = step.apply(dress(), NOBODY).pattern.piece("front armhole facing")
    assert (made.cut.copies, made.cut.mirrored) == (2, True)
    also = (replace(made.cut, material=Material.INTERFACING),) if interfacing else ()
    assert made.also == also
    assert ("Without interfacing." in sentence(step)) is not interfacing


def test_a_centre_seam_doubles_the_cuts_in_every_cloth_and_a_fold_halves_them() -> None:
    pattern = dress()
    front = replace(pattern.piece("front"), also=(Cut(1, material=Material.LINING),))
    before = pattern.with_pieces(front)
    seamed = SetCentre(pieces=("front",), on="seam").apply(before, NOBODY).pattern
    assert [(c.copies, c.mirrored) for c in seamed.piece("front").cuts] == [(2, True)] * 2
    folded = SetCentre(pieces=("front",), on="fold").apply(seamed, NOBODY).pattern
    assert [(c.copies, c.mirrored) for c in folded.piece("front").cuts] == [(1, False)] * 2
    assert area(folded.piece("front").outline) == pytest.approx(area(front.outline))
