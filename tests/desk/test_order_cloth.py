"""An order keeps its cloth: looked at again, it is the same cloth, width, fold, nap, pins and lay."""

from __future__ import annotations

import re
from typing import Any

from cutwright.book import orders
from tests.desk.conftest import Desk

WISH = {"cloth": "gallery:velvet-140", "width": "60 in", "fold": "open", "nap": "one way"}


def laid(desk: Desk, **wish: Any) -> dict[str, Any]:
    """A lay, looked at until the search is over."""
    answer = desk.web.post(f"{desk.api}/lay", json={**WISH, "places": 2000, **wish})
    assert answer.status_code == 200, answer.text
    told: dict[str, Any] = answer.json()
    while told["state"] in ("waiting", "running"):
        told = {**told, **desk.web.get(f"{desk.api}/lay/{told['job']}").json()}
    return told


def chosen(page: str, name: str) -> str:
    """What a list of the cloth sheet shows."""
    inside = page.split(f'id="{name}"')[1].split("</select>")[0]
    found = re.search(r'value="([^"]*)"[^>]* selected', inside)
    assert found
    return found[1]


def restarted(desk: Desk) -> None:
    desk.web.app.state.shop.close()  # type: ignore[attr-defined]


def test_the_order_keeps_its_cloth_as_it_was_chosen(desk: Desk) -> None:
    told = laid(desk)
    restarted(desk)
    page = desk.web.get(f"/table/{desk.style}/{desk.body}/cloth").text
    assert chosen(page, "cloth") == "gallery:velvet-140"
    assert chosen(page, "fold") == "open"
    assert chosen(page, "nap") == "one way"
    assert 'value="60 in"' in page
    again = laid(desk)
    assert again["pieces"] == told["pieces"]
    assert again["number"] == 1
    shop = desk.web.app.state.shop  # type: ignore[attr-defined]
    assert len(orders.used_by(shop.book, desk.style)) == 1


def test_the_work_sheet_says_the_same_to_buy_after_a_restart(desk: Desk) -> None:
    laid(desk)

    def to_buy() -> list[str]:
        sheet = desk.web.get(f"/table/{desk.style}/{desk.body}/sheet").text
        return re.findall(r"\d\.\d\d m\b[^<]*", sheet)

    before = to_buy()
    assert before
    restarted(desk)
    assert to_buy() == before


def test_other_pieces_are_laid_anew(desk: Desk) -> None:
    told = laid(desk)
    desk.set(1, 0, "length", "61")
    assert laid(desk)["pieces"] != told["pieces"]


def test_pins_are_kept(desk: Desk) -> None:
    told = laid(desk)
    pin = told["pieces"][0]
    laid(desk, pins=[pin])
    restarted(desk)
    page = desk.web.get(f"/table/{desk.style}/{desk.body}/cloth").text
    assert pin["piece"] in page.split('data-pins="')[1].split('"')[0]


def test_a_width_that_cannot_be_is_refused_and_the_old_one_kept(desk: Desk) -> None:
    laid(desk)
    answer = desk.web.post(f"{desk.api}/lay", json={**WISH, "width": "wide"})
    assert answer.status_code == 422
    assert 'value="60 in"' in desk.web.get(f"/table/{desk.style}/{desk.body}/cloth").text


def test_a_copy_of_a_style_keeps_its_cloth_too(desk: Desk) -> None:
    where = desk.web.post(f"/table/{desk.style}/{desk.body}/duplicate").headers["location"]
    copy = Desk(desk.web, where.split("/")[2], desk.body)
    laid(copy)
    restarted(desk)
    page = desk.web.get(f"/table/{copy.style}/{copy.body}/cloth").text
    assert chosen(page, "cloth") == "gallery:velvet-140"
