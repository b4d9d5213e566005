"""Every input that ever broke the program: kept, and worked again each time.

A style file holds the body it broke on and the style; a body file is a card. What was refused with a
reason is fine; what nobody foresaw is not.
"""

from __future__ import annotations

import json
from contextlib import suppress
from pathlib import Path

import pytest

from cutwright.body.card import card_from
from cutwright.body.resolve import resolve
from cutwright.checks.proof import BROKEN
from cutwright.errors import CutwrightError
from cutwright.style.document import parse_style
from cutwright.unforeseen import UnforeseenError
from cutwright.workshop.gallery import know_all_steps, load_body
from cutwright.workshop.packet import document_of
from cutwright.workshop.work import work

HERE = Path(__file__).parent
know_all_steps()


@pytest.mark.parametrize("file", sorted((HERE / "styles").glob("*.json")), ids=lambda f: f.stem)
def test_a_style_that_broke_is_worked_or_refused(file: Path) -> None:
    held = json.loads(file.read_text(encoding="utf-8"))
    try:
        style = parse_style(held["style"])
    except CutwrightError:
        return
    done = work(style, load_body(held["body"]))
    assert not isinstance(done.trouble, UnforeseenError), done.trouble
    assert [str(f.message) for f in done.findings if f.code == BROKEN] == []
    assert document_of(done).pieces or done.trouble is not None


@pytest.mark.parametrize("file", sorted((HERE / "bodies").glob("*.json")), ids=lambda f: f.stem)
def test_a_card_that_broke_is_read_or_refused(file: Path) -> None:
    with suppress(CutwrightError):
        resolve(card_from(json.loads(file.read_text(encoding="utf-8"))))
