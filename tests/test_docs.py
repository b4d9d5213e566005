"""The reference pages say what the code declares, and no link leads nowhere."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tools.make_docs import pages

ROOT = Path(__file__).parents[1]
LINK = re.compile(r"\]\(([^)#]+)[^)]*\)")
TEXTS = [*ROOT.glob("*.md"), *(ROOT / "docs").rglob("*.md")]


@pytest.mark.parametrize("path", list(pages()), ids=lambda path: path.name)
def test_a_page_is_as_its_declarations(path: Path) -> None:
    assert path.read_text(encoding="utf-8") == pages()[path], "run `make docs`"


@pytest.mark.parametrize("path", TEXTS, ids=lambda path: path.relative_to(ROOT).as_posix())
def test_links_lead_somewhere(path: Path) -> None:
    for link in LINK.findall(path.read_text(encoding="utf-8")):
        if "://" not in link:
            assert (path.parent / link).exists(), link
