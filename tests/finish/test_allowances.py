"""Which edge gets how much: by kind, by the curve of a hem, by what it is sewn to."""

from __future__ import annotations

from dataclasses import replace

import pytest

from cutwright.finish.allowances import Allowances, Treatment, treatments, turn_of
from cutwright.geometry.draw import circle_arc, hermite
from cutwright.geometry.path import direction_at, end_direction
from cutwright.geometry.point import direction
from cutwright.pattern.edge import Ref
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.seam import SeamKind, seam
from tests.finish.pieces import dress_front, flounced_skirt, line, ring, skirt, skirt_front

TABLE = Allowances()


def test_defaults_of_the_trade() -> None:
    found = treatments(Pattern((dress_front(),)), TABLE)
    amounts = {label: t.amount for (_piece, label), t in found.items()}
    assert amounts == {
        "shoulder.1": 1.5,
        "shoulder.2": 1.5,
        "bust dart.1": 0.0,
        "bust dart.2": 0.0,
        "neckline": 1.0,
        "centre front": 0.0,
        "hem": 3.5,
        "side": 1.5,
        "armhole": 1.0,
    }
    assert found["front", "hem"].turned
    assert not found["front", "side"].turned


@pytest.mark.parametrize(
    ("radius", "turn", "depth"),
    [(400.0, 0.1, 3.5), (130.0, 0.3, 2.0), (110.0, 0.4, 1.5), (82.9, 0.79, 1.0), (71.5, 1.57, 1.0)],
)
def test_the_rounder_a_hem_the_less_is_turned_up(radius: float, turn: float, depth: float) -> None:
    hem = circle_arc(0j, complex(0, radius), turn)
    assert turn_of(hem) == pytest.approx(turn, abs=1e-6)
    assert TABLE.hem(hem) == depth


def test_a_straight_hem_is_deep() -> None:
    assert TABLE.hem(line(0j, 40 + 0j)) == 3.5


def test_a_circular_flounce() -> None:
    assert treatments(Pattern((ring(),)), TABLE)["ring", "hem"] == Treatment(1.0, turned=True)


def test_both_sides_of_a_seam_agree_and_a_sewn_hem_is_no_hem() -> None:
    found = treatments(flounced_skirt(), TABLE)
    for key in [("flounce", "top"), ("skirt front", "hem"), ("skirt back", "hem")]:
        assert found[key] == Treatment(1.0)
    assert found["flounce", "hem"] == Treatment(3.5, turned=True)


def test_a_zip_widens_its_seam() -> None:
    found = treatments(skirt(), TABLE)
    assert found["skirt back", "centre back"].amount == 2.0
    assert found["skirt back", "side"].amount == 1.5


def test_a_wish_on_one_side_carries_over_the_seam() -> None:
    front = skirt_front()
    wished = replace(
        front,
        edges=tuple(replace(e, allowance=2.5) if e.name == "side" else e for e in front.edges),
    )
    found = treatments(skirt().with_pieces(wished), TABLE)
    assert found["skirt front", "side"].amount == 2.5
    assert found["skirt back", "side"].amount == 2.5


def test_a_faced_neckline_agrees_with_its_facing() -> None:
    front = dress_front()
    facing = replace(front, name="facing")
    pattern = Pattern(
        (front, facing),
        (
            seam(
                Ref("front", "neckline"),
                Ref("facing", "neckline"),
                same_way=True,
                kind=SeamKind.FACING,
            ),
        ),
    )
    found = treatments(pattern, TABLE)
    assert found["front", "neckline"] == found["facing", "neckline"] == Treatment(1.0)


def test_a_hem_that_runs_on_over_a_seam_has_one_depth() -> None:
    """The back hem is nearly straight and the front one round: both follow the round one."""
    plain = skirt()
    front = plain.piece("skirt front")
    hem = front.edge("hem")
    leaving = direction_at(hem.curves, 0.0) * direction(-0.3)
    arriving = end_direction(hem.curves) * direction(0.3)
    rounder = hem.with_curves((hermite(hem.start, leaving, hem.end, arriving),))
    round_front = replace(front, edges=tuple(rounder if e is hem else e for e in front.edges))
    pattern = plain.with_pieces(round_front)
    assert TABLE.of(rounder) < TABLE.of(pattern.piece("skirt back").edge("hem"))
    found = treatments(pattern, TABLE)
    assert found["skirt front", "hem"] == found["skirt back", "hem"]
    assert found["skirt back", "hem"] == Treatment(TABLE.of(rounder), turned=True)


def test_a_wish_for_the_hem_of_the_front_is_one_for_the_back() -> None:
    front = skirt_front()
    wished = replace(
        front,
        edges=tuple(replace(e, allowance=5.0) if e.name == "hem" else e for e in front.edges),
    )
    found = treatments(skirt().with_pieces(wished), TABLE)
    assert found["skirt back", "hem"] == Treatment(5.0, turned=True)


def test_a_sewn_hem_does_not_tell_the_free_one_beside_it() -> None:
    flounced = flounced_skirt()
    half = replace(
        flounced,
        seams=tuple(
            s.with_rows((s.rows[0], [x for x in s.rows[1] if x.ref.piece == "skirt front"]))
            if any(r.piece == "flounce" and r.edge == "top" for r in s.refs)
            else s
            for s in flounced.seams
        ),
    )
    found = treatments(half, TABLE)
    assert found["skirt front", "hem"] == Treatment(1.0)
    assert found["skirt back", "hem"].turned
