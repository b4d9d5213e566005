"""Instructions of the processor that the usual work takes, counted by valgrind's cachegrind.

`python -m benchmarks.instructions` prints one JSON line with million instructions for a full replay, for a change of
a number in the first, a middle and the last sentence of the ready-made dress on top of it, and for steps done over and
over; beside each the ratio to shapely's mitred buffer of the same outlines, counted alike. Counts do not depend on what
else the machine does: run to run they differ by less than one in fifty. The child process brings everything up once and
forks for each count, so that starting is never counted.
"""

from __future__ import annotations

import gc
import json
import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path

import shapely

from benchmarks.bench import BODY, STYLE, forget, full
from cutwright.geometry.outline import polygon
from cutwright.style.document import Style, parse_step
from cutwright.style.replay import replay
from cutwright.style.step import Step
from cutwright.workshop.gallery import load_body, load_style
from cutwright.workshop.work import Work

TIMES = 4
"""Each task is done this often, each time with another number."""
CHANGES = {"first": (0, "length", 52.0), "middle": (6, "by", 4.5), "last": (11, "depth", 17.0)}
"""The sentence (from 0), its field and the number that is changed by a millimetre each time."""
REPEATED = 64


def with_number(style: Style, index: int, **fields: float) -> Style:
    """The style with numbers of one of its sentences changed."""
    steps = (
        *style.steps[:index],
        style.steps[index].replaced(**fields),
        *style.steps[index + 1 :],
    )
    return Style(style.name, steps, style.about)


def tasks() -> dict[str, Callable[[], None]]:
    """What is counted, by name; each does its work `TIMES` times but for the growth, done once."""
    style, body = load_style(STYLE), load_body(BODY)
    work = full(style, body)
    rings = [polygon(p.outline) for p in work.replay.pattern.pieces]

    def anew() -> None:
        forget()
        full(style, body)

    found: dict[str, Callable[[], None]] = {
        "nothing": lambda: None,
        "yardstick": lambda: _buffered(rings),
        "forget": _times(forget),
        "full": _times(anew),
    }
    for what, change in CHANGES.items():
        found[what] = _changer(style, work, *change)
    found |= _growth(style)
    for task in found.values():  # everything once, so that only the work itself is counted
        task()
    full(style, body)
    return found


def _times(task: Callable[[], object]) -> Callable[[], None]:
    def done() -> None:
        for _n in range(TIMES):
            task()

    return done


def _buffered(rings: list[shapely.Polygon]) -> None:
    for _n in range(TIMES):
        for ring in rings:
            shapely.buffer(ring, 1.5, join_style="mitre")


def _changer(style: Style, work: Work, index: int, field: str, value: float) -> Callable[[], None]:
    """Change a number by a millimetre again and again, each time on top of the work before."""
    size = [value]
    last = [work]

    def change() -> None:
        for _n in range(TIMES):
            size[0] += 0.1
            last[0] = full(with_number(style, index, **{field: size[0]}), work.body, last[0])

    return change


def _growth(style: Style) -> dict[str, Callable[[], None]]:
    """A step done over and over, and the same step done as often on paper it was never done on."""
    body = load_body(BODY)
    found: dict[str, Callable[[], None]] = {}
    for name, fields in {
        "spread": {"do": "spread", "piece": "skirt front", "lines": 2, "by": 0.05},
        "lengthen": {"do": "lengthen", "pieces": ["skirt front"], "by": 0.05, "at": "hip"},
    }.items():
        step = parse_step(fields)
        before = replay(style.steps[:6], body).pattern

        def single(step: Step = step, before: object = before) -> None:
            for _n in range(REPEATED):
                step.apply(before, body)  # type: ignore[arg-type]

        def repeated(step: Step = step, before: object = before) -> None:
            pattern = before
            for _n in range(REPEATED):
                pattern = step.apply(pattern, body).pattern  # type: ignore[arg-type]

        found[f"{name}_single"], found[f"{name}_repeated"] = single, repeated
    return found


def counted() -> dict[str, float]:
    """Million instructions of each task, done once, by name; "nothing" is taken off."""
    with tempfile.TemporaryDirectory() as folder:
        out = Path(folder) / "%p.count"
        valgrind = ["valgrind", "-q", "--tool=cachegrind", "--cache-sim=no"]
        child = [sys.executable, "-m", "benchmarks.instructions", "child"]
        done = subprocess.run(
            [*valgrind, f"--cachegrind-out-file={out}", *child],
            check=True,
            capture_output=True,
            text=True,
            env={**os.environ, "PYTHONHASHSEED": "0", "OPENBLAS_NUM_THREADS": "1"},
        )
        counts = {
            name: _read(Path(folder) / f"{number}.count")
            for name, number in json.loads(done.stdout).items()
        }
    nothing = counts.pop("nothing")
    return {
        name: (count - nothing) / 1e6 / (1 if name.endswith(("_single", "_repeated")) else TIMES)
        for name, count in counts.items()
    }


def _read(file: Path) -> int:
    """The sum of a file of cachegrind's."""
    last = next(line for line in file.read_text().splitlines() if line.startswith("summary:"))
    return int(last.split()[1].replace(",", ""))


def child() -> None:
    """Bring everything up, then do each task in a process of its own; print their numbers."""
    numbers: dict[str, int] = {}
    every = tasks()
    gc.collect()
    gc.freeze()
    for name, task in every.items():
        number = os.fork()
        if not number:
            task()
            os._exit(0)
        os.waitpid(number, 0)
        numbers[name] = number
    print(json.dumps(numbers))


def figures() -> dict[str, float]:
    """Million instructions of the whole and of each change, and their ratios to the yardstick."""
    if shutil.which("valgrind") is None:
        raise SystemExit("Counting instructions needs valgrind.")
    found = counted()
    yard = found["yardstick"]
    row: dict[str, float] = {"yardstick_M": yard}
    for name in ("full", *CHANGES):
        count = found[name] - (found["forget"] if name == "full" else 0)
        row |= {f"{name}_M": count, f"{name}_ratio": count / yard}
    for name in ("spread", "lengthen"):
        row[f"{name}_growth"] = found[f"{name}_repeated"] / found[f"{name}_single"]
    return row


if __name__ == "__main__":
    if sys.argv[1:] == ["child"]:
        child()
    else:
        row = {key: round(value, 2) for key, value in figures().items()}
        print(json.dumps({"bench": "instructions", **row}))
