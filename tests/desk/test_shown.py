"""The pages of one order speak one language, in words a dressmaker reads."""

from __future__ import annotations

import pytest

from cutwright.words import current_language, languages, set_language
from tests.desk.conftest import Desk
from tests.packet.shown import slips
from tests.packet.test_shown import NAMES, seen


@pytest.mark.parametrize("language", languages())
def test_no_page_has_a_slip(desk: Desk, language: str) -> None:
    before = current_language()
    set_language(language)
    try:
        table = f"/table/{desk.style}/{desk.body}"
        for place in (table, f"{table}/body", f"{table}/cloth", f"{table}/paper", "/book/cloths"):
            page = desk.web.get(f"{place}?lang={language}")
            assert page.status_code == 200, place
            found = sorted(set(slips(seen(page.text), language, NAMES)))
            assert found == [], place
    finally:
        set_language(before)
