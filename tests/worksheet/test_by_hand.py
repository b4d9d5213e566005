"""A student follows the lesson of the flounced dress with ruler and paper, and gets the same lengths.

Everything the student knows is read from the printed sheet: sentences, ruler figures, where to
slash and how far to open, the length that a redrawn line must have. The pattern itself is looked at
only in the end, to compare. A length that is multiplied is first held against the one printed, as
the sheet asks: a line that is out by more than a ruler can help would be found there.
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
from cutwright.pattern.sum import Rounded
from cutwright.worksheet.lesson import exercises, lesson_data
from cutwright.worksheet.sheet import Sheet, SheetTable, Text
from tests.worksheet.sheets import BODIES, worked

STYLE = "orchard-dress"
NEAR = 0.2
"""How far a length made by hand may lie from the pattern's, cm."""

RULER = 0.1
"""How far a curve laid through places to the millimetre may be out, cm."""


@cache
def lesson(body: str) -> Sheet:
    return lesson_data(worked(STYLE, body))


def _texts(sheet: Sheet, key: str, kind: str) -> list[str]:
    return [b.text for b in sheet.section(key).blocks if isinstance(b, Text) and b.kind == kind]


def _points(sheet: Sheet, step: int, head: str) -> dict[str, list[complex]]:
    """The ruler figures of a table: places by their words, in order."""
    out: dict[str, list[complex]] = {}
    for table in (*sheet.section(f"step-{step}").blocks, *sheet.section("answers").blocks):
        if isinstance(table, SheetTable) and table.head[0] == head:
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
    row = [at for words, places in points.items() if words.startswith("Hem, ") for at in places]
    hem = [points[centre][0], *(row if name == "Front" else row[::-1]), points[side][0]]
    apart = _points(sheet, _step(sheet, "Cut front"), f"Waist of skirt {name.lower()}")
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
    return _bent(hem) + opened + lines * by + _balanced(sheet, f"Skirt {side.lower()}: ")


def _balanced(sheet: Sheet, piece: str) -> float:
    """What balancing the flare opens at the hem of a skirt half, or folds out of it."""
    lines = [
        line.removeprefix(piece)
        for line in _texts(sheet, f"step-{_step(sheet, 'Balance')}", "sum")
        if line.startswith(piece)
    ]
    opened = sum(_numbers(t.partition("open ")[2])[0] for t in lines if t.startswith("slash"))
    folded = sum(_numbers(line)[0] for line in lines if line.startswith("fold"))
    return opened - folded


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
        places = _points(sheet, step, f"Neckline of {piece}")
        mine = _bent([p for row in places.values() for p in row])
        assert mine == pytest.approx(pattern.length(Ref(piece, "neckline")), abs=NEAR)


def _redrawn_hem(sheet: Sheet, side: str) -> float:
    """The hem of a skirt half once balanced: drawn by ruler, then trued to the length printed."""
    step = _step(sheet, "Balance")
    places = _points(sheet, step, f"Hem of skirt {side}")
    mine = _bent([p for row in places.values() for p in row])
    said = next(
        e
        for e in exercises(sheet)
        if e.what == f"Hem of skirt {side}" and e.blanks[0].key.startswith(f"s{step}.")
    )
    printed = _numbers(said.worked)[-1]
    assert mine == pytest.approx(printed, abs=RULER + 0.05)  # the figure is read to the millimetre
    return printed


@pytest.mark.parametrize("body", BODIES)
def test_the_flounce_of_the_hem_comes_out_the_same(body: str) -> None:
    """From the student's own redrawn hems, by the sums of the sheet, to 0.2 before any rounding."""
    sheet, done = lesson(body), worked(STYLE, body).replay
    hems = [_redrawn_hem(sheet, side) for side in ("front", "back")]
    step = _step(sheet, "Cut the hem flounce")
    told = next(t for t in _texts(sheet, f"step-{step}", "note") if t.startswith("Measured"))
    assert (
        _numbers(told) == hems
    )  # the sheet names the edges that are measured, each with its length
    depth, ratio = _numbers(_texts(sheet, f"step-{step}", "sentence")[0])[:2]
    whole = round(sum(hems) * 2, 1) * ratio
    figure = next(f for f in done.figures if f.code == "flounce-length")
    assert isinstance(figure.term, Rounded)
    before_rounding = figure.term.term.value
    assert whole == pytest.approx(before_rounding, abs=NEAR)
    assert whole == pytest.approx(
        ratio * 2 * sum(done.pattern.length(Ref(f"skirt {s}", "hem")) for s in ("front", "back")),
        abs=2 * 2 * 0.05 * ratio + 1e-9,  # what a tape read to the millimetre leaves open
    )
    sums = {e.what: e.worked for e in exercises(sheet)}
    rounded = _numbers(sums["Length of the hem flounce"].partition("→")[2])[0]
    assert whole <= rounded < whole + 10
    parts = re.search(r"÷ (\d+) parts", sums.get("Each part of the hem flounce", ""))
    each = math.ceil(rounded / int(parts[1] if parts else 1) - 1e-9)
    pattern = done.pattern
    assert each == pytest.approx(pattern.length(Ref("hem flounce", "top")), abs=NEAR)
    assert depth == pytest.approx(pattern.length(Ref("hem flounce", "right end")), abs=NEAR)


@pytest.mark.parametrize("body", BODIES)
def test_the_flounce_of_the_neck_comes_out_the_same(body: str) -> None:
    """Drawn from its ruler figures: the sewn edge, the free edge and the ends."""
    sheet, pattern = lesson(body), worked(STYLE, body).replay.pattern
    step = _step(sheet, "Slash a neck")
    depth = _numbers(_texts(sheet, f"step-{step}", "sentence")[0])[0]
    sums = {e.what: e.worked for e in exercises(sheet)}
    sewn = _numbers(sums["Edges the neck flounce is sewn to, all round"])[-1]
    assert sewn == pytest.approx(pattern.length(Ref("neck flounce", "top")), abs=NEAR)
    assert depth == pytest.approx(pattern.length(Ref("neck flounce", "right end")), abs=NEAR)
    rows = [(words, at) for words, p in _points(sheet, step, "Neck flounce").items() for at in p]
    corner = {words: at for words, at in rows if "meets" in words}
    for name, ends in (("top", ("Left end meets top", "Top meets right end")),
                       ("hem", ("Right end meets hem", "Hem meets left end"))):  # fmt: skip
        between = [at for words, at in rows if words.startswith(f"{name.capitalize()}, ")]
        mine = _bent([corner[ends[0]], *between, corner[ends[1]]])
        assert mine == pytest.approx(pattern.length(Ref("neck flounce", name)), abs=NEAR)


def test_a_wrong_figure_on_the_sheet_would_show() -> None:
    """The same dart read a centimetre too narrow opens the hem by more than is let pass."""
    hem, mouth, point = _waist_to_hem(lesson("the-alto"), "Front")
    narrow = [mouth[0], mouth[1] + (mouth[0] - mouth[1]) / abs(mouth[0] - mouth[1])]
    assert abs(_close(hem, mouth, point) - _close(hem, narrow, point)) > 5 * NEAR
