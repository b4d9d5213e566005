"""The measures taken along the arm, each declared once."""

from __future__ import annotations

from cutwright.body.measure import Measure
from cutwright.body.surveys import LOOSER, TRIED, WOMEN_2012
from cutwright.body.tape import WOMEN, Column, Line, fitted
from cutwright.body.way import Way
from cutwright.messages import N_

ARM_LENGTHS = (
    Measure(
        "arm_length",
        N_("Arm length"),
        "one side",
        N_("Shoulder point over the elbow to the wrist bone."),
        N_("The arm hangs, the elbow a little bent."),
        way=Way("back", "long", ((19.5, 34.5), (25, 57), (31, 86))),
        tapes={
            WOMEN: fitted(
                38,
                82,
                WOMEN_2012.line(0.3571, 0.0063, 0.0112, constant=-5.53, scatter=1.79),
                TRIED,
                chart=Line(57.0, 0.02, 0.36),
                column=Column(("arm_length_acromion_wrist",)),
            )
        },
        clause="5.7.8",
    ),
    Measure(
        "upper_arm_length",
        N_("Shoulder to elbow"),
        "one side",
        N_("Shoulder point to the elbow."),
        N_("The arm hangs, the elbow a little bent."),
        way=Way("back", "long", ((-19.5, 34.5), (-25, 57))),
        tapes={
            WOMEN: fitted(
                20,
                48,
                WOMEN_2012.line(0.2034, 0.0137, 0.0088, constant=-4.21, scatter=1.03),
                LOOSER,
                column=Column(("acromion_radiale_length",)),
            )
        },
        clause="5.4.14",
    ),
    Measure(
        "back_neck_to_wrist",
        N_("Back neck to wrist"),
        "one side",
        N_("Back neck point over shoulder and elbow to the wrist bone."),
        N_("Arm raised to the side, elbow bent."),
        way=Way("back", "long", ((0, 28), (-19.5, 33), (-26, 57), (-32, 86))),
        tapes={
            WOMEN: fitted(
                55,
                115,
                WOMEN_2012.line(0.437, 0.0722, 0.0296, constant=-0.35, scatter=2.13),
                LOOSER,
                column=Column(("spine_elbow_wrist_length",)),
            )
        },
        clause="5.4.17",
    ),
)
