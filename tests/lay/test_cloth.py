"""The cloth card: what it allows, what it refuses, and the gallery of cloths."""

from __future__ import annotations

from pathlib import Path

import pytest

from cutwright.documents import validated, write_json
from cutwright.errors import DocumentError, LayError
from cutwright.lay.cloth import Cloth, gallery_cloths, read_cloth


def test_usable_width_is_without_selvedges_and_after_washing() -> None:
    cloth = Cloth(name="linen", width=152, selvedge=1, shrinks_across=0.04)
    assert cloth.usable == pytest.approx(144)
    assert cloth.room == pytest.approx(72)
    assert cloth.model_copy(update={"fold": "open"}).room == pytest.approx(144)


def test_every_cloth_of_the_gallery_reads_and_has_room() -> None:
    cloths = gallery_cloths()
    assert len(cloths) >= 6
    assert all(cloth.usable > 80 for cloth in cloths.values())
    assert {"main", "lining", "interfacing"} <= {cloth.material for cloth in cloths.values()}
    assert {"one way", "two way"} == {cloth.nap for cloth in cloths.values()}


def test_a_card_goes_to_the_disk_and_back(tmp_path: Path) -> None:
    cloth = Cloth(name="check", width=150, repeat_along=8, repeat_across=8, step=5)
    write_json(tmp_path / "check.json", cloth.model_dump())
    assert read_cloth(tmp_path / "check.json") == cloth


@pytest.mark.parametrize(
    ("text", "cm"), [("1/8 yd", 11.43), ("1 yd", 91.44), ("10 cm", 10), (5, 5)]
)
def test_steps_are_read_as_they_are_said(text: object, cm: float) -> None:
    assert Cloth.model_validate({"name": "c", "width": 100, "step": text}).step == pytest.approx(cm)


@pytest.mark.parametrize(
    ("change", "place"),
    [
        ({"width": 0}, "width"),
        ({"width": -3}, "width"),
        ({"nap": "both"}, "nap"),
        ({"step": "1/0 yd"}, "step"),
        ({"step": "a bit"}, "step"),
        ({"shrinks_along": 0.9}, "shrinks_along"),
        ({"colour": "red"}, "colour"),
        ({"selvedge": 20, "width": 40}, ""),
    ],
)
def test_a_bad_card_is_refused_with_the_place(change: dict[str, object], place: str) -> None:
    raw = {"format": 1, "name": "c", "width": 140, **change}
    with pytest.raises(DocumentError) as caught:
        validated(raw, Cloth, "The cloth card")
    assert place in [where for where, _text in caught.value.problems]


def test_a_repeat_wider_than_the_cloth_is_refused() -> None:
    with pytest.raises(LayError, match="wider than the cloth"):
        Cloth(name="c", width=90, repeat_across=120).check_repeat()
