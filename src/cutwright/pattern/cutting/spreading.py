"""Slash and spread: cut lines across a piece, opened by wedges or by parallel gaps."""

from __future__ import annotations

from collections.abc import Sequence
from math import asin

from cutwright.errors import StepError
from cutwright.geometry.crossing import stroke_meets
from cutwright.geometry.move import Move
from cutwright.geometry.point import unit
from cutwright.messages import N_, Message
from cutwright.pattern.cutting.flare import Flared, far_trued, opened, trued_flare
from cutwright.pattern.cutting.strips import Slash, put_together, strip_moves, take_apart
from cutwright.pattern.loop import Spot, spot_on, spot_point
from cutwright.pattern.piece import Piece
from cutwright.pattern.shaping.truing import trued_near


def slash_lines(piece: Piece, hinge: str, far: str, shares: Sequence[float]) -> list[Slash]:
    """Slashes from shares of the hinge edge to the same shares of the far edge.

    Parameters
    ----------
    piece : the paper before
    hinge, far : names of the edge at which the slashes begin and of the one at which they end
    shares : from 0 to 1, ascending, along the hinge edge from where it begins; along the far edge
        they count from its end

    Returns
    -------
    one slash for each share, hinged on the hinge edge

    Raises
    ------
    LookupFailed : an edge is not there
    StepError : a slash would run through a dart or leave the paper
    """
    sizes = piece.paper_length(hinge), piece.paper_length(far)
    slashes: list[Slash] = []
    for share in shares:
        near_spot = spot_on(piece, hinge, share * sizes[0])
        far_spot = spot_on(piece, far, (1 - share) * sizes[1])
        at = spot_point(piece, near_spot)
        slashes.append(Slash(near_spot, near_spot, far_spot, at))
        _refuse_crossing(piece, near_spot, far_spot)
    return slashes


def _refuse_crossing(piece: Piece, near: Spot, far: Spot) -> None:
    a, b = spot_point(piece, near), spot_point(piece, far)
    step = unit(b - a) * 1e-3
    for edge in piece.edges:
        for curve in edge.curves:
            if stroke_meets(a + step, b - step, curve):
                what = edge.name if edge.taken_up else ""
                raise StepError(
                    Message(
                        "slash-across-would-run-through",
                        N_(
                            'A slash across "{piece}" would run through the {what}. Choose other lines.'
                        ),
                        piece=piece.name,
                        what=what or Message("outline", N_("outline")),
                    )
                )


def spread(
    piece: Piece,
    hinge: str,
    far: str,
    slashes: Sequence[Slash],
    far_gaps: Sequence[float],
    near_gaps: Sequence[float],
    fixed: int,
) -> Flared:
    """Open every slash by a gap at the far edge and another at the near edge.

    Both edges are trued smooth; a hinged near edge keeps its length. Own method,
    docs/how-it-works.md.

    Parameters
    ----------
    piece : the paper before
    hinge, far : names of the near and of the far edge
    slashes : in walking order of the near edge
    far_gaps, near_gaps : one for each slash, cm; a near gap of 0 hinges it
    fixed : index of the strip that stays on the table

    Returns
    -------
    the paper after, with what was opened and trued

    Raises
    ------
    LookupFailed : an edge is not there
    StepError : the two gaps of a slash differ by more than 1.6 times its length
    """
    before = piece.edge_length(hinge)
    opens: list[Move] = []
    for slash, far_gap, near_gap in zip(slashes, far_gaps, near_gaps, strict=True):
        line = spot_point(piece, slash.far) - slash.hinge
        if abs(far_gap - near_gap) > 1.6 * abs(line):
            raise StepError(
                Message(
                    "gap-cm-too-wide-slash",
                    N_(
                        'A gap of {gap:.1f} cm is too wide for a slash {size:.1f} cm long in "{piece}": the paper '
                        "would turn over itself. Use more slashes with smaller gaps."
                    ),
                    gap=abs(far_gap - near_gap),
                    size=abs(line),
                    piece=piece.name,
                )
            )
        angle = -2 * asin((far_gap - near_gap) / (2 * abs(line)))
        opens.append(Move.about(slash.hinge, angle).then(Move.by(unit(line) * -1j * near_gap)))
    strips = take_apart(piece, slashes)
    moves = strip_moves(opens, fixed)
    flared = opened(piece, put_together(piece, strips, moves), slashes, strips, moves)
    target = before if not any(near_gaps) else None
    near = flared.piece.edge_parts(hinge)
    if len(near) == 1 and len(near[0].curves) > 1:
        flared = trued_flare(flared, near[0], trued_near(near[0], target))
    return far_trued(flared, far)


def middle_strip(count: int) -> int:
    """The strip that stays when a piece without a centre is slashed evenly on both sides."""
    return count // 2
