"""Short names for where a pattern can go."""

from __future__ import annotations

from pathlib import Path

import pytest

from cutwright.paper.errors import PaperError
from cutwright.paper.targets import TARGETS, write, writer_for
from tests.paper.pieces import TITLE, garment


@pytest.mark.parametrize("target", [t.replace("NN", "75.5") for t in TARGETS])
def test_every_target_writes_a_file_of_its_kind(target: str, tmp_path: Path) -> None:
    path = write(garment()[-2:], target, tmp_path, "harbour-dress", TITLE)
    assert path.name.startswith("harbour-dress")
    head = {".pdf": b"%PDF", ".svg": b"<?xml", ".dxf": b"0\r\nSECTION"}[path.suffix]
    assert path.read_bytes().startswith(head)
    assert list(tmp_path.iterdir()) == [path]


@pytest.mark.parametrize("target", ["", "A9", "sheet", "sheet:wide", "sheet:nan"])
def test_an_unknown_target_is_told_with_what_there_is(target: str) -> None:
    with pytest.raises(PaperError, match="sheet:NN"):
        writer_for(target)
