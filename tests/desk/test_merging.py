"""Two windows on one document: whatever was answered as saved is what is read back, in any order of things done."""

from __future__ import annotations

import tempfile
from contextlib import ExitStack
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, precondition, rule

from cutwright.book.compare import followed
from tests.desk.conftest import Desk, desk_on

Row = dict[str, Any]


def rows(desk: Desk) -> list[Row]:
    steps: list[Row] = desk.web.get(f"/book/document/{desk.style}/file").json()["steps"]
    return steps


def card(desk: Desk) -> dict[str, Any]:
    found: dict[str, Any] = desk.web.get(f"/book/document/{desk.body}/file").json()
    return found


def test_a_step_is_followed_to_where_it_stands() -> None:
    a, b, c = ({"do": "cut", "at": n} for n in range(3))
    changed = {"do": "cut", "at": 9}
    other = {"do": "sew"}
    assert followed([a, b, c], [a, b, c]) == [0, 1, 2]
    assert followed([a, b, c], [other, a, changed, c]) == [1, 2, 3]
    assert followed([a, b, c], [c, a]) == [1, -1, 0]


def test_different_sentences_stand_together(desk: Desk) -> None:
    assert desk.set(1, 1, "wider", "3.5").status_code == 200
    shown = desk.set(1, 0, "length", "70")
    assert shown.status_code == 200
    assert shown.json()["went"] is None
    assert (rows(desk)[0]["length"], rows(desk)[1]["wider"]) == (70, 3.5)


def test_the_same_sentence_is_asked_about_and_keeping_it_loses_nothing_else(desk: Desk) -> None:
    desk.set(1, 1, "wider", "3.5")
    desk.set(2, 0, "length", "61")
    answer = desk.set(1, 0, "length", "70")
    assert answer.status_code == 409
    told = answer.json()
    assert desk.do(told["current"], {"do": "whole", "content": told["mine"]}).status_code == 200
    assert (rows(desk)[0]["length"], rows(desk)[1]["wider"]) == (70, 3.5)


def test_what_one_typed_oneself_is_no_clash(desk: Desk) -> None:
    """The answer to the first digit was lost on the way; the second comes from the old revision."""
    desk.set(1, 0, "length", "7", group="stay")
    assert desk.set(1, 0, "length", "70", group="stay").status_code == 200
    assert rows(desk)[0]["length"] == 70


def test_sentences_written_elsewhere_move_the_place(desk: Desk) -> None:
    before = rows(desk)
    desk.do(1, {"do": "write", "at": 0, "step": before[-1]})
    shown = desk.set(1, 1, "wider", "3.5").json()
    assert shown["went"] == list(range(1, len(before) + 1))
    assert rows(desk)[2]["wider"] == 3.5
    assert desk.do(1, {"do": "take out", "step": 0}).status_code == 200
    assert [row["do"] for row in rows(desk)] == [
        before[-1]["do"],
        *(row["do"] for row in before[1:]),
    ]
    answer = desk.set(1, 0, "length", "70")
    assert answer.status_code == 409
    assert answer.json()["mine"]["steps"][0]["length"] == 70


def test_a_move_goes_behind_the_sentence_it_was_meant_for(desk: Desk) -> None:
    before = rows(desk)
    desk.do(1, {"do": "write", "at": 0, "step": before[-1]})
    desk.do(1, {"do": "move", "step": 1, "to": 2})
    assert rows(desk) == [before[-1], before[0], before[2], before[1], *before[3:]]


def test_lines_of_a_card_stand_together(desk: Desk) -> None:
    api = f"/api/body/{desk.body}/command"

    def line(base: int, name: str, value: str) -> int:
        answer = desk.web.post(api, json={"base": base, "fields": {name: value}})
        return int(answer.status_code)

    base = desk.web.get(f"/api/body/{desk.body}").json()["revision"]
    assert line(base, "hip_girth", "101") == 200
    assert line(base, "waist_girth", "78.5") == 200
    assert line(base, "hip_girth", "102") == 409
    assert line(base, "hip_girth", "101") == 200
    assert card(desk)["measures"]["hip_girth"] == 101
    assert card(desk)["measures"]["waist_girth"] == 78.5


def test_a_style_without_a_name_is_refused_in_words(desk: Desk) -> None:
    answer = desk.do(1, {"do": "name", "name": ""})
    assert answer.status_code == 422
    assert "needs a name" in answer.text


class TwoWindows(RuleBasedStateMachine):
    """Two windows work on one style and one card; a plain model says what must be read back."""

    def __init__(self) -> None:
        super().__init__()
        self.folder = tempfile.TemporaryDirectory(prefix="cutwright-test-")
        self.going = ExitStack()
        self.web = self.going.enter_context(desk_on(None, Path(self.folder.name)))
        self.fresh = 100

    @initialize()
    def begins(self) -> None:
        wish = {"body": "gallery:the-alto", "style": "block:draft_skirt"}
        where = self.web.post("/new", data=wish).headers["location"]
        _empty, _table, style, body = where.split("/")
        self.desk = Desk(self.web, style, body)
        for number in (1, 2):
            step = {"do": "spread", "piece": "skirt back", "by": float(number)}
            self.desk.do(number, {"do": "write", "at": number, "step": step})
        self.names = [0, 1, 2]
        self.by: dict[int, float] = {1: 1.0, 2: 2.0}
        self.past: list[tuple[list[int], dict[int, float]]] = []
        self.future: list[tuple[list[int], dict[int, float]]] = []
        self.revision = 3
        self.measures = dict(card(self.desk)["measures"])
        self.windows = [self.read(), self.read()]

    def read(self) -> dict[str, Any]:
        body = self.web.get(f"/api/body/{self.desk.body}").json()["revision"]
        return {
            "base": self.desk.look()["revision"],
            "names": list(self.names),
            "by": dict(self.by),
            "body": body,
            "measures": dict(self.measures),
        }

    def saved(self, window: dict[str, Any], answer: Any, went_on: bool = True) -> None:
        """Something was answered as saved: the window shows it, and the book must hold it."""
        assert answer.status_code == 200, answer.text
        if went_on:
            self.future.clear()
        shown = answer.json()
        window.update(base=shown["revision"], names=list(self.names), by=dict(self.by))
        self.reads_back()

    def reads_back(self) -> None:
        found = rows(self.desk)
        assert [row["do"] for row in found] == [
            "spread" if n else "draft_skirt" for n in self.names
        ]
        assert [row["by"] for row in found if row["do"] == "spread"] == [
            self.by[n] for n in self.names if n
        ]

    def note(self) -> None:
        self.past.append((list(self.names), dict(self.by)))

    @rule(which=st.integers(0, 1), data=st.data(), group=st.sampled_from(["", "stay"]))
    def sets(self, which: int, data: st.DataObject, group: str) -> None:
        window = self.windows[which]
        spreads = [n for n in window["names"] if n]
        if not spreads:
            return
        name = data.draw(st.sampled_from(spreads))
        value = self.new_value()
        stays = f"{group}{which}{name}{self.fresh}" if group else ""
        at = window["names"].index(name)
        answer = self.desk.set(window["base"], at, "by", str(value), group=stays)
        if name not in self.names or self.by[name] != window["by"][name]:
            assert answer.status_code == 409
            self.reads_back()
            return
        self.note()
        self.by[name] = value
        self.saved(window, answer)

    @rule(
        which=st.integers(0, 1),
        wrong=st.sampled_from(["", "waist_girth / * 2", "as long as", "1 / "]),
    )
    def is_refused(self, which: int, wrong: str) -> None:
        window = self.windows[which]
        if len(window["names"]) < 2:
            return
        at = next(i for i, n in enumerate(window["names"]) if n)
        assert self.desk.set(window["base"], at, "by", wrong).status_code in (409, 422)
        self.reads_back()

    @rule(which=st.integers(0, 1), at=st.integers(1, 4))
    def writes(self, which: int, at: int) -> None:
        window = self.windows[which]
        at = min(at, len(window["names"]))
        before = window["names"][at - 1]
        if before and (before not in self.names or self.by[before] != window["by"][before]):
            return  # after which sentence it belongs is then a matter of taste
        value = self.new_value()
        step = {"do": "spread", "piece": "skirt back", "by": value}
        answer = self.desk.do(window["base"], {"do": "write", "at": at, "step": step})
        self.note()
        self.names.insert(self.names.index(before) + 1, self.fresh)
        self.by[self.fresh] = value
        self.saved(window, answer)

    @precondition(lambda self: len(self.names) > 2)
    @rule(which=st.integers(0, 1), data=st.data())
    def takes_out(self, which: int, data: st.DataObject) -> None:
        window = self.windows[which]
        spreads = [n for n in window["names"] if n]
        if not spreads:
            return
        name = data.draw(st.sampled_from(spreads))
        at = window["names"].index(name)
        answer = self.desk.do(window["base"], {"do": "take out", "step": at})
        if name in self.names and self.by[name] != window["by"][name]:
            assert answer.status_code == 409
            return
        if name in self.names:
            self.note()
            self.names.remove(name)
            self.saved(window, answer)
        elif answer.status_code != 409:
            self.saved(window, answer, went_on=False)

    @rule(which=st.integers(0, 1), back=st.booleans())
    def goes_along(self, which: int, back: bool) -> None:
        window = self.windows[which]
        answer = self.desk.do(window["base"], {"do": "undo" if back else "redo"})
        if window["base"] != self.desk.look()["revision"] and answer.status_code == 409:
            return
        one, other = (self.past, self.future) if back else (self.future, self.past)
        if not one:  # the beginning of all is before the two sentences were written
            if answer.status_code == 200:
                self.desk.do(answer.json()["revision"], {"do": "redo" if back else "undo"})
            return
        other.append((list(self.names), dict(self.by)))
        self.names, self.by = one.pop()
        self.saved(window, answer, went_on=False)

    @rule(which=st.integers(0, 1), line=st.sampled_from(["waist_girth", "hip_girth"]))
    def measures_anew(self, which: int, line: str) -> None:
        window = self.windows[which]
        self.fresh += 1
        value = self.measures[line] + (0.1 if self.fresh % 2 else -0.1)
        value = round(value, 1)
        wish = {"base": window["body"], "fields": {line: str(value)}}
        answer = self.web.post(f"/api/body/{self.desk.body}/command", json=wish)
        clash = self.measures[line] not in (window["measures"][line], value)
        assert answer.status_code == (409 if clash else 200), answer.text
        if not clash:
            self.measures[line] = value
            window.update(body=answer.json()["revision"], measures=dict(self.measures))
        assert card(self.desk)["measures"] == self.measures

    @rule(which=st.integers(0, 1))
    def looks_again(self, which: int) -> None:
        self.windows[which] = self.read()

    def new_value(self) -> float:
        self.fresh += 1
        return self.fresh / 100

    def teardown(self) -> None:
        """The drawing that was kept up to date is the one that is drawn from the book anew."""
        if hasattr(self, "desk"):
            kept = self.desk.look()
            self.web.app.state.shop.close()  # type: ignore[attr-defined]
            assert self.desk.look() == kept
        self.going.close()
        self.folder.cleanup()


TwoWindows.TestCase.settings = settings(
    max_examples=12,
    stateful_step_count=14,
    deadline=None,
    derandomize=True,
    phases=(Phase.generate,),
    suppress_health_check=list(HealthCheck),
)
test_two_windows = pytest.mark.slow(TwoWindows.TestCase)
