"""A student follows the lesson of the flounced dress with ruler and paper, and gets the same lengths.

Everything the student knows is read from the printed sheet: sentences, ruler figures, where to
slash and how far to open. The pattern itself is looked at only in the end, to compare.
"""

from __future__ import annotations

import cmath
import math
import re
from functools import cache

import numpy as np
import pytest
from scipy.interpolate import CubicSpline

from cutwright.pattern.edge import Ref
from cutwright.worksheet.lesson import exercises, lesson_data
from cutwright.worksheet.sheet import Sheet, Table, Text
from tests.worksheet.sheets import BODIES, worked

STYLE = "orchard-dress"
NEAR = 0.2
"""How far a length made by hand may lie from the pattern's, cm."""


@cache
def lesson(body: str) -> Sheet:
    return lesson_data(worked(STYLE, body))


def _texts(sheet: Sheet, key: str, kind: str) -> list[str]:
    return [b.text for b in sheet.section(key).blocks if isinstance(b, Text) and b.kind == kind]


def _points(sheet: Sheet, step: int, head: str) -> dict[str, list[complex]]:
    """The ruler figures of a table: places by their words, in order."""
    out: dict[str, list[complex]] = {}
    for table in sheet.section(f"step-{step}").blocks:
        if isinstance(table, Table) and table.head[0] == head:
            for words, across, down in table.rows:
                x, y = (float(str(cell).replace("−", "-")) for cell in (across, down))
                out.setdefault(str(words), []).append(complex(x, y))
    assert out, head
    return out


def _bent(points: list[complex]) -> float:
    """The length of a smooth curve laid through places, as with a flexible ruler."""
    chord = np.concatenate([[0.0], np.cumsum(np.abs(np.diff(points)))])
    curve = CubicSpline(chord, np.array(points))
    places = curve(np.linspace(0, chord[-1], 400))
    return float(np.abs(np.diff(places)).sum())


def _step(sheet: Sheet, beginning: str, piece: str = "") -> int:
    """The number of the step whose sentence begins so and names a piece."""
    for count in range(1, 40):
        said = _texts(sheet, f"step-{count}", "sentence")[0]
        if said.startswith(beginning) and piece in said:
            return count
    raise AssertionError(beginning)


def _numbers(text: str) -> list[float]:
    return [float(n) for n in re.findall(r"\d+(?:\.\d+)?", text)]


def _waist_to_hem(sheet: Sheet, name: str) -> tuple[list[complex], list[complex], complex]:
    """A skirt half cut off at the waist by hand: its hem, its dart's mouth and the dart's point."""
    points = _points(sheet, 1, name)
    centre = "Centre front meets hem" if name == "Front" else "Hem meets centre back"
    side = "Hem meets side" if name == "Front" else "Side meets hem"
    row = [points[f"Hem, {p} % along"][0] for p in (25, 50, 75)]
    hem = [points[centre][0], *(row if name == "Front" else row[::-1]), points[side][0]]
    apart = _points(sheet, _step(sheet, "Cut front"), f"Skirt {name.lower()}: waist")
    mouth = apart["Waist dart, mouth on the waist"]
    return hem, mouth, points["Waist dart, lower point"][0]


def _close(hem: list[complex], mouth: list[complex], point: complex, left: float = 0.0) -> float:
    """Close the dart about its point but for what stays open: how far the hem opens below it."""
    angle = abs(cmath.phase((mouth[1] - point) / (mouth[0] - point)))
    angle -= 2 * math.asin(left / 2 / abs(mouth[0] - point))
    below = min(hem, key=lambda p: abs(p.real - point.real))
    far = abs(complex(point.real, below.imag) - point)
    return 2 * far * math.sin(angle / 2)


def _hem_by_hand(sheet: Sheet, side: str) -> float:
    """The hem of a skirt half: drawn by ruler, its dart closed, slashed and opened as printed."""
    hem, mouth, point = _waist_to_hem(sheet, side)
    piece = f"skirt {side.lower()}"
    line = _texts(sheet, f"step-{_step(sheet, 'Close', piece)}", "sum")[0]
    left = re.search(r"(\d+\.\d+) of the mouth stay open", line)
    opened = _close(hem, mouth, point, float(left[1]) if left else 0.0)
    assert opened == pytest.approx(_numbers(line.partition("open ")[2])[0], abs=NEAR)
    said = _texts(sheet, f"step-{_step(sheet, 'Slash', piece)}", "sentence")[0]
    lines, by = _numbers(said)[:2]
    return _bent(hem) + opened + lines * by


@pytest.mark.parametrize("body", BODIES)
@pytest.mark.parametrize("side", ["Front", "Back"])
def test_the_hem_of_the_skirt_comes_out_the_same(body: str, side: str) -> None:
    mine = _hem_by_hand(lesson(body), side)
    real = worked(STYLE, body).replay.pattern.length(Ref(f"skirt {side.lower()}", "hem"))
    assert mine == pytest.approx(real, abs=NEAR)


@pytest.mark.parametrize("body", BODIES)
def test_the_neckline_comes_out_the_same(body: str) -> None:
    sheet, pattern = lesson(body), worked(STYLE, body).replay.pattern
    step = _step(sheet, "Draw a round neckline")
    for piece in ("front", "back"):
        places = _points(sheet, step, f"{piece.capitalize()}: neckline")
        mine = _bent([p for row in places.values() for p in row])
        assert mine == pytest.approx(pattern.length(Ref(piece, "neckline")), abs=NEAR)


@pytest.mark.parametrize("body", BODIES)
def test_the_flounces_come_out_the_same(body: str) -> None:
    """From the edges the student measured on the own paper, by the sums of the sheet alone."""
    sheet, pattern = lesson(body), worked(STYLE, body).replay.pattern
    hems = [round(_hem_by_hand(sheet, side), 1) for side in ("Front", "Back")]
    gather = _texts(sheet, f"step-{_step(sheet, 'Gather')}", "sentence")[0]
    ratio, depth = _numbers(gather)[:2]
    sums = {e.what: e.worked for e in exercises(sheet)}
    whole = round(sum(hems) * 2, 1) * ratio
    printed = _numbers(sums["Length of the hem flounce"])
    assert whole == pytest.approx(printed[-2], abs=2 * 2 * NEAR * ratio)
    parts = re.search(r"÷ (\d+) parts", sums["Each part of the hem flounce"])
    each = math.ceil(printed[-1] / int(parts[1] if parts else 1) - 1e-9)
    assert each == pytest.approx(pattern.length(Ref("hem flounce", "top")), abs=NEAR)
    assert depth == pytest.approx(pattern.length(Ref("hem flounce", "right end")), abs=NEAR)
    neckline = _texts(sheet, f"step-{_step(sheet, 'Slash a neck')}", "sentence")[0]
    depth = _numbers(neckline)[0]
    neck = _numbers(sums["Sewn edge of the neck flounce"])[-1]
    assert neck == pytest.approx(pattern.length(Ref("neck flounce", "top")), abs=NEAR)
    assert depth == pytest.approx(pattern.length(Ref("neck flounce", "right end")), abs=NEAR)


def test_a_wrong_figure_on_the_sheet_would_show() -> None:
    """The same dart read a centimetre too narrow opens the hem by more than is let pass."""
    hem, mouth, point = _waist_to_hem(lesson("the-alto"), "Front")
    narrow = [mouth[0], mouth[1] + (mouth[0] - mouth[1]) / abs(mouth[0] - mouth[1])]
    assert abs(_close(hem, mouth, point) - _close(hem, narrow, point)) > 5 * NEAR
