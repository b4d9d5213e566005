"""Measures typed, estimated and doubted."""

from __future__ import annotations

from typing import Any

import pytest
from httpx import Response

from cutwright.body import families
from tests.body.made_up import DOLLS
from tests.desk.conftest import Desk, TestClient


def typed(web: TestClient, body: str, base: int, unit: str = "cm", **fields: str) -> Response:
    wish: dict[str, Any] = {"base": base, "fields": fields, "unit": unit}
    answer: Response = web.post(f"/api/body/{body}/command", json=wish)
    return answer


def test_a_measure_is_saved_and_the_paper_follows(desk: Desk) -> None:
    before = desk.look()["pieces"]
    shown = typed(desk.web, desk.body, 1, waist_girth="101").json()
    assert shown["measures"]["waist_girth"]["value"] == "101"
    assert desk.look()["pieces"] != before


def test_an_empty_line_is_estimated(desk: Desk) -> None:
    shown = typed(desk.web, desk.body, 1, bust_depth="").json()["measures"]["bust_depth"]
    assert shown["value"] == ""
    assert "about" in shown["estimate"]
    assert "±" in shown["estimate"]


def test_inches_in_and_out(desk: Desk) -> None:
    shown = typed(desk.web, desk.body, 1, "in", waist_girth="39 1/2").json()
    assert shown["measures"]["waist_girth"]["value"] == "39 1/2 in"
    content = desk.web.get(f"/book/document/{desk.body}/file").json()
    assert content["measures"]["waist_girth"] == pytest.approx(100.33)
    assert "inch" in desk.web.get(f"/body/{desk.body}?unit=in").text


def test_the_unit_asked_for_is_remembered(desk: Desk) -> None:
    assert 'data-unit="cm"' in desk.web.get(f"/body/{desk.body}").text
    desk.web.get(f"/body/{desk.body}?unit=in")
    assert 'data-unit="in"' in desk.web.get(f"/body/{desk.body}").text
    table = f"/table/{desk.style}/{desk.body}/body"
    assert 'data-unit="in"' in desk.web.get(table).text
    desk.web.get(f"{table}?unit=cm")
    assert 'data-unit="cm"' in desk.web.get(table).text


def test_a_slip_is_asked_about_with_what_may_be_meant(desk: Desk) -> None:
    shown = typed(desk.web, desk.body, 1, back_waist_length="16.1").json()
    told = shown.get("problems", [{"text": ""}])[0]["text"] or str(shown)
    assert "inches" in told
    doubted = typed(desk.web, desk.body, 1, arm_length="45.4").json()["measures"]["arm_length"]
    assert doubted["doubt"] == "" or doubted["suggestion"] or "unusual" in doubted["doubt"]


@pytest.mark.parametrize("value", ["one metre", "-4", "1e9", "999", "<b>", "nan", "\u0000"])
def test_what_no_tape_says_is_refused_at_its_line(desk: Desk, value: str) -> None:
    answer = typed(desk.web, desk.body, 1, waist_girth=value)
    assert answer.status_code == 422
    assert "waist" in answer.text.lower() or "length" in answer.text.lower()
    assert desk.web.get(f"/api/body/{desk.body}").json()["revision"] == 1


def test_undo_a_measure(desk: Desk) -> None:
    typed(desk.web, desk.body, 1, waist_girth="101")
    wish = {"base": 2, "go": "undo"}
    shown = desk.web.post(f"/api/body/{desk.body}/command", json=wish).json()
    assert shown["measures"]["waist_girth"]["value"] == "98.5"


def test_two_hands_on_one_card(desk: Desk) -> None:
    assert typed(desk.web, desk.body, 1, waist_girth="101").status_code == 200
    answer = typed(desk.web, desk.body, 1, waist_girth="102")
    assert answer.status_code == 409
    assert answer.json()["mine"]["measures"]["waist_girth"] == 102
    assert answer.json()["theirs"]["measures"]["waist_girth"] == 101


def test_every_measure_has_a_way_of_the_tape(desk: Desk) -> None:
    from cutwright.body.measures import MEASURES

    text = desk.web.get(f"/table/{desk.style}/{desk.body}/body").text
    for name in MEASURES:
        assert f'class="way" data-measure="{name}"' in text
        assert f'id="m-{name}"' in text


def test_another_kind_of_figure_is_offered_and_keeps_its_own_tapes(
    desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert "Kind of figure" not in desk.web.get("/new").text
    monkeypatch.setitem(families._KNOWN, DOLLS.id, DOLLS)
    page = desk.web.get("/new").text
    assert '<option value="dolls">' in page
    assert '<option value="22,regular,dolls">' in page
    typed_in = {
        "body": "typed",
        "style": "block:draft_circle_skirt",
        "family": "dolls",
        "stature": "42",
        "bust_girth": "22",
    }
    where = desk.web.post("/new", data=typed_in).headers["location"]
    text = desk.web.get(f"/body/{where.split('/')[-1]}").text
    assert "Kind of figure: dolls" in text
    assert 'id="m-bust_girth"' in text
    assert 'id="m-hip_girth"' not in text
    assert text.count('class="way"') == 3
    style = desk.web.get(f"/table/{desk.style}/{where.split('/')[-1]}").text
    assert 'value="size:24,regular,dolls"' not in style  # every second size: 22
    assert 'value="size:22,regular,dolls"' in style


def test_a_new_set_of_measures_keeps_the_old(desk: Desk) -> None:
    where = desk.web.post(f"/body/{desk.body}/again").headers["location"]
    assert desk.body not in where
    assert desk.web.get(where).status_code == 200
    assert desk.web.get(f"/body/{desk.body}").status_code == 200


def test_a_card_refused_in_a_conflict_can_stand_or_be_kept_apart(desk: Desk) -> None:
    mine = desk.web.get(f"/book/document/{desk.body}/file").json()
    mine = {**mine, "name": "Wren", "measures": {**mine["measures"], "bust_girth": 118}}
    wish = {"base": 1, "unit": "in", "whole": mine}  # in cm, whatever unit the page shows
    told = desk.web.post(f"/api/body/{desk.body}/command", json=wish).json()
    assert told["name"] == "Wren"
    content = desk.web.get(f"/book/document/{desk.body}/file").json()
    assert content["measures"]["bust_girth"] == 118
    made = desk.web.post(f"/api/body/{desk.body}/keep-apart", json=mine).json()["href"]
    assert made != f"/body/{desk.body}"
    assert "Wren" in desk.web.get(made).text
