"""One allowance along an edge of the garment."""

from __future__ import annotations

from cutwright.checks.proof import prove
from cutwright.finish.finished import finish
from cutwright.finish.options import FinishOptions
from tests.checks.hand import skirt


def test_what_finishing_gives_runs_on() -> None:
    done = finish(skirt(), FinishOptions())
    row = prove(done.pattern, allowances=done.allowances).measured("allowance-run")
    assert row.count == 2  # the hem and the waist go on over the side seam
    assert row.worst == 0


def test_a_step_in_the_hem_is_found() -> None:
    done = finish(skirt(), FinishOptions())
    stepped = {**done.allowances, ("skirt front", "hem"): 2.0}
    findings = [
        f for f in prove(done.pattern, allowances=stepped).findings if f.code == "allowance-run"
    ]
    assert [(f.level, f.value) for f in findings] == [("warning", 1.5)]
    assert "hem" in findings[0].where


def test_nothing_is_said_before_allowances_are_settled() -> None:
    assert prove(skirt()).measured("allowance-run").count == 0
