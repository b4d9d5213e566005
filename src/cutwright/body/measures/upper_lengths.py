"""Height and the measures taken down the upper body, each declared once."""

from __future__ import annotations

from math import radians, sin

from cutwright.body import bridges
from cutwright.body.measure import Measure
from cutwright.body.rule import Expected, Range, Rule, by_line, expected
from cutwright.body.surveys import LOOSER, THREE, WOMEN_2012
from cutwright.body.tape import BY_RULE, WOMEN, Column, Line, Tape, fitted
from cutwright.body.way import Way
from cutwright.messages import N_

BACK = WOMEN_2012.line(0.17517, 0.05513, 0.0126, constant=4.46, scatter=1.84)
"""Two thirds of the line to the ISO waist level, one third of the line to the navel."""

ISO_BACK = WOMEN_2012.line(0.1828, 0.0358, 0.0012, constant=4.68, scatter=1.84)
"""Back neck point to the ISO waist level; the shortest back a dressmaker's tape should give."""

NAVEL_BACK = WOMEN_2012.line(0.1599, 0.0938, 0.0354, constant=4.02, scatter=2.08)
"""Back neck point to navel level; the longest back a dressmaker's tape should give."""

_MEAN = N_("little more than the mean height, 162.8, of 1,986 women, 2012")


def armhole_depth(stature: float, bust: float, shoulder: float, slope: float, back: float) -> float:
    """Depth of a close armhole below the back neck point, without ease, in cm (common practice).

    12.5 + bust/10 + (stature - 168)/25, deeper for a shoulder that slopes more than 19 degrees;
    never over 0.6 of the back waist length.

    Parameters
    ----------
    stature, bust, shoulder, back : height, bust girth, shoulder length, back waist length, in cm
    slope : of the shoulder, in degrees
    """
    drop = 0.6 * shoulder * (sin(radians(slope)) - sin(radians(19)))
    return min(12.5 + bust / 10 + (stature - 168) / 25 + drop, 0.60 * back)


def _usual_armhole(stature: float, bust: float, back: float) -> float:
    """The same on a shoulder of usual length and slope."""
    return armhole_depth(stature, bust, 13.5, 19, back)


def _front_length(back: float, bust: float) -> float:
    return back + 3.6 + 0.08 * (bust - 88)


def _between_waists(stature: float, bust: float, hip: float) -> Range:
    """Between the ISO waist and the navel every back length is right for somebody's waist tape.

    For the survey's mean woman this is 33.0 to 49.4.
    """
    wider = WOMEN_2012.widening((stature, bust, hip))
    return Range(
        ISO_BACK.at(stature, bust, hip) - 5.0 * wider,
        NAVEL_BACK.at(stature, bust, hip) + 6.9 * wider,
    )


UPPER_LENGTHS = (
    Measure(
        "stature",
        N_("Height"),
        "along",
        N_("Floor to the top of the head, standing upright without shoes."),
        N_("Back to a wall, a book held level on the head."),
        way=Way("front", "long", ((-44, 0), (-44, 168))),
        tapes={
            WOMEN: Tape(
                120,
                215,
                estimates=(
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
                        _MEAN,
                        ("hip_girth",),
                    ),
                    Rule(
                        ("bust_girth",),
                        lambda bust: 162.8 + 0.2018 * (bust - 94.7),
                        12.4,
                        _MEAN,
                        ("bust_girth",),
                    ),
                ),
                column=Column(("stature",)),
            )
        },
        clause="5.1.1",
    ),
    Measure(
        "back_waist_length",
        N_("Back waist length"),
        "along",
        N_("Back neck point down the centre back to the waist tape, following the body."),
        N_(
            "Bend the head to find the bone at the back of the neck, then stand upright; measure "
            "to the lower edge of the tied waist tape."
        ),
        way=Way("back", "long", ((0, 28), (0, 66))),
        tapes={
            WOMEN: Tape(
                27,
                56,
                estimates=(by_line(BACK),),
                expected=Expected(THREE, _between_waists, THREE),
                chart=Line(40.5, 0.05, 0.2),
                column=Column(("back_navel_waist_length", *bridges.WAIST), bridges.back_to_waist),
                ask=True,
            )
        },
        clause="5.4.5",
    ),
    Measure(
        "front_waist_length",
        N_("Front waist length"),
        "along",
        N_("Side neck point over the bust point straight down to the waist tape."),
        N_("From where neck and shoulder seam meet; over the bust point, then straight down."),
        way=Way("front", "long", ((-7, 29), (-8, 50), (-8, 66))),
        tapes={
            WOMEN: Tape(
                28,
                65,
                estimates=(
                    Rule(
                        ("back_waist_length", "bust_girth"),
                        _front_length,
                        2.5,
                        N_(
                            "back waist length and 3.6, 0.08 more for each cm of bust over 88; common practice"
                        ),
                    ),
                ),
                expected=expected(
                    ("back_waist_length", "bust_girth"), _front_length, 6, needs=THREE
                ),
                chart=Line(44.1, 0.13, 0.2),
            )
        },
    ),
    Measure(
        "bust_depth",
        N_("Bust depth"),
        "along",
        N_("Side neck point to the bust point."),
        N_("From where neck and shoulder seam meet, in the bra that will be worn."),
        way=Way("front", "long", ((7, 29), (8, 48.5))),
        tapes={
            WOMEN: fitted(
                16,
                48,
                WOMEN_2012.line(0.0909, 0.0576, 0.0249, constant=4.21, scatter=2.18),
                LOOSER,
                chart=Line(27.0, 0.08, 0.09),
                column=Column(("cervicale_height", "chest_height"), bridges.bust_depth),
            )
        },
    ),
    Measure(
        "armhole_depth",
        N_("Armhole depth"),
        "along",
        N_(
            "Back neck point down the centre back to the level where the underarm of a close "
            "garment lies, about two fingers below the armpit."
        ),
        N_(
            "Hold a strip of card level under the arm, two fingers below the armpit; bring its "
            "level to the centre back with a tape and measure down to it."
        ),
        way=Way("back", "long", ((-4, 28), (-4, 47))),
        tapes={
            WOMEN: Tape(
                14,
                36,
                estimates=(
                    Rule(
                        (
                            "stature",
                            "bust_girth",
                            "shoulder_length",
                            "shoulder_slope",
                            "back_waist_length",
                        ),
                        armhole_depth,
                        2.7,
                        N_(
                            "a tenth of the bust and 12.5, 1 more for each 25 of height over 168, corrected for the shoulder slope; at most 0.6 of the back waist length; common practice"
                        ),
                    ),
                ),
                expected=expected(
                    ("stature", "bust_girth", "back_waist_length"), _usual_armhole, 5, needs=THREE
                ),
                chart=BY_RULE,
                ask=True,
            )
        },
    ),
)
