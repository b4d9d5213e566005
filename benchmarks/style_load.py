"""What heavy styles cost, beside what they are counted as: `python -m benchmarks.style_load`.

Each style is worked, proved and drawn in a process of its own. Told are the count of
`cutwright.style.load` in seconds, the processor's time and the memory it took beyond the program itself.
"""

from __future__ import annotations

import json
import resource
import subprocess
import sys
import time

from cutwright.style.document import parse_style
from cutwright.style.load import paper_load
from cutwright.workshop.gallery import know_all_steps, load_body
from cutwright.workshop.packet import document_of
from cutwright.workshop.work import work
from tests.style.heavy import HEAVY, SKIRT


def measured(steps: list[dict[str, object]]) -> dict[str, float | str]:
    """One style worked in this process, on a program that is warm."""
    know_all_steps()
    body = load_body("the-alto")
    document_of(work(parse_style({"format": 1, "name": "Warm", "steps": SKIRT}), body))
    base, began = _peak(), time.process_time()
    done = work(parse_style({"format": 1, "name": "Heavy", "steps": steps}), body)
    proof = done.proof
    document_of(done)
    spent = time.process_time() - began
    stages, trouble = done.replay.stages, done.trouble
    return {
        "counted": (stages[-1].load + paper_load(done.replay.pattern)) / 1e6,
        "seconds": spent,
        "mb": _peak() - base,
        "steps": len(stages),
        "of": len(steps),
        "faults": len(proof.faults),
        "why": "" if trouble is None else str(getattr(trouble.message.values["text"], "code", "")),
    }


def _peak() -> float:
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


def main() -> None:
    """Every heavy style, one line each."""
    print("| style | steps done | counted s | processor s | more MB | refused |")
    print("|---|--:|--:|--:|--:|---|")
    for name in HEAVY:
        words = [sys.executable, "-m", "benchmarks.style_load", name]
        told = subprocess.run(words, capture_output=True, text=True, check=True).stdout
        row = json.loads(told)
        print(
            f"| {name} | {row['steps']} of {row['of']} | {row['counted']:.2f} | {row['seconds']:.2f} | "
            f"{row['mb']:.0f} | {row['why']} |",
            flush=True,
        )


if __name__ == "__main__":
    if sys.argv[1:]:
        print(json.dumps(measured(HEAVY[sys.argv[1]])))
    else:
        main()
