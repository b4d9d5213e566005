"""What a piece of paper is in the garment, on which layer of it it lies, on which side of the body."""

from __future__ import annotations

from enum import StrEnum


class Role(StrEnum):
    """What a piece belongs to: the front or the back of the body, or a part that is sewn on."""

    NONE = ""
    FRONT = "front"
    BACK = "back"
    PANEL = "panel"  # one of several equal parts that go round the body
    SLEEVE = "sleeve"
    COLLAR = "collar"
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


class BodySide(StrEnum):
    """The wearer's side on which paper lies."""

    BOTH = "both"  # across the centre, or the same paper for left and right
    RIGHT = "right"
    LEFT = "left"

    def named(self, name: str) -> str:
        """What the copy of a thing on this side is called: "left side"; on both, as it was."""
        return name if self is BodySide.BOTH else f"{self.value} {name}"
