"""What is taken over from earlier work is what working it anew gives, to the last bit."""

from __future__ import annotations

import random
from collections.abc import Iterator

import pytest

from benchmarks.bench import forget
from cutwright.body.body import Body
from cutwright.drawing.svg import svg_items
from cutwright.finish.document import pattern_json
from cutwright.style.document import Style
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


def edits(style: Style, chance: random.Random) -> Iterator[Style]:
    """The style with one number after another changed a little."""
    steps = list(style.steps)
    while True:
        index = chance.randrange(len(steps))
        numbers = [
            name
            for name, value in steps[index].model_dump().items()
            if isinstance(value, float) and value
        ]
        if not numbers:
            continue
        field = chance.choice(numbers)
        value = getattr(steps[index], field) + chance.choice((-0.4, -0.1, 0.1, 0.3, 0.7))
        try:
            steps[index] = steps[index].replaced(**{field: value})
        except ValueError:
            continue
        yield Style(style.name, tuple(steps), style.about)


@pytest.mark.parametrize("name", ["orchard-dress", "flared-skirt", "market-dress"])
def test_a_changed_number_is_worked_as_from_nothing(name: str) -> None:
    chance = random.Random(name)
    body: Body = load_body("the-alto")
    style = load_style(name)
    done: Work | None = None
    chain = []
    for edited, _n in zip(edits(style, chance), range(EDITS // 3), strict=False):
        done = work(edited, body, earlier=done)
        chain.append((edited, told(done)))
    for edited, expected in chain:
        forget()
        assert told(work(edited, body)) == expected
