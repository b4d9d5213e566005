"""Work done once for a piece of paper is kept for as long as that very piece is in use."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any, ParamSpec, TypeVar

P = ParamSpec("P")
T = TypeVar("T")
MOST = 512


def memoised(work: Callable[P, T]) -> Callable[P, T]:
    """Decorator: remember the answer for what was asked.

    What is given by place is known by its identity: meant for frozen things such as pieces and
    stages, which a step that leaves them alone hands on as the same object. What is given by name
    is known by its value, and must be hashable. The oldest answers are forgotten beyond `MOST`;
    `cache_clear` forgets all.
    """
    kept: dict[tuple[object, ...], tuple[tuple[object, ...], T]] = {}

    @wraps(work)
    def remembered(*given: P.args, **named: P.kwargs) -> T:
        key = (*map(id, given), *named.items())
        found = kept.get(key)
        if found is not None:
            return found[1]
        answer = work(*given, **named)
        while len(kept) >= MOST:
            kept.pop(next(iter(kept), ()), None)
        kept[key] = (given, answer)  # holding what was given keeps its identity from being reused
        return answer

    forgetting: Any = remembered
    forgetting.cache_clear = kept.clear
    return remembered
