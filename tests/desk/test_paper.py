"""From the table to files."""

from __future__ import annotations

import json
import zipfile
from io import BytesIO

import pytest

from tests.desk.conftest import Desk


def take(desk: Desk, **form: str) -> bytes:
    answer = desk.web.post(f"/table/{desk.style}/{desk.body}/packet", data=form)
    assert answer.status_code == 200, answer.text
    assert "attachment" in answer.headers["content-disposition"]
    assert "alto" not in answer.headers["content-disposition"]
    return bytes(answer.content)


def test_the_packet_holds_every_file(desk: Desk) -> None:
    with zipfile.ZipFile(BytesIO(take(desk, paper="a4"))) as archive:
        names = archive.namelist()
        assert {"pattern-a4.pdf", "pattern.svg", "pattern.dxf", "style.json"} <= set(names)
        assert archive.read("pattern-a4.pdf").startswith(b"%PDF")
        assert json.loads(archive.read("style.json"))["name"] == "Orchard dress"
        assert "body.json" not in names


def test_no_name_is_written_unless_asked(desk: Desk) -> None:
    with zipfile.ZipFile(BytesIO(take(desk, paper="a4", who=""))) as archive:
        assert all(b"the alto" not in archive.read(n) for n in ("pattern.svg", "pattern.json"))
    with zipfile.ZipFile(BytesIO(take(desk, paper="a4", who="Mrs W", measures="yes"))) as archive:
        assert b"Mrs W" in archive.read("pattern.svg")
        assert json.loads(archive.read("body.json"))["measures"]["waist_girth"] == 98.5


@pytest.mark.parametrize(("what", "start"), [("svg", b"<?xml"), ("dxf", b"  0"), ("a3", b"%PDF")])
def test_one_file_alone(desk: Desk, what: str, start: bytes) -> None:
    content = take(desk, what=what)
    assert content.lstrip()[:5].startswith(start.strip()) or content.startswith(b"<svg")


@pytest.mark.parametrize("paper", ["a4", "letter", "a3", "a0", "sheet:90", "projector:dark"])
def test_the_sheets_are_shown_with_their_edges(desk: Desk, paper: str) -> None:
    told = desk.web.post(f"{desk.api}/preview", json={"paper": paper}).json()
    assert 'class="page' in told["svg"]
    assert told["words"]


def test_the_preview_counts_the_sheets_that_are_printed(desk: Desk) -> None:
    from cutwright.paper.tiles import paper_called, tile_leaves

    told = desk.web.post(f"{desk.api}/preview", json={"paper": "a4"}).json()
    _t, laid, _s, _b = desk.web.app.state.shop.laid(desk.style, desk.body)  # type: ignore[attr-defined]
    from cutwright.desk.paper.packing import papers
    from cutwright.paper.pieces import Title

    leaves = tile_leaves(papers(laid), paper_called("a4"), Title())
    assert told["words"].startswith(f"{len(leaves) - 1} sheets")


@pytest.mark.parametrize("paper", ["sheet:1", "sheet:x", "sheet:nan", "sheet:1e9"])
def test_a_paper_there_is_not_is_told(desk: Desk, paper: str) -> None:
    assert desk.web.post(f"{desk.api}/preview", json={"paper": paper}).status_code == 422
    form = {"paper": "papyrus", "what": "packet"}
    assert desk.web.post(f"/table/{desk.style}/{desk.body}/packet", data=form).status_code == 422


def test_a_letter_that_cannot_be_carried_out_is_not_printed(desk: Desk) -> None:
    desk.set(1, 0, "length", "3")
    answer = desk.web.post(f"/table/{desk.style}/{desk.body}/packet", data={"paper": "a4"})
    assert answer.status_code == 422
    assert "One step cannot be done" in answer.text
