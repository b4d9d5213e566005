"""The measures taken round the trunk and the neck, each declared once."""

from __future__ import annotations

from cutwright.body import bridges
from cutwright.body.fit import Fit
from cutwright.body.measure import Measure
from cutwright.body.rule import Rule, about_line, by_line, expected
from cutwright.body.surveys import LOOSER, TRIED, WOMEN_2012
from cutwright.body.tape import WOMEN, Column, Line, Tape, fitted
from cutwright.body.way import Way
from cutwright.messages import N_

HIP = Fit(("stature", "bust_girth"), (0.2358, 0.6342), 3.67, 4.87)
"""Hip from stature and bust (women of the survey of 2012)."""

BUST = Fit(("stature", "hip_girth"), (-0.0329, 0.8200), 16.30, 5.54)
"""Bust from stature and hip (same women)."""

WAIST = Fit(("stature", "hip_girth"), (-0.1331, 0.9252), 3.25, 4.4)
"""Natural waist from hip and stature: 260 active women (Heinz, Peterson, Johnson and Kerr,
"Exploring relationships in body dimensions", Journal of Statistics Education 11(2), 2003)."""


def _underbust(bust: float) -> float:
    return 0.93 * bust - 9


TRUNK_GIRTHS = (
    Measure(
        "bust_girth",
        N_("Bust"),
        "round",
        N_("Level round the body over the fullest part of the bust."),
        N_("Over the bra that will be worn; tape level behind, neither slack nor pulled in."),
        way=Way("front", "round", ((-16.9, 51), (16.9, 51))),
        tapes={
            WOMEN: Tape(
                60,
                180,
                estimates=(
                    by_line(
                        BUST, N_("from height and hip; survey of 1,986 women, 2012"), ("hip_girth",)
                    ),
                ),
                expected=about_line(BUST, LOOSER),
                column=Column(("bust_girth",)),
            )
        },
        clause="5.3.4",
    ),
    Measure(
        "underbust_girth",
        N_("Underbust"),
        "round",
        N_("Level round the ribs directly below the bust."),
        N_("Snug, breathing out gently."),
        way=Way("front", "round", ((-14.8, 58), (14.8, 58))),
        tapes={
            WOMEN: Tape(
                50,
                165,
                estimates=(
                    Rule(
                        ("bust_girth",),
                        _underbust,
                        6.0,
                        N_("0.93 of the bust less 9; common practice"),
                    ),
                ),
                expected=expected(("bust_girth",), _underbust, 11),
                chart=Line(73.0, 0.94),
            )
        },
        clause="5.3.6",
    ),
    Measure(
        "waist_girth",
        N_("Waist"),
        "round",
        N_("Level round the natural waist, where a tied tape comes to rest."),
        N_(
            "Tie a narrow tape round the waist and bend sideways; leave it tied: all lengths to "
            "the waist are taken to this tape. The natural waist lies above the navel."
        ),
        way=Way("front", "round", ((-12.4, 66), (12.4, 66))),
        tapes={
            WOMEN: Tape(
                45,
                180,
                estimates=(
                    by_line(WAIST, N_("from hip and height; 260 active women, Heinz et al. 2003")),
                ),
                expected=about_line(WAIST, LOOSER),
                chart=Line(70.0, 1.07),
                column=Column(("navel_waist_girth",), bridges.narrow_waist),
            )
        },
        clause="5.3.10",
    ),
    Measure(
        "hip_girth",
        N_("Hip"),
        "round",
        N_("Level round the body over the fullest part of the seat."),
        N_("Feet together; look from the side that the tape is level."),
        way=Way("front", "round", ((-18, 87), (18, 87))),
        tapes={
            WOMEN: Tape(
                60,
                190,
                estimates=(
                    by_line(
                        HIP,
                        N_("from height and bust; survey of 1,986 women, 2012"),
                        ("bust_girth",),
                    ),
                ),
                expected=about_line(HIP, LOOSER),
                chart=Line(96.0, 0.9),
                column=Column(("hip_girth",)),
            )
        },
        clause="5.3.13",
    ),
    Measure(
        "neck_girth",
        N_("Neck"),
        "round",
        N_("Round the neck just below the Adam's apple, square to the neck."),
        N_("A finger's breadth should pass under the tape."),
        way=Way("front", "round", ((-4.8, 24), (4.8, 24))),
        tapes={
            WOMEN: fitted(
                24,
                60,
                WOMEN_2012.line(0.0224, 0.1318, 0.0485, constant=11.89, scatter=1.28),
                LOOSER,
                chart=Line(33.8, 0.23),
                column=Column(("neck_girth",)),
            )
        },
        clause="5.3.2",
    ),
    Measure(
        "neck_base_girth",
        N_("Neck base"),
        "round",
        N_(
            "Round the base of the neck over the back neck point, both side neck points and the "
            "pit of the neck."
        ),
        N_("A fine chain laid round the neck finds the line; stand the tape on its edge."),
        way=Way("front", "round", ((-7, 29), (7, 29))),
        tapes={
            WOMEN: fitted(
                26,
                65,
                WOMEN_2012.line(0.0685, 0.1124, 0.0439, constant=10.83, scatter=1.38),
                TRIED,
                chart=Line(36.4, 0.2, 0.05),
                column=Column(("neck_base_girth",)),
            )
        },
        clause="5.3.3",
    ),
)
