"""The measures taken down from the waist and along the leg, each declared once."""

from __future__ import annotations

from cutwright.body import bridges
from cutwright.body.measure import Measure
from cutwright.body.rule import Rule, about_line, by_line
from cutwright.body.surveys import LOOSER, TRIED, WOMEN_2012
from cutwright.body.tape import WOMEN, Column, Line, Tape, fitted
from cutwright.body.way import Way
from cutwright.messages import N_

KNEE = WOMEN_2012.line(0.37953, -0.04753, 0.0246, constant=-3.64, scatter=1.3)
FLOOR = WOMEN_2012.line(0.72073, -0.05253, 0.0287, constant=-14.25, scatter=1.62)
RISE = WOMEN_2012.line(0.10743, -0.00223, 0.0421, constant=3.24, scatter=1.54)
LEG = WOMEN_2012.line(0.6132, -0.0504, -0.0134, constant=-15.49, scatter=2.31)


_LEG_AND_RISE = N_("inside leg and body rise, less 2 for the tape over the hip")


def _leg_and_rise(leg: float, rise: float) -> float:
    return leg + rise - 2


LEG_LENGTHS = (
    Measure(
        "waist_to_hip",
        N_("Waist to hip"),
        "along",
        N_("Waist tape straight down to the level of the hip."),
        N_("At the side, the tape hanging straight, to the level of the fullest part of the seat."),
        way=Way("front", "long", ((10.5, 66), (10.5, 87))),
        tapes={
            WOMEN: fitted(
                9,
                35,
                WOMEN_2012.line(0.12433, -0.07333, 0.0394, constant=0.36, scatter=1.75),
                LOOSER,
                chart=Line(19.0, 0.0, 0.12),
                column=Column(("buttock_height", *bridges.WAIST), bridges.down_from_waist),
            )
        },
    ),
    Measure(
        "waist_to_knee",
        N_("Waist to knee"),
        "along",
        N_("Waist tape straight down to the middle of the kneecap."),
        N_("At the side, the tape hanging straight."),
        way=Way("front", "long", ((6.5, 66), (6.5, 126))),
        tapes={
            WOMEN: Tape(
                38,
                85,
                estimates=(
                    Rule(
                        ("waist_to_floor", "knee_height"),
                        lambda floor, knee: floor - knee,
                        0.5,
                        N_("waist to floor less knee height"),
                        ("waist_to_floor",),
                    ),
                    by_line(KNEE),
                ),
                expected=about_line(KNEE, LOOSER),
                column=Column(("knee_height", *bridges.WAIST), bridges.down_from_waist),
            )
        },
    ),
    Measure(
        "waist_to_floor",
        N_("Waist to floor"),
        "along",
        N_("Waist tape straight down to the floor, without shoes."),
        N_("At the side, the tape hanging straight."),
        way=Way("front", "long", ((-34, 66), (-34, 168))),
        tapes={
            WOMEN: Tape(
                70,
                140,
                estimates=(
                    Rule(
                        ("inside_leg", "body_rise"),
                        _leg_and_rise,
                        1.0,
                        _LEG_AND_RISE,
                        ("inside_leg",),
                    ),
                    Rule(
                        ("inside_leg", "body_rise"),
                        _leg_and_rise,
                        1.0,
                        _LEG_AND_RISE,
                        ("body_rise",),
                    ),
                    by_line(FLOOR),
                ),
                expected=about_line(FLOOR, LOOSER),
                column=Column(bridges.WAIST, bridges.waist_level),
            )
        },
    ),
    Measure(
        "knee_height",
        N_("Knee height"),
        "along",
        N_("Floor to the middle of the kneecap, without shoes."),
        N_("Leg straight."),
        way=Way("front", "long", ((18, 126), (18, 168))),
        tapes={
            WOMEN: fitted(
                30,
                68,
                WOMEN_2012.line(0.3412, -0.005, 0.0041, constant=-10.61, scatter=1.4),
                LOOSER,
                column=Column(("knee_height",)),
            )
        },
    ),
    Measure(
        "body_rise",
        N_("Body rise"),
        "along",
        N_("Waist tape to the seat of a firm flat chair, sitting upright, at the side."),
        N_(
            "Sit upright on a hard chair; from the waist tape over the side of the hip to the seat."
        ),
        way=Way("front", "long", ((2.4, 66), (2.4, 91))),
        tapes={
            WOMEN: Tape(
                16,
                48,
                estimates=(
                    Rule(
                        ("waist_to_floor", "inside_leg"),
                        lambda floor, leg: floor - leg + 2,
                        1.0,
                        N_("waist to floor less inside leg, and 2 for the tape over the hip"),
                        ("waist_to_floor", "inside_leg"),
                    ),
                    by_line(RISE),
                ),
                expected=about_line(RISE, LOOSER),
                column=Column(("crotch_height", *bridges.WAIST), bridges.body_rise),
            )
        },
    ),
    Measure(
        "crotch_length",
        N_("Crotch length"),
        "along",
        N_(
            "Waist tape at the centre front, between the legs, to the waist tape at the centre back."
        ),
        N_("Hold the tape as close as the garment should fit; do not pull."),
        way=Way("front", "long", ((-2.4, 66), (-1, 92))),
        tapes={
            WOMEN: fitted(
                40,
                115,
                WOMEN_2012.line(0.12437, 0.01613, 0.4025, constant=5.32, scatter=2.61),
                LOOSER,
                column=Column(("crotch_length_navel", *bridges.WAIST), bridges.crotch_length),
            )
        },
        clause="5.4.18",
    ),
    Measure(
        "inside_leg",
        N_("Inside leg"),
        "along",
        N_("Crotch straight down to the floor, without shoes."),
        N_("A book held level and drawn up between the legs gives the upper end."),
        way=Way("front", "long", ((0, 93), (0, 168))),
        tapes={
            WOMEN: Tape(
                50,
                110,
                estimates=(
                    Rule(
                        ("waist_to_floor", "body_rise"),
                        lambda floor, rise: floor - rise + 2,
                        1.0,
                        N_("waist to floor less body rise, and 2 for the tape over the hip"),
                        ("waist_to_floor",),
                    ),
                    by_line(LEG),
                ),
                expected=about_line(LEG, TRIED),
                column=Column(("crotch_height",)),
            )
        },
        clause="5.1.15",
    ),
)
