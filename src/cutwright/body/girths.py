"""The measures taken round the body, each declared once.

Clauses are those of ISO 8559-1:2017 as public texts quote them; the standard itself was not seen.
Bounds are generous limits of what a grown body has (common practice, no source).
"""

from __future__ import annotations

from cutwright.body.measure import Measure
from cutwright.messages import N_

GIRTHS = (
    Measure(
        "bust_girth",
        N_("Bust"),
        "round",
        60,
        180,
        N_("Level round the body over the fullest part of the bust."),
        N_("Over the bra that will be worn; tape level behind, neither slack nor pulled in."),
        "5.3.4",
    ),
    Measure(
        "underbust_girth",
        N_("Underbust"),
        "round",
        50,
        165,
        N_("Level round the ribs directly below the bust."),
        N_("Snug, breathing out gently."),
        "5.3.6",
    ),
    Measure(
        "waist_girth",
        N_("Waist"),
        "round",
        45,
        180,
        N_("Level round the natural waist, where a tied tape comes to rest."),
        N_(
            "Tie a narrow tape round the waist and bend sideways; leave it tied: all lengths to "
            "the waist are taken to this tape. The natural waist lies above the navel."
        ),
        "5.3.10",
    ),
    Measure(
        "hip_girth",
        N_("Hip"),
        "round",
        60,
        190,
        N_("Level round the body over the fullest part of the seat."),
        N_("Feet together; look from the side that the tape is level."),
        "5.3.13",
    ),
    Measure(
        "neck_girth",
        N_("Neck"),
        "round",
        24,
        60,
        N_("Round the neck just below the Adam's apple, square to the neck."),
        N_("A finger's breadth should pass under the tape."),
        "5.3.2",
    ),
    Measure(
        "neck_base_girth",
        N_("Neck base"),
        "round",
        26,
        65,
        N_(
            "Round the base of the neck over the back neck point, both side neck points and the "
            "pit of the neck."
        ),
        N_("A fine chain laid round the neck finds the line; stand the tape on its edge."),
        "5.3.3",
    ),
    Measure(
        "upper_arm_girth",
        N_("Upper arm"),
        "round",
        16,
        65,
        N_("Round the fullest part of the upper arm, hanging relaxed."),
        N_("The arm hangs; the tape is square to it and does not cut in."),
        "5.3.16",
    ),
    Measure(
        "forearm_girth",
        N_("Forearm"),
        "round",
        14,
        50,
        N_("Round the fullest part of the forearm."),
        N_("Fist lightly closed."),
    ),
    Measure(
        "wrist_girth",
        N_("Wrist"),
        "round",
        10.5,
        28,
        N_("Round the wrist over the wrist bone."),
        N_("Snug; ease is added by the draft."),
        "5.3.19",
    ),
    Measure(
        "hand_girth",
        N_("Hand"),
        "round",
        13,
        30,
        N_("Round the hand over the knuckles, thumb left out."),
        N_("Fingers together and straight."),
        "5.5.1",
    ),
    Measure(
        "thigh_girth",
        N_("Thigh"),
        "round",
        32,
        110,
        N_("Round the thigh just below the fold of the seat."),
        N_("Stand with the weight on both feet; tape level."),
        "5.3.20",
    ),
    Measure(
        "knee_girth",
        N_("Knee"),
        "round",
        25,
        75,
        N_("Level round the knee over the middle of the kneecap."),
        N_("Leg straight, weight on both feet."),
        "5.3.22",
    ),
    Measure(
        "calf_girth",
        N_("Calf"),
        "round",
        22,
        70,
        N_("Round the fullest part of the calf."),
        N_("Weight on both feet; tape level."),
        "5.3.24",
    ),
    Measure(
        "ankle_girth",
        N_("Ankle"),
        "round",
        15,
        42,
        N_("Round the slimmest part of the leg above the ankle bone."),
        N_("Tape level and snug."),
    ),
    Measure(
        "head_girth",
        N_("Head"),
        "round",
        45,
        68,
        N_("Round the fullest part of the head, above the ears."),
        N_("Over the hair as it is worn: it tells whether a neckline goes over the head."),
    ),
)
