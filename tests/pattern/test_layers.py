"""Seams of ordered layers: neckline, collar and facing sewn in one, walked, marked, proved and made."""

from __future__ import annotations

from dataclasses import replace

import pytest

from cutwright.checks.proof import prove
from cutwright.errors import StepError
from cutwright.finish.document import pattern_json
from cutwright.finish.read_document import read_document
from cutwright.geometry.move import Move
from cutwright.pattern.change import Change
from cutwright.pattern.edge import Ref
from cutwright.pattern.mark import MarkKind
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.seam import Held, LayerPart, Seam, SeamKind, SeamLayer, Side, seam
from cutwright.pattern.sewing.lap import laps_of
from cutwright.pattern.sewing.rows import rows_of
from cutwright.pattern.sewing.seam_marks import seam_marks
from cutwright.pattern.sewing.walk import refuse_if_parted
from cutwright.style.document import Style, parse_step
from cutwright.worksheet.cutting import seams_section
from cutwright.worksheet.making import order_of_making
from cutwright.worksheet.making_words import task_words
from cutwright.worksheet.sheet import SheetTable
from cutwright.workshop.gallery import know_all_steps, load_body, shipped
from cutwright.workshop.packet import document_of
from cutwright.workshop.work import Work, work
from tests.pattern.collar import SewCollar

know_all_steps()

DRESS = [
    {"do": "draft_dress", "fit": "easy", "length": 60},
    {"do": "set_centre", "pieces": ["back"], "zip": 55},
    {"do": "facing", "kind": "neck", "pieces": ["front", "back"], "width": 5},
]


def collared(body: str = "the-alto", ease: float = 0.0) -> Work:
    steps = [*map(parse_step, DRESS), SewCollar(ease=ease)]
    done = work(Style("collared dress", tuple(steps)), load_body(body))
    assert done.trouble is None
    return done


def neck(pattern: Pattern) -> Seam:
    (found,) = [s for s in pattern.seams if len(s.layers) == 3]
    return found


@pytest.mark.parametrize("body", shipped("bodies"))
def test_three_layers_walk_and_are_proved(body: str) -> None:
    pattern = collared(body).finished.pattern
    rows = rows_of(pattern, neck(pattern))
    assert len(rows) == 3
    assert [row.whole for row in rows] == pytest.approx([rows[0].whole] * 3, abs=1e-6)
    assert not prove(pattern).faults


LAYERS = {
    "back": "neckline",
    "front": "neckline",
    "collar": "neck edge",
    "back neck facing": "neckline",
}


def longer(pattern: Pattern, piece: str) -> Pattern:
    """The pattern with one edge of the neck seam a fiftieth longer."""
    wrong = pattern.piece(piece)
    edge = wrong.edge(LAYERS[piece])
    stretched = edge.with_curves(
        tuple(c.moved(Move(turn=1.02 + 0j, shift=edge.start * -0.02)) for c in edge.curves)
    )
    edges = tuple(stretched if e is edge else e for e in wrong.edges)
    return pattern.with_pieces(replace(wrong, edges=edges))


@pytest.mark.parametrize("piece", LAYERS)
def test_a_step_that_parts_one_layer_is_refused_in_words(piece: str) -> None:
    pattern = collared().replay.pattern
    with pytest.raises(StepError) as caught:
        refuse_if_parted(pattern, longer(pattern, piece), Change())
    assert caught.value.message.values["a"] != caught.value.message.values["b"]


@pytest.mark.parametrize("piece", LAYERS)
def test_a_layer_that_is_too_long_is_found(piece: str) -> None:
    pattern = collared().replay.pattern
    before = prove(pattern)
    assert not [f for f in before.faults if f.code == "seam-walk"]
    found = [f for f in prove(longer(pattern, piece)).faults if f.code == "seam-walk"]
    assert any(piece in f.where for f in found)


@pytest.mark.parametrize("piece", LAYERS)
def test_a_mark_that_is_missing_on_a_layer_is_found(piece: str) -> None:
    pattern = collared(
        ease=0.8
    ).finished.pattern  # where the ease begins and ends is marked on all layers
    one = pattern.piece(piece)
    bare = replace(one, marks=tuple(m for m in one.marks if m.kind is not MarkKind.NOTCH))
    assert bare.marks != one.marks
    found = [f for f in prove(pattern.with_pieces(bare)).faults if f.code == "notch-walk"]
    assert any("neck edge" in f.where for f in found)


def test_the_shoulder_is_marked_on_the_collar_alone_and_names_it() -> None:
    pattern = collared().finished.pattern
    (marks,) = [m for m in seam_marks(pattern) if len(m.rows) == 3]
    lone = [m for m in marks.balance if [s is None for s in m.spots] == [True, False, True]]
    (at_shoulder,) = lone
    assert at_shoulder.meets == "shoulder"
    assert [m.text for m in pattern.piece("collar").marks if m.meets == "shoulder"]
    assert all(sum(s is not None for s in m.spots) in (1, 3) for m in marks.balance), (
        "every other place is marked on all layers"
    )


def test_ease_in_one_layer_is_wanted_of_that_layer_alone() -> None:
    eased = collared(ease=0.8).finished.pattern
    rows = rows_of(eased, neck(eased))
    assert rows[1].whole - rows[0].whole == pytest.approx(0.8)
    assert not [f for f in prove(eased).faults if f.code in ("seam-walk", "notch-walk")]
    (laps,) = laps_of(eased, neck(eased))
    assert len(laps) == 3


def test_the_collar_is_laid_in_and_sewn_in_one_seam_after_the_shoulders() -> None:
    pattern = collared().finished.pattern
    tasks = order_of_making(pattern)
    kinds = [task.kind for task in tasks]
    task = next(t for t in tasks if t.kind == "neck facing")
    assert set(task.pieces) == {"front", "back", "collar", "front neck facing", "back neck facing"}
    for earlier in ("shoulder", "facing shoulder"):
        assert kinds.index(earlier) < kinds.index("neck facing")
    assert "Lay the collar between" in task_words(pattern, task)


def test_the_table_of_seams_and_the_document_hold_every_layer() -> None:
    done = collared()
    table = seams_section(done.finished.pattern).blocks[0]
    assert isinstance(table, SheetTable)
    names = [str(row[1]) for row in table.rows]
    at = next(i for i, name in enumerate(names) if "neck edge" in name)
    assert [row[0] == "" for row in table.rows[at : at + 2]] == [False, True]
    assert "front neck facing" in names[at + 1]
    entries = pattern_json(document_of(done))["seams"]
    (three,) = [s for s in entries if len(s["layers"]) == 3]
    assert [layer["part"] for layer in three["layers"]] == ["garment", "collar", "facing"]
    assert three["layers"][1]["edges"][0]["piece"] == "collar"
    read_document(pattern_json(document_of(done)))


def test_the_kind_of_a_seam_follows_from_its_layers() -> None:
    a, b = (Side(Ref("one", "top")),), (Side(Ref("two", "top")),)
    assert Seam((SeamLayer(a), SeamLayer(b))).kind is SeamKind.PLAIN
    assert (
        Seam((SeamLayer(a, ratio=1.8, held=Held.GATHERED), SeamLayer(b))).kind is SeamKind.GATHERED
    )
    assert Seam((SeamLayer(a, ease=0.5, held=Held.EASED), SeamLayer(b))).kind is SeamKind.EASED
    for part, kind in (
        (LayerPart.FACING, SeamKind.FACING),
        (LayerPart.BAND, SeamKind.WAISTBAND),
        (LayerPart.BINDING, SeamKind.BINDING),
    ):
        assert Seam((SeamLayer(a), SeamLayer(b, part))).kind is kind
    for kind in SeamKind:
        assert seam(Ref("one", "top"), Ref("two", "top"), kind=kind).kind is kind
