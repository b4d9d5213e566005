"""The measures taken across the body and along the shoulder, each declared once.

Clauses are those of ISO 8559-1:2017 as public texts quote them; the standard itself was not seen.
Widths are whole widths, from side to side; the draft halves them.
"""

from __future__ import annotations

from cutwright.body.measure import Measure
from cutwright.messages import N_

WIDTHS = (
    Measure(
        "shoulder_length",
        N_("Shoulder length"),
        "one side",
        7.5,
        21,
        N_("Side neck point to shoulder point along the shoulder seam."),
        N_("Lift the arm to find the hollow at the shoulder bone, lower it and measure to there."),
        "5.4.1",
        ask=True,
    ),
    Measure(
        "back_width",
        N_("Across back"),
        "across",
        22,
        64,
        N_("Across the back from arm to arm, midway between shoulder and armpit."),
        N_("Arms hang; from where arm meets back on one side to the same place on the other."),
    ),
    Measure(
        "chest_width",
        N_("Across chest"),
        "across",
        22,
        60,
        N_("Across the front from arm to arm, midway between shoulder and armpit."),
        N_("Arms hang; above the bust, from crease to crease of the arms."),
    ),
    Measure(
        "bust_point_width",
        N_("Between bust points"),
        "across",
        11,
        36,
        N_("Straight across from bust point to bust point."),
        N_("Tape straight, not following the hollow, in the bra that will be worn."),
    ),
    Measure(
        "shoulder_breadth",
        N_("Shoulder breadth"),
        "across",
        25,
        55,
        N_("Straight breadth between the two shoulder points, not following the back."),
        N_("Stand with the back to a wall and mark both shoulder bones on paper; seldom needed."),
    ),
    Measure(
        "shoulder_slope",
        N_("Shoulder slope"),
        "angle",
        5,
        38,
        N_("Angle by which the shoulder seam falls below level, in degrees."),
        N_(
            "From a photograph taken straight from behind, or with a spirit level that shows angles."
        ),
    ),
)
