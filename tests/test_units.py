"""Lengths as people write them, read and written back."""

from __future__ import annotations

import math
from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cutwright.errors import MeasureError
from cutwright.units import angle_message, length_message, parse_angle, parse_length

READ = [
    (68, 68.0),
    (68.5, 68.5),
    ("68", 68.0),
    ("68.5", 68.5),
    ("68,5", 68.5),
    ("  68 cm ", 68.0),
    ("68cm", 68.0),
    ("68 CM.", 68.0),
    ("680 mm", 68.0),
    ("68,5 см", 68.5),
    ("680 ММ", 68.0),
    ("1,68 м", 168.0),
    ("1.68 m", 168.0),
    ("26 3/4 in", 67.945),
    ('26 3/4"', 67.945),
    ("26 3/4″", 67.945),
    ("26¾ in", 67.945),
    ("26 ¾ inches", 67.945),
    ("26-3/4 in", 67.945),
    ("3/4 in", 1.905),
    ("68 1/2", 68.5),
    ("5 ft 6 in", 167.64),
    ("5'6\"", 167.64),
    ("5 ft 6 1/2 in", 168.91),
    ("5 feet", 152.4),
    (".5", 0.5),
    ("+3 cm", 3.0),
    ("1234,5 mm", 123.45),
    ("0,125 in", 0.3175),
]

NONSENSE = [
    "", " ", "cm", "x", "68 kg", "68 cm 3", "68 cm 3 cm", "1,234.5", "1.234,5", "1,234", "68..5",
    "nan", "inf", "1e3", "26 4/3 in", "1/0 in", "26 3/100 in", "5 ft 14 in", "5 in 6 ft", "--3",
    "68 cmm", "68 смм", "٦٨", "6 8", "9" * 400, "3/4/5", "-3", "68 cm; drop", "\x00", "in 26", "0x10",
]  # fmt: skip


@pytest.mark.parametrize(("given_", "cm"), READ)
def test_reads_what_people_write(given_: object, cm: float) -> None:
    assert parse_length(given_) == pytest.approx(cm, abs=1e-12)


@pytest.mark.parametrize("text", NONSENSE)
def test_refuses_nonsense_and_shows_it(text: str) -> None:
    with pytest.raises(MeasureError) as fault:
        parse_length(text)
    assert "“" in str(fault.value)
    assert len(str(fault.value)) < 200


@pytest.mark.parametrize("wrong", [None, True, [], {}, 68j, math.nan, math.inf, 10**400, -3])
def test_refuses_what_is_no_length(wrong: object) -> None:
    with pytest.raises(MeasureError):
        parse_length(wrong)


def test_a_comma_before_three_digits_is_asked_about() -> None:
    with pytest.raises(MeasureError, match=r"write 1\.234 or 1234"):
        parse_length("1,234")


def test_a_bare_number_takes_the_unit_given_and_a_written_unit_wins() -> None:
    assert parse_length("27", "in") == pytest.approx(68.58)
    assert parse_length(27, "in") == pytest.approx(68.58)
    assert parse_length("68 cm", "in") == 68
    assert parse_length("5 mm", "in") == 0.5


def test_signed_lengths_only_where_asked() -> None:
    assert parse_length("-0.5 cm", signed=True) == -0.5
    assert parse_length("−1/2 in", signed=True) == -1.27
    assert parse_length(-2, signed=True) == -2


@pytest.mark.parametrize(
    ("cm", "unit", "parts", "text"),
    [
        (68.5, "cm", 8, "68.5 cm"),
        (68.0, "cm", 8, "68 cm"),
        (100.0, "cm", 8, "100 cm"),
        (-0.01, "cm", 8, "0 cm"),
        (67.945, "in", 8, "26 3/4 in"),
        (2.54 * 7.99, "in", 8, "8 in"),
        (2.54 / 16, "in", 16, "1/16 in"),
        (0.0, "in", 8, "0 in"),
        (-1.27, "in", 8, "-1/2 in"),
        (-0.01, "in", 8, "0 in"),
        (2.54 * 1.5, "in", 16, "1 1/2 in"),
    ],
)
def test_writes_as_a_cutter_does(cm: float, unit: str, parts: int, text: str) -> None:
    assert str(length_message(cm, unit, parts=parts)) == text  # type: ignore[arg-type]


@given(st.floats(-500, 500), st.sampled_from([8, 16]))
def test_inches_come_back_to_half_a_part(cm: float, parts: int) -> None:
    written = str(length_message(cm, "in", parts=parts))
    assert abs(parse_length(written, signed=True) - cm) <= 2.54 / parts / 2 + 1e-9


@given(st.floats(-500, 500))
def test_centimetres_come_back_to_half_a_millimetre(cm: float) -> None:
    assert abs(parse_length(str(length_message(cm)), signed=True) - cm) <= 0.05 + 1e-9


@given(st.text(max_size=60))
def test_any_text_is_read_or_refused_in_words(text: str) -> None:
    with suppress(MeasureError):
        assert math.isfinite(parse_length(text, signed=True))


@pytest.mark.parametrize(
    ("given_", "degrees"), [("19", 19), ("19.5°", 19.5), ("19,5 deg", 19.5), (19, 19)]
)
def test_reads_angles(given_: object, degrees: float) -> None:
    assert parse_angle(given_) == degrees


@pytest.mark.parametrize("wrong", ["19 cm", "", "x", None, True, math.nan, "1,234.5"])
def test_refuses_what_is_no_angle(wrong: object) -> None:
    with pytest.raises(MeasureError):
        parse_angle(wrong)


def test_writes_angles() -> None:
    assert [str(angle_message(a)) for a in (19.0, 19.54, -0.01)] == ["19°", "19.5°", "0°"]
