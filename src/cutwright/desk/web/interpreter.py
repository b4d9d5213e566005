"""How the desk's interpreter is set while it serves, so that an answer is not kept waiting."""

from __future__ import annotations

import gc
import sys
from collections.abc import Iterator
from contextlib import contextmanager

HAND_OVER = 0.0002
"""A thread that works lets another have its turn after this, in seconds. A save to the book is a
dozen short questions beside a long reckoning; with Python's usual 5 ms it waited at each of them."""


@contextmanager
def tuned_interpreter() -> Iterator[None]:
    """Quick turns between threads, and no search for rubbish among what was there at the start."""
    usual = sys.getswitchinterval()
    sys.setswitchinterval(HAND_OVER)
    gc.collect()
    gc.freeze()
    try:
        yield
    finally:
        gc.unfreeze()
        sys.setswitchinterval(usual)
