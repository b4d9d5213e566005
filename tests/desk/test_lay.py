"""The cloth sheet: cloths chosen and changed, lays watched, pinned, compared, taken along."""

from __future__ import annotations

import json
import re
import threading
import time
from collections.abc import Callable, Iterator
from io import BytesIO
from typing import Any

import pikepdf
import pytest

from cutwright.desk.cloth.cloths import card_words, changed
from cutwright.desk.cloth.searches import Job, Jobs
from cutwright.errors import CutwrightError, StoreError
from cutwright.lay.cloth import Cloth, Match, gallery_cloths
from cutwright.lay.from_pattern import lay_pieces
from cutwright.lay.plan import Lay
from cutwright.lay.verify import faults
from tests.desk.conftest import Desk

FEW = 20_000


def begin(desk: Desk, **more: Any) -> dict[str, Any]:
    wish = {"cloth": "gallery:plain-cotton-140", "places": FEW, **more}
    answer = desk.web.post(f"{desk.api}/lay", json=wish)
    assert answer.status_code == 200, answer.text
    told: dict[str, Any] = answer.json()
    return told


def refused(desk: Desk, **more: Any) -> str:
    wish = {"cloth": "gallery:plain-cotton-140", "places": FEW, **more}
    answer = desk.web.post(f"{desk.api}/lay", json=wish)
    assert answer.status_code == 422, answer.text
    return str(answer.json()["message"]) + str(answer.json()["problems"])


def ended(desk: Desk, told: dict[str, Any], kind: str = "lay") -> list[dict[str, Any]]:
    """Every answer until the search is over, as a page would ask."""
    every = [told]
    while every[-1]["state"] in ("waiting", "running"):
        after = every[-1]["number"]
        answer = desk.web.get(f"{desk.api}/{kind}/{told['job']}?after={after}")
        assert answer.status_code == 200, answer.text
        every.append(answer.json())
    return every


def laid(desk: Desk, **more: Any) -> dict[str, Any]:
    """The last lay with a drawing, and how the search ended."""
    every = ended(desk, begin(desk, **more))
    assert every[-1]["state"] == "done", every[-1]
    last = [told for told in every if told["svg"]][-1]
    return {**last, "said": every[-1]["said"]}


def taken(desk: Desk, job: str, what: str) -> bytes:
    answer = desk.web.post(f"/table/{desk.style}/{desk.body}/lay/{job}/file", data={"what": what})
    assert answer.status_code == 200, answer.text
    return bytes(answer.content)


def test_the_sheet_offers_every_cloth_with_its_card_and_stands_in_the_head(desk: Desk) -> None:
    at = f"/table/{desk.style}/{desk.body}"
    assert f"{at}/cloth" in desk.web.get(at).text
    text = desk.web.get(f"{at}/cloth?cloth=gallery:velvet-140").text
    for name, cloth in gallery_cloths().items():
        assert f'value="gallery:{name}"' in text
        assert card_words(cloth) in text
    assert re.search(r'value="gallery:velvet-140"[^>]* selected', text)
    assert " style=" not in text


def test_a_cloth_of_the_cupboard_is_laid_on_and_its_length_held_against_the_need(
    desk: Desk,
) -> None:
    desk.web.post("/book/cloths", data={"name": "Meadow <b>linen</b>", "width": "150"})
    text = desk.web.get(f"/table/{desk.style}/{desk.body}/cloth").text
    key = re.findall(r'value="(book:[0-9a-f]+)"', text)[0]
    assert "Meadow &lt;b&gt;linen" in text
    assert "In stock" not in laid(desk, cloth=key)["facts"]
    desk.web.post(f"/book/cloth/{key[5:]}/length", data={"length": "100"})
    assert re.search(r"100 cm are there, \d+ cm too little", laid(desk, cloth=key)["facts"])


def test_lays_come_shorter_and_shorter_each_verified(desk: Desk) -> None:
    every = [t for t in ended(desk, begin(desk, places=200_000)) if t["svg"]]
    lengths = [float(re.findall(r"<dd>([\d.]+) cm</dd>", t["facts"])[0]) for t in every]
    assert lengths == sorted(lengths, reverse=True)
    assert all("checked: every copy there" in t["facts"] for t in every)
    lay = Lay.model_validate(json.loads(taken(desk, every[-1]["job"], "json")))
    assert lay.length == pytest.approx(lengths[-1], abs=0.05)
    _table, work, _style, _body = desk.web.app.state.shop.laid(desk.style, desk.body)  # type: ignore[attr-defined]
    assert faults(lay, lay_pieces(work.finished), lay.cloth) == []
    assert every[-1]["svg"].count('class="laid"') == len(lay.placements)


def test_the_files_are_what_they_say(desk: Desk) -> None:
    job = laid(desk)["job"]
    with pikepdf.open(BytesIO(taken(desk, job, "pdf"))) as pdf:
        assert len(pdf.pages) == 2
    with pikepdf.open(BytesIO(taken(desk, job, "marker"))) as pdf:
        assert max(float(side) for side in pdf.pages[0].mediabox[2:]) > 1000
    assert taken(desk, job, "svg").startswith(b"<svg ")
    at = f"/table/{desk.style}/{desk.body}/lay/{job}/file"
    assert desk.web.post(at, data={"what": "exe"}).status_code == 422
    assert desk.web.post(at.replace(job, "00"), data={"what": "pdf"}).status_code == 404


@pytest.mark.parametrize(
    ("wish", "words"),
    [
        ({"width": "60"}, "too wide for this cloth"),
        ({"width": "0"}, "width"),
        ({"width": "1.5"}, "two selvedges of 1 cm leave nothing"),
        ({"width": "a lot"}, "a lot"),
        ({"cloth": "gallery:../../secret"}, "no such cloth"),
        ({"cloth": "gallery:lining-140"}, "nothing to cut"),
        ({"fold": "crosswise", "nap": "one way"}, "the nap of the lower layer runs the other way"),
    ],
)
def test_a_cloth_that_will_not_do_is_told_with_its_reason(
    desk: Desk, wish: dict[str, str], words: str
) -> None:
    answer = desk.web.post(
        f"{desk.api}/lay", json={"cloth": "gallery:plain-cotton-140", "places": 0, **wish}
    )
    told = answer.json()
    if answer.status_code == 200:
        told = ended(desk, told)[-1]
        assert told["state"] == "refused"
    assert words in json.dumps(told, ensure_ascii=False)


def test_a_change_makes_a_fresh_card_and_leaves_the_old_one() -> None:
    cloth = gallery_cloths()["plain-cotton-140"]
    other = changed(cloth, "60 in", "open", "one way")
    assert other.width == pytest.approx(152.4)
    assert [other.fold, other.nap] == ["open", "one way"]
    assert other.price == cloth.price
    assert cloth == gallery_cloths()["plain-cotton-140"]
    assert changed(cloth, "", "", "") == cloth
    with pytest.raises(CutwrightError):
        changed(cloth, "700", "", "")


def test_a_pinned_piece_stays_and_the_rest_is_laid_around_it(desk: Desk) -> None:
    pieces = laid(desk)["pieces"]
    free = next(p for p in pieces if not p["on_fold"] and p["part"] == 0)
    moved = {**free, "x": free["x"] + 25.0}
    after = laid(desk, pins=[moved])
    now = next(
        p for p in after["pieces"] if (p["piece"], p["copies"]) == (free["piece"], free["copies"])
    )
    assert (now["x"], now["y"]) == (pytest.approx(moved["x"]), pytest.approx(moved["y"]))
    assert after["svg"].count('class="laid pinned"') == 1
    assert ", pinned" in after["svg"]


def test_a_piece_of_the_single_stretch_keeps_its_place_in_it(desk: Desk) -> None:
    pieces = laid(desk)["pieces"]
    single = next(p for p in pieces if p["part"] == 1)
    moved = {**single, "x": single["x"] + 7.0}
    for told in ended(desk, begin(desk, pins=[moved], places=60_000)):
        for now in told["pieces"]:
            if (now["piece"], now["copies"]) == (single["piece"], single["copies"]):
                assert now["x"] == pytest.approx(moved["x"])


def test_a_pin_beside_the_cloth_or_off_the_fold_comes_to_the_nearest_place(desk: Desk) -> None:
    pieces = laid(desk)["pieces"]
    fold = next(p for p in pieces if p["on_fold"])
    after = laid(desk, pins=[{**fold, "x": fold["x"] + 10.0, "y": fold["y"] + 30.0}])
    now = next(p for p in after["pieces"] if p["piece"] == fold["piece"])
    assert (now["x"], now["y"]) == (pytest.approx(fold["x"] + 10), pytest.approx(fold["y"]))


def test_a_pin_that_cannot_be_is_told_why(desk: Desk) -> None:
    pieces = [p for p in laid(desk)["pieces"] if p["part"] == 0]
    one = next(p for p in pieces if not p["on_fold"])
    other = next(p for p in pieces if not p["on_fold"] and p["piece"] != one["piece"])
    over = [{**p, "x": 60.0, "y": 40.0} for p in (one, other)]
    assert "pinned over each other" in refused(desk, pins=over)
    assert "unpin it" in refused(desk, pins=[{**one, "piece": "cape"}]).casefold()
    assert "does not allow that turn" in refused(desk, pins=[{**one, "rotation": 45.0}])
    assert "farther away" in refused(desk, pins=[{**one, "x": 1e9}])
    assert one["piece"] in refused(desk, fold="open", pins=[one])
    answer = desk.web.post(
        f"{desk.api}/lay",
        content=json.dumps({"cloth": "gallery:velvet-140", "pins": [{**one, "x": 1}] * 201}),
    )
    assert answer.status_code == 422


def test_stop_is_heard_and_the_lay_stays(desk: Desk) -> None:
    told = begin(desk, places=16_000_000)
    assert told["svg"]
    answer = desk.web.post(f"{desk.api}/lay/{told['job']}/stop")
    assert answer.status_code == 200
    last = ended(desk, told)[-1]
    assert last["state"] == "stopped"
    assert "Stopped. The best lay so far" in last["said"]
    assert taken(desk, told["job"], "json")


def test_a_newer_wish_of_the_same_table_ends_the_older(desk: Desk) -> None:
    old = begin(desk, places=16_000_000)
    shop = desk.web.app.state.shop  # type: ignore[attr-defined]
    job: Job[Any] = shop.jobs.find(desk.style, desk.body, "lay", old["job"])
    new = laid(desk)
    assert new["job"] != old["job"]
    assert desk.web.get(f"{desk.api}/lay/{old['job']}").status_code == 404
    assert job.halted()


def test_widths_and_folds_are_compared_side_by_side(desk: Desk) -> None:
    wish = {"cloth": "gallery:plain-cotton-140", "widths": "60", "places": 1000}
    answer = desk.web.post(f"{desk.api}/compare", json=wish)
    every = ended(desk, answer.json(), "compare")
    assert every[-1]["state"] == "done"
    table = [told["html"] for told in every if told["html"]][-1]
    assert table.count("<tr>") == 3  # the head, 60, the cloth's own 142
    assert table.count("data-width=") == 4
    assert "too wide" in table
    assert "the least" in table
    assert every[-1]["said"] == "8 ways compared."
    many = {**wish, "widths": ", ".join("123456789")}
    assert desk.web.post(f"{desk.api}/compare", json=many).status_code == 422


def test_a_letter_that_cannot_be_carried_out_lays_nothing(desk: Desk) -> None:
    assert desk.do(1, {"do": "take out", "step": 0}).json()["trouble"]
    assert "nothing is laid" in refused(desk)
    assert desk.web.get(f"/table/{desk.style}/{desk.body}/cloth").status_code == 200


@pytest.mark.parametrize("path", ["lay", "compare", "lay/00/stop"])
def test_strangers_are_turned_away(desk: Desk, path: str) -> None:
    at, wish = f"{desk.api}/{path}", {"cloth": "gallery:velvet-140"}
    assert desk.web.post(at, json=wish, headers={"host": "elsewhere.example"}).status_code == 400
    foreign = {"origin": "https://elsewhere.example"}
    assert desk.web.post(at, json=wish, headers=foreign).status_code == 403


def _endless(going: threading.Event) -> Callable[[Callable[[], bool]], Iterator[int]]:
    def source(stop: Callable[[], bool]) -> Iterator[int]:
        yield 1
        going.set()
        while not stop():
            time.sleep(0.005)

    return source


def test_a_search_that_no_page_asks_about_ends(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("cutwright.desk.cloth.searches.UNSEEN", 0.05)
    job = Job(_endless(threading.Event()))
    job.run()
    assert (job.state, job.latest) == ("stopped", 1)


def test_only_so_many_tables_are_kept_and_all_end_at_once() -> None:
    jobs, going = Jobs(), threading.Event()
    made = [jobs.begin(f"{n}", "b", "lay", _endless(going)) for n in range(14)]
    assert going.wait(60)
    assert [job.halted() for job in made] == [True] * 2 + [False] * 12
    jobs.clear()
    assert all(job.halted() for job in made)


def test_a_fault_in_a_search_is_told_in_words() -> None:
    def broken(_stop: Callable[[], bool]) -> Iterator[int]:
        raise ZeroDivisionError
        yield 1

    def own(_stop: Callable[[], bool]) -> Iterator[int]:
        raise StoreError("in words")
        yield 1

    job, other = Job(broken), Job(own)
    job.run()
    other.run()
    assert (job.state, other.state, other.trouble) == ("refused", "refused", "in words")
    assert "Something went wrong" in job.trouble


def test_the_card_is_told_whole() -> None:
    cloth = Cloth(
        name="c", width=150, selvedge=2, nap="one way", repeat_along=8, repeat_across=4,
        matches=(Match(points=("front: side middle",)),), shrinks_along=0.03, shrinks_across=0.01,
        grain_tolerance=2, price=9.5, currency="EUR", step=12.5, plies=3, material="lining",
    )  # fmt: skip
    assert card_words(cloth) == (
        "150 cm wide; selvedges of 2 cm; folded lengthwise; the nap runs one way; for the pieces "
        "of lining; repeat 8 cm along; repeat 4 cm across; matched at side middle of front; shrinks "
        "3 % along; shrinks 1 % across; pieces may lean 2° off the grain; 9.50 EUR a metre; sold "
        "by 12.5 cm; 3 layers cut at once."
    )


def test_the_work_sheet_holds_the_lay_while_it_is_one_of_these_pieces(desk: Desk) -> None:
    at = f"/table/{desk.style}/{desk.body}/sheet"
    heading = "How the pieces lie on the cloth"
    assert heading not in desk.web.get(at).text
    told = laid(desk)
    length = json.loads(taken(desk, told["job"], "json"))["length"]
    shown = desk.web.get(at).text
    assert heading in shown
    assert "Plain cotton" in shown
    pages = desk.web.post(at, data={"what": "html"}).text
    assert heading in pages
    assert f"{length:.1f}" in pages or f"{length / 100:.2f}" in pages
    desk.set(1, 0, "length", "63")
    assert heading not in desk.web.get(at).text
