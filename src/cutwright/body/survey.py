"""Real people for trying drafts on: rows of a survey turned into body cards.

Source: 2012 US Army Anthropometric Survey (ANSUR II, public domain), reduced and renamed columns in
whole millimetres. Which columns hold a measure stands with its tape; what the survey took otherwise than a
dressmaker does is brought over by `bridges`; what it did not take at all is left to the estimates.
"""

from __future__ import annotations

import csv
import io
from codecs import BOM_UTF16_BE, BOM_UTF16_LE
from collections.abc import Iterable, Iterator, Mapping
from itertools import chain
from pathlib import Path

from pydantic import ValidationError

from cutwright.body.card import BodyCard
from cutwright.body.families import family_named
from cutwright.body.family import Family
from cutwright.errors import DocumentError, StoreError
from cutwright.messages import N_, Message, Typed


def columns(kind: Family) -> frozenset[str]:
    """The columns from which the measures of a family come.

    Parameters
    ----------
    kind : the family of figures that was measured
    """
    tapes = kind.tapes.values()
    return frozenset(name for tape in tapes if tape.column for name in tape.column.columns)


def card_of(row: Mapping[str, float], name: str, kind: Family) -> BodyCard:
    """One person's body card from a row of the survey.

    Parameters
    ----------
    row : the survey's columns, in mm
    name : what to call the person
    kind : the family of figures the survey measured
    """
    measures = {
        tape.id: tape.column.at(*(row[each] / 10 for each in tape.column.columns))
        for tape in kind.tapes.values()
        if tape.column
    }
    return BodyCard(name=name, measures=measures, family=kind.id)


def read_survey(path: Path, kind: Family | None = None) -> Iterator[BodyCard]:
    """Body cards for everybody in a survey file, in the file's order.

    Parameters
    ----------
    path : a table with a head, lengths in whole millimetres
    kind : the family of figures that was measured; women if not given

    Raises
    ------
    StoreError : the file cannot be read
    DocumentError : the line that is wrong is named
    """
    try:
        raw = path.read_bytes()
    except OSError as fault:
        raise StoreError(
            Message(
                "survey-unreadable",
                N_("The survey file “{path}” cannot be read: {reason}."),
                path=Typed(path),
                reason=Typed(fault.strerror),
            )
        ) from fault
    yield from cards_from(io.StringIO(decoded(raw), newline=""), path.name, kind)


def decoded(raw: bytes) -> str:
    """The text of a table as spreadsheets write it: UTF-8, UTF-16 with its mark, or eight bits a letter.

    Parameters
    ----------
    raw : the bytes of a file
    """
    coding = "utf-16" if raw.startswith((BOM_UTF16_LE, BOM_UTF16_BE)) else "utf-8-sig"
    try:
        return raw.decode(coding)
    except UnicodeDecodeError:
        return raw.decode("cp1252", errors="replace")


def _separator(head: str) -> str:
    """What stands between the columns: a comma, a semicolon or a tab, whichever the first line has most."""
    return max(",;\t", key=head.count)


def cards_from(
    lines: Iterable[str], title: str = "survey", kind: Family | None = None
) -> Iterator[BodyCard]:
    """Body cards from the lines of a survey file; wrong columns are named before anything else.

    Parameters
    ----------
    lines : the head and a row for each person, lengths in whole millimetres
    title : what the table is called where something is wrong
    kind : the family of figures; women if not given

    Raises
    ------
    DocumentError : columns are missing, or a cell is no length
    """
    told = Message("survey-file", N_("The survey file “{name}” cannot be used:"), name=Typed(title))
    rows = iter(lines)
    head = next(rows, "")
    table = csv.DictReader(chain([head], rows), delimiter=_separator(head))
    try:
        yield from _cards(table, told, kind or family_named())
    except csv.Error:
        place = Message("at-line", N_("line {line}"), line=table.line_num + 1)
        raise DocumentError(
            told, [(place, Message("no-row", N_("this line cannot be read as part of a table.")))]
        ) from None


def _cards(table: csv.DictReader[str], told: Message, kind: Family) -> Iterator[BodyCard]:
    wanted = columns(kind)
    missing = sorted(wanted - set(table.fieldnames or ()))
    if missing:
        text = Message(
            "columns-missing",
            N_("columns are missing: {columns}."),
            columns=Typed(", ".join(missing)),
        )
        raise DocumentError(told, [(Message("at-line", N_("line {line}"), line=1), text)])
    for number, row in enumerate(table, start=1):
        place = Message("at-line", N_("line {line}"), line=table.line_num)
        taped = {column: _millimetres(row[column], column, place, told) for column in wanted}
        try:
            yield card_of(taped, f"survey {kind.person} {number}", kind)
        except ValidationError:
            text = Message(
                "heights-not-of-one-body",
                N_("these heights do not belong to one body; compare them with the table."),
            )
            raise DocumentError(told, [(place, text)]) from None


def _millimetres(text: str | None, column: str, place: Message, title: Message) -> float:
    """One cell of the survey: whole millimetres."""
    cell = (text or "").strip()
    if not cell.isdecimal() or len(cell) > 4 or not int(cell):
        problem = Message(
            "whole-millimetres",
            N_("{column} must be whole millimetres, not “{found}”."),
            column=Typed(column),
            found=Typed((text or "")[:30]),
        )
        raise DocumentError(title, [(place, problem)])
    return float(cell)
