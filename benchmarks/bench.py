"""How long the usual work takes, as ratios to a yardstick timed in the same run.

The yardstick is shapely's mitred buffer of the same outlines (flattened as the proof flattens them), so that a
figure says more of the program than of the machine. What runs inside this process (replay, paper) is timed by the
processor's clock, so that other work on the machine does not count; only whole processes (start, survey) are timed
by the clock on the wall (survey: by both). What is compared runs in turn, round by round. Emptying the caches before a full replay is
not timed. Run with `make bench`.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from functools import _lru_cache_wrapper
from pathlib import Path
from statistics import median
from types import FunctionType
from typing import Any

import shapely

from cutwright.body.survey import read_survey
from cutwright.drawing.svg import svg_items
from cutwright.geometry.outline import polygon
from cutwright.paper.pieces import Title
from cutwright.paper.sheet import write_sheet
from cutwright.paper.tiles import write_tiles
from cutwright.style.document import Style
from cutwright.workshop.gallery import load_body, load_style
from cutwright.workshop.packet import placed
from cutwright.workshop.survey import survey
from cutwright.workshop.work import Work, work

STYLE, BODY = "orchard-dress", "the-alto"
_KEPT = frozenset({"_catalogue", "_advances"})  # what is read from files once


@dataclass(frozen=True, slots=True)
class Timed:
    """What is timed, what is done untimed before each run, and the clock that times it."""

    task: Callable[[], Any]
    before: Callable[[], None] = lambda: None
    clock: Callable[[], float] = time.process_time

    def once(self) -> float:
        """One run, in ms."""
        self.before()
        start = self.clock()
        self.task()
        return (self.clock() - start) * 1e3


def in_turn(tasks: Sequence[Timed], rounds: int = 9) -> list[float]:
    """The median of each task in ms; each runs once to warm up, then all in turn, round by round.

    A machine that grows slower or faster meanwhile does so for all of them.
    """
    for task in tasks:
        task.once()
    times = [[task.once() for task in tasks] for _round in range(rounds)]
    return [median(column) for column in zip(*times, strict=True)]


def forget() -> None:
    """Empty every memory of earlier work, so that a full replay starts from nothing."""
    for name, module in list(sys.modules.items()):
        if name.startswith("cutwright."):
            for value in list(vars(module).values()):
                if (
                    isinstance(value, FunctionType | _lru_cache_wrapper)
                    and hasattr(value, "cache_clear")
                    and value.__name__ not in _KEPT
                ):
                    value.cache_clear()


def full(style: Style, body: Any, earlier: Work | None = None) -> Work:
    """Draft, work, finish, draw and prove everything; anew where all was forgotten before."""
    done = work(style, body, earlier=earlier)
    assert done.proof.checked
    for _name, drawing in done.drawings():
        svg_items(drawing)
    return done


def changed(style: Style, body: Any, earlier: Work, depth: float) -> Work:
    """The same style with the depth of its hem flounce changed, on top of earlier work."""
    steps = tuple(s.replaced(depth=depth) if s.name == "hem flounce" else s for s in style.steps)
    return full(Style(style.name, steps, style.about), body, earlier)


YARDS = 10
"""The yardstick is laid this often in a row, so that it, too, is timed warm."""


def replay_figures() -> dict[str, float]:
    """Full replay and a change in the last third on top of it, against the buffer of the same outlines."""
    style, body = load_style(STYLE), load_body(BODY)
    done = [full(style, body)]
    rings = [polygon(p.outline) for p in done[0].replay.pattern.pieces]
    depths = (20 + n * 0.01 for n in range(1000))

    def yardstick() -> None:
        for _n in range(YARDS):
            for ring in rings:
                shapely.buffer(ring, 1.5, join_style="mitre")

    def anew() -> None:
        done[0] = full(style, body)

    yards, whole, part = in_turn(
        [
            Timed(yardstick),
            Timed(anew, before=forget),
            Timed(lambda: changed(style, body, done[0], next(depths))),
        ],
        25,
    )
    yard = yards / YARDS
    return {
        "yardstick_ms": yard,
        "full_ms": whole,
        "full_ratio": whole / yard,
        "change_ms": part,
        "change_ratio": part / yard,
    }


def paper_figures() -> dict[str, float]:
    """Tiles against the single sheet."""
    done = work(load_style(STYLE), load_body(BODY))
    pieces = placed(done)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "x.pdf"
        title = Title(style="bench", made=date(2026, 1, 1))
        sheet, tiles = in_turn(
            [
                Timed(lambda: write_sheet(pieces, 90.0, path, title)),
                Timed(lambda: write_tiles(pieces, "A4", path, title)),
            ]
        )
    return {"sheet_ms": sheet, "tiles_ms": tiles, "tiles_ratio": tiles / sheet}


def survey_figures(bodies: Path) -> dict[str, float]:
    """The survey on two processes against one: by the clock, and by the processor's time.

    The latter tells what the clock would, were both processors free and no work waited for.
    """
    cards = list(read_survey(bodies))[:160]
    if len(cards) < 160:
        cards = (cards * (160 // len(cards) + 1))[:160]
    styles = [load_style("flared-skirt"), load_style(STYLE)]
    walls, spent = [], []
    for workers in (1, 2):
        start, before = time.perf_counter(), _processor()
        survey(styles, cards, workers)
        walls.append(time.perf_counter() - start)
        spent.append(_processor() - before)
    return {
        "survey_one_s": walls[0],
        "survey_two_s": walls[1],
        "survey_speedup": walls[0] / walls[1],
        "survey_one_cpu_s": spent[0],
        "survey_two_cpu_s": spent[1],
        "survey_speedup_alone": 2 * spent[0] / spent[1],
    }


def _processor() -> float:
    """Processor's time of this process and of those that it started and that have ended, s."""
    return sum(os.times()[:4])


def start_figures() -> dict[str, float]:
    """`cutwright --help` against `import numpy`, each in a fresh process."""

    def run(*arguments: str) -> Callable[[], Any]:
        return lambda: subprocess.run([sys.executable, *arguments], check=True, capture_output=True)

    wall = time.perf_counter
    own, numpy = in_turn(
        [
            Timed(run("-m", "cutwright", "--help"), clock=wall),
            Timed(run("-c", "import numpy"), clock=wall),
        ]
    )
    return {"help_ms": own, "numpy_ms": numpy, "help_ratio": own / numpy}


def main() -> None:
    """Print every figure, one JSON line a group."""
    large = Path(os.environ.get("CUTWRIGHT_BODIES", "")) / "ansur2_female.csv"
    bodies = large if large.exists() else Path("tests/survey/sample.csv")
    groups: list[tuple[str, Callable[[], dict[str, float]]]] = [
        ("start", start_figures),
        ("replay", replay_figures),
        ("paper", paper_figures),
        ("survey", lambda: survey_figures(bodies)),
    ]
    wanted = set(sys.argv[1:])
    for name, group in groups:
        if wanted and name not in wanted:
            continue
        row = {key: round(value, 3) for key, value in group().items()}
        print(json.dumps({"bench": name, **row}), flush=True)


if __name__ == "__main__":
    main()
