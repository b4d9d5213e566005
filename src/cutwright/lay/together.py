"""Two processors at one lay: our own search on both, the second packer for as long as it leads.

The first processor runs our own search. The second starts with the packer, which sometimes finds
the better shape of a lay of many pieces; once it is behind, our own search takes its place there
with other dice. Whoever finds a better lay puts it on the board, and the others go on from it.
"""

from __future__ import annotations

import threading
from collections.abc import Iterator
from dataclasses import replace

from cutwright.lay.packer import Packer
from cutwright.lay.search import Budget, search
from cutwright.lay.task import LayTask, Places

_HEAD_START = 0.15
"""Share of the time after which the packer must lead, or it is sent home."""
_LOOK = 0.1


class _Board:
    """The best lay so far, and who found it."""

    def __init__(self) -> None:
        self.lock = threading.Lock()
        self.best: Places | None = None
        self.finder = ""

    def put(self, finder: str, places: Places) -> None:
        """Note a lay if it is the best."""
        with self.lock:
            if self.best is None or places.length < self.best.length - 1e-9:
                self.best, self.finder = places, finder

    def get(self) -> Places | None:
        """The best lay, for whoever wants to go on from it."""
        with self.lock:
            return self.best


class _Second(threading.Thread):
    """What the second processor does."""

    def __init__(
        self, task: LayTask, budget: Budget, seed: int, packer: Packer, board: _Board
    ) -> None:
        super().__init__(daemon=True)
        self.task, self.seed, self.packer, self.board = task, seed, packer, board
        self.ended = threading.Event()
        self.budget = replace(budget, stop=lambda: self.ended.is_set() or budget.stop())

    def run(self) -> None:
        """Wait for the packer while it leads, then search."""
        leads = True
        while leads and self.packer.working and not self.budget.spent():
            self.packer.reader.join(timeout=_LOOK)
            leads = self._take() or self.budget.share() < _HEAD_START
        self.packer.end()
        self._take()
        if not self.budget.spent():
            for places in search(self.task, self.budget, self.seed + 1, self.board.get):
                self.board.put("own", places)

    def _take(self) -> bool:
        """Put what the packer found on the board; whether it leads there."""
        for places in self.packer.lays():
            self.board.put("spyrrow", places)
        return self.board.finder == "spyrrow"

    def finish(self) -> None:
        """Stop, and wait until nothing runs any more."""
        self.ended.set()
        self.packer.end()
        self.join()


def search_together(
    task: LayTask, budget: Budget, seed: int, workers: int
) -> Iterator[tuple[str, Places]]:
    """Lays of both processors, each shorter than the one before, with the name of who found it.

    If the packer's process dies, what it found so far counts and our own search goes on; the
    engine is then called "own (the second packer ended early)".
    """
    board = _Board()
    packer = Packer(task, max(1, int(budget.seconds or 1)), seed, max(1, workers - 1))
    second = _Second(task, budget, seed, packer, board)
    second.start()
    shown = float("inf")
    try:
        for places in search(task, budget, seed, board.get):
            board.put("own", places)
            best = board.best or places
            if best.length < shown - 1e-9:
                shown = best.length
                yield _finder(board, packer), best
    finally:
        second.finish()
    if board.best is not None:
        yield _finder(board, packer), board.best


def _finder(board: _Board, packer: Packer) -> str:
    early = packer.failed and board.finder == "own"
    return "own (the second packer ended early)" if early else board.finder
