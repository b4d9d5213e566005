"""Work done once for a piece of paper is kept for as long as that very piece is in use."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import TypeVar

A = TypeVar("A")
T = TypeVar("T")
MOST = 512


def once(work: Callable[[A], T]) -> Callable[[A], T]:
    """Decorator: remember the answer by the identity of what is asked about.

    Meant for frozen things such as pieces and stages: a step that leaves a piece alone hands on the
    same object. The oldest answers are forgotten beyond `MOST`.
    """
    done: dict[int, tuple[A, T]] = {}

    @wraps(work)
    def remembered(asked: A) -> T:
        found = done.get(id(asked))
        if found is not None and found[0] is asked:
            return found[1]
        answer = work(asked)
        while len(done) >= MOST:
            done.pop(next(iter(done), 0), None)
        done[id(asked)] = (asked, answer)
        return answer

    return remembered
