"""The second packer in its own process: its lays, its faults, and its sudden end."""

from __future__ import annotations

import os
import signal

import numpy as np
import pytest

from cutwright.drawing.lay import lay_captions
from cutwright.lay import together
from cutwright.lay.cloth import Cloth
from cutwright.lay.cuts import cuts, pieces_for
from cutwright.lay.layout import lay_out
from cutwright.lay.packer import Packer, can_pack
from cutwright.lay.piece import LayPiece
from cutwright.lay.plan import Lay
from cutwright.lay.prepare import stretch
from cutwright.lay.search import Budget
from cutwright.lay.stripe import lattice
from cutwright.lay.task import Item, LayShape, LayTask, LayTurn
from cutwright.lay.verify import faults
from tests.lay.shapes import box, wedge

CLOTH = Cloth(name="c", width=60, fold="open")
PIECES = [
    wedge("sail", 22, 14, copies=14, mirrored=True),
    box("tall", 9, 60, copies=2),
    box("bar", 17, 6, copies=8),
]


def task_of(pieces: list[LayPiece], cloth: Cloth) -> LayTask:
    wanted = pieces_for(pieces, cloth)
    _doubled, single = cuts(wanted, cloth)
    return stretch(single, cloth, "open", lattice(wanted, cloth, ())).task


def test_what_it_cannot_do_is_not_given_to_it() -> None:
    assert can_pack(task_of(PIECES, CLOTH))
    ring = np.array([(0.0, 0.0), (5.0, 5.0), (5.0, 0.0), (0.0, 5.0)])
    crossed = LayTask(60.0, (LayShape(0, LayTurn(), ring, 0, 0, 0, 55, 0),), (Item((0,)),))
    assert not can_pack(crossed)
    pinned = LayTask(60.0, crossed.shapes, (Item((0,), (0, 0.0, 0.0)),))
    assert not can_pack(pinned)


def test_both_searches_run_and_the_better_verified_lay_is_kept() -> None:
    lays = list(lay_out(PIECES, CLOTH, Budget(10**9, 2.0), workers=2))
    assert lays[-1].engine in {"own", "spyrrow"}
    assert faults(lays[-1], PIECES, CLOTH) == []
    assert lays[-1].length == min(lay.length for lay in lays)


def test_its_lays_stand_on_their_own() -> None:
    task = task_of(PIECES, CLOTH)
    worker = Packer(task, 1, 1, 1)
    worker.process.wait(60)
    worker.end()
    lays = list(worker.lays())
    assert lays
    assert worker.fault is None
    assert {len(lay.shapes) for lay in lays} == {len(task.items)}


def test_a_shape_it_dislikes_is_a_fault_in_words_not_a_crash() -> None:
    ring = np.array([(0.0, 0.0), (5.0, 0.0), (5.0, 70.0), (0.0, 70.0)])
    tall = LayTask(60.0, (LayShape(0, LayTurn(), ring, 0, 0, 0, 0, 0),), (Item((0,)),))
    worker = Packer(tall, 1, 1, 1)
    worker.process.wait(60)
    worker.end()
    assert worker.fault is not None
    assert "Panic" in worker.fault
    assert not list(worker.lays())


def test_killed_suddenly_the_lay_goes_on(monkeypatch: pytest.MonkeyPatch) -> None:
    """However busy the machine is: the packer is killed before it has found anything."""
    made: list[Packer] = []

    class Doomed(Packer):
        def __init__(self, *given: object) -> None:
            super().__init__(*given)  # type: ignore[arg-type]
            os.kill(self.process.pid, signal.SIGKILL)
            self.process.wait(60)
            made.append(self)

    monkeypatch.setattr(together, "Packer", Doomed)
    lays: list[Lay] = []
    for lay in lay_out(PIECES, CLOTH, Budget(10**9, 600.0, stop=lambda: bool(lays)), workers=2):
        lays.append(lay)
    assert made[0].process.returncode == -signal.SIGKILL
    assert lays[-1].engine == "own (the second packer ended early)"
    assert faults(lays[-1], PIECES, CLOTH) == []


def test_a_lay_after_a_sudden_end_says_so_in_the_readers_words() -> None:
    lay = next(iter(lay_out(PIECES, CLOTH, Budget(2000))))
    plain = lay_captions(lay, "")
    ended = lay_captions(
        lay.model_copy(update={"engine": "own (the second packer ended early)"}), ""
    )
    assert [line for line in ended if line not in plain] == [
        "The second search ended early; this is the best lay found."
    ]
