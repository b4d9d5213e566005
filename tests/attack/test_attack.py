"""A little of every attack each time; `make attack` does the whole."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from tests.attack import tally as tallies
from tests.attack.__main__ import attacked
from tests.attack.papers import Papers, try_one
from tests.attack.tally import Tally

KEPT = Path(__file__).parents[1] / "corpus" / "papers"
LITTLE = {"documents": 60, "requests": 40, "books": 12, "steps": 6}


@pytest.fixture(autouse=True)
def beside(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What fails is put into the folder of the test."""
    monkeypatch.setattr(tallies, "FAILED", tmp_path / "failed")


@pytest.mark.slow
@pytest.mark.parametrize("name", sorted(LITTLE))
def test_chance_does_not_make_it_stumble(name: str) -> None:
    told = attacked(name, LITTLE[name], seed=7)
    assert told.wrong == [], "\n".join(told.lines())
    assert sum(told.ends.values()) >= LITTLE[name] * 0.8


@pytest.mark.slow
@pytest.mark.skipif(not hasattr(os, "fork"), reason="children are forked and killed")
def test_kills_lose_nothing() -> None:
    from tests.attack import killed

    told = killed.attack(6, seed=7)
    assert told.wrong == [], "\n".join(told.lines())


def test_a_stumble_is_seen_and_its_input_kept() -> None:
    def trips(_raw: bytes) -> None:
        raise KeyError("bust dart")

    told = Tally("documents")
    try_one(told, "style", trips, b"{}")
    assert told.wrong == ["style KeyError: 'bust dart'"]
    assert [one.read_bytes() for one in tallies.FAILED.rglob("*") if one.is_file()] == [b"{}"]


@pytest.fixture(scope="module")
def papers(tmp_path_factory: pytest.TempPathFactory) -> Papers:
    return Papers(tmp_path_factory.mktemp("papers"))


@pytest.mark.parametrize(
    "file", sorted(KEPT.rglob("*.*")), ids=lambda file: f"{file.parent.name}-{file.stem}"
)
def test_what_once_made_it_stumble_is_taken_or_refused(papers: Papers, file: Path) -> None:
    told = Tally("corpus")
    try_one(told, file.parent.name, papers.takes[file.parent.name], file.read_bytes())
    assert told.wrong == []
