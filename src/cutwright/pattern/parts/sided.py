"""A pair cut from one paper becomes two papers, one for the wearer's right and one for the left."""

from __future__ import annotations

from dataclasses import replace

from cutwright.errors import StepError
from cutwright.geometry.move import Move
from cutwright.messages import N_, Message
from cutwright.pattern.piece import Cut, Piece
from cutwright.pattern.role import BodySide


def sided(piece: Piece) -> tuple[Piece, Piece]:
    """The paper of the right side, which stays as it was drafted, and its mirror image for the left.

    Raises
    ------
    StepError : the piece is not cut as a pair
    """
    if piece.on_fold or not piece.cut.mirrored or piece.cut.copies % 2:
        raise StepError(
            Message(
                "not-a-pair",
                N_(
                    '"{piece}" is not cut as a pair, so it has no left and right to tell apart. Cut its centre as a '
                    "seam first, or mirror it into a whole piece."
                ),
                piece=piece.name,
            )
        )
    mirror = Move.mirror(*piece.grain)
    right, left = BodySide.RIGHT, BodySide.LEFT
    return _one(piece, right), _one(piece.moved(mirror), left)


def _one(piece: Piece, side: BodySide) -> Piece:
    return replace(
        piece,
        name=side.named(piece.name),
        side=side,
        cut=_alone(piece.cut),
        also=tuple(map(_alone, piece.also)),
    )


def _alone(cut: Cut) -> Cut:
    """How one of a pair is cut; a cloth in which it was cut once stays with both."""
    return replace(cut, copies=max(cut.copies // 2, 1), mirrored=False)
