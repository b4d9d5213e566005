"""How a measure that was not taped is worked out from those that were.

Each measure has its rules in order of preference; the first whose wanted tapes are all there is
used. A rule takes what it needs, taped or itself estimated. Its scatter is two standard
deviations in the measure's unit, measured on the survey where a fit stands behind it, a judgement
("common practice") where none does.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import radians, sin

from cutwright.body.fits import BUST, FITS, HIP, WAIST, Fit
from cutwright.messages import N_

_THREE = ("stature", "bust_girth", "hip_girth")
_SURVEY = N_("straight line on height, bust and hip; survey of 1,986 women, 2012")


@dataclass(frozen=True, slots=True)
class Rule:
    """One way to work out a measure.

    Parameters
    ----------
    needs : measures whose values are handed to `work`, in that order
    work : values in cm and degrees to the estimate
    spread : two standard deviations when the needed values are exact
    text : the rule in words
    taped : measures that must have been taped for the rule to be used
    """

    needs: tuple[str, ...]
    work: Callable[..., float]
    spread: float
    text: str
    taped: tuple[str, ...] = ()


def _fit(fit: Fit, text: str = _SURVEY) -> Rule:
    return Rule(_THREE, fit.at, 2 * fit.scatter, text)


def armhole_depth(stature: float, bust: float, shoulder: float, slope: float, back: float) -> float:
    """Depth of a close armhole below the back neck point, without ease (common practice).

    12.5 + bust/10 + (stature - 168)/25, deeper for a shoulder that slopes more than 19 degrees;
    never over 0.6 of the back waist length. Lengths in cm, slope in degrees.
    """
    drop = 0.6 * shoulder * (sin(radians(slope)) - sin(radians(19)))
    return min(12.5 + bust / 10 + (stature - 168) / 25 + drop, 0.60 * back)


def chest_width(breadth: float, bust: float) -> float:
    """Whole width across the chest from the shoulder breadth and the bust, in cm (derived)."""
    return 6.4 + 0.5 * breadth + 0.1 * bust


RULES: dict[str, tuple[Rule, ...]] = {
    "stature": (
        Rule(
            ("inside_leg",),
            lambda leg: 162.8 + 1.2235 * (leg - 78.2),
            6.8,
            N_("from the inside leg; survey of 1,986 women, 2012"),
            ("inside_leg",),
        ),
        Rule(
            ("hip_girth",),
            lambda hip: 162.8 + 0.3214 * (hip - 102.1),
            11.9,
            N_("little more than the mean height, 162.8, of 1,986 women, 2012"),
            ("hip_girth",),
        ),
        Rule(
            ("bust_girth",),
            lambda bust: 162.8 + 0.2018 * (bust - 94.7),
            12.4,
            N_("little more than the mean height, 162.8, of 1,986 women, 2012"),
            ("bust_girth",),
        ),
    ),
    "bust_girth": (
        Rule(
            ("stature", "hip_girth"),
            lambda stature, hip: BUST.at(stature, 0, hip),
            2 * BUST.scatter,
            N_("from height and hip; survey of 1,986 women, 2012"),
            ("hip_girth",),
        ),
    ),
    "hip_girth": (
        Rule(
            ("stature", "bust_girth"),
            lambda stature, bust: HIP.at(stature, bust, 0),
            2 * HIP.scatter,
            N_("from height and bust; survey of 1,986 women, 2012"),
            ("bust_girth",),
        ),
    ),
    "waist_girth": (
        Rule(
            ("stature", "hip_girth"),
            lambda stature, hip: WAIST.at(stature, 0, hip),
            2 * WAIST.scatter,
            N_("from hip and height; 260 active women, Heinz et al. 2003"),
        ),
    ),
    "underbust_girth": (
        Rule(
            ("bust_girth",),
            lambda bust: 0.93 * bust - 9,
            6.0,
            N_("0.93 of the bust less 9; common practice"),
        ),
    ),
    "knee_girth": (
        Rule(
            ("calf_girth",),
            lambda calf: calf + 1.4,
            3.0,
            N_("calf and 1.4 more; half way between calf and thigh above the knee"),
        ),
    ),
    "bust_point_width": (
        Rule(
            ("bust_girth",),
            lambda bust: bust / 8 + 7.8,
            3.0,
            N_("an eighth of the bust and 7.8; common practice"),
        ),
    ),
    "shoulder_slope": (Rule((), lambda: 19.0, 7.0, N_("19 degrees; common practice")),),
    "chest_width": (
        Rule(
            ("shoulder_breadth", "bust_girth"),
            chest_width,
            3.0,
            N_("half the shoulder breadth, a tenth of the bust and 6.4; common practice"),
        ),
    ),
    "front_waist_length": (
        Rule(
            ("back_waist_length", "bust_girth"),
            lambda back, bust: back + 3.6 + 0.08 * (bust - 88),
            2.5,
            N_("back waist length and 3.6, 0.08 more for each cm of bust over 88; common practice"),
        ),
    ),
    "armhole_depth": (
        Rule(
            ("stature", "bust_girth", "shoulder_length", "shoulder_slope", "back_waist_length"),
            armhole_depth,
            2.7,
            N_(
                "a tenth of the bust and 12.5, 1 more for each 25 of height over 168, corrected "
                "for the shoulder slope; at most 0.6 of the back waist length; common practice"
            ),
        ),
    ),
    "waist_to_knee": (
        Rule(
            ("waist_to_floor", "knee_height"),
            lambda floor, knee: floor - knee,
            0.5,
            N_("waist to floor less knee height"),
            ("waist_to_floor",),
        ),
        _fit(FITS["waist_to_knee"]),
    ),
    "waist_to_floor": (
        Rule(
            ("inside_leg", "body_rise"),
            lambda leg, rise: leg + rise - 2,
            1.0,
            N_("inside leg and body rise, less 2 for the tape over the hip"),
            ("inside_leg",),
        ),
        Rule(
            ("inside_leg", "body_rise"),
            lambda leg, rise: leg + rise - 2,
            1.0,
            N_("inside leg and body rise, less 2 for the tape over the hip"),
            ("body_rise",),
        ),
        _fit(FITS["waist_to_floor"]),
    ),
    "inside_leg": (
        Rule(
            ("waist_to_floor", "body_rise"),
            lambda floor, rise: floor - rise + 2,
            1.0,
            N_("waist to floor less body rise, and 2 for the tape over the hip"),
            ("waist_to_floor",),
        ),
        _fit(FITS["inside_leg"]),
    ),
    "body_rise": (
        Rule(
            ("waist_to_floor", "inside_leg"),
            lambda floor, leg: floor - leg + 2,
            1.0,
            N_("waist to floor less inside leg, and 2 for the tape over the hip"),
            ("waist_to_floor", "inside_leg"),
        ),
        _fit(FITS["body_rise"]),
    ),
}
RULES |= {name: (_fit(fit),) for name, fit in FITS.items() if name not in RULES}
