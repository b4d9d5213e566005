"""Which edge gets how much: by kind, by the curve of a hem, by what it is sewn to."""

from __future__ import annotations

from dataclasses import replace

import pytest

from cutwright.finish.allowances import Allowances, Treatment, treatments, turn_of
from cutwright.geometry.draw import circle_arc
from cutwright.pattern.edge import Ref
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.seam import seam
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
                kind="facing",
            ),
        ),
    )
    found = treatments(pattern, TABLE)
    assert found["front", "neckline"] == found["facing", "neckline"] == Treatment(1.0)
