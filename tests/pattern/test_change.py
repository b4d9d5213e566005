"""What becomes of a seam when the pieces on its sides are cut apart."""

from __future__ import annotations

import pytest

from cutwright.geometry.curve import Line
from cutwright.pattern.change import account, follow
from cutwright.pattern.edge import Edge, EdgeKind, Ref
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.piece import Piece
from cutwright.pattern.seam import SeamKind, seam

WIDE, DEEP = 20.0, 30.0


def panel(name: str, deep: float) -> Piece:
    """A rectangle whose right edge, walked down, is its side."""
    corners = (0j, WIDE + 0j, complex(WIDE, deep), complex(0, deep))
    names = {
        "top": EdgeKind.WAIST,
        "side": EdgeKind.SIDE,
        "hem": EdgeKind.HEM,
        "centre": EdgeKind.FOLD,
    }
    edges = tuple(
        Edge(edge, (Line(corners[i], corners[(i + 1) % 4]),), kind)
        for i, (edge, kind) in enumerate(names.items())
    )
    return Piece(name, edges, (5j, 0.5j * deep))


def cut_across(front: float, back: float, **seam_is: object) -> Pattern:
    """Front and back, sewn side to side, each cut across so far below the top."""
    before = Pattern(
        (panel("front", DEEP), panel("back", DEEP)),
        (seam(Ref("front", "side"), Ref("back", "side"), same_way=True, **seam_is),),  # type: ignore[arg-type]
    )
    cut = {"front": front, "back": back}
    after = Pattern(
        tuple(
            panel(f"{part} {name}", deep)
            for name, at in cut.items()
            for part, deep in (("upper", at), ("lower", DEEP - at))
        ),
        before.seams,
    )
    became = {
        Ref(name, edge): tuple(Ref(f"{part} {name}", edge) for part in parts)
        for name in cut
        for edge, parts in {
            "side": ("upper", "lower"),
            "centre": ("upper", "lower"),
            "top": ("upper",),
            "hem": ("lower",),
        }.items()
    }
    return follow(before, after, account(before, after, became))


def rows(pattern: Pattern) -> set[tuple[tuple[str, ...], ...]]:
    return {
        tuple(tuple(side.ref.piece for side in row) for row in one.rows) for one in pattern.seams
    }


APART = {(("upper front",), ("upper back",)), (("lower front",), ("lower back",))}
TOGETHER = {(("upper front", "lower front"), ("upper back", "lower back"))}


@pytest.mark.parametrize("back", [12.0, 12.04, 11.96])
def test_cut_at_one_height_the_seam_falls_into_two(back: float) -> None:
    assert rows(cut_across(12.0, back)) == APART


@pytest.mark.parametrize("back", [12.1, 11.9, 13.0, 15.0, 17.0, 7.0, 3.0])
def test_cut_at_two_heights_it_stays_one_seam(back: float) -> None:
    """Upper front on upper back would not walk: they are not equally long."""
    pattern = cut_across(12.0, back)
    assert rows(pattern) == TOGETHER
    (whole,) = pattern.seams
    assert pattern.seam_lengths(whole) == pytest.approx((DEEP, DEEP))


def test_an_eased_or_gathered_seam_stays_one() -> None:
    """How the ease lies along it is for the sewer to say."""
    assert rows(cut_across(12.0, 12.0, ease=0.5, kind=SeamKind.EASED)) == TOGETHER
    assert rows(cut_across(12.0, 12.0, ratio=1.5, kind=SeamKind.GATHERED)) == TOGETHER
