"""A lesson can be drafted on another body: its rules hold there, and all the measures it needs are listed."""

from __future__ import annotations

from dataclasses import replace

import pytest

from cutwright.body.body import Body
from cutwright.body.measures import MEASURES
from cutwright.geometry.path import distance_from
from cutwright.pattern.piece import Piece
from cutwright.pattern.point_rule import PointRule
from cutwright.style.replay import Stage, replay
from cutwright.worksheet.lesson import lesson_data
from cutwright.worksheet.own_points import rule_of, share_between
from cutwright.worksheet.points import DraftPlace, drafted_pieces, spots
from cutwright.worksheet.sheet import SheetTable
from cutwright.worksheet.used import measures_used
from cutwright.workshop.gallery import load_body, load_style
from tests.worksheet.sheets import BODIES, STYLES, worked

RULED = 0.15
"""How far a ruled place may lie from the draft's own, cm."""

SHARED = 1.6
"""How far a place told by shares may lie beside another body's own line, cm; waist dart mouths are furthest off."""


def drafts(style: str, body: str) -> list[tuple[Stage, Piece, list[PointRule]]]:
    out = []
    for stage in worked(style, body).replay.stages:
        for piece in drafted_pieces(stage) if stage.result.points else []:
            out.append((stage, piece, [r for r in stage.result.points if r.piece == piece.name]))
    return out


def sided(piece: Piece) -> int:
    return -1 if sum(edge.start.real for edge in piece.edges) < 0 else 1


def told(rule: PointRule, side: int) -> complex:
    return complex(side * rule.across.value, rule.down.value)


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("body", BODIES)
def test_each_rule_gives_the_place_of_the_draft(style: str, body: str) -> None:
    for _stage, piece, rules in drafts(style, body):
        count = 0
        for place in spots(piece):
            rule = rule_of(place, rules)
            if rule is not None:
                count += 1
                assert abs(told(rule, sided(piece)) - place.at) <= RULED, (piece.name, place.words)
        assert count == len(rules), piece.name


def own(
    place: DraftPlace, piece: Piece, rules: list[PointRule], mine: list[PointRule], side: int
) -> complex | None:
    """A place of one body's lesson set with the figures of another; None where the lesson gives no way."""
    rule = rule_of(place, mine) if rule_of(place, rules) else None
    if rule is not None:
        return told(rule, side)
    share = share_between(piece, place, rules)
    ends = [rule_of(p, mine) for p in (share.before, share.after)] if share else []
    if share is None or None in ends:
        return None
    first, last = (told(end, side) for end in ends if end is not None)
    return share.set_between(first, last)


@pytest.mark.parametrize("style", ["orchard-dress", "shift", "market-dress", "flared-skirt"])
def test_the_lesson_of_one_body_drafts_another(style: str) -> None:
    """The rules of the rower's lesson with the gardener's figures, held against the gardener's own draft."""
    worst = 0.0
    pairs = zip(drafts(style, "the-rower"), drafts(style, "the-gardener"), strict=True)
    for (_a, piece, rules), (_b, real, mine) in pairs:
        for place in spots(piece):
            at = own(place, piece, rules, mine, sided(piece))
            edges = [e for e in real.edges if e.name in place.meet]
            if at is None or not edges:
                continue
            off = min(distance_from(edge.curves, at) for edge in edges)
            exact = rule_of(place, rules) is not None
            assert off <= (RULED if exact else SHARED), (piece.name, place.words, off)
            worst = max(worst, off)
    assert worst > 0


@pytest.mark.parametrize("style", STYLES)
def test_every_measure_that_changes_the_pattern_is_listed(style: str) -> None:
    steps, body = load_style(style).steps, load_body("the-rower")
    plain = replay(steps, body)
    used = measures_used(plain)
    assert used
    for reading in body.readings():
        grown = replace(reading, value=reading.value + 0.5)
        others = tuple(r for r in body.readings() if r.measure != reading.measure)
        changed = replay(steps, Body(body.name, (*others, grown)))
        moves = changed.trouble is not None or any(
            a.outline != b.outline
            for a, b in zip(plain.pattern.pieces, changed.pattern.pieces, strict=True)
        )
        assert (reading.measure in used) == moves, MEASURES[reading.measure].name


def test_the_lesson_says_how_each_point_is_set_and_keeps_the_answers_apart() -> None:
    sheet = lesson_data(worked("orchard-dress", "the-rower"))
    rules = [b for b in sheet.section("step-1").blocks if isinstance(b, SheetTable)]
    assert [table.head[1] for table in rules] == ["Front", "Back"]
    cells = {str(row[1]): (str(row[2]), str(row[3])) for row in rules[0].rows}
    assert cells["Shoulder meets neckline"] == ("neck width", "side neck point of the front")
    assert cells["Side, at the waist"] == ("front at the bust − taken in at the side", "waist")
    assert all(row[-1] == "" for table in rules for row in table.rows)
    numbers = [b for b in sheet.section("answers").blocks if isinstance(b, SheetTable)]
    assert [table.head[0] for table in numbers] == ["Front", "Back"]
    text = "\n".join(sheet.texts())
    for word in (
        "eam allowance",
        "rain line",
        "otches",
        "fold",
        "selvedge",
        "from the level of the nape",
    ):
        assert word in text
    assert "highest level" not in text
