"""What is taken over from earlier work is what working it anew gives, to the last bit."""

from __future__ import annotations

import random
from contextlib import suppress

import pytest

from benchmarks.bench import forget
from cutwright.drawing.svg import svg_items
from cutwright.finish.document import pattern_json
from cutwright.style.document import Style
from cutwright.style.step import Step
from cutwright.workshop.gallery import load_body, load_style, shipped
from cutwright.workshop.packet import document_of
from cutwright.workshop.work import Work, work

BODIES = ("the-alto", "the-gardener", "the-rower")
EDITS = 60


def told(done: Work) -> tuple[object, ...]:
    """Everything that comes of a work, as text."""
    return (
        pattern_json(document_of(done)),
        tuple(svg_items(drawing) for _name, drawing in done.drawings()),
        tuple(map(repr, done.findings)),
        tuple(map(repr, done.proof.checked)),
        tuple(map(repr, done.replay.traces)),
        repr(done.trouble),
    )


@pytest.mark.parametrize("name", sorted(shipped("styles")))
def test_a_style_after_another_body_is_as_from_nothing(name: str) -> None:
    style = load_style(name)
    bodies = [load_body(body) for body in BODIES]
    forget()
    warm = [told(work(style, body)) for body in bodies]
    again = [told(work(style, body)) for body in bodies]
    assert again == warm
    for body, expected in zip(bodies, warm, strict=True):
        forget()
        assert told(work(style, body)) == expected


def numbers_changed(steps: list[Step], chance: random.Random) -> None:
    """Change one number of one sentence a little, if its sentence allows that."""
    index = chance.randrange(len(steps))
    numbers = [
        name
        for name, value in steps[index].model_dump().items()
        if isinstance(value, float) and value
    ]
    if numbers:
        field = chance.choice(numbers)
        value = getattr(steps[index], field) + chance.choice((-0.4, -0.1, 0.1, 0.3, 0.7))
        with suppress(ValueError):
            steps[index] = steps[index].replaced(**{field: value})


def edited(steps: list[Step], kind: str, chance: random.Random) -> None:
    """Change a style as somebody at the desk does."""
    if kind == "number":
        numbers_changed(steps, chance)
    elif kind == "delete" and len(steps) > 3:
        steps.pop(chance.randrange(len(steps)))
    elif kind == "insert":
        steps.insert(chance.randrange(1, len(steps) + 1), chance.choice(SENTENCES))
    elif kind == "swap":
        one, other = chance.randrange(1, len(steps)), chance.randrange(1, len(steps))
        steps[one], steps[other] = steps[other], steps[one]


SENTENCES = [step for name in shipped("styles") for step in load_style(name).steps[1:]]
KINDS = (*["number"] * 5, "delete", "insert", "swap", "body", "back")


@pytest.mark.parametrize("name", sorted(shipped("styles")))
def test_a_style_edited_anyhow_is_worked_as_from_nothing(name: str) -> None:
    chance = random.Random(name)
    style, body = load_style(name), load_body(BODIES[0])
    steps = list(style.steps)
    done: Work | None = None
    for _n in range(EDITS // 5):
        kind = chance.choice(KINDS)
        edited(steps, kind, chance)
        if kind == "body":
            body = load_body(chance.choice(BODIES))
        if kind == "back":
            steps = list(style.steps)
        now = Style(style.name, tuple(steps), style.about)
        done = work(now, body, earlier=done)
        found = told(done)
        forget()
        assert found == told(work(now, body))
