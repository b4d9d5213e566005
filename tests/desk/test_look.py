"""Questions asked of the paper."""

from __future__ import annotations

from typing import Any

import pytest

from tests.desk.conftest import Desk


def get(desk: Desk, question: str, **query: Any) -> Any:
    answer = desk.web.get(f"{desk.api}/{question}", params=query)
    assert answer.status_code == 200, answer.text
    return answer.json()


def step_at(desk: Desk, tag: str) -> int:
    steps = desk.web.get(f"/book/document/{desk.style}/file").json()["steps"]
    return next(n for n, s in enumerate(steps) if s["do"] == tag)


def test_an_edge_tells_its_length_its_partner_and_its_sentences(desk: Desk) -> None:
    told = get(desk, "facts", tag="skirt front: hem")
    assert "cm along the stitch line" in told["html"]
    assert any("hem flounce" in partner for partner in told["partners"])
    assert step_at(desk, "close_dart") in told["sentences"]
    assert f"Sentence {step_at(desk, 'close_dart') + 1} took it from" in told["html"]


def test_a_side_seam_names_what_it_is_sewn_to(desk: Desk) -> None:
    told = get(desk, "facts", tag="skirt front: side")
    assert "skirt back: side" in " ".join(told["partners"])
    assert "Made by sentence 1" in told["html"]


def test_a_fold_a_dart_and_a_piece_tell_what_they_are(desk: Desk) -> None:
    assert "fold" in get(desk, "facts", tag="front: centre front")["html"]
    assert "mouth" in get(desk, "facts", tag="front: bust dart")["html"]
    assert "Cut 1 on the fold" in get(desk, "facts", tag="front")["html"]


@pytest.mark.parametrize("tag", ["nowhere: hem", "front: nothing", "", ":", "x" * 199])
def test_what_is_not_there_is_told(desk: Desk, tag: str) -> None:
    answer = desk.web.get(f"{desk.api}/facts", params={"tag": tag})
    assert answer.status_code == 422
    assert answer.json()["problems"]


def test_a_sentence_lights_the_edges_it_made(desk: Desk) -> None:
    told = get(desk, "lit", step=step_at(desk, "flounce_straight"))
    assert any(tag.startswith("hem flounce: ") for tag in told["tags"])
    assert not any(tag.startswith("front: side") for tag in told["tags"])
    assert get(desk, "lit", step=199) == {"tags": [], "pieces": [], "traces": {}}


def test_show_me_plays_before_cut_turn_after(desk: Desk) -> None:
    told = get(desk, "show", step=step_at(desk, "close_dart"))
    assert [f["kind"] for f in told["frames"]] == ["before", "cut", "turn", "after"]
    assert len({f["svg"].split('viewBox="')[1].split('"')[0] for f in told["frames"]}) == 1
    cut, turn = told["frames"][1]["svg"], told["frames"][2]["svg"]
    assert "i-slash" in cut
    assert "i-pivot" in cut
    assert "i-wedge" in turn


def test_offers_fit_what_is_selected(desk: Desk) -> None:
    dart = get(desk, "offers", tag="front: bust dart")
    assert dart["count"] >= 3
    assert "bust dart" in dart["html"]
    edge = get(desk, "offers", tag="front: armhole")
    assert "flounce" in edge["html"]
    piece = get(desk, "offers", tag="skirt front")
    assert "skirt front" in piece["html"]


def test_every_offer_can_be_written(desk: Desk) -> None:
    from html import unescape
    from json import loads

    html = get(desk, "offers", tag="front: bust dart")["html"]
    rows = [loads(unescape(bit.split('"')[0])) for bit in html.split('data-row="')[1:]]
    assert rows
    count = len(desk.sentences())
    for row in rows:
        revision = desk.look()["revision"]
        shown = desk.do(revision, {"do": "write", "at": count, "step": row}).json()
        assert shown["trouble"] == "", row
        desk.do(shown["revision"], {"do": "undo"})


def test_the_paper_before_a_sentence_can_be_laid_under(desk: Desk) -> None:
    at = step_at(desk, "spread")
    told = get(desk, "compare", what=f"step:{at}")
    assert "skirt front" in told["pieces"]
    assert any(row["where"] == "hem of skirt front" for row in told["changes"])
    assert f"sentence {at + 1}" in told["words"]


def test_another_size_and_another_body_can_be_laid_under(desk: Desk) -> None:
    told = get(desk, "compare", what="size:88,regular")
    assert told["changes"]
    assert get(desk, "compare", what=f"body:{desk.body}")["changes"] == []


@pytest.mark.parametrize("what", ["", "size:1", "size:x", "size:nan", "body:zz", "step:x", "moon"])
def test_what_cannot_be_laid_under_is_told(desk: Desk, what: str) -> None:
    answer = desk.web.get(f"{desk.api}/compare", params={"what": what})
    assert answer.status_code in (404, 422)


def test_the_tape_goes_across_and_along(desk: Desk) -> None:
    from cutwright.book.nouns import DocumentKind

    shop = desk.web.app.state.shop  # type: ignore[attr-defined]
    assert shop.document(desk.style, DocumentKind.STYLE)
    _table, laid, _s, _b = shop.laid(desk.style, desk.body)
    edge = laid.finished.pattern.piece("skirt front").edge("hem")
    body = {
        "piece": "skirt front",
        "start": [edge.start.real, edge.start.imag],
        "end": [edge.end.real, edge.end.imag],
    }
    told = desk.web.post(f"{desk.api}/measure", json=body).json()
    assert told["edge"] == "hem"
    assert told["along"] == pytest.approx(edge.length, abs=0.01)
    assert told["across"] == pytest.approx(abs(edge.end - edge.start), abs=0.01)
    middle = [edge.start.real - 8, edge.start.imag - 25]
    inside = desk.web.post(f"{desk.api}/measure", json={**body, "end": middle}).json()
    assert inside["along"] is None


def test_the_proof_is_told(desk: Desk) -> None:
    told = get(desk, "proof")
    assert "seams walk" in told["html"]
    assert told["faults"] == 0
