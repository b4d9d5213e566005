"""Every step says why it is done, wherever it is told."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from cutwright.style.registry import all_steps
from cutwright.wording.reasons import explained, reasons
from cutwright.worksheet.lesson import lesson_data
from cutwright.workshop.gallery import know_all_steps
from tests.worksheet.sheets import STYLES, sheet, worked

know_all_steps()


@pytest.mark.parametrize("tag", sorted(all_steps()))
def test_each_step_declares_what_it_is_for_and_what_goes_wrong(tag: str) -> None:
    step = all_steps()[tag]
    assert step.WHY.count(".") >= 2  # what it is for; what goes wrong without it
    assert step.WHY != step.HELP
    assert explained(step).endswith(reasons(step)[-1])


def test_steps_that_give_fullness_say_what_suits_the_cloth() -> None:
    for tag, step in all_steps().items():
        if step.GROUP in ("fullness", "flounces", "draft"):
            assert "heav" in step.CLOTH or "firm" in step.CLOTH, tag
    gathers = all_steps()["flounce_straight"].CLOTH
    assert all(ratio in gathers for ratio in ("1.5", "1.7", "2 ", "3 "))


@pytest.mark.parametrize("style", STYLES)
def test_sheet_and_lesson_print_the_reason_of_every_step(style: str) -> None:
    done = worked(style, "the-rower")
    printed = sheet(style, "the-rower"), lesson_data(done)
    for stage_at, stage in enumerate(done.replay.stages, start=1):
        for data in printed:
            told = [getattr(block, "text", "") for block in data.section(f"step-{stage_at}").blocks]
            assert set(reasons(type(stage.step))) <= set(told)


def test_the_command_and_the_reference_print_it(capsys: pytest.CaptureFixture[str]) -> None:
    from cutwright.cli.lists import steps

    steps(as_json=False)
    listed = capsys.readouterr().out
    steps(as_json=True)
    rows = {row["do"]: row for row in json.loads(capsys.readouterr().out)}
    reference = Path("docs/reference/steps.md").read_text(encoding="utf-8")
    for tag, step in all_steps().items():
        assert rows[tag]["why"] == step.WHY
        for reason in reasons(step):
            assert reason in listed
            assert reason in reference
