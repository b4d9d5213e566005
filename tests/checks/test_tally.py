"""Bringing together what a check found in one piece after another."""

from __future__ import annotations

from cutwright.checks.tally import Tally, gather
from cutwright.messages import Message
from cutwright.pattern.result import Severity


def _tally(*seen: float, least: bool = False) -> Tally:
    tally = Tally("code", "what", 1.0, "cm", least)
    for value in seen:
        tally.see(value, f"at {value}")
    return tally


def test_parts_come_to_the_same_as_one_walk_round() -> None:
    for least in (False, True):
        whole = _tally(least=least)
        gather(
            [whole],
            [[_tally(2, 5, least=least)], [_tally(least=least)], [_tally(1, 5, least=least)]],
        )
        assert whole.row() == _tally(2, 5, 1, 5, least=least).row()


def test_findings_keep_their_order_and_the_parts_stay_as_they_were() -> None:
    one, two, whole = _tally(1), _tally(2), _tally()
    one.find(Severity.NOTE, "here", Message("first", "first"))
    two.find(Severity.FAULT, "there", Message("second", "second"))
    gather([whole], [[one], [two]])
    assert [f.message.code for f in whole.findings] == ["first", "second"]
    assert (one.count, len(one.findings)) == (1, 1)


def test_what_was_counted_without_a_measure_still_counts() -> None:
    part, whole = _tally(), _tally()
    part.count = 3
    gather([whole], [[part]])
    assert (whole.count, whole.worst) == (3, None)
