"""Orders, fittings and the cupboard."""

from __future__ import annotations

from datetime import date

import pytest

from cutwright.book import clients, cupboard, documents, fittings, orders
from cutwright.book.book import Book
from cutwright.book.errors import ConflictError, NotInBookError
from cutwright.book.nouns import CorrectionState, DocumentKind, OrderState, Used
from cutwright.errors import StoreError
from tests.book.samples import body, cloth, full_order, style, used


def test_an_order_is_a_frozen_copy_of_what_it_used(book: Book) -> None:
    client, order = full_order(book)
    assert order.document.entry.client_id == client.id
    assert order.state is OrderState.DRAFTED
    assert order.body is not None
    assert order.style is not None
    documents.save(book, order.style.document_id, style(99), base=1)
    documents.destroy(book, order.body.document_id)
    documents.destroy(book, order.cloths[0].document_id)
    again = orders.get(book, order.id)
    assert again.frozen == {"body": body(), "style": style(), "cloths": [cloth()]}
    assert (again.body, again.style, again.cloths) == (None, order.style, ())


def test_an_order_is_frozen_anew_on_request(book: Book) -> None:
    _client, order = full_order(book)
    assert order.style is not None
    newer = used(documents.save(book, order.style.document_id, style(7), base=1))
    changed = orders.use(
        book, order.id, base=order.version, body=order.body, style=newer, cloths=order.cloths * 2
    )
    assert changed.frozen["style"] == style(7)
    assert (changed.style, len(changed.cloths), changed.version) == (newer, 2, 2)
    assert [one.entry.id for one in orders.used_by(book, newer.document_id)] == [order.id]
    assert [one.entry.id for one in orders.used_by(book, order.cloths[0].document_id)] == [order.id]


def test_an_order_moves_on_and_back_and_has_a_due_date(book: Book) -> None:
    _client, order = full_order(book)
    cut = orders.move(book, order.id, OrderState.CUT, base=1)
    due = orders.set_due(book, order.id, date(2031, 6, 1), base=cut.version)
    assert (due.state, due.due, due.state_at) == (OrderState.CUT, date(2031, 6, 1), cut.state_at)
    with pytest.raises(ConflictError) as refused:
        orders.move(book, order.id, OrderState.FINISHED, base=1)
    assert (refused.value.mine["state"], refused.value.theirs["state"]) == ("finished", "cut")
    back = orders.move(book, order.id, OrderState.DRAFTED, base=due.version)
    assert back.state is OrderState.DRAFTED


def test_orders_are_listed_by_due_date(book: Book) -> None:
    _one, late = full_order(book, "Late")
    client, soon = full_order(book, "Soon")
    _three, never = full_order(book, "Never")
    orders.set_due(book, late.id, date(2031, 9, 1), base=1)
    orders.set_due(book, soon.id, date(2031, 6, 1), base=1)
    orders.move(book, never.id, OrderState.FINISHED, base=1)
    assert [one.entry.id for one in orders.listed(book)] == [soon.id, late.id, never.id]
    assert [one.entry.id for one in orders.listed(book, due_by=date(2031, 6, 1))] == [soon.id]
    assert [one.entry.id for one in orders.listed(book, client_id=client.id)] == [soon.id]
    (done,) = orders.listed(book, state=OrderState.FINISHED)
    assert (done.entry.id, done.due) == (never.id, None)


def test_the_order_document_has_revisions_like_any_other(book: Book) -> None:
    _client, order = full_order(book)
    documents.save(book, order.id, {"name": "Skirt, no lining"}, base=1)
    again = orders.get(book, order.id)
    assert (again.document.revision, again.document.entry.title) == (2, "Skirt, no lining")
    assert again.document.can_undo


def test_measures_of_one_client_are_not_used_for_another(book: Book) -> None:
    _client, order = full_order(book, "One")
    other = clients.add(book, "Other")
    assert order.body is not None
    with pytest.raises(StoreError, match="another client"):
        orders.place(book, {}, body=order.body, client_id=other.id)
    assert len(orders.listed(book)) == 1


def test_an_order_uses_only_what_there_is(book: Book) -> None:
    made = documents.add(book, DocumentKind.STYLE, style())
    with pytest.raises(NotInBookError, match="revision 5"):
        orders.place(book, {}, style=Used(made.id, 5))
    with pytest.raises(NotInBookError, match="body"):
        orders.place(book, {}, body=used(made))
    assert documents.entries(book, DocumentKind.ORDER) == []


def test_a_fitting_note_becomes_a_revision_that_knows_its_note(book: Book) -> None:
    _client, order = full_order(book)
    assert order.body is not None
    note = fittings.note(book, order.id, "waist too tight", held_on=date(2031, 5, 20))
    wish = fittings.propose(
        book, note.id, order.body.document_id, body(waist=76.0), base=1, why="let out 1.5 cm"
    )
    assert documents.get(book, order.body.document_id).content == body(), "nothing changed yet"
    changed = fittings.accept(book, wish.id)
    assert (changed.revision, changed.content) == (2, body(waist=76.0))
    (found,) = fittings.of_order(book, order.id)
    (settled,) = found.corrections
    assert (settled.state, settled.revision) == (CorrectionState.ACCEPTED, 2)
    assert fittings.came_of(book, order.body.document_id) == {2: settled}
    with pytest.raises(StoreError, match="settled before"):
        fittings.refuse(book, wish.id)


def test_a_refused_correction_changes_nothing(book: Book) -> None:
    _client, order = full_order(book)
    assert order.style is not None
    note = fittings.note(book, order.id, "hem dips")
    wish = fittings.propose(book, note.id, order.style.document_id, style(8), base=1)
    assert fittings.refuse(book, wish.id).state is CorrectionState.REFUSED
    assert documents.get(book, order.style.document_id).revision == 1
    fittings.remove(book, note.id)
    assert fittings.of_order(book, order.id) == []


def test_a_correction_of_what_went_on_since_is_a_conflict(book: Book) -> None:
    _client, order = full_order(book)
    assert order.style is not None
    note = fittings.note(book, order.id, "hem dips")
    wish = fittings.propose(book, note.id, order.style.document_id, style(8), base=1)
    documents.save(book, order.style.document_id, style(5), base=1)
    with pytest.raises(ConflictError):
        fittings.accept(book, wish.id)
    assert fittings.get(book, note.id).corrections[0].state is CorrectionState.PROPOSED


def test_a_fitting_corrects_bodies_and_styles_only(book: Book) -> None:
    _client, order = full_order(book)
    _other, foreign = full_order(book, "Other")
    assert foreign.body is not None
    note = fittings.note(book, order.id, "pulls")
    with pytest.raises(StoreError, match="not a cloth"):
        fittings.propose(book, note.id, order.cloths[0].document_id, cloth(), base=1)
    with pytest.raises(StoreError, match="another client"):
        fittings.propose(book, note.id, foreign.body.document_id, body(), base=1)


def test_a_note_is_rewritten_by_one_hand_at_a_time(book: Book) -> None:
    _client, order = full_order(book)
    note = fittings.note(book, order.id, "pulls")
    assert fittings.rewrite(book, note.id, "pulls at the hip", base=1).note == "pulls at the hip"
    with pytest.raises(ConflictError) as refused:
        fittings.rewrite(book, note.id, "pulls at the waist", base=1)
    assert refused.value.theirs == {"note": "pulls at the hip"}
    with pytest.raises(StoreError, match="empty"):
        fittings.note(book, order.id, " ")


def test_cloth_is_measured_and_taken_from_the_cupboard(book: Book) -> None:
    made = documents.add(book, DocumentKind.CLOTH, cloth())
    assert cupboard.left(book, made.id) is None
    with pytest.raises(StoreError, match="not measured"):
        cupboard.take(book, made.id, 10)
    cupboard.measure(book, made.id, 300.0)
    assert cupboard.take(book, made.id, 180.5).length == 119.5
    with pytest.raises(StoreError, match=r"200\.0 cm were to be taken.*119\.5 cm"):
        cupboard.take(book, made.id, 200)
    assert [(one.entry.id, one.length) for one in cupboard.cloths(book)] == [(made.id, 119.5)]
    for wrong in (-1.0, float("nan"), float("inf")):
        with pytest.raises(StoreError, match="0 or more"):
            cupboard.measure(book, made.id, wrong)
