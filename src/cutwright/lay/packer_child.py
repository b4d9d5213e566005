"""The second packer in a process of its own: a request in on one line, lays out line by line.

Run as `python -m cutwright.lay.packer_child`. It is a process because the packer knows no stop,
keeps interrupts to itself and raises what is no ordinary exception when a shape is not to its
liking. Every line out is JSON: {"length": …, "places": [[id, degrees, x, y], …]} or {"fault": …}.
"""

from __future__ import annotations

import contextlib
import json
import os
import sys
import threading
from typing import Any


def main() -> int:
    """Read one request, pack, print every better lay; 0 if all went well."""
    out = os.fdopen(os.dup(1), "w", buffering=1)
    with open(os.devnull, "w") as nowhere:  # noqa: PTH123  (the packer's own talk is not for people)
        os.dup2(nowhere.fileno(), 1)
        os.dup2(nowhere.fileno(), 2)
    try:
        request = json.loads(sys.stdin.readline())
        _pack(request, lambda line: print(json.dumps(line), file=out))
    except BaseException as fault:
        with contextlib.suppress(OSError):
            print(json.dumps({"fault": f"{type(fault).__name__}: {fault}"[:500]}), file=out)
        return 1
    return 0


def _pack(request: dict[str, Any], tell: Any) -> None:
    import spyrrow

    items = [
        spyrrow.Item(
            str(k), [(float(x), float(y)) for x, y in item["ring"]], item["count"], item["angles"]
        )
        for k, item in enumerate(request["items"])
    ]
    instance = spyrrow.StripPackingInstance("lay", request["height"], items)
    config = spyrrow.StripPackingConfig(
        early_termination=False,
        total_computation_time=request["seconds"],
        num_workers=request["workers"],
        seed=request["seed"],
    )
    queue = spyrrow.ProgressQueue()
    sound = (spyrrow.ReportType.ExplFeas, spyrrow.ReportType.CmprFeas, spyrrow.ReportType.Final)
    best = [float("inf")]
    done = threading.Event()

    def drain() -> None:
        lays = [lay for kind, lay in queue.drain() if kind in sound]
        if lays:
            lay = min(lays, key=lambda found: found.width)
            if lay.width < best[0]:
                best[0] = lay.width
                tell(_line(lay))

    def watch() -> None:
        while not done.wait(0.25):
            drain()

    watcher = threading.Thread(target=watch, daemon=True)
    watcher.start()
    try:
        last = instance.solve(config, progress=queue)
    finally:
        done.set()
        watcher.join()
    drain()
    if last.width < best[0]:
        tell(_line(last))


def _line(lay: Any) -> dict[str, Any]:
    places = [[int(p.id), p.rotation, p.translation[0], p.translation[1]] for p in lay.placed_items]
    return {"length": lay.width, "places": places}


if __name__ == "__main__":
    raise SystemExit(main())
