"""The verifier sees every way a lay can be wrong: a good lay is spoilt in each of them."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from cutwright.lay.cloth import Cloth, Match
from cutwright.lay.layout import best_lay
from cutwright.lay.piece import LayPiece
from cutwright.lay.plan import Lay, Placement
from cutwright.lay.search import Budget
from cutwright.lay.verify import faults
from tests.lay.shapes import box, wedge

CLOTH = Cloth(name="velvet", width=60, nap="one way", repeat_along=4)
PIECES = [
    LayPiece("front", (0j, 20 + 0j, 18 + 12j, 12j), 1 + 0j, fold=(0j, 20 + 0j)),
    wedge("sleeve", 16, 14, copies=2, mirrored=True, marks={"hem": 0j}),
    box("belt", 30, 5, copies=2),
]
MATCHES = [Match(points=("sleeve: hem",))]


@pytest.fixture(scope="module")
def good() -> Lay:
    lay = best_lay(PIECES, CLOTH, Budget(5000), matches=MATCHES)
    assert faults(lay, PIECES, CLOTH, MATCHES) == []
    return lay


def changed(lay: Lay, name: str, **change: object) -> Lay:
    placements = tuple(
        p.model_copy(update=change) if p.piece == name else p for p in lay.placements
    )
    return lay.model_copy(update={"placements": placements})


def one(lay: Lay, name: str) -> Placement:
    return next(p for p in lay.placements if p.piece == name)


SPOILS: dict[str, Callable[[Lay], Lay]] = {
    "laid 0 times": lambda lay: lay.model_copy(
        update={"placements": tuple(p for p in lay.placements if p.piece != "belt")}
    ),
    "laid 2 times": lambda lay: lay.model_copy(
        update={"placements": (*lay.placements, one(lay, "belt"))}
    ),
    "not asked for": lambda lay: changed(lay, "belt", copies=(1, 2, 3)),
    "come out mirrored": lambda lay: changed(lay, "sleeve", copies=(1,), spare=True),
    "over the edge of the cloth": lambda lay: changed(lay, "belt", y=one(lay, "belt").y - 60),
    "overlap": lambda lay: changed(lay, "belt", x=one(lay, "front").x, y=1.0, rotation=0.0),
    "off the fold": lambda lay: changed(lay, "front", y=one(lay, "front").y + 0.01),
    "off the grain": lambda lay: changed(lay, "belt", rotation=1.0),
    "against the nap": lambda lay: changed(lay, "sleeve", rotation=180.0),
    "off its place in the repeat": lambda lay: changed(lay, "sleeve", x=one(lay, "sleeve").x + 0.5),
    "in 2 layers but gives 1": lambda lay: changed(lay, "belt", copies=(1,)),
    "is not one of the pieces": lambda lay: changed(lay, "belt", piece="collar"),
    "its stretches take": lambda lay: lay.model_copy(update={"length": lay.length - 1}),
    "on no stretch": lambda lay: changed(lay, "belt", part=3),
}


@pytest.mark.parametrize("words", SPOILS)
def test_a_spoilt_lay_is_found_out(good: Lay, words: str) -> None:
    found = faults(SPOILS[words](good), PIECES, CLOTH, MATCHES)
    assert any(words in str(text) for text in found), found


def test_a_longer_cloth_in_the_document_does_not_hide_a_piece_that_hangs_over(good: Lay) -> None:
    part = good.parts[0].model_copy(update={"length": good.parts[0].length - 1})
    short = good.model_copy(update={"parts": (part,), "length": good.length - 1})
    assert any("over the edge" in str(text) for text in faults(short, PIECES, CLOTH, MATCHES))
