"""Work done once for a piece of paper is kept for as long as that very piece is in use."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import TypeVar

from cutwright.pattern.piece import Piece

T = TypeVar("T")
MOST = 1024


def once_a_piece(work: Callable[[Piece], T]) -> Callable[[Piece], T]:
    """Decorator: remember the answer by the identity of the piece (a step that leaves a piece
    alone hands on the same object); the oldest answers are forgotten beyond `MOST`.
    """
    done: dict[int, tuple[Piece, T]] = {}

    @wraps(work)
    def remembered(piece: Piece) -> T:
        found = done.get(id(piece))
        if found is not None and found[0] is piece:
            return found[1]
        answer = work(piece)
        while len(done) >= MOST:
            done.pop(next(iter(done)), None)
        done[id(piece)] = (piece, answer)
        return answer

    return remembered
