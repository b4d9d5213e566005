"""From a place named in a style to a spot on the outline."""

from __future__ import annotations

from cutwright.errors import StepError
from cutwright.messages import N_, Message
from cutwright.pattern.loop import Spot, spot_on, starts_near
from cutwright.pattern.piece import Piece


def spot_at(
    piece: Piece,
    edge: str,
    near: str = "",
    distance: float | None = None,
    share: float | None = None,
) -> Spot:
    """The spot on an edge, counted from the end that meets `near` (cm, or a share of the edge).

    Without `near` it is counted from where the edge begins, walking clockwise.

    Parameters
    ----------
    piece : the paper
    edge : name of the edge
    near : the neighbour it is counted from; "": from where the edge starts
    distance : cm; None where a share is given
    share : of the length, from 0 to 1; None where a distance is given

    Raises
    ------
    StepError : neither or both are given
    LookupFailed : there is no such edge, or it does not meet `near`
    """
    if (distance is None) == (share is None):
        raise StepError(
            Message(
                "say-where-either-distance-cm",
                N_('Say where on "{edge}": either a distance in cm or a share of its length.'),
                edge=edge,
            )
        )
    size = piece.paper_length(edge)
    along = share * size if share is not None else float(distance or 0.0)
    if near and not starts_near(piece, edge, near):
        along = size - along
    return spot_on(piece, edge, along)
