"""What came of an attack: counts, what went wrong, and what it cost."""

from __future__ import annotations

import json
import resource
import time
from collections import Counter
from dataclasses import dataclass, field
from hashlib import sha256
from pathlib import Path

FAILED = Path("out") / "attack"
"""Where inputs that made the program stumble are put, to be looked at and moved to the corpus."""


@dataclass
class Tally:
    """One attack: what was tried, how it ended, and every input that ended badly."""

    name: str
    ends: Counter[str] = field(default_factory=Counter)
    wrong: list[str] = field(default_factory=list)
    also: str = ""
    slowest: tuple[float, str] = (0.0, "")
    began: float = field(default_factory=time.perf_counter)

    def count(self, end: str) -> None:
        """One more that ended like this."""
        self.ends[end] += 1

    def stumbled(self, what: str, kind: str = "", raw: bytes = b"") -> None:
        """Something that must not happen; the input is kept."""
        self.ends["WRONG"] += 1
        self.wrong.append(f"{kind} {what}"[:400])
        if raw:
            folder = FAILED / (kind or self.name)
            folder.mkdir(parents=True, exist_ok=True)
            (folder / sha256(raw).hexdigest()[:12]).write_bytes(raw)

    def took(self, seconds: float, what: str) -> None:
        """How long one took; the slowest is told."""
        if seconds > self.slowest[0]:
            self.slowest = (seconds, what)

    def lines(self) -> list[str]:
        """The report; memory and processor time are of this process and of its children together."""
        costs = [resource.getrusage(w) for w in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)]
        peak = max(cost.ru_maxrss for cost in costs) / 1024
        used = sum(cost.ru_utime + cost.ru_stime for cost in costs)
        spent = time.perf_counter() - self.began
        told = json.dumps(dict(sorted(self.ends.items())), ensure_ascii=False) + self.also
        slow = f", slowest {self.slowest[0]:.2f} s ({self.slowest[1]})" if self.slowest[1] else ""
        head = f"{self.name}: {sum(self.ends.values())} tried, {len(self.wrong)} wrong; {told}; "
        return [
            f"{head}{spent:.0f} s, CPU {used:.0f} s, peak {peak:.0f} MB{slow}",
            *(f"  {w}" for w in self.wrong),
        ]
