"""Balance marks of garments that the gallery does not hold, judged by the referee and by the proof."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

from cutwright.finish.document import pattern_json
from cutwright.pattern.mark import MarkKind
from cutwright.style.document import parse_style
from cutwright.workshop.gallery import know_all_steps, load_card, shipped
from cutwright.workshop.packet import document_of
from cutwright.workshop.work import Work
from tests.packet import paper, seams
from tests.packet.reading import Document, along, spot
from tests.packet.referee import worked
from tests.survey.tables import SAMPLE, spread

Steps = list[dict[str, Any]]


def edges(*names: str) -> Steps:
    """References to edges, written as `piece: edge`."""
    return [dict(zip(("piece", "edge"), name.split(": "), strict=True)) for name in names]


SKIRT = {"do": "draft_skirt", "waist_ease": 1}
WAISTS = edges("skirt front: waist", "skirt back: waist")
HEMS = edges("skirt back: hem", "skirt front: hem")
SIDE_ZIP = {"do": "open_side", "edge": edges("skirt front: side")[0], "zip": 20}
CENTRE_ZIP = {"do": "set_centre", "pieces": ["skirt back"], "on": "seam", "zip": 20}
EASED = {"do": "draft_dress", "back_shoulder": "ease", "back": "fold"}
LET_GO = {"do": "let_go", "piece": "front", "darts": ["waist dart"]}
FLARE = {"do": "close_dart", "piece": "front", "of": "shoulder", "into": "hem"}


def gathered(on: Steps, name: str, **more: Any) -> dict[str, Any]:
    """A strip gathered onto edges."""
    return {"do": "flounce_straight", "edges": on, "piece": name, "depth": 20, **more}


def drawn_up(into: str) -> Steps:
    """The bust dart drawn up in place of being sewn."""
    dart = {"do": "dart_to_gathers", "piece": "front", "dart": "bust dart", "into": into}
    return [{"do": "draft_dress"}, dart]


def nested(parts: list[int]) -> Steps:
    """Tiers sewn to each other, each in so many parts."""
    names = [f"tier {number}" for number in range(len(parts))]
    held = [HEMS, *(edges(f"{name}: hem") for name in names)]
    cloth = {"ratio": 1.05, "cloth": 400}
    return [
        SKIRT,
        *(gathered(on, n, parts=p, **cloth) for on, n, p in zip(held, names, parts, strict=False)),
    ]


BODICE_WAIST = edges("back: waist", "front: waist")
STYLES: dict[str, Steps] = {
    "eased back shoulder": [{"do": "draft_bodice", "back_shoulder": "ease"}],
    "bust dart eased": drawn_up("ease"),
    "bust dart gathered": drawn_up("gathers"),
    "flounce of two parts": [{"do": "draft_dress"}, gathered(edges("back: hem", "front: hem"), "frill", parts=2)],
    "gathered skirt on a bodice": [{"do": "draft_bodice"}, gathered(BODICE_WAIST, "skirt", depth=60)],
    "gathered skirt given front first": [
        {"do": "draft_bodice", "back": "seam"},
        gathered(BODICE_WAIST[::-1], "skirt", depth=60, ratio=2),
    ],
    "tiers": [SKIRT, gathered(HEMS, "upper"), gathered(edges("upper: hem"), "lower")],
    "tiers of nine and eleven": nested([9, 11]),
    "many tiers": nested([2, 3, 5, 7, 11, 13]),
    "A-line, faced apart": [
        EASED,
        LET_GO,
        FLARE,
        {"do": "facing", "kind": "neck", "pieces": ["front", "back"]},
        {"do": "facing", "kind": "armhole", "pieces": ["front", "back"], "width": 5},
    ],
    "gathered shoulder, faced": [
        *drawn_up("gathers"),
        {"do": "facing", "kind": "neck", "pieces": ["front", "back"], "width": 3},
    ],
    "band, zip behind": [SKIRT, CENTRE_ZIP, {"do": "waistband", "edges": WAISTS, "ease": 1}],
    "band, zip at the side": [SKIRT, SIDE_ZIP, {"do": "waistband", "edges": WAISTS}],
    "band before its zip": [SKIRT, {"do": "waistband", "edges": WAISTS}, CENTRE_ZIP],
    "eased back mirrored": [EASED, {"do": "mirror", "pieces": ["back"]}],
    "eased, both mirrored": [EASED, {"do": "mirror", "pieces": ["back", "front"]}],
}  # fmt: skip
_PROOF = ("seam-walk", "seam-missing", "notch-walk", "band-ends")
_DRAWN_UP_PARTLY = ("bust dart gathered", "gathered shoulder, faced")
"""The referee takes a gathered row as gathered all along; these are held to their ends below."""


@cache
def works(name: str, table: Path, count: int) -> tuple[tuple[str, Work], ...]:
    """A style on so many women and the demo bodies, with the body's name; what is refused is left out."""
    know_all_steps()
    style = parse_style({"format": 1, "name": name, "steps": STYLES[name]})
    cards = [*spread(table, count), *map(load_card, shipped("bodies"))]
    done = [(card.name, worked(style, card)) for card in cards]
    assert sum(made is None for _name, made in done) <= count // 10
    return tuple((who, made) for who, made in done if made is not None)


def wrong(name: str, done: Work) -> Iterator[str]:
    """What is wrong with the marks of a garment."""
    for finding in done.proof.findings:
        if finding.code in _PROOF:
            yield f"{finding.code} {finding.where}"
    document = Document(pattern_json(document_of(done)))
    rules = [paper.crowded, paper.beside]
    if name not in _DRAWN_UP_PARTLY:
        rules.append(seams.notches)
    for rule in rules:
        for miss in rule(document):
            yield f"{miss.rule} {miss.where} {miss.value:.2f}"


def faults(name: str, table: Path, count: int) -> list[str]:
    """The first of what is wrong on so many women."""
    return [
        f"{who}: {text}" for who, done in works(name, table, count) for text in wrong(name, done)
    ][:8]


@pytest.mark.parametrize("name", STYLES)
def test_marks_meet_on_a_few_women(name: str) -> None:
    assert faults(name, SAMPLE, 3) == []


@pytest.mark.survey
@pytest.mark.slow
@pytest.mark.parametrize("name", STYLES)
def test_marks_meet_on_forty_women(large_table: Path, name: str) -> None:
    assert faults(name, large_table, 40) == []


def demo(name: str) -> Work:
    """A style on the first demo body."""
    return works(name, SAMPLE, 3)[-1][1]


@cache
def printed(name: str) -> Document:
    """What is written down of a style on the first demo body."""
    return Document(pattern_json(document_of(demo(name))))


def notches(name: str, piece: str, edge: str, copy: int | None = None) -> list[float]:
    """How far along an edge its notches lie, in order; of one copy of the piece, or all."""
    read = printed(name).pieces[piece]
    line = read.chain(edge)
    return sorted(
        along(line, spot(m["at"]))
        for m in read.marks("notch")
        if m["edge"] == edge and (copy is None or not m["copies"] or copy in m["copies"])
    )


@pytest.mark.parametrize("name", ["tiers of nine and eleven", "many tiers", "tiers"])
def test_marks_of_rings_are_few_and_apart(name: str) -> None:
    done = demo(name)
    strips = [
        p.name for p in done.finished.pattern.pieces if p.cut.copies > 1 and not p.cut.mirrored
    ]
    assert strips
    for piece in strips:
        for edge in ("top", "hem"):
            found = notches(name, piece, edge)
            assert len(found) <= 24
            for copy in range(1, done.finished.pattern.piece(piece).cut.copies + 1):
                on_it = notches(name, piece, edge, copy)
                assert all(b - a >= 3 for a, b in pairwise(on_it)), (piece, edge, on_it)


def test_a_ring_that_no_mark_suits_has_its_quarters_on_the_parts_they_fall_on() -> None:
    piece = demo("tiers of nine and eleven").finished.pattern.piece("tier 1")
    marks = [m for m in piece.marks if m.kind is MarkKind.NOTCH and m.edge == "top"]
    assert [m.copies for m in marks] == [(3,), (6,), (9,)]


def test_a_band_begins_at_the_opening_and_shows_sides_and_centres() -> None:
    for name, expected in (
        ("band, zip behind", ["side", "centre front", "side", "centre back"]),
        ("band before its zip", ["side", "centre front", "side", "centre back"]),
        ("band, zip at the side", ["centre front", "side", "centre back", "side"]),
    ):
        done = demo(name)
        band = done.finished.pattern.piece("waistband")
        marks = sorted((m for m in band.marks if m.kind is MarkKind.NOTCH), key=lambda m: m.at.real)
        assert [m.meets for m in marks] == expected
        assert marks[-1].at.real == pytest.approx(band.edge("waist").length)
        words = {w.text for w in dict(done.drawings())["waistband"].items if hasattr(w, "text")}
        assert {*expected, "overlap 3 cm"} <= words


def test_a_mirrored_back_keeps_its_ease_on_both_shoulders() -> None:
    pattern = demo("eased back mirrored").finished.pattern
    (shoulders,) = [s for s in pattern.seams if s.kind == "eased"]
    assert shoulders.ease == pytest.approx(1.6)
    left = notches("eased back mirrored", "back", "left shoulder")
    right = notches("eased back mirrored", "back", "shoulder")
    size = pattern.piece("back").edge_length("shoulder")
    assert left == pytest.approx([size - d for d in reversed(right)], abs=0.01)


def test_the_shoulders_of_a_facing_are_sewn() -> None:
    for name in ("A-line, faced apart", "gathered shoulder, faced"):
        sewn = {ref for s in demo(name).finished.pattern.seams for ref in s.refs}
        assert {("front neck facing", "shoulder"), ("back neck facing", "shoulder")} <= {
            (ref.piece, ref.edge) for ref in sewn
        }


def test_thirty_two_tiers_are_marked_at_once() -> None:
    """Parts that have no common number must not multiply."""
    know_all_steps()
    steps = nested([k % 23 + 1 for k in range(32)])
    style = parse_style({"format": 1, "name": "tiers", "steps": steps})
    done = worked(style, load_card(next(iter(shipped("bodies")))))
    assert done is not None
    pieces = done.finished.pattern.pieces
    assert max(sum(m.kind is MarkKind.NOTCH for m in piece.marks) for piece in pieces) <= 48
    assert not [f for f in done.proof.findings if f.code in _PROOF]
