"""How the lay does on the folded dress: seeds, the price of fold, nap and repeat, first lay.

    python -m benchmarks.lay_fold [PLACES] [SEEDS]

One line of JSON for each question; lengths in cm, times in seconds of one processor.
"""

from __future__ import annotations

import json
import sys
import time
from dataclasses import replace

from benchmarks.lay_bench import warm_up
from benchmarks.lay_dress import dress
from cutwright.lay.cloth import Cloth, Match
from cutwright.lay.layout import best_lay, lay_out
from cutwright.lay.piece import LayPiece
from cutwright.lay.plan import Lay
from cutwright.lay.search import Budget

PLAIN = Cloth(name="plain", width=140)
SEAMS = (
    Match(points=("bodice front: side waist", "bodice back: side waist"), across=True),
    Match(points=("skirt front: side waist", "skirt back: side waist"), across=True),
)


def unfolded() -> list[LayPiece]:
    """The same pieces with the fold rule dropped: each half lies anywhere (it cannot be cut so)."""
    return [
        replace(p, fold=None, copies=2, mirrored=True) if p.fold is not None else p for p in dress()
    ]


def timed(
    pieces: list[LayPiece], cloth: Cloth, places: int, seed: int, matches: tuple[Match, ...] = ()
) -> tuple[Lay, float]:
    """The best lay and the processor seconds it took."""
    start = time.process_time()
    lay = best_lay(pieces, cloth, Budget(places), seed, matches=matches)
    return lay, time.process_time() - start


def say(question: str, **answer: object) -> None:
    """One line of the answer."""
    print(json.dumps({"question": question, **answer}), flush=True)


def main(arguments: list[str]) -> int:
    """Ask all questions."""
    places = int(arguments[0]) if arguments else 10_000_000
    seeds = range(1, 1 + (int(arguments[1]) if len(arguments) > 1 else 10))
    warm_up()
    start = time.process_time()
    first = next(lay_out(dress(), PLAIN, Budget(places)))
    say("first lay", length=round(first.length, 2), seconds=round(time.process_time() - start, 2))
    runs = [timed(dress(), PLAIN, places, seed) for seed in seeds]
    lengths = [round(lay.length, 2) for lay, _cpu in runs]
    best = min(lengths)
    say(
        "seeds on folded cloth", lengths=lengths, spread_percent=round(100 * (max(lengths) / best - 1), 2),
        utilisation=round(max(lay.utilisation for lay, _cpu in runs), 4),
        cpu=[round(cpu, 1) for _lay, cpu in runs],
    )  # fmt: skip
    again, _cpu = timed(dress(), PLAIN, places, 1)
    say("the same seed again is the same lay", same=again == runs[0][0])
    few = list(seeds)[:3]
    loose = min(timed(unfolded(), PLAIN, places, seed)[0].length for seed in few)
    say(
        "fold rule dropped", length=round(loose, 2), fold_costs_percent=round(100 * (best / loose - 1), 2)
    )  # fmt: skip
    for name, change in (
        ("one way", {"nap": "one way"}),
        ("150 wide", {"width": 150.0}),
        ("open", {"fold": "open"}),
        ("check of 8, side seams matched", {"repeat_along": 8.0, "repeat_across": 8.0}),
    ):
        cloth = Cloth.model_validate({**PLAIN.model_dump(), **change})
        matches = SEAMS if "repeat_along" in change else ()
        length = min(timed(dress(), cloth, places, seed, matches)[0].length for seed in few)
        say(
            name, length=round(length, 2), against_plain_percent=round(100 * (length / best - 1), 2)
        )
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
