"""How long the usual work takes, as ratios to a yardstick timed in the same run.

The yardstick is shapely's mitred buffer of the same outlines (flattened as the proof flattens them), so that a
figure says more of the program than of the machine. What runs inside this process (replay, paper) is timed by the
processor's clock, so that other work on the machine does not count; only whole processes (start, survey) are timed
by the clock on the wall. Emptying the caches before a full replay is not timed. Run with `make bench`.
"""

from __future__ import annotations

import json
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import date
from pathlib import Path
from statistics import median
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


def timed(
    task: Callable[[], Any],
    rounds: int = 15,
    before: Callable[[], None] = lambda: None,
    clock: Callable[[], float] = time.process_time,
) -> tuple[float, float]:
    """Best and median of several runs, in ms, each after an untimed `before`; one run first to warm up."""
    task()
    times = []
    for _round in range(rounds):
        before()
        start = clock()
        task()
        times.append((clock() - start) * 1e3)
    return min(times), median(times)


def forget() -> None:
    """Empty every memory of earlier work, so that a full replay starts from nothing."""
    for name, module in list(sys.modules.items()):
        if name.startswith("cutwright."):
            for value in list(vars(module).values()):
                if hasattr(value, "cache_clear") and value.__name__ not in _KEPT:
                    value.cache_clear()


def full(style: Style, body: Any) -> Work:
    """Draft, work, prove, finish and draw everything; anew where all was forgotten before."""
    done = work(style, body)
    for _name, drawing in done.drawings():
        svg_items(drawing)
    return done


def changed(style: Style, body: Any, earlier: Work, depth: float) -> Work:
    """The same style with the depth of its hem flounce changed, on top of earlier work."""
    steps = tuple(
        s.replaced(depth=depth) if s.name == "hem flounce" else s for s in style.steps
    )
    done = work(Style(style.name, steps, style.about), body, earlier=earlier)
    for _name, drawing in done.drawings():
        svg_items(drawing)
    return done


def replay_figures() -> dict[str, float]:
    """Full replay and a change in the last third, against the buffer of the same outlines."""
    style, body = load_style(STYLE), load_body(BODY)
    done = full(style, body)
    rings = [polygon(p.outline) for p in done.replay.pattern.pieces]
    yard = timed(lambda: [shapely.buffer(r, 1.5, join_style="mitre") for r in rings], 40)
    whole = timed(lambda: full(style, body), before=forget)
    count = iter(range(10_000))
    part = timed(lambda: changed(style, body, done, 20 + next(count) * 0.01))
    return {
        "yardstick_ms": yard[1],
        "full_ms": whole[1],
        "full_ratio": whole[1] / yard[1],
        "change_ms": part[1],
        "change_ratio": part[1] / yard[1],
        "full_best_ratio": whole[0] / yard[0],
        "change_best_ratio": part[0] / yard[0],
    }


def paper_figures() -> dict[str, float]:
    """Tiles against the single sheet."""
    done = work(load_style(STYLE), load_body(BODY))
    pieces = placed(done)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "x.pdf"
        title = Title(style="bench", made=date(2026, 1, 1))
        sheet = timed(lambda: write_sheet(pieces, 90.0, path, title), 7)
        tiles = timed(lambda: write_tiles(pieces, "A4", path, title), 7)
    return {"sheet_ms": sheet[1], "tiles_ms": tiles[1], "tiles_ratio": tiles[1] / sheet[1]}


def survey_figures(bodies: Path) -> dict[str, float]:
    """The survey on two processes against one."""
    cards = list(read_survey(bodies))[:160]
    if len(cards) < 160:
        cards = (cards * (160 // len(cards) + 1))[:160]
    styles = [load_style("flared-skirt"), load_style(STYLE)]
    times = []
    for workers in (1, 2):
        start = time.perf_counter()
        survey(styles, cards, workers)
        times.append(time.perf_counter() - start)
    return {"survey_one_s": times[0], "survey_two_s": times[1], "survey_speedup": times[0] / times[1]}


def start_figures() -> dict[str, float]:
    """`cutwright --help` against `import numpy`, each in a fresh process."""
    def run(*arguments: str) -> Callable[[], Any]:
        return lambda: subprocess.run([sys.executable, *arguments], check=True, capture_output=True)

    wall = time.perf_counter
    own = timed(run("-m", "cutwright", "--help"), 7, clock=wall)
    numpy = timed(run("-c", "import numpy"), 7, clock=wall)
    return {"help_ms": own[1], "numpy_ms": numpy[1], "help_ratio": own[1] / numpy[1]}


def main() -> None:
    """Print every figure, one JSON line a group."""
    shared = Path("../shared/body-data/ansur2_female.csv")
    bodies = shared if shared.exists() else Path("tests/survey/sample.csv")
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
