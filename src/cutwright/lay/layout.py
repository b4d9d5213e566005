"""Lay out pieces on a cloth: the first lay at once, then better ones, each verified."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace

from cutwright.errors import LayError
from cutwright.lay.cloth import Cloth, Fold, Match
from cutwright.lay.cuts import LaidCut, cuts, pieces_for
from cutwright.lay.piece import LayPiece, piece_polygon
from cutwright.lay.plan import ClothPart, Lay, Placement
from cutwright.lay.prepare import ClothStretch, stretch
from cutwright.lay.search import Budget, search
from cutwright.lay.stripe import Lattice, lattice
from cutwright.lay.task import Places
from cutwright.lay.verify import faults
from cutwright.messages import N_, Message

_WORTH_SHOWING = 0.002
MANY = 20
"""From this many pieces on a single layer the second packer helps, if time is given."""


def lay_out(
    pieces: Sequence[LayPiece],
    cloth: Cloth,
    budget: Budget | None = None,
    seed: int = 1,
    *,
    matches: Iterable[Match] = (),
    pins: Sequence[Placement] = (),
    workers: int = 2,
) -> Iterator[Lay]:
    """Lays of the pieces on the cloth, each better than the one before; the last is the best.

    Parameters
    ----------
    pieces : what to cut; pieces of another material than the cloth's are left out
    cloth : the cloth, with its fold, nap and repeat
    budget : how long to search. Counted in places tried, one seed gives the same lay every time;
        with `seconds`, open lays of 20 pieces and more are also given to a second packer
    seed : starts the dice
    matches : points that must match in the repeat, besides those of the cloth card
    pins : placements (of an earlier lay) that must stay where they are; on a second stretch x counts
        from where that stretch starts
    workers : processors to use when there is a limit in seconds

    Raises `LayError` if something cannot be laid at all. Only verified lays are given out.
    """
    budget = budget or Budget()
    wanted = pieces_for(pieces, cloth)
    if not wanted:
        raise LayError(
            Message(
                "nothing-cut-no-piece",
                N_("There is nothing to cut from “{cloth}”: no piece is of {material}."),
                cloth=cloth.name,
                material=cloth.material,
            )
        )
    yield from _Layout(wanted, cloth, budget, seed, tuple(matches), pins, workers).run()


def best_lay(
    pieces: Sequence[LayPiece],
    cloth: Cloth,
    budget: Budget | None = None,
    seed: int = 1,
    *,
    matches: Iterable[Match] = (),
    pins: Sequence[Placement] = (),
    workers: int = 2,
    shown: Callable[[Lay], None] = lambda lay: None,
) -> Lay:
    """The best lay found within the budget; `shown` is called with every better one."""
    best = None
    for lay in lay_out(pieces, cloth, budget, seed, matches=matches, pins=pins, workers=workers):
        best = lay
        shown(lay)
    if best is None:
        raise LayError(
            Message(
                "no-lay-passed-check-fault",
                N_("No lay passed the check; this is a fault of the program."),
            )
        )
    return best


class _Layout:
    """One run: the stretches of the cloth, laid one after the other."""

    def __init__(
        self, pieces: list[LayPiece], cloth: Cloth, budget: Budget, seed: int,
        matches: tuple[Match, ...], pins: Sequence[Placement], workers: int,
    ) -> None:  # fmt: skip
        self.pieces, self.cloth, self.budget, self.seed = pieces, cloth, budget, seed
        self.matches, self.pins, self.workers = matches, pins, workers
        self.lattice: Lattice = lattice(pieces, cloth, matches)
        self.area = sum(
            piece_polygon(p).area * p.copies * (2 if p.fold is not None else 1) for p in pieces
        )
        self.engine = "own"
        self.budgets = [budget]

    def run(self) -> Iterator[Lay]:
        doubled, single = cuts(self.pieces, self.cloth)
        if doubled and single:
            yield from self._both(doubled, single)
        elif doubled:
            for places, ready in self._lays(doubled, self.cloth.fold, self.budget):
                yield from self._shown([(ready, places)])
        else:
            for places, ready in self._lays(single, "open", self.budget):
                yield from self._shown([(ready, places)])

    def _both(self, doubled: list[LaidCut], single: list[LaidCut]) -> Iterator[Lay]:
        """First the doubled stretch while the single one lies as it first came, then that."""
        share = len(doubled) / (len(doubled) + len(single))
        first_ready = self._stretch(single, "open", 1)
        first = next(search(first_ready.task, replace(self.budget, places=0), self.seed))
        best: tuple[ClothStretch, Places] | None = None
        self.budgets = [_part_of(self.budget, share)]
        for places, ready in self._lays(doubled, self.cloth.fold, self.budgets[0]):
            best = (ready, places)
            yield from self._shown([best, (first_ready, first)])
        if best is None:
            return
        rest = _part_of(self.budget, 1 - share)
        self.budgets.append(rest)
        for places, ready in self._lays(single, "open", rest, 1):
            yield from self._shown([best, (ready, places)])

    def _lays(
        self, what: list[LaidCut], fold: Fold, budget: Budget, part: int = 0
    ) -> Iterator[tuple[Places, ClothStretch]]:
        """The lays of one stretch that are worth showing, and the last."""
        ready = self._stretch(what, fold, part)
        last: Places | None = None
        shown = float("inf")
        for last in self._engines(ready, budget):
            if last.length < shown * (1 - _WORTH_SHOWING):
                shown = last.length
                yield last, ready
                if budget.stop():
                    return
        if last is not None and last.length < shown:
            yield last, ready

    def _engines(self, ready: ClothStretch, budget: Budget) -> Iterator[Places]:
        from cutwright.lay.packer import can_pack
        from cutwright.lay.together import search_together

        self.engine = "own"
        few = len(ready.cuts) < MANY or self.workers < 2
        if budget.seconds is None or ready.fold != "open" or few or not can_pack(ready.task):
            yield from search(ready.task, budget, self.seed)
            return
        for engine, places in search_together(ready.task, budget, self.seed, self.workers):
            self.engine = engine
            yield places

    def _stretch(self, what: list[LaidCut], fold: Fold, part: int) -> ClothStretch:
        pins = [p for p in self.pins if p.part == part]
        return stretch(what, self.cloth, fold, self.lattice, pins)

    def _end(self, first: tuple[ClothStretch, Places]) -> float:
        """Where the single stretch starts: after the doubled one, on a line of the repeat."""
        length = first[1].length * (2 if self.cloth.fold == "crosswise" else 1)
        step = self.cloth.repeat_along
        return length if step is None else -(-length // step) * step

    def _shown(self, stretches: list[tuple[ClothStretch, Places]]) -> Iterator[Lay]:
        """The lay, if the verifier finds nothing wrong with it."""
        lay = self._lay(stretches)
        if not faults(lay, self.pieces, self.cloth, self.matches):
            yield lay.model_copy(update={"verified": True})

    def _lay(self, stretches: list[tuple[ClothStretch, Places]]) -> Lay:
        parts: list[ClothPart] = []
        placements: list[Placement] = []
        end = 0.0
        for ready, places in stretches:
            start = self._end(stretches[0]) if parts else 0.0
            parts.append(
                ClothPart(
                    fold=ready.fold, start=start, length=places.length, height=ready.task.height
                )
            )
            laid = ready.placements(places, len(parts) - 1, start)
            ends = [
                x + float(ready.task.shapes[s].ring[:, 0].min())
                for s, x in zip(places.shapes, places.xs, strict=True)
            ]
            placements += [p for _x, p in sorted(zip(ends, laid, strict=True), key=lambda e: e[0])]
            end = start + places.length * (2 if ready.fold == "crosswise" else 1)
        return Lay(
            cloth=self.cloth, parts=tuple(parts), placements=tuple(placements), length=end,
            utilisation=self.area / (end * self.cloth.usable), engine=self.engine, seed=self.seed,
            tried=sum(one.used for one in self.budgets),
        )  # fmt: skip


def _part_of(budget: Budget, share: float) -> Budget:
    """A share of what was allowed."""
    seconds = None if budget.seconds is None else budget.seconds * share
    return Budget(int(budget.places * share), seconds, budget.stop)
