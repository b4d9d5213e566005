"""A style laid out for a body: the pieces as they lie on the table, ready to be shown."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cached_property

from cutwright.body.body import Body
from cutwright.checks.proof import Proof
from cutwright.desk.style.history import Origins, origins
from cutwright.desk.style.piece_svg import words_svg
from cutwright.drawing.primitives import Drawing
from cutwright.drawing.type import whole_box
from cutwright.errors import CutwrightError
from cutwright.finish.finished import FinishedPattern
from cutwright.finish.options import FinishOptions
from cutwright.style.document import Style
from cutwright.style.replay import Replay
from cutwright.workshop.work import Work, finishing, work


@dataclass
class LaidOut:
    """What came of a style on a body, as the desk asks for it."""

    work: Work

    @property
    def style(self) -> Style:
        """The sentences."""
        return self.work.style

    @property
    def body(self) -> Body:
        """The measured person."""
        return self.work.body

    @property
    def replay(self) -> Replay:
        """Every sentence that was done."""
        return self.work.replay

    @property
    def finished(self) -> FinishedPattern:
        """The pieces ready to cut."""
        return self.work.finished

    @property
    def trouble(self) -> CutwrightError | None:
        """Why the work stopped, if it did."""
        return self.work.trouble

    @property
    def proof(self) -> Proof:
        """Every check of the pattern."""
        return self.work.proof

    @cached_property
    def drawings(self) -> Mapping[str, Drawing]:
        """Each finished piece as it is drawn."""
        return dict(self.work.drawings())

    @cached_property
    def origins(self) -> Origins:
        """Which sentence made or changed each edge."""
        return origins(self.replay.stages)


def lay_out(
    style: Style, body: Body, earlier: LaidOut | None = None, options: FinishOptions | None = None
) -> LaidOut:
    """Work a style on a body today, keeping of an earlier work what did not change."""
    options = options or finishing(style, body, date.today())
    return LaidOut(work(style, body, options, earlier.work if earlier else None, words_svg))


@dataclass(frozen=True, slots=True)
class TableSpot:
    """Where a piece lies on the table: what is added to its own coordinates, cm."""

    x: float
    y: float


GAP = 5.0
"""Room between the pieces, cm."""


def table_places(
    drawings: Mapping[str, Drawing], rows: Sequence[Sequence[str]]
) -> tuple[dict[str, TableSpot], tuple[float, float]]:
    """Lay pieces in rows, each row hanging from one line; gives spots and the whole size."""
    spots: dict[str, TableSpot] = {}
    top = wide = 0.0
    for row in rows:
        left = high = 0.0
        for name in row:
            a, b, c, d = whole_box(drawings[name])
            spots[name] = TableSpot(left - a, top - b)
            left += c - a + GAP
            high = max(high, d - b)
        wide, top = max(wide, left - GAP), top + high + GAP
    return spots, (max(wide, 1.0), max(top - GAP, 1.0))


def rows_for(drawings: Mapping[str, Drawing], shape: float = 1.35) -> list[list[str]]:
    """Rows of pieces, in their order, so that the whole is about `shape` times as wide as high."""
    boxes = {name: whole_box(d) for name, d in drawings.items()}
    widths = {name: b[2] - b[0] + GAP for name, b in boxes.items()}
    best: tuple[float, list[list[str]]] | None = None
    for limit in sorted({sum(list(widths.values())[: n + 1]) for n in range(len(widths))}):
        rows = _filled(widths, max(limit, max(widths.values())))
        _spots, (wide, high) = table_places(drawings, rows)
        off = max(wide / shape, high)
        if best is None or off < best[0] - 1e-9:
            best = (off, rows)
    return best[1] if best else []


def _filled(widths: Mapping[str, float], limit: float) -> list[list[str]]:
    rows: list[list[str]] = []
    left = limit
    for name, wide in widths.items():
        if not rows or left < wide - 1e-6:
            rows.append([])
            left = limit
        rows[-1].append(name)
        left -= wide
    return rows
