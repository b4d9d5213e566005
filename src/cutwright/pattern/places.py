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
    """The spot on an edge, counted from the end that meets a neighbour.

    Parameters
    ----------
    piece : the paper
    edge : name of the edge
    near : name of the neighbour; empty counts from where the edge begins, walking clockwise
    distance : along the edge, cm
    share : of the edge's length, from 0 to 1, in place of a distance

    Returns
    -------
    the place

    Raises
    ------
    LookupFailed : the edge or the neighbour is not there, or the place lies off the edge's end
    StepError : not exactly one of `distance` and `share` is given
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
