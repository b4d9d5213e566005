"""What the desk writes where it was started: few lines, and never what somebody sent or measured."""

from __future__ import annotations

import logging
import time
from collections.abc import Callable
from typing import Any

from cutwright.unforeseen import fault_trail

LINES = 20
"""The most lines in a minute; what is more is only counted."""

LONGEST = 300


class Brief(logging.Formatter):
    """One line for each record: of a fault its kind and places, never its text, which may quote a body."""

    def format(self, record: logging.LogRecord) -> str:
        """The line."""
        said = record.getMessage().splitlines() or [""]
        line = f"{record.levelname} {record.name}: {said[0][:LONGEST]}"
        kind, _fault, trace = record.exc_info or (None, None, None)
        return f"{line} [{kind.__name__} at {fault_trail(trace)}]" if kind else line


class Bounded(logging.Filter):
    """Lets a few records a minute through and says how many it kept back."""

    def __init__(self, clock: Callable[[], float] = time.monotonic) -> None:
        super().__init__()
        self.clock = clock
        self.minute = -1
        self.passed = self.kept_back = 0

    def filter(self, record: logging.LogRecord) -> bool:
        """Whether the record is written."""
        minute = int(self.clock() // 60)
        if minute != self.minute:
            if self.kept_back:
                said = f"{self.kept_back} lines were left out; {record.getMessage()}"
                record.msg, record.args = said, ()
            self.minute, self.passed, self.kept_back = minute, 0, 0
        if self.passed >= LINES:
            self.kept_back += 1
            return False
        self.passed += 1
        return True


def set_up_log(stream: Any = None) -> None:
    """Let everything that is logged in this program go through here."""
    handler = logging.StreamHandler(stream)
    handler.setFormatter(Brief())
    handler.addFilter(Bounded())
    root = logging.getLogger()
    root.handlers[:] = [handler]
    root.setLevel(logging.WARNING)
