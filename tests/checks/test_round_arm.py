"""An armhole must go round the upper arm."""

from __future__ import annotations

from cutwright.body.resolve import resolve
from cutwright.body.size_charts import size
from cutwright.checks.limits import Limits
from cutwright.checks.proof import prove
from cutwright.workshop.gallery import load_style
from cutwright.workshop.work import work


def test_a_drafted_armhole_has_room_for_the_arm() -> None:
    body = resolve(size(96, "regular"))
    done = work(load_style("shift"), body)
    row = done.proof.measured("goes-round-arm")
    assert row.count == 1
    assert row.worst is not None
    assert row.worst > 3


def test_a_tight_armhole_is_a_fault() -> None:
    body = resolve(size(96, "regular"))
    pattern = work(load_style("shift"), body).replay.pattern
    found = prove(pattern, body, limits=Limits(ease_arm=60)).faults
    assert any(f.code == "goes-round-arm" for f in found)
