"""Every document that ships can be called by its name in every language."""

from __future__ import annotations

import json

import pytest

from cutwright.wording.names import _KNOWN, called
from cutwright.workshop.gallery import KINDS, shipped


@pytest.mark.parametrize("kind", KINDS)
def test_what_ships_is_declared_for_translators(kind: str) -> None:
    for path in shipped(kind).values():
        document = json.loads(path.read_text())
        for field in ("name", "about", "notes"):
            if text := document.get(field):
                assert text in _KNOWN, f"{path.name}: {text}"


def test_a_name_that_somebody_wrote_stays() -> None:
    assert called("Close") == "Close"
    assert called("") == ""
