"""Working a style step by step: what is reused, and how trouble is kept."""

from __future__ import annotations

import json

import pytest

from cutwright.body.resolve import resolve
from cutwright.body.size_charts import size
from cutwright.errors import DocumentError
from cutwright.style.document import Style, parse_step, parse_style, style_schema
from cutwright.style.registry import all_steps
from cutwright.style.replay import replay
from cutwright.workshop.gallery import know_all_steps, load_style, shipped

know_all_steps()
BODY = resolve(size(92, "regular"))


@pytest.mark.parametrize("name", sorted(shipped("styles")))
def test_a_style_goes_through_its_document(name: str) -> None:
    style = load_style(name)
    again = parse_style(json.loads(json.dumps(style.document())))
    assert again == style


def test_equal_first_steps_are_taken_over() -> None:
    style = load_style("orchard-dress")
    first = replay(style.steps, BODY)
    steps = list(style.steps)
    steps[-2] = steps[-2].replaced(depth=30.0)
    after = replay(steps, BODY, first)
    for old, new in zip(first.stages[:-2], after.stages[:-2], strict=True):
        assert old is new
    assert after.stages[-2] is not first.stages[-2]
    assert replay(steps, BODY).pattern == after.pattern


def test_another_body_takes_nothing_over() -> None:
    style = load_style("close-skirt")
    first = replay(style.steps, BODY)
    other = replay(style.steps, resolve(size(104, "tall")), first)
    assert other.pattern != first.pattern


def test_trouble_keeps_what_was_done() -> None:
    steps = [
        parse_step({"do": "draft_skirt"}),
        parse_step({"do": "close_dart", "piece": "skirt front", "darts": ["nothing"]}),
        parse_step({"do": "let_go", "piece": "skirt front"}),
    ]
    done = replay(steps, BODY)
    assert done.stopped_at == 1
    assert len(done.stages) == 1
    assert "Step 2" in str(done.trouble)
    assert [p.name for p in done.pattern.pieces] == ["skirt front", "skirt back"]


def test_every_problem_is_named_with_its_place() -> None:
    data = {
        "format": 1,
        "name": "",
        "steps": [{"do": "fly"}, 3, {"do": "spread", "by": -1}],
        "x": 1,
    }
    with pytest.raises(DocumentError) as told:
        parse_style(data)
    text = str(told.value)
    for word in ("name", "fly", "step 2", "step 3", "piece", "x"):
        assert word in text


def test_every_step_has_its_sentence_help_and_schema() -> None:
    schema = style_schema()
    for tag, step in all_steps().items():
        assert step.SENTENCE, tag
        assert step.HELP, tag
        assert step.__name__ in schema["$defs"]
        for name, field in step.model_fields.items():
            assert name in ("do", "name") or field.description, f"{tag}: {name}"


def test_a_style_holds_no_person() -> None:
    assert set(Style("a", ()).document()) == {"format", "name", "about", "steps"}
