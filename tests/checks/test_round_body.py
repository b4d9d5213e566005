"""Rule 6: the garment goes round the body and can be put on."""

from __future__ import annotations

from dataclasses import replace

import pytest

from cutwright.checks.proof import Proof, prove
from cutwright.checks.width import inside, widths
from cutwright.pattern.edge import Ref
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Diamond, Level
from cutwright.pattern.seam import seam
from tests.checks.hand import back, body, front, skirt


def level_of(proof: Proof, code: str) -> str | None:
    return next((f.level for f in proof.findings if f.code == code), None)


def test_ease_is_measured_all_round() -> None:
    proof = prove(skirt(), body())
    assert proof.measured("goes-round-waist").worst == pytest.approx(72 - 70)
    assert proof.measured("goes-round-hip").worst == pytest.approx(4 * 25.5 - 96)
    assert proof.sound


def test_a_skirt_too_tight_is_found() -> None:
    assert level_of(prove(skirt(), body(hip_girth=101.0)), "goes-round-hip") == "fault"
    assert level_of(prove(skirt(), body(hip_girth=99.0)), "goes-round-hip") is None
    assert level_of(prove(skirt(), body(waist_girth=71.6)), "goes-round-waist") == "fault"


def test_darts_take_their_width_out() -> None:
    plain = widths(front())["hip"].cm
    diamond = Diamond("second dart", -5 + 10j, -5 + 30j, -4 + 20j, -6 + 20j)
    assert widths(replace(front(), diamonds=(diamond,)))["hip"].cm == pytest.approx(plain - 2)
    across_dart = replace(front(), levels=(Level("hip", (-25.5 + 6j, 6j)),))
    taken = 25.5 - widths(across_dart)["hip"].cm
    assert taken == pytest.approx(front().intake(front().darts[0]) / 2, abs=0.05)


def test_a_line_through_a_triangle() -> None:
    ring = (0j, 4 + 0j, 2 + 4j)
    assert inside(-5 + 2j, 5 + 2j, ring) == pytest.approx(2)
    assert inside(-5 + 2j, 5 + 2j, ring[::-1]) == pytest.approx(2)
    assert inside(-5 + 5j, 5 + 5j, ring) == 0
    assert inside(2 + 1j, 2 + 2j, ring) == pytest.approx(1)


def test_a_level_that_stops_is_said_not_to_be_proved() -> None:
    pattern = Pattern((front(),)).with_seams()
    proof = prove(pattern, body())
    assert level_of(proof, "round-unknown") == "note"
    assert proof.measured("goes-round-hip").count == 0


def test_two_courses_are_measured_apart() -> None:
    """A second skirt under the first is another round, not a longer one."""
    under = (replace(front(), name="under front"), replace(back(), name="under back"))
    centre = Ref("under back", "centre back")
    pattern = (
        skirt()
        .with_pieces(*under)
        .with_seams(
            seam(Ref("under front", "side"), Ref("under back", "side")),
            seam(centre, centre, same_way=True),
        )
    )
    row = prove(pattern, body()).measured("goes-round-hip")
    assert row.count == 2
    assert row.worst == pytest.approx(6.0)


def test_without_an_opening_there_is_no_way_in() -> None:
    fault = next(
        f for f in prove(skirt(back_piece=back(zip_at=None)), body()).faults
        if f.code == "can-be-put-on"
    )  # fmt: skip
    assert fault.value == pytest.approx(72 - (88 - 2))  # over the head the bust must pass
    assert "opening" in str(fault.message)


@pytest.mark.parametrize(("zip_at", "good"), [(19.0, True), (8.0, True), (5.0, False)])
def test_an_opening_must_be_long_enough(zip_at: float, good: bool) -> None:
    """72 + 30 x share of the way to the hip against 98 - 2 over the head: from 9.3 cm down."""
    proof = prove(skirt(back_piece=back(zip_at=zip_at)), body(bust_girth=84.0))
    assert (level_of(proof, "can-be-put-on") is None) == good


def test_a_wide_waist_needs_no_opening() -> None:
    wide = skirt(front(25.0), back(25.0, zip_at=None))
    assert level_of(prove(wide, body()), "can-be-put-on") is None


def test_without_a_body_nothing_is_said() -> None:
    assert prove(skirt(back_piece=back(zip_at=None))).sound
