"""The measures taken down or along the body, each declared once.

Clauses are those of ISO 8559-1:2017 as public texts quote them; the standard itself was not seen.
The waist is the dressmaker's: where a tied tape rests, a little below the level midway between
lowest rib and hip bone, and well above the navel.
"""

from __future__ import annotations

from cutwright.body.measure import Measure
from cutwright.messages import N_

LENGTHS = (
    Measure(
        "stature",
        N_("Height"),
        "along",
        120,
        215,
        N_("Floor to the top of the head, standing upright without shoes."),
        N_("Back to a wall, a book held level on the head."),
        "5.1.1",
    ),
    Measure(
        "back_waist_length",
        N_("Back waist length"),
        "along",
        27,
        56,
        N_("Back neck point down the centre back to the waist tape, following the body."),
        N_(
            "Bend the head to find the bone at the back of the neck, then stand upright; measure "
            "to the lower edge of the tied waist tape."
        ),
        "5.4.5",
        ask=True,
    ),
    Measure(
        "front_waist_length",
        N_("Front waist length"),
        "along",
        28,
        65,
        N_("Side neck point over the bust point straight down to the waist tape."),
        N_("From where neck and shoulder seam meet; over the bust point, then straight down."),
    ),
    Measure(
        "bust_depth",
        N_("Bust depth"),
        "along",
        16,
        48,
        N_("Side neck point to the bust point."),
        N_("From where neck and shoulder seam meet, in the bra that will be worn."),
    ),
    Measure(
        "armhole_depth",
        N_("Armhole depth"),
        "along",
        14,
        36,
        N_(
            "Back neck point down the centre back to the level where the underarm of a close "
            "garment lies, about two fingers below the armpit."
        ),
        N_(
            "Hold a strip of card level under the arm, two fingers below the armpit; bring its "
            "level to the centre back with a tape and measure down to it."
        ),
        ask=True,
    ),
    Measure(
        "waist_to_hip",
        N_("Waist to hip"),
        "along",
        9,
        35,
        N_("Waist tape straight down to the level of the hip."),
        N_("At the side, the tape hanging straight, to the level of the fullest part of the seat."),
    ),
    Measure(
        "waist_to_knee",
        N_("Waist to knee"),
        "along",
        38,
        85,
        N_("Waist tape straight down to the middle of the kneecap."),
        N_("At the side, the tape hanging straight."),
    ),
    Measure(
        "waist_to_floor",
        N_("Waist to floor"),
        "along",
        70,
        140,
        N_("Waist tape straight down to the floor, without shoes."),
        N_("At the side, the tape hanging straight."),
    ),
    Measure(
        "knee_height",
        N_("Knee height"),
        "along",
        30,
        68,
        N_("Floor to the middle of the kneecap, without shoes."),
        N_("Leg straight."),
    ),
    Measure(
        "body_rise",
        N_("Body rise"),
        "along",
        16,
        48,
        N_("Waist tape to the seat of a firm flat chair, sitting upright, at the side."),
        N_(
            "Sit upright on a hard chair; from the waist tape over the side of the hip to the seat."
        ),
    ),
    Measure(
        "crotch_length",
        N_("Crotch length"),
        "along",
        40,
        115,
        N_(
            "Waist tape at the centre front, between the legs, to the waist tape at the centre back."
        ),
        N_("Hold the tape as close as the garment should fit; do not pull."),
        "5.4.18",
    ),
    Measure(
        "inside_leg",
        N_("Inside leg"),
        "along",
        50,
        110,
        N_("Crotch straight down to the floor, without shoes."),
        N_("A book held level and drawn up between the legs gives the upper end."),
        "5.1.15",
    ),
    Measure(
        "arm_length",
        N_("Arm length"),
        "one side",
        38,
        82,
        N_("Shoulder point over the elbow to the wrist bone."),
        N_("The arm hangs, the elbow a little bent."),
        "5.7.8",
    ),
    Measure(
        "upper_arm_length",
        N_("Shoulder to elbow"),
        "one side",
        20,
        48,
        N_("Shoulder point to the elbow."),
        N_("The arm hangs, the elbow a little bent."),
        "5.4.14",
    ),
    Measure(
        "back_neck_to_wrist",
        N_("Back neck to wrist"),
        "one side",
        55,
        115,
        N_("Back neck point over shoulder and elbow to the wrist bone."),
        N_("Arm raised to the side, elbow bent."),
        "5.4.17",
    ),
)
