"""Where the tables of measured bodies are: the sample beside this file, and large ones elsewhere.

`CUTWRIGHT_BODIES` names the folder of the large ones; not everybody has it.
"""

from __future__ import annotations

import os
from functools import cache
from pathlib import Path

from cutwright.body import BodyCard
from cutwright.body.survey import read_survey

PLACE = "CUTWRIGHT_BODIES"
SAMPLE = Path(__file__).parent / "sample.csv"
WOMEN = "ansur2_female.csv"
MISSING = f"{PLACE} names no folder with {WOMEN}"


def large_table() -> Path | None:
    """The file of 993 women, where the environment says that there is one."""
    path = Path(os.environ.get(PLACE) or ".") / WOMEN
    return path if os.environ.get(PLACE) and path.is_file() else None


@cache
def cards(path: Path) -> tuple[BodyCard, ...]:
    """Every woman of a table as a body card."""
    return tuple(read_survey(path))


def spread(path: Path, count: int) -> tuple[BodyCard, ...]:
    """So many women of a table, evenly from its first row to its last."""
    every = cards(path)
    rows = dict.fromkeys(round(k * (len(every) - 1) / max(count - 1, 1)) for k in range(count))
    return tuple(every[row] for row in rows)
