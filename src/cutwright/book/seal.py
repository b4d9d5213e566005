"""A seal on every row: a few signs worked out from what stands in it, so that an altered letter is seen.

The database looks after its pages and links, but a letter that changed on the disk inside a text
is still a text. The seal covers all columns but those of `LOOSE`: links that the database
sets to nothing by itself. A row is sealed when the session writes it; a statement that goes past the
session is followed by `reseal`.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from hashlib import sha256
from typing import Any

LOOSE = {"loose": True}
"""Marks a column (`info=LOOSE`) that the seal does not cover."""

LENGTH = 16


def seal_of(table: str, values: Sequence[object]) -> str:
    """The seal of a row: of the values as they are stored, in the order of the columns."""
    text = json.dumps([table, *values], separators=(",", ":"), default=repr)
    return sha256(text.encode("ascii")).hexdigest()[:LENGTH]


def sealed(table: Any) -> list[Any]:
    """The columns of a table (SQLAlchemy) that its seal covers."""
    return [one for one in table.columns if one.name != "seal" and not one.info.get("loose")]


def seal_row(row: Any, dialect: Any) -> None:
    """Seal a row that is about to be written."""
    values = {one.key: getattr(row, one.key) for one in sealed(row.__table__)}
    row.seal = with_seal(row.__table__, values, dialect)["seal"]


def with_seal(table: Any, row: Mapping[str, Any], dialect: Any) -> dict[str, Any]:
    """The columns of a row by name, as they are about to be written, with the seal they need."""
    values = [_stored(one, row[one.key], dialect) for one in sealed(table)]
    return {**row, "seal": seal_of(table.name, values)}


def reseal(row: Any) -> None:
    """Let a row be written and sealed anew, after a statement has changed it in the database."""
    row.seal = ""


def _stored(column: Any, value: Any, dialect: Any) -> object:
    """A value as the database will hand it out again."""
    written = column.type.bind_processor(dialect)
    value = written(value) if written else value
    return float(value) if value is not None and column.type.python_type is float else value
