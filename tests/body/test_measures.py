"""The register of measures: each declared once, complete, and shown in words."""

from __future__ import annotations

import re

import pytest

from cutwright.body import MEASURES, family_named, measure
from cutwright.errors import MeasureError
from cutwright.wording.measures import describe_measures

# common practice: where the clause is known at second hand, conflicts between texts left out
CLAUSE = re.compile(r"5\.\d\.\d{1,2}")


WOMEN = family_named()


def test_each_measure_is_declared_once() -> None:
    assert tuple(MEASURES)[:4] == WOMEN.needed
    assert all(name == declared.id for name, declared in MEASURES.items())
    assert len({m.name for m in MEASURES.values()}) == len(MEASURES)


@pytest.mark.parametrize("name", MEASURES)
def test_each_declaration_is_complete(name: str) -> None:
    m = MEASURES[name]
    assert re.fullmatch(r"[a-z]+(_[a-z]+)*", m.id)
    assert m.name
    assert m.definition.endswith(".")
    assert m.how.endswith(".")
    assert all(0 < tape.lo < tape.hi for tape in m.tapes.values())
    assert m.unit == ("degree" if m.extent == "angle" else "cm")
    assert not m.clause or CLAUSE.fullmatch(m.clause)


def test_each_measure_but_the_first_can_be_estimated_from_declared_ones() -> None:
    for name, tape in WOMEN.tapes.items():
        assert tape.estimates
        for rule in tape.estimates:
            assert set(rule.needs) | set(rule.taped) <= set(MEASURES)
            assert name not in rule.needs
            assert rule.spread > 0
            assert rule.text


def test_clauses_are_not_given_twice() -> None:
    clauses = [m.clause for m in MEASURES.values() if m.clause]
    assert len(clauses) == len(set(clauses))


def test_only_the_three_poor_estimates_ask_for_the_tape() -> None:
    asking = {name for name, tape in WOMEN.tapes.items() if tape.ask}
    assert asking == {"shoulder_length", "back_waist_length", "armhole_depth"}


def test_a_wrong_name_gets_near_ones() -> None:
    with pytest.raises(MeasureError, match="Did you mean waist_girth"):
        measure("waist_grith")
    with pytest.raises(MeasureError, match="the list of measures"):
        measure("zzz")


def test_rows_for_a_page_or_a_terminal() -> None:
    rows = describe_measures()
    assert [row.id for row in rows] == list(MEASURES)
    by_id = {row.id: row for row in rows}
    assert by_id["shoulder_slope"].unit == "°"
    assert by_id["bust_girth"].standard.startswith("ISO 8559-1:2017, 5.3.4")
    assert by_id["front_waist_length"].standard == ""
    assert by_id["shoulder_length"].asks
    assert "± 1.9 cm" in by_id["shoulder_length"].estimate
    assert "0.0617 × height" in by_id["shoulder_length"].estimate
    assert all(row.estimate and row.bounds and row.extent for row in rows)
    assert [row.id for row in rows if row.needed] == list(WOMEN.needed)
