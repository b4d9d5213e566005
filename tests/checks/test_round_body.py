"""Rule 6: the garment goes round the body and can be put on."""

from __future__ import annotations

from dataclasses import replace

import pytest

from cutwright.checks.proof import Proof, prove, prove_replay
from cutwright.checks.width import inside_length, widths
from cutwright.geometry.curve import Line
from cutwright.pattern.edge import Edge, EdgeKind, Ref
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Diamond, Level, Piece
from cutwright.pattern.role import PieceLayer, Role
from cutwright.pattern.seam import seam
from cutwright.style.document import parse_step
from cutwright.style.replay import replay
from cutwright.workshop.gallery import know_all_steps, load_body
from tests.checks.hand import back, body, front, skirt

know_all_steps()


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


@pytest.mark.parametrize("hip", [103.0, 110.0, 140.0])
def test_a_garment_smaller_than_the_body_is_a_fault(hip: float) -> None:
    """Ease is a difference with a sign: 102 cm of skirt on a hip of 110 lack 8."""
    fault = next(
        f for f in prove(skirt(), body(hip_girth=hip)).faults if f.code == "goes-round-hip"
    )
    assert fault.value == pytest.approx(102 - hip)


def tunic(neck: float, bust: float = 100.0) -> Pattern:
    """Front and back on the fold, straight down from the shoulder, with a neckline of so many cm all round."""

    def half(name: str, role: Role, way: int) -> Piece:
        side, point = way * bust / 4, way * neck / 4
        places = (0j, complex(point), complex(side, 4), complex(side, 60), 60j)
        rows = (
            ("neckline", EdgeKind.NECKLINE), ("shoulder", EdgeKind.SHOULDER), ("side", EdgeKind.SIDE),
            ("hem", EdgeKind.HEM), ("centre", EdgeKind.FOLD),
        )  # fmt: skip
        edges = tuple(
            Edge(edge, (Line(places[i], places[(i + 1) % 5]),), kind)
            for i, (edge, kind) in enumerate(rows)
        )
        if way < 0:
            edges = tuple(edge.reversed() for edge in reversed(edges))
        level = Level("bust", (20j, complex(side, 20)))
        return Piece(name, edges, (5j, 40j), levels=(level,), role=role)

    return Pattern((half("front", Role.FRONT, -1), half("back", Role.BACK, 1))).with_seams(
        seam(Ref("front", "side"), Ref("back", "side")),
        seam(Ref("front", "shoulder"), Ref("back", "shoulder")),
    )


@pytest.mark.parametrize(
    ("neck", "good"), [(60.0, True), (57.2, True), (56.6, False), (50.0, False)]
)
def test_the_head_passes_a_neckline_a_little_wider_than_itself(neck: float, good: bool) -> None:
    """A head of 56 wants 57: a neckline that is just its girth does not go over the hair and the ears."""
    proof = prove(tunic(neck), body(head_girth=56.0, hip_girth=120.0))
    assert (level_of(proof, "can-be-put-on") is None) == good
    assert proof.measured("can-be-put-on").worst == pytest.approx(neck - 57.0)


@pytest.mark.parametrize(
    ("bust", "good"), [(100.0, True), (100.5, True), (99.8, False), (96.0, False)]
)
def test_one_must_be_able_to_breathe(bust: float, good: bool) -> None:
    """Round the bust at least 2 cm of ease (common practice, no source)."""
    proof = prove(tunic(70.0, bust), body(bust_girth=98.0))
    assert (level_of(proof, "goes-round-bust") is None) == good


def test_darts_take_their_width_out() -> None:
    plain = widths(front())["hip"].cm
    diamond = Diamond("second dart", -5 + 10j, -5 + 30j, -4 + 20j, -6 + 20j)
    assert widths(replace(front(), diamonds=(diamond,)))["hip"].cm == pytest.approx(plain - 2)
    across_dart = replace(front(), levels=(Level("hip", (-25.5 + 6j, 6j)),))
    taken = 25.5 - widths(across_dart)["hip"].cm
    assert taken == pytest.approx(front().intake(front().darts[0]) / 2, abs=0.05)


def test_a_line_through_a_triangle() -> None:
    ring = (0j, 4 + 0j, 2 + 4j)
    assert inside_length(-5 + 2j, 5 + 2j, ring) == pytest.approx(2)
    assert inside_length(-5 + 2j, 5 + 2j, ring[::-1]) == pytest.approx(2)
    assert inside_length(-5 + 5j, 5 + 5j, ring) == 0
    assert inside_length(2 + 1j, 2 + 2j, ring) == pytest.approx(1)


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


def test_a_name_that_sounds_like_a_strip_switches_no_check_off() -> None:
    """A dress cut into a striped front and a striped back is judged like any other."""

    def too_tight(*lower: str) -> set[str]:
        rows: list[dict[str, object]] = [
            {"do": "draft_dress", "hip_ease": -8},
            {"do": "cut_apart", "pieces": ["front", "back"], "lower": lower},
        ]
        done = replay([parse_step(row) for row in rows], load_body("the-alto"))
        assert done.trouble is None
        return {f.code for f in prove_replay(done).faults if f.code.startswith("goes-round")}

    assert too_tight("skirt front", "skirt back") == {"goes-round-hip"}
    for names in [("striped front", "striped back"), ("collar front", "pocket back")]:
        assert too_tight(*names) == {"goes-round-hip"}


def test_facings_bands_and_flounces_do_not_go_round_the_body() -> None:
    assert front().goes_round
    assert not replace(front(), layer=PieceLayer.FACING).goes_round
    for role in (Role.WAISTBAND, Role.STRIP, Role.FLOUNCE):
        assert not replace(front(), role=role).goes_round
