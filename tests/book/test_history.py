"""Undo and redo."""

from __future__ import annotations

import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import (
    RuleBasedStateMachine,
    invariant,
    precondition,
    rule,
    run_state_machine_as_test,
)

from cutwright.book import documents, history
from cutwright.book.book import Book
from cutwright.book.errors import ConflictError, NoFurtherError
from cutwright.book.nouns import DocumentKind
from tests.book.samples import style


def ease(book: Book, ident: str) -> float:
    value = documents.get(book, ident).content["steps"][0]["ease"]
    assert isinstance(value, int | float)
    return value


def saved(book: Book, eases: list[float], groups: list[str | None] | None = None) -> str:
    made = documents.add(book, DocumentKind.STYLE, style(0))
    for value, group in zip(eases, groups or [None] * len(eases), strict=True):
        made = documents.save(book, made.id, style(value), base=made.revision, group=group)
    return made.id


def test_undo_and_redo_walk_through_every_save(book: Book) -> None:
    ident = saved(book, [1, 2, 3])
    seen = []
    for turn in (history.undo, history.undo, history.undo, history.redo, history.redo):
        found = turn(book, ident, base=documents.get(book, ident).revision)
        seen.append((ease(book, ident), found.can_undo, found.can_redo))
    assert seen == [(2, True, True), (1, True, True), (0, False, True), (1, True, True),
                    (2, True, True)]  # fmt: skip


def test_there_is_an_end_in_both_directions(book: Book) -> None:
    ident = saved(book, [])
    with pytest.raises(NoFurtherError, match="undo"):
        history.undo(book, ident, base=1)
    with pytest.raises(NoFurtherError, match="redo"):
        history.redo(book, ident, base=1)


def test_a_save_after_undo_leaves_the_redo_branch_but_keeps_its_revisions(book: Book) -> None:
    ident = saved(book, [1, 2])
    history.undo(book, ident, base=3)
    made = documents.save(book, ident, style(9), base=2)
    assert (made.revision, made.can_redo) == (4, False)
    assert [step.revision for step in history.timeline(book, ident)] == [1, 2, 4]
    assert [one.number for one in documents.revisions(book, ident)] == [1, 2, 3, 4]
    assert documents.revisions(book, ident)[-1].parent == 2
    assert documents.at(book, ident, 3) == style(2)


def test_one_drag_is_one_step(book: Book) -> None:
    ident = saved(book, [1, 2, 3, 4], [None, "a", "a", "a"])
    assert [step.revision for step in history.timeline(book, ident)] == [1, 2, 5]
    history.undo(book, ident, base=5)
    assert ease(book, ident) == 1


def test_a_group_ends_when_undo_comes_between(book: Book) -> None:
    ident = saved(book, [1, 2], ["a", "a"])
    history.undo(book, ident, base=3)
    history.redo(book, ident, base=1)
    documents.save(book, ident, style(3), base=3, group="a")
    history.undo(book, ident, base=4)
    assert ease(book, ident) == 2


def test_undo_from_a_stale_page_is_a_conflict(book: Book) -> None:
    ident = saved(book, [1])
    documents.save(book, ident, style(2), base=2)
    with pytest.raises(ConflictError) as refused:
        history.undo(book, ident, base=2)
    assert (refused.value.mine, refused.value.theirs) == (style(1), style(2))
    assert ease(book, ident) == 2


def test_an_old_revision_comes_back_as_a_new_one(book: Book) -> None:
    ident = saved(book, [1, 2])
    back = history.bring_back(book, ident, 2, base=3)
    assert (back.revision, back.content, back.can_undo) == (4, style(1), True)
    history.undo(book, ident, base=4)
    assert ease(book, ident) == 2


def test_the_timeline_marks_where_the_document_stands(book: Book) -> None:
    ident = saved(book, [1, 2])
    history.undo(book, ident, base=3)
    assert [step.here for step in history.timeline(book, ident)] == [False, True, False]


class Undo(RuleBasedStateMachine):
    """The index of the book against a plain list with a cursor."""

    book: Book

    def __init__(self) -> None:
        super().__init__()
        self.ident = documents.add(self.book, DocumentKind.STYLE, {"n": 0}).id
        self.places: list[tuple[int, str | None]] = [(0, None)]
        self.here = 0
        self.all = [0]
        self.fresh = 0

    @property
    def base(self) -> int:
        return self.all.index(self.places[self.here][0]) + 1

    @rule(group=st.sampled_from([None, "a", "b"]))
    def save(self, group: str | None) -> None:
        self.fresh += 1
        documents.save(self.book, self.ident, {"n": self.fresh}, base=self.base, group=group)
        at_end = self.here == len(self.places) - 1
        if group and at_end and self.places[self.here][1] == group:
            self.places[self.here] = (self.fresh, group)
        else:
            self.places[self.here + 1 :] = [(self.fresh, group)]
            self.here += 1
        self.all.append(self.fresh)

    @rule()
    def save_the_same(self) -> None:
        documents.save(self.book, self.ident, {"n": self.places[self.here][0]}, base=self.base)

    @rule(by=st.integers(1, 5))
    def save_stale(self, by: int) -> None:
        with pytest.raises(ConflictError):
            documents.save(self.book, self.ident, {"n": -1}, base=self.base + by)

    @precondition(lambda self: self.here > 0)
    @rule()
    def undo(self) -> None:
        history.undo(self.book, self.ident, base=self.base)
        self._move(-1)

    @precondition(lambda self: self.here < len(self.places) - 1)
    @rule()
    def redo(self) -> None:
        history.redo(self.book, self.ident, base=self.base)
        self._move(1)

    def _move(self, by: int) -> None:
        for place in (self.here, self.here + by):
            self.places[place] = (self.places[place][0], None)
        self.here += by

    @invariant()
    def agrees(self) -> None:
        found = documents.get(self.book, self.ident)
        assert found.content == {"n": self.places[self.here][0]}
        assert found.revision == self.base
        assert found.can_undo == (self.here > 0)
        assert found.can_redo == (self.here < len(self.places) - 1)

    @invariant()
    def keeps_everything(self) -> None:
        steps = history.timeline(self.book, self.ident)
        assert [self.all[step.revision - 1] for step in steps] == [n for n, _group in self.places]
        assert len(documents.revisions(self.book, self.ident)) == len(self.all)


def test_any_sequence_of_saves_and_turns(file_book: Book) -> None:
    machine = type("Machine", (Undo,), {"book": file_book})
    run_state_machine_as_test(
        machine, settings=settings(max_examples=8, stateful_step_count=20, deadline=None)
    )
