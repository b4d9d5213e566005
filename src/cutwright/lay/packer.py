"""A second packer for many pieces on a single layer, beside our own search.

spyrrow packs free pieces well, but knows no fold, stripe, pin or choice of hand, and counts only
in whole seconds. It is given what it can do, in a process that can be ended; what comes back is
held against our own lay (`together`). The verifier sees all of them.
"""

from __future__ import annotations

import json
import math
import subprocess
import sys
import threading
from collections import Counter
from collections.abc import Iterator
from queue import Empty, SimpleQueue
from typing import Any

import numpy as np

from cutwright.lay.task import LayTask, Places

_OVER_HEIGHT = 1e-4
"""Relative room above the tallest piece that the packer needs to accept an exact fit."""


def can_pack(task: LayTask) -> bool:
    """Whether every piece is free: no pin, no lattice, no fold, one hand, an outline that is sound."""
    from shapely import Polygon

    for item in task.items:
        if item.pin is not None or len({task.shapes[s].turn.mirrored for s in item.shapes}) > 1:
            return False
    for shape in task.shapes:
        fixed = shape.xstep or shape.ystep
        reach = shape.y1 - shape.y0 + float(np.ptp(shape.ring[:, 1]))
        outline = Polygon(shape.ring)
        if fixed or reach < task.height - 1e-6 or not outline.is_valid or outline.area < 1e-6:
            return False
        if not np.isfinite(shape.ring).all():
            return False
    return True


class Packer:
    """The packer at work in its own process; `lays` gives what has come so far."""

    def __init__(self, task: LayTask, seconds: int, seed: int, workers: int) -> None:
        self.task = task
        self.kinds = list(Counter(item.shapes for item in task.items).items())
        self.came: SimpleQueue[Places] = SimpleQueue()
        self.fault: str | None = None
        self.dismissed = False
        self.process = subprocess.Popen(
            [sys.executable, "-m", "cutwright.lay.packer_child"],
            stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL,
            text=True, start_new_session=True,
        )  # fmt: skip
        self.reader = threading.Thread(target=self._read, daemon=True)
        self.reader.start()
        if self.process.stdin is not None:
            try:
                self.process.stdin.write(json.dumps(self._request(seconds, seed, workers)) + "\n")
                self.process.stdin.close()
            except OSError as fault:
                self.fault = str(fault)

    def _request(self, seconds: int, seed: int, workers: int) -> dict[str, Any]:
        items = []
        for shapes, count in self.kinds:
            first = self.task.shapes[shapes[0]]
            angles = [
                math.degrees(self.task.shapes[s].turn.angle - first.turn.angle) for s in shapes
            ]
            ring = first.ring - first.ring.min(axis=0)
            items.append(
                {"ring": ring.tolist(), "count": count, "angles": [a % 360 for a in angles]}
            )
        height = self.task.height * (1 + _OVER_HEIGHT)
        return {
            "items": items, "height": height, "seconds": max(1, seconds), "seed": seed,
            "workers": max(1, workers),
        }  # fmt: skip

    def _read(self) -> None:
        """Take the lays as they come, until the process ends."""
        if self.process.stdout is None:
            return
        for line in self.process.stdout:
            try:
                said = json.loads(line)
                if "fault" in said:
                    self.fault = str(said["fault"])
                else:
                    self.came.put(self._places(said["places"]))
            except (ValueError, KeyError, IndexError, StopIteration):
                self.fault = "the packer's answer could not be read"

    def _places(self, laid: list[list[float]]) -> Places:
        """The packer's placements in the order of our items."""
        waiting: dict[tuple[int, ...], list[int]] = {}
        for i, item in enumerate(self.task.items):
            waiting.setdefault(item.shapes, []).append(i)
        done: dict[int, tuple[int, float, float]] = {}
        for kind, degrees, x, y in laid:
            shapes = self.kinds[int(kind)][0]
            i = waiting[shapes].pop()
            first = self.task.shapes[shapes[0]]
            want = first.turn.angle + math.radians(degrees)
            s = min(shapes, key=lambda k: abs(_round(self.task.shapes[k].turn.angle - want)))
            low = first.ring.min(axis=0)
            turn = self.task.shapes[s].turn.angle - first.turn.angle
            moved = complex(-low[0], -low[1]) * complex(math.cos(turn), math.sin(turn))
            place = self.task.shapes[s]
            top = min(max(y + moved.imag, place.y0), place.y1)
            done[i] = (s, max(x + moved.real, place.x0), top)
        order = [done[i] for i in range(len(self.task.items))]
        ends = [x + float(self.task.shapes[s].ring[:, 0].max()) for s, x, _y in order]
        return Places(
            tuple(s for s, _x, _y in order), tuple(x for _s, x, _y in order),
            tuple(y for _s, _x, y in order), max(ends),
        )  # fmt: skip

    def lays(self) -> Iterator[Places]:
        """What has come since last asked."""
        while True:
            try:
                yield self.came.get_nowait()
            except Empty:
                return

    @property
    def failed(self) -> bool:
        """Whether it ended by itself before its work was done."""
        ended = not self.working and not self.dismissed and self.process.returncode != 0
        return self.fault is not None or ended

    @property
    def working(self) -> bool:
        """Whether the process still runs."""
        return self.process.poll() is None

    def end(self) -> None:
        """End the process, whatever it is doing, and take what it still had to say."""
        if self.process.poll() is None:
            self.dismissed = True
            self.process.kill()
        self.process.wait()
        self.reader.join(timeout=2.0)
        if self.process.stdout is not None:
            self.process.stdout.close()


def _round(angle: float) -> float:
    return (angle + math.pi) % (2 * math.pi) - math.pi
