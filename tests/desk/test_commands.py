"""One thing done to a style at a time."""

from __future__ import annotations

import pytest

from tests.desk.conftest import Desk


def test_a_number_typed_is_saved_and_drawn(desk: Desk) -> None:
    first = desk.look()
    answer = desk.set(first["revision"], 0, "length", "61")
    assert answer.status_code == 200
    shown = answer.json()
    assert shown["revision"] == first["revision"] + 1
    assert "61 cm from the waist" in desk.sentences()[0]
    before = {p["name"]: p["outline"]["svg"] for p in first["pieces"]}
    after = {p["name"]: p["outline"]["svg"] for p in shown["pieces"]}
    assert before["skirt front"] != after["skirt front"]
    assert before["front"] == after["front"]


def test_only_what_changed_is_sent(desk: Desk) -> None:
    first = desk.look()
    layers = [p[layer] for p in first["pieces"] for layer in ("outline", "words")]
    have = [x["mark"] for x in (*layers, *first["letter"])]
    shown = desk.set(first["revision"], 0, "length", "61", have=have).json()
    for layer in ("outline", "words"):
        sent = {p["name"] for p in shown["pieces"] if p[layer]["svg"] is not None}
        assert "skirt front" in sent
        assert "front" not in sent
    assert shown["letter"][0]["html"] is not None


@pytest.mark.parametrize(
    ("typed", "kept"), [("61", 61.0), ("61,5", 61.5), ("24 in", 60.96), ("waist_to_knee + 2", "waist_to_knee + 2")]
)  # fmt: skip
def test_lengths_are_read_as_people_write_them(desk: Desk, typed: str, kept: object) -> None:
    assert desk.set(1, 0, "length", typed).status_code == 200
    content = desk.web.get(f"/book/document/{desk.style}/file").json()
    assert content["steps"][0]["length"] == kept


@pytest.mark.parametrize("typed", ["", "abc def", "__import__('os')", "1e999", "9**9**9", "nan"])
def test_what_cannot_stand_there_is_refused_with_words_or_told_as_trouble(
    desk: Desk, typed: str
) -> None:
    answer = desk.set(1, 0, "length", typed)
    assert "Traceback" not in answer.text
    if answer.status_code == 200:  # written well, but it cannot be worked out
        assert answer.json()["trouble"]
    else:
        assert answer.status_code == 422
        assert answer.json()["problems"][0]["text"]
        assert desk.look()["revision"] == 1


def test_a_length_out_of_bounds_is_kept_and_told(desk: Desk) -> None:
    shown = desk.set(1, 0, "length", "3").json()
    assert "from 15 to 180" in shown["trouble"]
    assert desk.look()["revision"] == 2
    assert desk.set(2, 0, "length", "52").json()["trouble"] == ""


def test_write_move_and_take_out(desk: Desk) -> None:
    count = len(desk.sentences())
    step = {"do": "spread", "piece": "skirt back", "by": 2.0}
    assert desk.do(1, {"do": "write", "at": count, "step": step}).status_code == 200
    assert len(desk.sentences()) == count + 1
    last = desk.sentences()[-1]
    assert "skirt back" in last
    assert desk.do(2, {"do": "move", "step": count, "to": count - 1}).status_code == 200
    assert desk.sentences()[-2] == last
    assert desk.do(3, {"do": "take out", "step": count - 1}).status_code == 200
    assert len(desk.sentences()) == count


def test_undo_and_redo_to_the_very_beginning(desk: Desk) -> None:
    first = desk.sentences()
    revision = 1
    for length in range(50, 62):
        revision = desk.set(revision, 0, "length", str(length)).json()["revision"]
    last = desk.sentences()
    shown = desk.look()
    while shown["can_undo"]:
        shown = desk.do(shown["revision"], {"do": "undo"}).json()
    assert desk.sentences() == first
    assert desk.do(shown["revision"], {"do": "undo"}).status_code == 422
    while shown["can_redo"]:
        shown = desk.do(shown["revision"], {"do": "redo"}).json()
    assert desk.sentences() == last


def test_one_stay_in_a_field_is_one_undo_step(desk: Desk) -> None:
    first = desk.sentences()
    revision = 1
    for length in ("5", "55", "55.5"):
        shown = desk.set(revision, 0, "length", length, group="stay")
        revision = shown.json()["revision"]
    desk.do(revision, {"do": "undo"})
    assert desk.sentences() == first


def test_two_hands_see_both_and_nothing_is_lost(desk: Desk) -> None:
    assert desk.set(1, 0, "length", "61").status_code == 200
    answer = desk.set(1, 0, "length", "70")
    assert answer.status_code == 409
    told = answer.json()
    assert any("61 cm" in line for line in told["theirs_lines"])
    assert any("70 cm" in line for line in told["mine_lines"])
    whole = {"do": "whole", "content": told["mine"]}
    assert desk.do(told["current"], whole).status_code == 200
    assert "70 cm" in desk.sentences()[0]


def test_what_was_refused_can_be_kept_as_a_style_of_its_own(desk: Desk) -> None:
    desk.set(1, 0, "length", "61")
    told = desk.set(1, 0, "length", "70").json()
    href = desk.web.post(f"{desk.api}/keep-apart", json=told["mine"]).json()["href"]
    assert desk.web.get(href).status_code == 200
    assert "61 cm" in desk.sentences()[0]


def test_a_sentence_that_is_not_there_is_told(desk: Desk) -> None:
    assert desk.set(1, 77, "length", "61").status_code == 422
    assert desk.set(1, 0, "colour", "red").status_code == 422
    assert desk.set(1, 0, "do", "spread").status_code == 422


def test_a_copy_is_another_style(desk: Desk) -> None:
    where = desk.web.post(f"/table/{desk.style}/{desk.body}/duplicate").headers["location"]
    assert desk.style not in where
    assert desk.web.get(where).status_code == 200


def test_a_restarted_desk_goes_on_where_it_stood(desk: Desk) -> None:
    desk.set(1, 0, "length", "61")
    desk.web.app.state.shop.close()  # type: ignore[attr-defined]
    assert desk.look()["revision"] == 2
    assert desk.set(2, 0, "length", "62").status_code == 200


def test_pieces_chosen_anew_get_a_name_each(desk: Desk) -> None:
    steps = desk.web.get(f"/book/document/{desk.style}/file").json()["steps"]
    at = next(n for n, s in enumerate(steps) if s["do"] == "cut_apart")
    assert desk.set(1, at, "pieces", ["front"]).status_code == 200
    assert desk.set(2, at, "pieces", ["front", "back"]).status_code == 200
    row = desk.web.get(f"/book/document/{desk.style}/file").json()["steps"][at]
    assert len(row["lower"]) == 2
