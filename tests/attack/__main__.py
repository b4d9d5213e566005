"""`python -m tests.attack`: attack the program with chance, for as long as one likes, and say what came of it.

Each number says how much of it: documents, requests, kills, corrupted books, combined steps. The same
seed attacks in the same way (but for the moments of the kills). Inputs that made the program stumble
are left in out/attack; mend it and move them to tests/corpus.
"""

from __future__ import annotations

import argparse
import os
import sys

from tests.attack.tally import Tally

FULL = {"documents": 10_000, "requests": 4_000, "kills": 1_000, "books": 300, "steps": 2_000}


def main(words: list[str]) -> int:
    """Attack; 1 when anything went wrong."""
    parser = argparse.ArgumentParser(prog="python -m tests.attack", description=__doc__)
    for name, count in FULL.items():
        parser.add_argument(f"--{name}", type=int, default=count, help=f"{count} if left out")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--kind", default="", help="documents of this kind only")
    asked = parser.parse_args(words)
    wrong = 0
    for name in FULL:
        count = getattr(asked, name)
        if count:
            tally = attacked(name, count, asked.seed, asked.kind)
            wrong += len(tally.wrong)
            sys.stdout.write("\n".join(tally.lines()) + "\n")
            sys.stdout.flush()
    return 1 if wrong else 0


def attacked(name: str, count: int, seed: int, kind: str = "") -> Tally:
    """One attack of a kind. Heavy modules are loaded where they are needed, for a child is forked."""
    if name == "kills":
        from tests.attack import killed
        from tests.book.server import private_server

        with private_server() as server:
            return killed.attack(count, seed, server)
    if name == "documents":
        from tests.attack import papers

        return papers.attack(count, seed, kind)
    if name == "requests":
        from tests.attack import asked

        return asked.attack(count, seed)
    if name == "books":
        from tests.attack import corrupted

        return corrupted.attack(count, seed)
    from tests.attack import combined

    return combined.attack(count, seed)


if __name__ == "__main__":
    os.environ.setdefault("HYPOTHESIS_STORAGE_DIRECTORY", os.devnull)
    sys.exit(main(sys.argv[1:]))
