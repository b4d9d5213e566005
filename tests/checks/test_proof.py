"""The whole proof: order, lines for all that was checked, and a good skirt."""

from __future__ import annotations

from dataclasses import replace

import pytest

from cutwright.checks.proof import prove, prove_replay
from cutwright.pattern.pattern import Pattern
from cutwright.style.replay import Replay
from tests.checks.hand import back, body, front, hem_dropped_at_side, skirt

CODES = {
    "outline-simple", "seam-walk", "seam-missing", "notch-walk", "edge-flow", "corner-turned",
    "edge-corner", "curve-wave", "curve-tight", "curve-flat", "side-wave", "side-balance", "allowance-run", "band-ease",
    "band-ends", "darts-meet", "fold-square", "fold-on-grain", "dart-legs", "dart-mouth",
    "dart-short-of-bust-point", "dart-intake", "goes-round-bust", "goes-round-waist",
    "goes-round-hip", "goes-round-arm", "can-be-put-on",
    "turning-keeps-length", "turning-keeps-area", "range",
}  # fmt: skip


def test_a_good_skirt_has_no_finding_at_all() -> None:
    proof = prove(skirt(), body())
    assert proof.findings == ()
    assert proof.sound


def test_every_check_has_its_line() -> None:
    proof = prove(skirt(), body())
    assert [row.code for row in proof.checked] == list(dict.fromkeys(r.code for r in proof.checked))
    assert {row.code for row in proof.checked} == CODES
    assert all((row.worst is None) == (row.count == 0) for row in proof.checked)
    with pytest.raises(KeyError):
        proof.measured("nothing of the kind")


def test_an_empty_table_is_sound() -> None:
    assert prove(Pattern(), body()).findings == ()


def test_faults_come_first() -> None:
    spoilt = skirt(back_piece=hem_dropped_at_side(back(), 1.0))
    proof = prove(replace(spoilt, seams=spoilt.seams[:1]), body())
    levels = [f.level for f in proof.findings]
    assert "warning" in levels
    assert levels == sorted(levels, key=["fault", "warning", "note"].index)
    assert proof.faults
    assert not proof.sound


def test_every_finding_has_place_and_words() -> None:
    spoilt = skirt(hem_dropped_at_side(front(), 2.0), back(zip_at=None))
    for finding in prove(spoilt, body(hip_girth=110.0)).findings:
        assert finding.where
        assert str(finding.message).endswith(".")


def test_a_replay_is_proved_with_its_body() -> None:
    assert prove_replay(Replay(body(), ())).sound
