"""The invariants of the table, asked of every step there is."""

from __future__ import annotations

import json
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from cutwright.errors import CutwrightError, LookupFailed
from cutwright.geometry.curve import Line
from cutwright.pattern.change import Change, follow
from cutwright.pattern.edge import Ref
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.result import Result
from cutwright.pattern.step_ref import StepRef
from cutwright.style.document import parse_step
from cutwright.style.registry import all_steps
from cutwright.wording.figures import figure_text, how
from cutwright.wording.sentences import sentence
from cutwright.words import set_language
from tests.hand_pieces import NOBODY, dress
from tests.operations import invariants
from tests.operations.rows import ROWS, Row
from tests.printed_sums import printed_last, wrong

every_row = pytest.mark.parametrize("row", ROWS, ids=lambda row: row.name)


def _done(row: Row) -> tuple[Pattern, Result, Pattern]:
    before = row.before()
    result = row.step.apply(before, NOBODY)
    return (
        before,
        result,
        follow(before, result.pattern, result.change, StepRef(row.do, 1, row.step.label)),
    )


def test_every_step_has_a_row() -> None:
    drafts = {tag for tag in all_steps() if tag.startswith("draft_")}
    assert {row.do for row in ROWS} == set(all_steps()) - drafts


@every_row
def test_outlines_stay_sound(row: Row) -> None:
    _before, _result, after = _done(row)
    invariants.sound(after)
    invariants.seams_resolve(after)


@every_row
def test_seams_go_on_walking(row: Row) -> None:
    before, _result, after = _done(row)
    invariants.seams_walk(before, after)


@every_row
def test_every_name_is_accounted_for(row: Row) -> None:
    before, result, _after = _done(row)
    invariants.names_accounted(before, result.pattern, result.change)


@every_row
def test_what_was_not_cut_keeps_its_length(row: Row) -> None:
    before, result, _after = _done(row)
    invariants.lengths_kept(before, result.pattern, result.change, row.changes)


@pytest.mark.parametrize("row", [r for r in ROWS if r.area != "free"], ids=lambda row: row.name)
def test_area_is_kept_but_for_what_opened_and_closed(row: Row) -> None:
    before, result, _after = _done(row)
    check = invariants.area_kept if row.area == "kept" else invariants.area_traced
    check(before, result, row.new)


@every_row
def test_new_pieces_are_the_ones_told(row: Row) -> None:
    before, result, _after = _done(row)
    if row.do == "cut_apart":
        return
    there = {p.name for p in before.pieces}
    assert {p.name for p in result.pattern.pieces} - there == set(row.new)


@every_row
def test_the_paper_given_is_not_changed_and_twice_is_the_same(row: Row) -> None:
    before = row.before()
    assert row.step.apply(before, NOBODY) == row.step.apply(row.before(), NOBODY)
    assert before == row.before()


@pytest.mark.parametrize("language", ["de", "ru"])
@every_row
def test_it_gives_the_same_paper_in_every_language(row: Row, language: str) -> None:
    _before, english, after = _done(row)
    plain = row.step.model_dump_json()
    set_language(language)
    try:
        _before, result, there = _done(row)
        assert row.step.model_dump_json() == plain
    finally:
        set_language("en")
    assert there == after
    assert result == english


def test_a_later_step_finds_a_cut_edge_whatever_the_language() -> None:
    steps = [
        {"do": "cut_apart", "pieces": ["front"], "lower": ["lower front"], "at": "hip"},
        {"do": "allow", "edges": [{"piece": "lower front", "edge": "cut"}], "width": 2},
    ]
    set_language("de")
    try:
        paper = dress()
        for step in map(parse_step, steps):
            paper = step.apply(paper, NOBODY).pattern
    finally:
        set_language("en")
    assert paper.piece("lower front").edge("cut").allowance == 2


@every_row
def test_the_arithmetic_is_true(row: Row) -> None:
    before, result, after = _done(row)
    for figure in result.figures:
        assert not wrong(figure_text(figure)), figure_text(figure)
        assert printed_last(how(figure)) in (None, pytest.approx(figure.value, abs=1e-9))
    assert before is not after


@every_row
def test_it_goes_through_json(row: Row) -> None:
    step = row.step
    whole = json.loads(step.model_dump_json())
    short = {"do": step.do, **step.model_dump(mode="json", exclude_defaults=True, exclude={"do"})}
    assert parse_step(whole) == step
    assert parse_step(json.loads(json.dumps(short))) == step


@every_row
def test_it_reads_as_a_sentence(row: Row) -> None:
    text = sentence(row.step)
    assert text[0].isupper()
    assert text.endswith(".")
    assert "{" not in text
    assert type(row.step).HELP
    assert all(
        f.description for n, f in type(row.step).model_fields.items() if n not in ("do", "name")
    )


def _wrong_names(row: Row) -> list[tuple[str, dict[str, Any]]]:
    """The same call with one reference at a time naming something that is not there."""
    out: list[tuple[str, dict[str, Any]]] = []
    for field, info in type(row.step).model_fields.items():
        if field in row.not_looked_up or field in ("do", "name"):
            continue
        value = json.loads(row.step.model_dump_json())[field]
        extra = info.json_schema_extra
        role = extra.get("role") if isinstance(extra, dict) else None
        wrongs: list[Any] = []
        if role in ("piece", "dart", "edge"):
            wrongs = ["nowhere"]
        elif role in ("pieces", "darts"):
            wrongs = [["nowhere", *value[1:]]]
        elif role == "edges" and value:
            wrongs = [
                [{**value[0], "piece": "nowhere"}, *value[1:]],
                [{**value[0], "edge": "nowhere"}, *value[1:]],
            ]
        elif isinstance(value, dict) and "edge" in value:
            wrongs = [
                {**value, key: "nowhere"} for key in ("piece", "edge", "near") if value.get(key)
            ]
        out += [(field, {"do": row.do, **row.asks, field: wrong}) for wrong in wrongs]
    return out


@pytest.mark.parametrize(
    ("row", "call"),
    [
        pytest.param(row, call, id=f"{row.name}, {field} {i}")
        for row in ROWS
        for i, (field, call) in enumerate(_wrong_names(row))
    ],
)
def test_an_unknown_name_is_refused_with_what_there_is(row: Row, call: dict[str, Any]) -> None:
    before = row.before()
    with pytest.raises(LookupFailed) as refused:
        parse_step(call).apply(before, NOBODY)
    text = str(refused.value)
    assert "nowhere" in text
    there = {p.name for p in before.pieces}
    there |= {e.name for p in before.pieces for e in p.edges}
    there |= {d.name for p in before.pieces for d in p.darts}
    there |= {d.name for p in before.pieces for d in p.diamonds}
    there |= {x.name for p in before.pieces for x in p.levels}
    assert any(name in text for name in there)


@pytest.mark.parametrize("row", [r for r in ROWS if r.ranges], ids=lambda row: row.name)
@settings(max_examples=15, suppress_health_check=[HealthCheck.too_slow])
@given(chance=st.data())
def test_any_number_within_bounds_gives_a_sound_pattern_or_a_plain_refusal(
    row: Row, chance: st.DataObject
) -> None:
    asked = {
        name: chance.draw(st.floats(low, high).map(lambda x: round(x, 3)), label=name)
        for name, (low, high) in row.ranges.items()
    }
    before = row.before()
    try:
        step = parse_step({"do": row.do, **row.asks, **asked})
        result = step.apply(before, NOBODY)
    except CutwrightError:
        return  # refused in plain words; anything else fails the test
    after = follow(before, result.pattern, result.change, StepRef(row.do, 1, step.label))
    invariants.sound(after)
    invariants.seams_resolve(after)
    invariants.seams_walk(before, after)
    invariants.names_accounted(before, result.pattern, result.change)


# --- the comparisons can fail ----------------------------------------------------------------------


def _stretched(pattern: Pattern) -> Pattern:
    """The dress with the side of its front run out sideways, which no step was asked for."""
    front = pattern.piece("front")
    hem = front.edge("hem")
    out = hem.end - 3
    edges = tuple(
        e.with_curves((*e.curves, Line(hem.end, out)))
        if e.name == "hem"
        else e.with_curves((Line(out, e.start), *e.curves))
        if e.name == "side"
        else e
        for e in front.edges
    )
    return pattern.with_pieces(replace(front, edges=edges))


def test_a_changed_length_is_noticed() -> None:
    before = dress()
    after = _stretched(before)
    with pytest.raises(AssertionError, match="front: "):
        invariants.lengths_kept(before, after, Change(), ())
    with pytest.raises(AssertionError):
        invariants.seams_walk(before, after)
    invariants.lengths_kept(before, after, Change(), ("front: hem", "front: side"))


def test_a_changed_area_is_noticed() -> None:
    before = dress()
    front = before.piece("front")
    moved = tuple(
        e.with_curves((Line(e.start, e.end),)) if e.name == "armhole" else e for e in front.edges
    )
    after = before.with_pieces(replace(front, edges=moved))
    with pytest.raises(AssertionError):
        invariants.area_kept(before, Result(after), ())


def test_a_crossed_outline_is_noticed() -> None:
    with pytest.raises(AssertionError):
        invariants.sound(_stretched(dress()))


def test_a_name_that_vanishes_or_appears_is_noticed() -> None:
    before = dress()
    front = before.piece("front")
    renamed = tuple(replace(e, name="bottom") if e.name == "hem" else e for e in front.edges)
    after = before.with_pieces(replace(front, edges=renamed))
    with pytest.raises(AssertionError, match="nobody says what became of front: hem"):
        invariants.names_accounted(before, after, Change())
    with pytest.raises(AssertionError, match="comes from nowhere"):
        invariants.names_accounted(before, after, Change({Ref("front", "hem"): ()}))
    told = Change({Ref("front", "hem"): (Ref("front", "bottom"),)})
    invariants.names_accounted(before, after, told)


def test_a_seam_on_a_missing_edge_is_noticed() -> None:
    before = dress()
    front = before.piece("front")
    renamed = tuple(replace(e, name="flank") if e.name == "side" else e for e in front.edges)
    with pytest.raises(LookupFailed):
        invariants.seams_resolve(before.with_pieces(replace(front, edges=renamed)))
