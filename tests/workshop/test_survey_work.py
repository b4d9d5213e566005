"""The survey does no more than it counts, and counts alike on one process and on several."""

from __future__ import annotations

from pathlib import Path

import pytest

from cutwright.body.resolve import resolve
from cutwright.body.survey import read_survey
from cutwright.finish import grain
from cutwright.workshop.gallery import load_style
from cutwright.workshop.survey import survey, survey_one
from cutwright.workshop.work import work

CARDS = list(read_survey(Path("tests/survey/sample.csv")))[:3]


def test_no_place_for_a_grain_line_or_a_label_is_looked_for(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    asked: list[object] = []

    def room(*given: object) -> object:
        asked.append(given)
        raise AssertionError

    monkeypatch.setattr(grain, "room_in", room)
    grain.paper_room.cache_clear()  # type: ignore[attr-defined]
    outcome = survey_one(load_style("flared-skirt"), CARDS[0])
    assert outcome.drafted
    assert not asked


def test_the_grain_line_is_there_when_it_is_asked_for() -> None:
    done = work(load_style("flared-skirt"), resolve(CARDS[0]), draw=lambda _piece: None)
    for piece in done.finished.pieces:
        assert piece.grain == grain.grain_line(piece.piece)
        assert abs(piece.grain[1] - piece.grain[0]) > 1


def test_several_processes_count_what_one_counts() -> None:
    styles = [load_style("flared-skirt")]
    one, two = (survey(styles, CARDS, workers) for workers in (1, 2))
    assert one == two
    assert one[0].proved == len(CARDS)
