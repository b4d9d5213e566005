"""The search for a short lay: shorten the cloth a little, pull the pieces apart, again and again.

A first lay by boxes comes at once; for few pieces the order of putting them down is annealed
(`ordering`). Then the cloth is shortened step by step while the pieces can
still be pulled apart (`separate`); where they cannot, two pieces change places and it is tried
again; the last part of the budget squeezes the best lay by ever smaller steps. The budget
counts places tried, so one seed gives the same lay each time; only a time limit breaks that.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from random import Random

import numpy as np
from numpy.typing import NDArray

from cutwright.lay.compact import Compactor
from cutwright.lay.first import first_lay
from cutwright.lay.nofit import tables
from cutwright.lay.task import LayTask, Places

_TRIES, _TRIES_OF_MANY, _MANY = (10, 5, 10), (20, 10, 20), 40
"""Places tried for a piece in one move: anywhere, near where it lies, at corners of others.

Twice as many with more than 40 pieces: measured, longer looks pay there. Only so many are moved
together: with 24, measured, it gains nothing.
"""
_PATIENCE = 100
_TOGETHER = 100_000
"""Places' worth of moving all pieces at once that are allowed beyond a quarter of what was tried."""
_TOUCHING = 8e-4
"""Overlaps of this depth all together (cm) are rounding, after all pieces were moved at once."""
_FEW, _FEW_FREE = 60, 20
"""Up to so many pieces their order is annealed first; with no fold or stripe it pays only for few."""
_ANNEALING, _SQUEEZING = 0.75, 0.9
_EXPLORING = 0.8
"""Shares of the budget at which annealing ends and squeezing starts; without annealing, at 0.8."""
_WIDEST_STEP, _SMALLEST_STEP = 0.02, 0.001
_CHUNK = 2_000_000
"""Places tried before a stop or the end of the time is heard; fewer with many pieces, where each takes longer."""


@dataclass(slots=True)
class Budget:
    """How long to search: places tried, a limit in seconds on top of it, and a way to stop.

    Source of the default: measured, about ten seconds of one processor.
    """

    places: int = 10_000_000
    seconds: float | None = None
    stop: Callable[[], bool] = lambda: False
    used: int = 0
    _since: float = field(default_factory=time.monotonic)

    def share(self) -> float:
        """How much of the budget is gone, 0 to 1 and more."""
        share = self.used / max(self.places, 1)
        if self.seconds is not None:
            share = max(share, (time.monotonic() - self._since) / max(self.seconds, 1e-9))
        return share

    def left(self, share: float = 1.0) -> int:
        """How many places of this share may still be tried, 1 at least."""
        return max(int(self.places * share) - self.used, 1)

    def spent(self, share: float = 1.0) -> bool:
        """Whether this share of it is gone, or somebody asked to stop."""
        return self.stop() or self.share() >= share


def prepared() -> bool:
    """Whether the search is compiled in this process; the first time on a machine takes a while."""
    names = {"cutwright.lay.anneal": "anneal", "cutwright.lay.separate": "separate"}
    kernels = [getattr(sys.modules.get(module), name, None) for module, name in names.items()]
    return any(kernel is not None and kernel.signatures for kernel in kernels)


def search(
    task: LayTask,
    budget: Budget,
    seed: int = 1,
    others: Callable[[], Places | None] = lambda: None,
) -> Iterator[Places]:
    """Lays of the task, each shorter than the one before, until the budget is spent.

    `others` gives the best lay found elsewhere at the same time, to go on from when it is shorter.
    """
    lay = first_lay(task)
    yield lay
    free = [i for i, item in enumerate(task.items) if item.pin is None]
    if free and not budget.spent():
        yield from _Search(task, lay, budget, seed, free, others).run()


class _Search:
    """The state of one search: where everything lies now, and the best lay so far."""

    def __init__(
        self, task: LayTask, lay: Places, budget: Budget, seed: int, free: list[int],
        others: Callable[[], Places | None] = lambda: None,
    ) -> None:  # fmt: skip
        from cutwright.lay.cells import cells  # compiled: not before a lay is looked for

        self.others = others
        self.task, self.best, self.budget, self.free = task, lay, budget, free
        self.random = Random(seed)
        self.dice = np.array([self.random.getrandbits(63) | 1], dtype=np.uint64)
        self.found = found = tables(task.shapes)
        outlines = (found.box, found.start, found.stop, found.edges)
        self.table = (*cells(*outlines), found.edges, found.start, found.stop)
        self.place = room_of(task)
        n = len(task.items)
        self.options = np.zeros((n, max(len(i.shapes) for i in task.items)), dtype=np.int64)
        self.count = np.array([len(i.shapes) for i in task.items], dtype=np.int64)
        for i, item in enumerate(task.items):
            self.options[i, : len(item.shapes)] = item.shapes
        self.fixed = np.array([item.pin is not None for item in task.items])
        self.weight = np.ones((n, n))
        self.length = lay.length
        self.compactor = (
            Compactor(found, self.place, self.fixed, task.height) if n > _MANY else None
        )
        self.together = 0
        self.exploring = _EXPLORING
        self.tries = _TRIES_OF_MANY if n > _MANY else _TRIES
        self.lie = np.zeros(n, dtype=np.int64)
        self.xs, self.ys = np.zeros(n), np.zeros(n)
        self._take(lay)
        self.shortest = max(
            [
                x + self.place[s, 6]
                for s, x, fixed in zip(self.lie, self.xs, self.fixed, strict=True)
                if fixed
            ]
            + [min(self.place[s, 0] + self.place[s, 6] for s in task.items[i].shapes) for i in free]
        )

    def run(self) -> Iterator[Places]:
        """Anneal the order, explore, then squeeze."""
        if self._few():
            self.exploring = _SQUEEZING
            yield from self._anneal()
        yield from self._explore()
        while not self.budget.spent():
            if self._adopted():
                yield self.best
            share = (self.budget.share() - self.exploring) / (1 - self.exploring)
            step = 0.0005 * 0.02 ** min(max(share, 0.0), 1.0)
            if not self._shorten(step):
                return
            if self._pull_apart(1.0) == 0.0:
                yield self._keep()

    def _few(self) -> bool:
        """Whether annealing the order pays: few pieces, and not all but one pinned."""
        n = len(self.task.items)
        free = all(not s.xstep and not s.ystep and s.y1 > s.y0 for s in self.task.shapes)
        return 2 <= n <= (_FEW_FREE if free else _FEW) and len(self.free) > 1

    def _anneal(self) -> Iterator[Places]:
        """A start from the best order of putting pieces down."""
        from cutwright.lay.ordering import Ordering

        seed = self.random.getrandbits(32)
        ordering = Ordering(self.task, self.found, seed)
        rounds = ordering.run(
            lambda: 1.0 - self.budget.share() / _ANNEALING,
            lambda: self.budget.left(_ANNEALING),
        )
        for places, used in rounds:
            self.budget.used += used
            if places is not None and places.length < self.best.length:
                self._take(places)
                yield self._keep()
            if self.budget.spent(_ANNEALING):
                return

    def _explore(self) -> Iterator[Places]:
        step = _WIDEST_STEP
        while not self.budget.spent(self.exploring):
            if self._adopted():
                yield self.best
            if not self._shorten(step):
                return
            left = self._pull_apart(self.exploring)
            if left > 0.0 and step <= _SMALLEST_STEP:
                left = self._try_exchanges(left)
            if left == 0.0:
                step = min(step * 1.3, _WIDEST_STEP)
                yield self._keep()
            else:
                step = max(step * 0.5, _SMALLEST_STEP)

    def _try_exchanges(self, left: float) -> float:
        """Let two pieces change places, from one of the better failures, until it comes apart."""
        pool: list[tuple[float, Places]] = []
        while left > 0.0 and not self.budget.spent(self.exploring):
            pool.append((left, self._now()))
            pool.sort(key=lambda p: p[0])
            pick = min(len(pool) - 1, int(abs(self.random.gauss(0.0, 0.25)) * len(pool)))
            self._take(pool[pick][1])
            self._exchange()
            self.weight[:] = 1.0
            left = self._pull_apart(self.exploring)
            ahead = self.others()
            if ahead is not None and ahead.length < self.length:
                break
        return left

    def _adopted(self) -> bool:
        """Go on from a lay found elsewhere if it is shorter."""
        ahead = self.others()
        if ahead is None or ahead.length >= self.best.length - 1e-9:
            return False
        self.best = ahead
        return True

    def _exchange(self) -> None:
        if len(self.free) < 2:
            return
        a, b = self.random.sample(self.free, 2)
        self.xs[a], self.xs[b] = self.xs[b], self.xs[a]
        self.ys[a], self.ys[b] = self.ys[b], self.ys[a]
        self._settle([a, b])

    def _pull_apart(self, share: float) -> float:
        """Run the compiled search in parts, so that a stop is heard; the overlap left over."""
        left = 1.0
        while not self.budget.spent(share):
            part = min(_CHUNK * _MANY // max(len(self.xs), _MANY), self.budget.left(share))
            left, used = self._separate(_PATIENCE, part)
            self.budget.used += used + 1
            if left == 0.0 or used < part:
                break
        return left

    def _separate(self, patience: int, budget: int) -> tuple[float, int]:
        """Pull the pieces apart where they lie: the overlap left over, and the places tried."""
        from cutwright.lay.separate import separate

        left, used = separate(
            self.table, self.place, self.options, self.count, self.fixed, self.lie, self.xs,
            self.ys, self.weight, self.length, self.tries, patience, budget, self.dice,
        )  # fmt: skip
        return float(left), int(used)

    def _shorten(self, step: float) -> bool:
        """Start from the best lay on cloth shorter by this share; false if it cannot be shorter."""
        whole = self.best.length
        self.length = max(whole * (1.0 - step), self.shortest)
        if self.length > whole - 1e-6:
            return False
        self._take(self.best)
        self.weight[:] = 1.0
        cut = self.random.random() * whole
        for i in self.free:
            if self.xs[i] + 0.5 * self.place[self.lie[i], 6] > cut:
                self.xs[i] -= whole - self.length
        self._settle(self.free)
        return True

    def _settle(self, items: list[int]) -> None:
        """Bring pieces back to places they may take."""
        from cutwright.lay.separate import settle

        for i in items:
            room = self.place[self.lie[i]]
            if self.length - room[6] < room[0] - 1e-9:
                self.lie[i] = min(
                    self.task.items[i].shapes, key=lambda s: self.place[s, 0] + self.place[s, 6]
                )
                room = self.place[self.lie[i]]
            self.xs[i] = settle(self.xs[i], room[0], self.length - room[6], room[1])
            self.ys[i] = settle(self.ys[i], room[2], room[3], room[4])

    def _take(self, lay: Places) -> None:
        self.lie[:], self.xs[:], self.ys[:] = lay.shapes, lay.xs, lay.ys

    def _now(self) -> Places:
        length = float((self.xs + self.place[self.lie, 6]).max())
        return Places(
            tuple(self.lie.tolist()), tuple(self.xs.tolist()), tuple(self.ys.tolist()), length
        )

    def _keep(self) -> Places:
        """The best lay from where the pieces lie now: many are moved together, if that goes well."""
        self.best = self._now()
        if self.compactor is None:
            return self.best
        most = min(self.budget.left(), _TOGETHER + self.budget.used // 4 - self.together)
        self.xs[:], self.ys[:], used = self.compactor.shorter(self.lie, self.xs, self.ys, most)
        self.budget.used += used
        self.together += used
        shorter = self._now()
        if shorter.length < self.best.length and self._separate(0, 0)[0] <= _TOUCHING:
            self.best = shorter
        return self.best


def room_of(task: LayTask) -> NDArray[np.float64]:
    """Each shape as a row: first x, step, first y, last y, step, size, and how far it reaches.

    The reach is told right, left, low, high.
    """
    rows = []
    for s in task.shapes:
        low, high = s.ring.min(axis=0), s.ring.max(axis=0)
        size = (high - low).max()
        rows.append((s.x0, s.xstep, s.y0, s.y1, s.ystep, size, high[0], low[0], low[1], high[1]))
    return np.array(rows, dtype=np.float64)
