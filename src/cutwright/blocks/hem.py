"""A hem that bows down at the side so that it meets the side seam square."""

from __future__ import annotations

from math import atan2, cos, radians, sin

from cutwright.errors import DraftError
from cutwright.geometry.curve import Line
from cutwright.geometry.draw import corner_arc
from cutwright.geometry.path import Path
from cutwright.geometry.point import Point
from cutwright.messages import N_, Message

USUAL_FLARE = 0.07
"""Flare at each side where none is asked for, as a share of the length below the hip."""

_STEEPEST = radians(50)


def lean_for(flare: float | None, below: float) -> float:
    """The lean of the skirt's side, radians, for a flare over the length below the hip (cm).

    Parameters
    ----------
    flare : how far the hem stands out at a side, cm; None takes the usual
    below : from hip to hem, cm

    Returns
    -------
    radians

    Raises
    ------
    DraftError : the flare leans more than 50 degrees
    """
    lean = atan2(USUAL_FLARE * below if flare is None else flare, below)
    if flare is not None and lean > _STEEPEST:
        raise DraftError(
            Message(
                "flare-cm-each-side-over",
                N_(
                    "A flare of {flare:.1f} cm at each side over {below:.1f} cm below the hip leans more "
                    "than the side can; take less, or a longer skirt."
                ),
                flare=flare,
                below=below,
            )
        )
    return lean


def flared_hem(hip: Point, bottom: float, lean: float, bow: float, centre: float) -> Path:
    """The side below the hip and the hem on to the centre: (side line, hem curve, level line).

    Own method (docs/drafting.md, section 5): the side leans by `lean`, its tangent and the level meet at `bow` from the side,
    so the side ends bow x sin(lean) above the bottom; corner arc with share 0.62.

    Parameters
    ----------
    hip : the side at the hip, cm
    bottom : y of the hem at the centre, cm
    lean : of the side, radians
    bow : from the side to where the hem turns level, cm
    centre : u of the centre, cm

    Returns
    -------
    side line, hem curve, level line
    """
    end_y = bottom - bow * sin(lean)
    end = hip + complex((end_y - hip.imag) * sin(lean) / cos(lean), end_y - hip.imag)
    if abs(lean) < 1e-9:
        return (Line(hip, end), Line(end, complex(centre, bottom)))
    square = complex(-cos(lean), sin(lean))
    turn = complex(end.real - bow * cos(lean) - bow, bottom)
    return (
        Line(hip, end),
        corner_arc(end, square, turn, -1 + 0j, 0.62),
        Line(turn, complex(centre, bottom)),
    )
