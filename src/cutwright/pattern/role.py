"""What a piece of paper is in the garment, and on which layer of it lies."""

from __future__ import annotations

from enum import StrEnum


class Role(StrEnum):
    """What a piece belongs to: the front or the back of the body, or a part that is sewn on."""

    NONE = ""
    FRONT = "front"
    BACK = "back"
    PANEL = "panel"  # one of several equal parts that go round the body
    SLEEVE = "sleeve"
    WAISTBAND = "waistband"
    STRIP = "strip"
    FLOUNCE = "flounce"  # a straight strip, gathered
    SLASHED_FLOUNCE = "slashed flounce"
    CIRCULAR_FLOUNCE = "circular flounce"


BODY = frozenset({Role.NONE, Role.FRONT, Role.BACK, Role.PANEL})
"""Roles of pieces that lie round the body itself."""


class PieceLayer(StrEnum):
    """The layer of the garment a piece lies on, where several are sewn on each other."""

    OUTER = "outer"
    FACING = "facing"  # finishes an edge on the inside
    LINING = "lining"
