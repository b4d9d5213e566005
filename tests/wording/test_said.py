"""What was found in one language is said in another: below the wording nothing is looked up."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from cutwright.body.card import BodyCard, card_from
from cutwright.body.plausibility import check
from cutwright.body.resolve import resolve
from cutwright.errors import DocumentError, MeasureError
from cutwright.finish.finished import finish
from cutwright.finish.options import FinishOptions
from cutwright.style.document import parse_step, parse_style
from cutwright.units import length_message, parse_length
from cutwright.wording.labels import label_words
from cutwright.wording.message_text import message_text
from cutwright.wording.names import name_text
from cutwright.wording.sentences import sentence
from cutwright.words import set_language
from cutwright.workshop.gallery import know_all_steps
from tests.body.given import Given
from tests.finish.pieces import flounced_skirt

know_all_steps()


@pytest.fixture(autouse=True)
def _english_again() -> Iterator[None]:
    yield
    set_language("en")


def test_a_doubt_is_said_in_the_language_of_whoever_reads_it() -> None:
    (doubt, *_) = check(
        Given({"stature": 168, "bust_girth": 92.5, "waist_girth": 7.4, "hip_girth": 100})
    )
    assert "7.4 cm" in str(doubt.message)
    set_language("de")
    assert "7,4 cm" in message_text(doubt.message)
    assert message_text(doubt.message).startswith("Taille")
    assert message_text(doubt.message).count("?") == 1  # the slip stands inside the question


def test_an_error_of_the_tape_is_said_later() -> None:
    with pytest.raises(MeasureError) as fault:
        parse_length("a hand")
    assert str(fault.value).startswith("“a hand” cannot be read as a length")
    set_language("fr")
    assert message_text(fault.value) != str(fault.value)
    assert "“a hand”" in message_text(fault.value)


def test_a_document_with_faults_is_said_later_with_every_place() -> None:
    with pytest.raises(DocumentError) as fault:
        card_from({"format": 1, "name": "Ada", "measures": {"bust_girth": "a hand", "bust": 4}})
    english = str(fault.value)
    assert english.splitlines()[0] == "This body card cannot be used:"
    set_language("lt")
    lines = message_text(fault.value).splitlines()
    assert len(lines) == 3
    assert not set(lines) & set(english.splitlines())
    assert lines[1].startswith("  measures, bust_girth: “a hand”")


def test_what_a_validator_of_a_step_says_is_said_later() -> None:
    row = {"do": "cut_apart", "pieces": ["front", "back"], "lower": ["skirt front"]}
    with pytest.raises(DocumentError) as fault:
        parse_style({"format": 1, "name": "x", "steps": [row]})
    ((place, text),) = fault.value.problems
    assert str(text) == "Give each piece that is cut a name for its lower part."
    set_language("es")
    assert message_text(text) != str(text)
    assert "cut_apart" in message_text(place)


def test_the_edge_of_a_cut_has_one_name_in_every_language() -> None:
    row = {"do": "cut_apart", "pieces": ["front"], "lower": ["low"], "at": "hip"}
    names = set()
    for language in ("en", "de", "ru"):
        set_language(language)
        names.add(getattr(parse_step(row), "new_edge"))  # noqa: B009  (of this step alone)
    assert names == {"cut"}


def test_a_label_is_data_until_it_is_drawn() -> None:
    set_language("de")
    label = finish(flounced_skirt(), FinishOptions(garment="Rock")).piece("skirt back").label
    set_language("en")
    assert label_words(label).title == "Skirt back"
    assert "Cut 1 pair in main cloth" in label_words(label).lines
    set_language("ru")
    assert label_words(label).title != "Skirt back"
    assert "Rock" in label_words(label).lines


def test_names_put_together_by_a_lay_are_told() -> None:
    set_language("de")
    assert name_text("waistband, part 2 of 3") == f"{name_text('waistband')}, Teil 2 von 3"
    assert name_text("hem (other side)") == f"{name_text('hem')} (andere Seite)"


def test_a_length_has_the_readers_decimal_sign() -> None:
    assert [message_text(length_message(x)) for x in (68.0, 68.25, -0.01)] == [
        "68 cm",
        "68.2 cm",
        "0 cm",
    ]
    set_language("de")
    assert message_text(length_message(68.25)) == "68,2 cm"
    assert message_text(length_message(2.54 * 26.75, "in")).startswith("26 3/4 ")


def test_a_place_on_an_edge_is_said_in_the_sentence() -> None:
    place = {"edge": "hem", "near": "side", "distance": 4.5}
    step = parse_step({"do": "move_dart", "piece": "front", "dart": "bust dart", "to": place})
    assert "the hem, 4.5 cm along from the side" in sentence(step)
    set_language("de")
    assert "4,5" in sentence(step)
    assert "the hem" not in sentence(step)


def test_a_missing_tape_is_asked_for_in_the_readers_words() -> None:
    body = resolve(BodyCard(name="x", measures={"bust_girth": 90, "hip_girth": 98}))
    set_language("ru")
    assert all(message_text(note.message) != str(note.message) for note in body.notes)
