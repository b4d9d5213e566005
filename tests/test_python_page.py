"""The public names are there, typed, slow only when used; the examples of docs/python.md hold."""

from __future__ import annotations

import doctest
import re
import subprocess
import sys
from pathlib import Path

import pytest

import cutwright
from cutwright.words import set_language

PAGE = Path(__file__).parents[1] / "docs" / "python.md"
_FENCED = re.compile(r"^```pycon\n(.*?)^```$", re.DOTALL | re.MULTILINE)


@pytest.mark.slow
def test_the_examples_hold(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    blocks = _FENCED.findall(PAGE.read_text(encoding="utf-8"))
    assert len(blocks) > 5
    examples = doctest.DocTestParser().get_doctest("".join(blocks), {}, PAGE.name, None, 0)
    told: list[str] = []
    runner = doctest.DocTestRunner(optionflags=doctest.REPORT_NDIFF)
    try:
        found = runner.run(examples, out=told.append)
    finally:
        set_language("en")
    assert not found.failed, "".join(told)


def test_every_public_name_is_there_and_on_the_page() -> None:
    text = PAGE.read_text(encoding="utf-8")
    for name in cutwright.__all__:
        assert getattr(cutwright, name) is not None
        assert f"`{name}`" in text.partition("## All names")[2], name
    with pytest.raises(AttributeError, match="nonsense"):
        _ = cutwright.nonsense  # type: ignore[attr-defined]


def test_every_public_name_is_typed() -> None:
    """What mypy sees and what is imported are the same names."""
    source = Path(cutwright.__file__).read_text(encoding="utf-8")
    assert sorted(re.findall(r"import (\w+) as \1$", source, re.MULTILINE)) == cutwright.__all__


def test_nothing_is_imported_before_it_is_asked_for() -> None:
    code = (
        "import cutwright, sys; print(sum(name.startswith('cutwright.') for name in sys.modules))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "0"
    code = "from cutwright import parse_style; print(len(parse_style({'format': 1, 'name': 'x', 'steps': [{'do': 'draft_skirt'}]}).steps))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "1"
