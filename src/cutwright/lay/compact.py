"""Make a good lay shorter by moving all pieces at once: a linear programme over small moves.

Inside the rooms of all pairs (`rooms`) the shortest length is a linear programme; a few of them in
a row end where no small move of all pieces together makes the lay shorter.
Source: compaction by linear programming, common in the literature on nesting since the 1990s
(from memory, not page-checked).
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from cutwright.lay.nofit import NoFitTables

Row = NDArray[np.float64]

TRUST = 0.02
"""How far a piece may move in one programme, as a share of the height of the cloth."""
_ROUNDS = 4
_PLANES = 60
_ENOUGH = 2e-5
_LEAN = 1e-3
"""What drawing every piece back by 1 cm is worth beside 1 cm of length."""
_SPARE = 1e-6
"""cm of room given away unevenly, so that pieces that touch do not block each other in circles."""
_UNEVEN = 0.6180339887
_COST = 1 / 2000
"""What one number of a table costs at one exchange, in places tried; measured, the times are alike."""


class Compactor:
    """Moves the pieces of one task together, again and again.

    `place` has a row for each shape as the search keeps them (where its origin may be, and how far
    it reaches); pieces that are `fixed` stay. `height` is that of the cloth. Lengths in cm.
    """

    def __init__(
        self, found: NoFitTables, place: Row, fixed: NDArray[np.bool_], height: float
    ) -> None:
        from cutwright.lay.rooms import senses

        self.found, self.place, self.fixed = found, place, fixed
        self.trust = TRUST * height
        self.sense = senses(found.start, found.stop, found.edges)
        self.planes = np.zeros((fixed.size * _PLANES, 5))
        self.spare = _SPARE * (np.arange(len(self.planes) + fixed.size) * _UNEVEN % 1.0)

    def shorter(
        self, lie: NDArray[np.int64], xs: Row, ys: Row, most: int = 10**9
    ) -> tuple[Row, Row, int]:
        """Where the same pieces lie after moving together, and what it cost in places tried.

        `lie`, `xs`, `ys` are the shape and the origin of each piece; it costs about `most` at the
        most. Pieces that touch may come to overlap by a millionth of a cm, and in a crowd by more:
        the caller looks.
        """
        n, used = lie.size, 0
        length = float((xs + self.place[lie, 6]).max())
        for _round in range(_ROUNDS):
            if used + 2 * n * n >= most:
                break
            move, cost = self._move(lie, xs, ys, length, most - used)
            used += cost
            xs, ys = xs + move[:n], ys + move[n : 2 * n]
            before, length = length, float((xs + self.place[lie, 6]).max())
            if before - length < _ENOUGH * length:
                break
        return xs, ys, used

    def _move(
        self, lie: NDArray[np.int64], xs: Row, ys: Row, length: float, most: int
    ) -> tuple[Row, int]:
        """The best move of all pieces inside their rooms: along, across, and by how much it is shorter."""
        from cutwright.lay.rooms import rooms
        from cutwright.lay.simplex import largest

        found, n = self.found, lie.size
        count = rooms(
            found.box, found.start, found.stop, found.edges, self.sense, lie, xs, ys, self.trust,
            self.planes,
        )  # fmt: skip
        if count < 0:
            return np.zeros(2 * n), n * n
        table, room = self._rows(self.planes[:count], lie, xs, ys, length)
        low, high = self._bounds(lie, xs, ys, length)
        gain = np.full(2 * n + 1, -_LEAN / n)
        gain[n : 2 * n], gain[2 * n] = 0.0, 1.0
        each = _COST * table.size
        move, exchanges = largest(table, room, low, high, gain, min(20 * n, int(most / each)))
        return move, int(each * exchanges) + n * n

    def _rows(
        self, planes: Row, lie: NDArray[np.int64], xs: Row, ys: Row, length: float
    ) -> tuple[Row, Row]:
        """Each pair stays in its room and no piece reaches beyond the length: a table, and what it may come to."""
        n, m = lie.size, len(planes)
        p, q = planes[:, 0].astype(int), planes[:, 1].astype(int)
        nx, ny, c = planes[:, 2], planes[:, 3], planes[:, 4]
        table, k, i = np.zeros((m + n, 2 * n + 1)), np.arange(m), np.arange(n)
        table[k, p], table[k, q], table[k, n + p], table[k, n + q] = nx, -nx, ny, -ny
        table[m + i, i] = table[m + i, 2 * n] = 1.0
        gaps = nx * (xs[q] - xs[p]) + ny * (ys[q] - ys[p]) - c
        ends = length - xs - self.place[lie, 6]
        room = np.maximum(np.concatenate((gaps, ends)), 0.0)
        return table, room + self.spare[: m + n]

    def _bounds(self, lie: NDArray[np.int64], xs: Row, ys: Row, length: float) -> tuple[Row, Row]:
        """How far each piece may move: inside the cloth, not at all where it is pinned or on a lattice."""
        n, place, trust = lie.size, self.place[lie], self.trust
        low, high = np.zeros(2 * n + 1), np.zeros(2 * n + 1)
        along = ~self.fixed & (place[:, 1] == 0.0)
        across = ~self.fixed & (place[:, 4] == 0.0)
        low[:n] = np.where(along, np.clip(place[:, 0] - xs, -trust, 0.0), 0.0)
        high[:n] = np.where(along, trust, 0.0)
        low[n:-1] = np.where(across, np.clip(place[:, 2] - ys, -trust, 0.0), 0.0)
        high[n:-1] = np.where(across, np.clip(place[:, 3] - ys, 0.0, trust), 0.0)
        high[-1] = length
        return low, high
