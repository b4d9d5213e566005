"""Documents: read whole or refused with the place, written whole or not at all."""

from __future__ import annotations

import errno
import json
import os
from contextlib import suppress
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import BaseModel, ConfigDict, Field

from cutwright.documents import (
    LARGEST,
    json_text,
    parse_json,
    place_of,
    read_document,
    read_json,
    validated,
    write_bytes,
    write_json,
)
from cutwright.errors import DocumentError, StoreError
from cutwright.style.document import parse_step
from cutwright.wording.message_text import message_text
from cutwright.words import set_language
from cutwright.workshop.gallery import know_all_steps

know_all_steps()


class _Line(BaseModel):
    model_config = ConfigDict(extra="forbid")
    cm: float = Field(gt=0)


class _Slip(BaseModel):
    model_config = ConfigDict(extra="forbid")
    format: int
    name: str = Field(max_length=10)
    lines: list[_Line] = []


def _told(raw: bytes | str) -> DocumentError:
    with pytest.raises(DocumentError) as fault:
        parse_json(raw, "The slip cannot be used:")
    return fault.value


@pytest.mark.parametrize(
    ("raw", "place", "words"),
    [
        ('{"a": 1', "line 1, column 8", "breaks off"),
        ('{"a":\n "unfinished', "line 2", "breaks off"),
        ('{"a": 1,\n}', "line 2, column 1", "comma too many"),
        ('{"a" 1}', "line 1, column 6", "missing before"),
        ('{"a": 1} x', "line 1, column 10", "more follows"),
        ('{"a": what}', "line 1, column 7", "not JSON"),
        ('{"a": "b\nc"}', "line 1", "not closed"),
        ("", "", "empty"),
        (b"\xff\xfe{}", "", "UTF-8"),
        ("[" * 5000, "", "deep"),
        ('{"a": NaN}', "", "NaN"),
        ('{"a": -Infinity}', "", "Infinity"),
        ('{"a": 1e999}', "", "1e999"),
        ('{"a": ' + "9" * 5000 + "}", "", "not a number"),
        ('{"a": 1, "a": 2}', "a", "twice"),
        ('{"name": "\\ud800"}', "", "half a letter"),
        (b" " * (LARGEST + 1), "", "larger"),
    ],
)
def test_what_is_not_a_document_is_refused_with_its_place(
    raw: bytes | str, place: str, words: str
) -> None:
    fault = _told(raw)
    assert str(fault.problems[0][0]).startswith(place)
    assert words in str(fault.problems[0][1])
    assert str(fault).startswith("The slip cannot be used:")


def test_brackets_in_quotes_are_not_counted_and_a_mark_at_the_start_is_passed_over() -> None:
    raw = b"\xef\xbb\xbf" + json.dumps({"a": "[" * 90 + '\\"' + "{" * 90}).encode()
    assert parse_json(raw, "slip") == json.loads(raw.decode("utf-8-sig"))


@given(st.binary(max_size=200) | st.text(max_size=200))
def test_any_bytes_are_read_or_refused_in_words(raw: bytes | str) -> None:
    with suppress(DocumentError):
        parse_json(raw, "slip")


@given(
    st.recursive(
        st.none() | st.booleans() | st.integers(-(10**20), 10**20) | st.text(max_size=8)
        | st.floats(allow_nan=False, allow_infinity=False),
        lambda x: st.lists(x, max_size=3) | st.dictionaries(st.text(max_size=5), x, max_size=3),
        max_leaves=8,
    )
)  # fmt: skip
def test_what_is_written_reads_back_the_same(value: object) -> None:
    assert parse_json(json_text(value), "slip") == value


@pytest.mark.parametrize(
    ("raw", "words"),
    [
        ({"name": "x"}, '"format": 1'),
        ({"format": "1", "name": "x"}, "format number is missing"),
        ({"format": True, "name": "x"}, "format number is missing"),
        ({"format": 7, "name": "x"}, "newer than this program"),
        ({"format": 0, "name": "x"}, "not known"),
        ([], "curly brackets"),
        (None, "curly brackets"),
    ],
)
def test_unknown_formats_are_refused(raw: object, words: str) -> None:
    with pytest.raises(DocumentError) as fault:
        validated(raw, _Slip, "slip")
    assert words in str(fault.value)


def test_every_problem_is_named_at_once_in_words() -> None:
    raw = {"format": 1, "name": 5, "lines": [{"cm": 2}, {"cm": -1}, {"mm": 3}], "colour": "red"}
    with pytest.raises(DocumentError) as fault:
        validated(raw, _Slip, "slip")
    assert tuple((str(a), str(b)) for a, b in fault.value.problems) == (
        ("name", "this must be text in quotes. Found: 5"),
        ("lines 2, cm", "this must be more than 0. Found: -1"),
        ("lines 3, cm", "this is missing."),
        ("lines 3, mm", "there is nothing of this name here; check the spelling. Found: 3"),
        ("colour", "there is nothing of this name here; check the spelling. Found: red"),
    )
    assert place_of(("steps", 2, "fullness", "[key]")) == "steps 3, fullness"


def test_reads_back_what_it_wrote(tmp_path: Path) -> None:
    path = tmp_path / "new folder" / "slip.json"
    write_json(path, {"format": 1, "name": "größe", "lines": [{"cm": 2.5}]})
    assert read_document(path, _Slip, "slip").lines[0].cm == 2.5
    assert "größe" in path.read_text(encoding="utf-8")
    assert [p.name for p in path.parent.iterdir()] == ["slip.json"]


def test_a_new_file_is_private_and_an_old_one_keeps_its_rights(tmp_path: Path) -> None:
    path = tmp_path / "slip.json"
    write_bytes(path, b"1")
    assert path.stat().st_mode & 0o777 == 0o600
    path.chmod(0o644)
    write_bytes(path, b"2")
    assert path.stat().st_mode & 0o777 == 0o644


@pytest.mark.parametrize(
    ("call", "number", "words"),
    [
        ("fsync", errno.ENOSPC, "disk is full"),
        ("fsync", errno.EIO, "could not be read or written"),
        ("fsync", errno.EACCES, "check its rights"),
    ],
)
def test_trouble_with_the_disk_leaves_the_old_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, call: str, number: int, words: str
) -> None:
    path = tmp_path / "slip.json"
    path.write_text("old", encoding="utf-8")

    def fail(*_args: object, **_kwargs: object) -> None:
        raise OSError(number, os.strerror(number))

    monkeypatch.setattr(os, call, fail)
    with pytest.raises(StoreError, match=words):
        write_json(path, {"new": 1})
    monkeypatch.undo()
    assert path.read_text(encoding="utf-8") == "old"
    assert [p.name for p in tmp_path.iterdir()] == ["slip.json"]


def test_plain_words_for_files_that_are_not_there_or_are_folders(tmp_path: Path) -> None:
    with pytest.raises(StoreError, match="There is no file"):
        read_json(tmp_path / "none.json", "slip")
    with pytest.raises(StoreError, match="is a folder"):
        read_json(tmp_path, "slip")
    (tmp_path / "file").write_text("x", encoding="utf-8")
    with pytest.raises(StoreError, match="where a folder should be"):
        write_json(tmp_path / "file" / "slip.json", {})
    with pytest.raises(StoreError, match="too long"):
        write_json(tmp_path / ("x" * 300), {})


@pytest.mark.skipif(
    not hasattr(os, "geteuid") or os.geteuid() == 0, reason="root may write anywhere"
)
def test_a_folder_that_may_not_be_written(tmp_path: Path) -> None:
    tmp_path.chmod(0o500)
    try:
        with pytest.raises(StoreError, match="check its rights"):
            write_json(tmp_path / "slip.json", {})
    finally:
        tmp_path.chmod(0o700)


def test_what_cannot_be_written_as_json_leaves_the_old_file(tmp_path: Path) -> None:
    path = tmp_path / "slip.json"
    write_json(path, {"a": 1})
    with pytest.raises(ValueError, match="JSON"):
        write_json(path, {"a": float("nan")})
    assert read_json(path, "slip") == {"a": 1}


def test_a_value_of_several_kinds_has_one_problem_at_its_place() -> None:
    """The kinds a validator tried are no part of the place."""
    for wrong, word in (([], "number"), ("2 +", "sum"), ("a" * 300, "letters"), (None, "number")):
        with pytest.raises(DocumentError) as told:
            parse_step({"do": "spread", "piece": "skirt", "by": wrong})
        ((place, text),) = told.value.problems
        assert str(place) == "step 1 (spread) by", place
        assert word in str(text), text


def test_words_to_choose_from_are_told_in_the_language_in_force() -> None:
    with pytest.raises(DocumentError) as told:
        parse_step({"do": "facing", "kind": "none"})
    assert " or " in str(told.value)  # a log speaks English
    set_language("ru")
    try:
        words = message_text(told.value)  # said long after it was raised
    finally:
        set_language("en")
    assert " or " not in words
    assert " или " in words


def test_of_very_many_problems_forty_are_told() -> None:
    with pytest.raises(DocumentError) as told:
        parse_json("{" + ",".join(f'"a{n % 2}": 1' for n in range(1245)) + "}", "x")
    assert len(told.value.problems) == 41
    assert tuple(map(str, told.value.problems[-1])) == ("", "and 1203 more")
