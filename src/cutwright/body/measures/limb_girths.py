"""The measures taken round arms, legs and head, each declared once."""

from __future__ import annotations

from cutwright.body import bridges
from cutwright.body.measure import Measure
from cutwright.body.rule import Rule, expected
from cutwright.body.surveys import LOOSER, THREE, TRIED, WOMEN_2012
from cutwright.body.tape import WOMEN, Column, Line, Tape, fitted
from cutwright.body.way import Way
from cutwright.messages import N_


def _knee(calf: float) -> float:
    return calf + 1.4


LIMB_GIRTHS = (
    Measure(
        "upper_arm_girth",
        N_("Upper arm"),
        "round",
        N_("Round the fullest part of the upper arm, hanging relaxed."),
        N_("The arm hangs; the tape is square to it and does not cut in."),
        way=Way("front", "across", ((18.2, 50), (24.2, 49))),
        tapes={
            WOMEN: fitted(
                16,
                65,
                WOMEN_2012.line(-0.0245, 0.1312, 0.2219, constant=-2.03, scatter=1.73),
                TRIED,
                chart=Line(27.2, 0.33),
                column=Column(("upper_arm_girth_flexed",), bridges.hanging_arm),
            )
        },
        clause="5.3.16",
    ),
    Measure(
        "forearm_girth",
        N_("Forearm"),
        "round",
        N_("Round the fullest part of the forearm."),
        N_("Fist lightly closed."),
        way=Way("front", "across", ((22.6, 73), (28, 71.5))),
        tapes={
            WOMEN: fitted(
                14,
                50,
                WOMEN_2012.line(0.0316, 0.0663, 0.1098, constant=3.77, scatter=1.24),
                LOOSER,
                column=Column(("forearm_girth_flexed",)),
            )
        },
    ),
    Measure(
        "wrist_girth",
        N_("Wrist"),
        "round",
        N_("Round the wrist over the wrist bone."),
        N_("Snug; ease is added by the draft."),
        way=Way("front", "across", ((26.4, 87), (31, 86))),
        tapes={
            WOMEN: fitted(
                10.5,
                28,
                WOMEN_2012.line(0.0479, 0.0246, 0.0227, constant=3.04, scatter=0.57),
                TRIED,
                chart=Line(15.6, 0.05, 0.03),
                column=Column(("wrist_girth",)),
            )
        },
        clause="5.3.19",
    ),
    Measure(
        "hand_girth",
        N_("Hand"),
        "round",
        N_("Round the hand over the knuckles, thumb left out."),
        N_("Fingers together and straight."),
        way=Way("front", "across", ((28.4, 95), (34, 94))),
        tapes={
            WOMEN: fitted(
                13,
                30,
                WOMEN_2012.line(0.0513, 0.0221, 0.0137, constant=6.82, scatter=0.74),
                LOOSER,
                column=Column(("hand_girth",)),
            )
        },
        clause="5.5.1",
    ),
    Measure(
        "thigh_girth",
        N_("Thigh"),
        "round",
        N_("Round the thigh just below the fold of the seat."),
        N_("Stand with the weight on both feet; tape level."),
        way=Way("front", "across", ((-17.6, 98), (-1.6, 98))),
        tapes={
            WOMEN: fitted(
                32,
                110,
                WOMEN_2012.line(-0.0403, -0.0099, 0.7118, constant=-3.58, scatter=1.9),
                TRIED,
                chart=Line(57.0, 0.6),
                column=Column(("thigh_girth",)),
            )
        },
        clause="5.3.20",
    ),
    Measure(
        "knee_girth",
        N_("Knee"),
        "round",
        N_("Level round the knee over the middle of the kneecap."),
        N_("Leg straight, weight on both feet."),
        way=Way("front", "across", ((-12, 126), (-3.8, 126))),
        tapes={
            WOMEN: Tape(
                25,
                75,
                estimates=(
                    Rule(
                        ("calf_girth",),
                        _knee,
                        3.0,
                        N_("calf and 1.4 more; half way between calf and thigh above the knee"),
                    ),
                ),
                expected=expected(("calf_girth",), _knee, 6, needs=("calf_girth", *THREE)),
                column=Column(("lower_thigh_girth", "calf_girth"), bridges.knee),
            )
        },
        clause="5.3.22",
    ),
    Measure(
        "calf_girth",
        N_("Calf"),
        "round",
        N_("Round the fullest part of the calf."),
        N_("Weight on both feet; tape level."),
        way=Way("front", "across", ((-12.4, 138), (-4.4, 138))),
        tapes={
            WOMEN: fitted(
                22,
                70,
                WOMEN_2012.line(0.0332, 0.0085, 0.2593, constant=4.63, scatter=1.92),
                LOOSER,
                column=Column(("calf_girth",)),
            )
        },
        clause="5.3.24",
    ),
    Measure(
        "ankle_girth",
        N_("Ankle"),
        "round",
        N_("Round the slimmest part of the leg above the ankle bone."),
        N_("Tape level and snug."),
        way=Way("front", "across", ((-7.6, 161), (-3.8, 161))),
        tapes={
            WOMEN: fitted(
                15,
                42,
                WOMEN_2012.line(0.0451, 0.001, 0.0892, constant=5.02, scatter=1.23),
                LOOSER,
                column=Column(("ankle_girth",)),
            )
        },
    ),
    Measure(
        "head_girth",
        N_("Head"),
        "round",
        N_("Round the fullest part of the head, above the ears."),
        N_("Over the hair as it is worn: it tells whether a neckline goes over the head."),
        way=Way("front", "round", ((-7.4, 7), (7.4, 7))),
        tapes={
            WOMEN: fitted(
                45,
                68,
                WOMEN_2012.line(0.0745, 0.0053, 0.0414, constant=39.24, scatter=1.81),
                LOOSER,
                column=Column(("head_girth",)),
            )
        },
    ),
)
