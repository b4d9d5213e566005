"""Each option of each step alone must prove or be refused with a reason; the whole table goes with `make survey`."""

from __future__ import annotations

import pytest

from cutwright.style.registry import all_steps
from cutwright.workshop.gallery import load_body, shipped
from tests.operations.options import SETTINGS, Option, options, wrong

TABLE = options()
PEOPLE = sorted(shipped("bodies"))
EVERY = 3
"""One option in so many is worked here, the bodies in turn; the first of each step always is."""


def _sample() -> list[tuple[Option, str]]:
    plain = [option for option in TABLE if option.field == "plain"]
    rest = [o for o in TABLE if o.field != "plain"]
    return [(o, PEOPLE[n % len(PEOPLE)]) for n, o in enumerate([*plain, *rest[::EVERY]])]


SAMPLE = _sample()


def test_every_step_and_every_field_is_in_the_table() -> None:
    assert set(SETTINGS) == set(all_steps())
    assert {option.do for option in TABLE} == set(all_steps())
    assert len(TABLE) > 900


@pytest.mark.parametrize("tag", sorted(all_steps()))
def test_an_option_proves_or_is_refused(tag: str) -> None:
    told = {
        f"{option.name} on {body}": found
        for option, body in SAMPLE
        if option.do == tag and (found := _wrong(option, body))
    }
    assert told == {}


def _wrong(option: Option, body: str) -> str:
    return wrong(option, load_body(body))


def test_the_table_can_fail(monkeypatch: pytest.MonkeyPatch) -> None:
    """Paper that does not sew together, and a step that breaks, are found."""
    (plain,) = (o for o in TABLE if o.name == "spread plain=call")
    body = load_body("the-alto")
    assert wrong(plain, body) == ""
    (hip,) = (o for o in TABLE if o.name == "cut_apart at=hip")
    assert wrong(hip, body) == ""
    monkeypatch.setattr("cutwright.pattern.cutting.cut_line._square", lambda *_given: True)
    assert "edge-flow" in wrong(hip, body)  # a straight cut meets a slanting side aslant
    monkeypatch.setattr("cutwright.steps.spread.spread", None)
    assert "crashed" in wrong(plain, body)
