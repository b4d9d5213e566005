"""Whatever breaks is a fault at its sentence: the document opens, undo works, and nothing is said twice."""

from __future__ import annotations

from typing import Any

import pytest

from cutwright.checks import proof
from cutwright.checks.case import Case
from cutwright.checks.proof import BROKEN
from cutwright.checks.tally import Outcome
from cutwright.drawing.piece import draw_piece
from cutwright.errors import StepError
from cutwright.finish.notches import notched as plain
from cutwright.pattern.pattern import Pattern
from cutwright.steps.close_dart import CloseDart
from cutwright.style.document import Style, parse_style
from cutwright.unforeseen import UnforeseenError, code_of, foreseen
from cutwright.workshop.gallery import know_all_steps, load_body
from cutwright.workshop.survey import survey_one
from cutwright.workshop.work import work
from tests.desk.conftest import Desk, desk, ready_books, web  # noqa: F401

know_all_steps()
STYLE = parse_style(
    {
        "format": 1,
        "name": "flared",
        "steps": [
            {"do": "draft_skirt"},
            {"do": "close_dart", "piece": "skirt front"},
            {"do": "close_dart", "piece": "skirt back"},
        ],
    }
)
BODY = load_body("the-alto")


def _broken(*_given: Any, **_named: Any) -> Any:
    raise KeyError("nobody thought of this")


def _flared(pattern: Pattern) -> bool:
    """Whether the second sentence was done."""
    return bool(pattern.pieces) and not pattern.piece("skirt front").darts


@pytest.fixture(params=["step", "finish", "drawing"])
def breaking(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> str:
    """Something breaks from the second sentence on: in the step, in finishing, in drawing."""
    where = str(request.param)
    if where == "step":
        monkeypatch.setattr(CloseDart, "apply", _broken)
    elif where == "finish":

        def notched(pattern: Pattern, *rest: Any) -> Pattern:
            return _broken() if _flared(pattern) else plain(pattern, *rest)

        monkeypatch.setattr("cutwright.finish.finished.notched", notched)
    else:

        def draw(piece: Any) -> Any:
            gone = piece.name == "skirt front" and not piece.piece.darts
            return _broken() if gone else draw_piece(piece)

        monkeypatch.setattr(work, "__defaults__", (None, None, draw))
    return where


def test_the_work_stops_before_the_sentence_at_fault(breaking: str) -> None:
    done = work(STYLE, BODY)
    assert done.replay.stopped_at == 1, breaking
    assert isinstance(done.trouble, UnforeseenError)
    assert "Step 2" in str(done.trouble)
    assert done.trouble.code in str(done.trouble)
    assert [p.name for p in done.finished.pieces] == ["skirt front", "skirt back"]
    assert done.finished.piece("skirt front").piece.darts


def test_a_check_that_breaks_is_a_fault_and_the_others_go_on(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def seam_walk(case: Case) -> Outcome:
        return _broken() if _flared(case.pattern) else Outcome()

    whole = work(STYLE, BODY).proof
    checks = tuple(seam_walk if c.__name__ == "seam_walk" else c for c in proof.CHECKS)
    monkeypatch.setattr(proof, "CHECKS", checks)
    done = work(STYLE, BODY)
    (broken,) = (f for f in done.proof.findings if f.code == BROKEN)
    assert (broken.level, broken.where) == ("fault", "seam-walk")
    assert "Step 2" in str(broken.message)
    left = {row.code for row in whole.checked} - {row.code for row in done.proof.checked}
    assert left == {"seam-walk", "seam-missing"}


def test_a_survey_counts_it_as_a_crash(breaking: str) -> None:
    from cutwright.body.size_charts import size

    if breaking == "step":
        assert survey_one(STYLE, size(92, "regular")).crashed


def test_the_code_is_that_of_the_place_and_holds_no_value() -> None:
    def at(value: str) -> UnforeseenError:
        try:
            work(Style("a", ()), value)  # type: ignore[arg-type]
        except Exception as fault:
            told = foreseen(fault)
        assert isinstance(told, UnforeseenError)
        return told

    one, other = at("one"), at("other")
    assert one.code == other.code
    assert len(one.code) == 6
    assert "one" not in str(one).split()
    assert code_of(ValueError()) != code_of(KeyError())
    own = StepError("in words")
    assert foreseen(own) is own


def test_a_sentence_that_breaks_is_saved_shown_and_undone(
    desk: Desk,  # noqa: F811
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Saved and shown agree; every page opens; undo brings the paper back."""
    before = desk.look()
    monkeypatch.setattr("cutwright.steps.let_go.LetGo.apply", _broken)
    step = {"do": "let_go", "piece": "front", "name": "odd one"}
    count = len(desk.sentences())
    answer = desk.do(before["revision"], {"do": "write", "at": count, "step": step})
    assert answer.status_code == 200
    shown = answer.json()
    assert shown["revision"] == desk.look()["revision"] == before["revision"] + 1
    assert "code" in shown["trouble"]
    where = f"/table/{desk.style}/{desk.body}"
    for path in (where, f"{where}/paper", f"{where}/cloth", f"{where}/sheet", f"{where}/lesson"):
        assert desk.web.get(path).status_code == 200, path
    assert "code" in desk.web.get(where).text
    undone = desk.do(shown["revision"], {"do": "undo"}).json()
    assert undone["trouble"] == ""
    for layer in ("outline", "words"):
        marks, were = ([p[layer]["mark"] for p in look["pieces"]] for look in (undone, before))
        assert marks == were, layer


def test_a_sentence_that_cannot_be_told_stands_there_by_its_name(
    desk: Desk,  # noqa: F811
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("cutwright.desk.style.sentences.finer_points", _broken)
    page = desk.web.get(f"/table/{desk.style}/{desk.body}")
    assert page.status_code == 200
    assert "Remove" in page.text
    assert "code" in page.text


def test_a_fault_of_the_desk_says_what_holds(
    desk: Desk,  # noqa: F811
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Nothing is said about what was saved that the page does not know."""
    monkeypatch.setattr("cutwright.desk.style.table.Table.shown", _broken)
    before = desk.web.get(f"{desk.api}/revision").json()["style"]
    answer = desk.set(before, 0, "length", "61")
    assert answer.status_code == 500
    assert "Nothing was changed" not in answer.text
    assert desk.web.get(f"{desk.api}/revision").json()["style"] == before + 1
    monkeypatch.undo()
    assert "61 cm" in desk.sentences()[0]
