"""A measure and a family are declared once, and everything that knows them follows.

Both are made up: an elbow, and a family of dolls a quarter of a grown woman.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from cutwright.body import (
    BodyCard,
    Family,
    Measure,
    card_from,
    card_schema,
    check,
    families,
    family_named,
    measures,
    resolve,
)
from cutwright.body.size_charts import size, sizes
from cutwright.body.survey import cards_from, columns
from cutwright.checks.ranges import is_near
from cutwright.desk.body.figure import figure_svg
from cutwright.desk.body.measures_shown import groups
from cutwright.drawing.body_figure import body_figure
from cutwright.errors import DocumentError, MeasureError
from cutwright.style.replay import replay
from cutwright.wording.measures import describe_measures
from cutwright.wording.sizes import size_asked, size_choices
from cutwright.workshop import gallery
from tests.body.made_up import DOLLS, ELBOW
from tests.survey.tables import SAMPLE
from tools import make_docs

FOUR = {"stature": 168.0, "bust_girth": 88.0, "waist_girth": 70.0, "hip_girth": 96.0}


@pytest.fixture
def elbow(monkeypatch: pytest.MonkeyPatch) -> Measure:
    """A measure more, while a test runs."""
    monkeypatch.setitem(measures._KNOWN, ELBOW.id, ELBOW)
    return ELBOW


@pytest.mark.usefixtures("elbow")
class TestAMeasure:
    def test_stands_on_the_card_and_in_its_schema(self) -> None:
        card = card_from(
            {"format": 1, "name": "a", "measures": FOUR | {"elbow_girth": "10 1/2 in"}}
        )
        assert card.measures["elbow_girth"] == pytest.approx(26.67)
        schema = card_schema()
        assert schema["properties"]["measures"]["properties"]["elbow_girth"]["title"] == "Elbow"
        assert Draft202012Validator(schema).is_valid(card.model_dump(mode="json"))
        with pytest.raises(DocumentError, match="elbow_girth"):
            card_from({"format": 1, "name": "a", "measures": FOUR | {"elbow_girth": 70}})

    def test_is_estimated_and_held_against_its_neighbour(self) -> None:
        body = resolve(BodyCard(name="a", measures=FOUR | {"upper_arm_girth": 28.0}))
        assert body.reading("elbow_girth").value == pytest.approx(27.2)
        assert body.reading("elbow_girth").spread == pytest.approx(2.5)
        odd = BodyCard(name="a", measures=FOUR | {"upper_arm_girth": 28.0, "elbow_girth": 54.4})
        (doubt,) = check(odd)
        assert (doubt.measure, doubt.cause, doubt.suggestion) == ("elbow_girth", "doubled", 27.2)

    def test_is_in_a_size_and_in_a_survey(self) -> None:
        assert size(98).measures["elbow_girth"] == 29.5
        card = next(cards_from(SAMPLE.read_text(encoding="utf-8").splitlines()))
        assert card.measures["elbow_girth"] == pytest.approx(card.measures["forearm_girth"] + 1)

    def test_is_shown_in_lists_forms_docs_and_both_figures(self) -> None:
        (row,) = [row for row in describe_measures() if row.id == "elbow_girth"]
        assert (row.name, row.bounds) == ("Elbow", "15 to 55")
        assert "made up" in row.estimate
        assert "## Elbow: `elbow_girth`" in make_docs.measures_page()
        women = family_named()
        assert "elbow_girth" in [row.id for group in groups(women) for row in group.rows]
        assert 'data-measure="elbow_girth"' in figure_svg(women)
        drawn = body_figure([(women.tape("elbow_girth"), "1")], women.outline, 3.0)
        assert len(drawn.items) == len(body_figure([], women.outline, 3.0).items) + 3

    def test_is_said_in_a_sum(self) -> None:
        from cutwright.wording.sentences import value_words

        assert value_words("elbow_girth / 2") == "elbow / 2"


@pytest.fixture
def dolls(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Family:
    """A family more, with a demo body of its own, while a test runs."""
    monkeypatch.setitem(families._KNOWN, DOLLS.id, DOLLS)
    card: dict[str, Any] = {
        "format": 1, "name": "the doll", "family": "dolls", "measures": {"stature": 42, "bust_girth": 22},
    }  # fmt: skip
    file = tmp_path / "the-doll.json"
    file.write_text(json.dumps(card), encoding="utf-8")
    shipped = gallery.shipped
    monkeypatch.setattr(
        gallery,
        "shipped",
        lambda kind: shipped(kind) | ({"the-doll": file} if kind == "bodies" else {}),
    )
    return DOLLS


class TestAFamily:
    def test_an_old_card_is_of_women_and_an_unknown_family_is_named(self, dolls: Family) -> None:
        old = card_from({"format": 1, "name": "a", "measures": FOUR})
        assert (old.family, old.kind) == ("women", family_named())
        with pytest.raises(
            DocumentError, match="no kind of figure “elves”; there is women or dolls"
        ):
            card_from({"format": 1, "name": "a", "family": "elves", "measures": FOUR})
        assert card_schema()["properties"]["family"]["enum"] == ["women", "dolls"]
        assert resolve(old) != resolve(
            old.model_copy(update={"name": "b", "measures": {"bust_girth": 89.0}})
        )

    def test_its_tapes_decide_what_is_taken_and_what_is_too_much(self, dolls: Family) -> None:
        card = gallery.load_card(dolls.demo)
        body = resolve(card)
        assert [r.measure for r in body.readings()] == ["stature", "bust_girth", "waist_girth"]
        assert body.value("waist_girth") == 18
        assert body.kind is dolls
        assert check(card) == ()
        (doubt, *_) = check(BodyCard(name="a", measures=card.measures))
        assert doubt.stops  # no woman is 42 cm tall
        with pytest.raises(
            DocumentError, match=r"Hip is not a measure of this kind of figure \(dolls\)"
        ):
            card_from(card.model_dump() | {"measures": {"bust_girth": 22, "hip_girth": 23}})
        with pytest.raises(MeasureError, match="No chest was taken for a"):
            resolve(BodyCard(name="a", family="dolls", measures={"stature": 42.0}))

    def test_its_ranges_say_what_is_doubtful(self, dolls: Family) -> None:
        odd = BodyCard(name="a", family="dolls", measures={"bust_girth": 22.0, "waist_girth": 36.0})
        (doubt,) = check(odd)
        assert (doubt.measure, doubt.cause, doubt.suggestion) == ("waist_girth", "doubled", 18)
        assert "16 cm to 20 cm is expected" in str(doubt.message)

    def test_a_poor_estimate_asks_in_its_own_way(self, dolls: Family) -> None:
        (note,) = resolve(BodyCard(name="a", family="dolls", measures={"bust_girth": 22.0})).notes
        assert "42.0 ± 3.0" in str(note.message)

    def test_a_block_is_judged_by_what_is_usual_of_it(self, dolls: Family) -> None:
        assert dolls.usual is not None
        assert is_near(resolve(gallery.load_card("the-doll")), dolls.usual)
        usual = family_named().usual
        assert usual is not None
        assert not is_near(resolve(size(128)), usual)

    def test_its_chart_is_offered_beside_the_others(self, dolls: Family) -> None:
        card = size(24, "regular", dolls)
        assert (card.name, card.family, card.measures["waist_girth"]) == (
            "chest 24, regular",
            "dolls",
            20,
        )
        assert len(sizes(dolls)) == 3
        with pytest.raises(MeasureError, match="Dolls run from chest 20 to 24"):
            size(40, "regular", dolls)
        offered = {value: words for value, words, _proposed in size_choices()}
        assert offered["24,regular,dolls"] == "chest 24, regular"
        assert offered["92,regular,women"] == "bust 92, regular"
        assert size_asked("24,regular,dolls") == card

    def test_its_survey_has_its_own_columns(self, dolls: Family) -> None:
        assert columns(dolls) == {"doll_chest", "doll_waist"}
        (card,) = cards_from(["doll_chest,doll_waist", "220,182"], "dolls", dolls)
        assert (card.name, card.family) == ("survey doll 1", "dolls")
        assert card.measures == {"bust_girth": 22, "waist_girth": 18.2}

    def test_lists_docs_form_and_figure_speak_of_it(self, dolls: Family) -> None:
        rows = describe_measures(dolls)
        assert [(row.id, row.name) for row in rows][1] == ("bust_girth", "Chest")
        page = make_docs.measures_page()
        assert "# Women: `women`" in page
        assert "# Dolls: `dolls`" in page
        assert "## Chest: `bust_girth`" in page.split("# Dolls")[1]
        assert [row.id for group in groups(dolls) for row in group.rows if row.needed] == [
            "bust_girth", "stature",
        ]  # fmt: skip
        assert figure_svg(dolls).count("data-measure") == 3

    def test_a_block_that_is_made_for_others_says_so(self, dolls: Family) -> None:
        done = replay(gallery.load_style("shift").steps, resolve(gallery.load_card("the-doll")))
        assert "drafted for women, and the doll is measured as dolls" in str(done.trouble)
