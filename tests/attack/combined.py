"""Steps in chance combinations with chance numbers: done or told as trouble, never unforeseen."""

from __future__ import annotations

import json
import time
from collections.abc import Iterator
from random import Random
from typing import Any

from cutwright.checks.proof import BROKEN
from cutwright.errors import CutwrightError
from cutwright.style.document import parse_style
from cutwright.style.replay import replay
from cutwright.unforeseen import UnforeseenError
from cutwright.workshop.gallery import know_all_steps, load_body, shipped
from cutwright.workshop.packet import document_of
from cutwright.workshop.work import work
from tests.attack.tally import Tally
from tests.operations.rows import ROWS

know_all_steps()
BODIES = ("the-alto", "the-rower", "the-gardener")


def attack(count: int, seed: int) -> Tally:
    """So many styles: a shipped one cut short, more steps after it, numbers pulled about."""
    tally, chance = Tally("combined steps"), Random(seed)
    shipped_styles = [json.loads(path.read_bytes()) for path in shipped("styles").values()]
    for _n in range(count):
        style = _style(chance, chance.choice(shipped_styles))
        body = chance.choice(BODIES)
        raw = json.dumps({"body": body, "style": style}, indent=1).encode()
        began = time.perf_counter()
        try:
            done = work(parse_style(style), load_body(body))
            broken = [str(one.message) for one in done.findings if one.code == BROKEN]
            document_of(done)
            if broken or isinstance(done.trouble, UnforeseenError):
                tally.stumbled(f"{broken[:1]} {done.trouble}", "styles", raw)
            tally.count("done" if done.trouble is None else "told as trouble")
        except CutwrightError:
            tally.count("refused")
        except Exception as fault:
            tally.stumbled(f"{type(fault).__name__}: {fault}", "styles", raw)
        tally.took(time.perf_counter() - began, " ".join(s["do"] for s in style["steps"])[:150])
    return tally


def _style(chance: Random, shipped_style: dict[str, Any]) -> dict[str, Any]:
    steps = json.loads(json.dumps(shipped_style["steps"]))
    steps = steps[: chance.randint(1, len(steps))]
    for _n in range(chance.randint(1, 6)):
        row = chance.choice(ROWS)
        more = {"do": row.do, **json.loads(json.dumps(row.asks))}
        edges = _edges(steps)
        if edges and chance.random() < 0.7:
            _on_other_edges(chance, more, edges)
        if chance.random() < 0.15 or _can_be_done([*steps, more]):
            steps.append(more)
    for _n in range(chance.randint(0, 4)):
        _pull(chance, chance.choice(steps))
    return {"format": 1, "name": "Chance", "steps": steps}


def _edges(steps: list[dict[str, Any]]) -> list[tuple[str, str]]:
    """The edges there are after some steps."""
    style = parse_style({"format": 1, "name": "x", "steps": steps})
    done = replay(style.steps, load_body(BODIES[0]))
    return [(p.name, e.name) for p in done.pattern.pieces for e in p.edges]


def _can_be_done(steps: list[dict[str, Any]]) -> bool:
    try:
        style = parse_style({"format": 1, "name": "x", "steps": steps})
        return replay(style.steps, load_body(BODIES[0])).trouble is None
    except CutwrightError:
        return False


def _on_other_edges(chance: Random, step: dict[str, Any], edges: list[tuple[str, str]]) -> None:
    for holder in list(_holders(step)):
        if "edge" in holder and "piece" in holder:
            holder["piece"], holder["edge"] = chance.choice(edges)
    if isinstance(step.get("piece"), str):
        step["piece"] = chance.choice(edges)[0]


def _holders(value: Any) -> Iterator[dict[str, Any]]:
    if isinstance(value, dict):
        yield value
    for inner in (
        value.values() if isinstance(value, dict) else value if isinstance(value, list) else ()
    ):
        yield from _holders(inner)


def _pull(chance: Random, step: dict[str, Any]) -> None:
    """Pull one number of a step about."""
    numbers = [k for k, v in step.items() if isinstance(v, int | float) and not isinstance(v, bool)]
    if not numbers:
        return
    key = chance.choice(numbers)
    if isinstance(step[key], int):
        step[key] = chance.choice([0, 1, 2, 3, 5, 8, 12, step[key] + 1])
    else:
        step[key] = round(step[key] * chance.choice([0, 0.1, 0.5, 0.9, 1.1, 2, 4]), 2)
