"""Frozen nouns of which a pattern makes thousands."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TypeVar, dataclass_transform

T = TypeVar("T")


@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def frozen(noun: type[T]) -> type[T]:
    """Class decorator: a dataclass with slots, compared and hashed by value, never to be changed.

    That it stays as it was made is kept by the type checker alone: a dataclass that keeps it when it runs takes
    three times as long to make. What such a noun remembers of itself, so that it is worked out once, it writes
    with `remember`.
    """
    return dataclass(slots=True, unsafe_hash=True)(noun)


remember = object.__setattr__
"""Write down what a frozen noun found out about itself: the noun, the field, what was found."""
