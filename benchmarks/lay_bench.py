"""How well the lay does on test lays: one line of JSON for each file of a folder.

Each file is a strip-packing problem: `name`, `strip_height`, and `items` with `demand`,
`allowed_orientations` in degrees and `shape.data`, a ring of points. The pieces are read as
pieces on open cloth (scaled so that the cloth is 100 cm wide), laid and verified like any
garment; density is their area over the cloth used.

    python -m benchmarks.lay_bench FOLDER SECONDS [WORKERS]

With one worker our own search runs alone; with 0 the second packer runs alone on one, for comparison.
"""

from __future__ import annotations

import json
import sys
import time
from pathlib import Path
from typing import Any

from cutwright.errors import CutwrightError
from cutwright.lay.cloth import Cloth, Nap
from cutwright.lay.cuts import cuts
from cutwright.lay.layout import best_lay
from cutwright.lay.packer import Packer
from cutwright.lay.piece import LayPiece, piece_polygon
from cutwright.lay.prepare import stretch
from cutwright.lay.search import Budget
from cutwright.lay.stripe import lattice

WIDTH = 100.0
ENDLESS = 10**12


def pieces_of(problem: dict[str, Any]) -> tuple[list[LayPiece], Cloth]:
    """The pieces and the cloth of one problem, scaled to cloth of 100 cm."""
    scale = WIDTH / float(problem["strip_height"])
    pieces = []
    one_way = False
    for item in problem["items"]:
        turns = {round(float(a)) % 360 for a in item["allowed_orientations"]}
        if turns not in ({0}, {0, 180}, {0, 90, 180, 270}):
            raise CutwrightError(f"turns {sorted(turns)} are not those of cloth")
        one_way = one_way or turns == {0}
        ring = tuple(complex(x, y) * scale for x, y in item["shape"]["data"])
        grain = None if len(turns) == 4 else 1 + 0j
        name = f"piece {item['id']}"
        pieces.append(LayPiece(name, ring, grain, int(item["demand"])))
    nap: Nap = "one way" if one_way else "two way"
    return pieces, Cloth(name=str(problem["name"]), width=WIDTH, fold="open", nap=nap)


def measure(path: Path, seconds: float, workers: int, seed: int = 1) -> dict[str, Any]:
    """Lay one problem and say how it went."""
    problem = json.loads(path.read_text())
    pieces, cloth = pieces_of(problem)
    if workers == 0:
        return packer_alone(str(problem["name"]), pieces, cloth, int(seconds), seed)
    start, cpu = time.monotonic(), time.process_time()
    lay = best_lay(pieces, cloth, Budget(ENDLESS, seconds), seed, workers=workers)
    return {
        "name": problem["name"],
        "pieces": sum(piece.copies for piece in pieces),
        "density": round(100 * lay.utilisation, 2),
        "length": round(lay.length * float(problem["strip_height"]) / WIDTH, 3),
        "engine": lay.engine,
        "seconds": round(time.monotonic() - start, 1),
        "cpu_of_own_search": round(time.process_time() - cpu, 1),
        "verified": lay.verified,
    }


def packer_alone(
    name: str, pieces: list[LayPiece], cloth: Cloth, seconds: int, seed: int
) -> dict[str, Any]:
    """What the second packer finds by itself with one worker; its raw word, not verified."""
    _doubled, single = cuts(pieces, cloth)
    task = stretch(single, cloth, "open", lattice(pieces, cloth, ())).task
    packer = Packer(task, seconds, seed, 1)
    start = time.monotonic()
    packer.process.wait()
    packer.end()
    length = min(lay.length for lay in packer.lays())
    area = sum(piece_polygon(piece).area * piece.copies for piece in pieces)
    return {
        "name": name, "pieces": len(single), "density": round(100 * area / (length * WIDTH), 2),
        "engine": "spyrrow alone", "seconds": round(time.monotonic() - start, 1), "verified": False,
    }  # fmt: skip


def warm_up() -> None:
    """Compile the search before anything is timed."""
    piece = LayPiece("warm up", (0j, 9 + 0j, 5 + 7j), 1 + 0j, 3)
    best_lay([piece], Cloth(name="warm up", width=20, fold="open"), Budget(4000))


def main(arguments: list[str]) -> int:
    """Measure every file of the folder named."""
    if len(arguments) not in {2, 3}:
        print("python -m benchmarks.lay_bench FOLDER SECONDS [WORKERS]", file=sys.stderr)
        return 2
    folder, seconds = Path(arguments[0]), float(arguments[1])
    workers = int(arguments[2]) if len(arguments) == 3 else 2
    files = sorted(folder.glob("*.json"))
    if not files:
        print(f"There are no test lays (*.json) in {folder}.", file=sys.stderr)
        return 1
    warm_up()
    for path in files:
        try:
            print(json.dumps(measure(path, seconds, workers)), flush=True)
        except (CutwrightError, KeyError, TypeError, ValueError) as fault:
            print(json.dumps({"name": path.stem, "fault": str(fault)}), flush=True)
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
