"""All pieces moved at once: the programme is solved, the rooms are safe, and a lay only gets shorter."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.optimize import linprog

from cutwright.lay.cloth import Cloth
from cutwright.lay.compact import Compactor
from cutwright.lay.cuts import cuts, pieces_for
from cutwright.lay.first import first_lay
from cutwright.lay.layout import best_lay
from cutwright.lay.nofit import tables
from cutwright.lay.piece import LayPiece
from cutwright.lay.prepare import stretch
from cutwright.lay.rooms import rooms, senses
from cutwright.lay.search import Budget, room_of
from cutwright.lay.simplex import largest
from cutwright.lay.stripe import lattice
from cutwright.lay.task import LayTask
from tests.lay.shapes import blob, wedge

OPEN = Cloth(name="open", width=60, fold="open")


def task_of(pieces: list[LayPiece], cloth: Cloth = OPEN) -> LayTask:
    wanted = pieces_for(pieces, cloth)
    doubled, single = cuts(wanted, cloth)
    fold = cloth.fold if doubled else "open"
    return stretch(doubled or single, cloth, fold, lattice(wanted, cloth, ())).task


@pytest.mark.parametrize("seed", range(12))
def test_the_programme_gains_as_much_as_an_outside_solver_finds(seed: int) -> None:
    dice = np.random.default_rng(seed)
    m, n = int(dice.integers(3, 40)), int(dice.integers(2, 25))
    table = np.where(dice.random((m, n)) < 0.4, dice.normal(size=(m, n)), 0.0)
    room = np.where(dice.random(m) < 0.4, 1e-7 * dice.random(m), dice.random(m))
    low, high = -dice.random(n), dice.random(n)
    low[0] = high[0] = 0.0
    gain = dice.normal(size=n)
    best = linprog(-gain, A_ub=table, b_ub=room, bounds=list(zip(low, high, strict=True)))
    found, _used = largest(table.copy(), room, low, high, gain.copy(), 10_000)
    assert gain @ found == pytest.approx(-float(best.fun or 0.0), abs=1e-7)
    assert (table @ found <= room + 1e-7).all()
    assert (found >= low - 1e-7).all()
    assert (found <= high + 1e-7).all()


def test_cut_short_the_answer_still_keeps_every_row() -> None:
    dice = np.random.default_rng(5)
    table, room, gain = dice.normal(size=(30, 15)), dice.random(30), dice.random(15)
    gained = []
    for most in range(1, 30):
        found, _used = largest(
            table.copy(), room, np.full(15, -1.0), np.ones(15), gain.copy(), most
        )
        assert (table @ found <= room + 1e-7).all()
        gained.append(float(gain @ found))
    assert gained == sorted(gained)
    assert gained[-1] > gained[0]


def _blobs() -> list[LayPiece]:
    dice = np.random.default_rng(3)
    return [
        blob(f"blob {k}", [float(r) for r in dice.uniform(4, 11, 9)], copies=2) for k in range(6)
    ]


def test_inside_the_rooms_no_two_pieces_overlap() -> None:
    from shapely import Polygon

    task = task_of(_blobs())
    found, lay = tables(task.shapes), first_lay(task)
    lie, xs, ys = np.array(lay.shapes), np.array(lay.xs), np.array(lay.ys)
    n, trust = lie.size, 3.0
    planes = np.zeros((n * 60, 5))
    sense = senses(found.start, found.stop, found.edges)
    count = rooms(
        found.box, found.start, found.stop, found.edges, sense, lie, xs, ys, trust, planes
    )
    assert count > n
    dice = np.random.default_rng(1)
    kept = 0
    for _try in range(400):
        dx, dy = dice.uniform(-trust, trust, n), dice.uniform(-trust, trust, n)
        shapes = [
            Polygon(task.shapes[s].ring + np.array((x, y)))
            for s, x, y in zip(lie, xs + dx, ys + dy, strict=True)
        ]
        inside = {(a, b): True for a in range(n) for b in range(a + 1, n)}
        for p, q, nx, ny, c in planes[:count]:
            i, j = int(p), int(q)
            gap = nx * (xs[j] + dx[j] - xs[i] - dx[i]) + ny * (ys[j] + dy[j] - ys[i] - dy[i]) - c
            if gap < 0.0:
                inside[min(i, j), max(i, j)] = False
        for (a, b), good in inside.items():
            if good:
                kept += 1
                assert shapes[a].intersection(shapes[b]).area < 1e-3
    assert kept > 1000


def shorter(task: LayTask, fixed: frozenset[int] = frozenset()) -> tuple[float, float, np.ndarray]:
    """The length of the first lay, that after moving together, and how far each piece went."""
    lay, place = first_lay(task), room_of(task)
    lie, xs, ys = np.array(lay.shapes), np.array(lay.xs), np.array(lay.ys)
    held = np.array([i in fixed for i in range(lie.size)])
    mover = Compactor(tables(task.shapes), place, held, task.height)
    x, y, used = mover.shorter(lie, xs, ys)
    assert used > 0
    return lay.length, float((x + place[lie, 6]).max()), np.abs(x - xs) + np.abs(y - ys)


def test_pieces_that_lie_apart_are_moved_together() -> None:
    before, after, moved = shorter(task_of(_blobs()))
    assert after < 0.95 * before
    assert (moved > 0.1).sum() > 6


def test_what_is_pinned_or_on_the_fold_stays() -> None:
    pieces = [
        LayPiece("front", (0j, 30 + 0j, 26 + 20j, 20j), fold=(0j, 30 + 0j)),
        *(wedge(f"w{k}", 20, 14, copies=2, mirrored=True) for k in range(4)),
    ]
    task = task_of(pieces, Cloth(name="folded", width=90))
    _before, _after, moved = shorter(task, frozenset({1, 2}))
    assert moved[1] == moved[2] == 0.0
    on_fold = next(i for i, item in enumerate(task.items) if _one_line(task, item.shapes))
    lay, place = first_lay(task), room_of(task)
    lie, xs, ys = np.array(lay.shapes), np.array(lay.xs), np.array(lay.ys)
    mover = Compactor(tables(task.shapes), place, np.zeros(lie.size, dtype=bool), task.height)
    _x, y, _used = mover.shorter(lie, xs, ys)
    assert y[on_fold] == ys[on_fold]


def _one_line(task: LayTask, shapes: tuple[int, ...]) -> bool:
    return all(task.shapes[s].y0 == task.shapes[s].y1 for s in shapes)


def test_many_pieces_come_closer_and_one_seed_gives_one_lay() -> None:
    pieces = [blob(f"{k}", [5 + (k * j) % 4 for j in range(7)], copies=7) for k in range(1, 7)]
    one, again = (best_lay(pieces, OPEN, Budget(60_000), 4) for _run in range(2))
    assert one == again
    assert one.verified
    with pytest.MonkeyPatch.context() as without:
        without.setattr("cutwright.lay.compact._ROUNDS", 0)
        alone = best_lay(pieces, OPEN, Budget(60_000), 4)
    assert one.length < alone.length
