"""The measures taken across the body and along the shoulder, each declared once.

Widths are whole widths, from side to side; the draft halves them.
"""

from __future__ import annotations

from cutwright.body import bridges
from cutwright.body.measure import Measure
from cutwright.body.rule import Expected, Range, Rule, expected
from cutwright.body.surveys import LOOSER, THREE, TRIED, WOMEN_2012
from cutwright.body.tape import WOMEN, Column, Line, Tape, fitted
from cutwright.body.way import Way
from cutwright.messages import N_


def chest_width(breadth: float, bust: float) -> float:
    """Whole width across the chest, in cm (derived).

    Parameters
    ----------
    breadth, bust : shoulder breadth and bust girth, in cm
    """
    return 6.4 + 0.5 * breadth + 0.1 * bust


def _bust_points(bust: float) -> float:
    return bust / 8 + 7.8


WIDTHS = (
    Measure(
        "shoulder_length",
        N_("Shoulder length"),
        "one side",
        N_("Side neck point to shoulder point along the shoulder seam."),
        N_("Lift the arm to find the hollow at the shoulder bone, lower it and measure to there."),
        way=Way("back", "long", ((7, 29), (19.5, 34))),
        tapes={
            WOMEN: fitted(
                7.5,
                21,
                WOMEN_2012.line(0.0617, 0.0018, 0.0022, constant=3.09, scatter=0.94),
                TRIED,
                chart=Line(12.6, 0.025, 0.03),
                column=Column(("shoulder_length",)),
                ask=True,
            )
        },
        clause="5.4.1",
    ),
    Measure(
        "back_width",
        N_("Across back"),
        "across",
        N_("Across the back from arm to arm, midway between shoulder and armpit."),
        N_("Arms hang; from where arm meets back on one side to the same place on the other."),
        way=Way("back", "across", ((-16.4, 41), (16.4, 41))),
        tapes={
            WOMEN: fitted(
                22,
                64,
                WOMEN_2012.line(0.0527, 0.16483, 0.04273, constant=9.527, scatter=2.2),
                TRIED,
                chart=Line(35.0, 0.2, 0.06),
                column=Column(("interscye_1", "interscye_2"), bridges.back_width),
            )
        },
    ),
    Measure(
        "chest_width",
        N_("Across chest"),
        "across",
        N_("Across the front from arm to arm, midway between shoulder and armpit."),
        N_("Arms hang; above the bust, from crease to crease of the arms."),
        way=Way("front", "across", ((-16, 42), (16, 42))),
        tapes={
            WOMEN: Tape(
                22,
                60,
                estimates=(
                    Rule(
                        ("shoulder_breadth", "bust_girth"),
                        chest_width,
                        3.0,
                        N_(
                            "half the shoulder breadth, a tenth of the bust and 6.4; common practice"
                        ),
                    ),
                ),
                expected=expected(("shoulder_breadth", "bust_girth"), chest_width, 7, needs=THREE),
            )
        },
    ),
    Measure(
        "bust_point_width",
        N_("Between bust points"),
        "across",
        N_("Straight across from bust point to bust point."),
        N_("Tape straight, not following the hollow, in the bra that will be worn."),
        way=Way("front", "across", ((-8, 48.5), (8, 48.5))),
        tapes={
            WOMEN: Tape(
                11,
                36,
                estimates=(
                    Rule(
                        ("bust_girth",),
                        _bust_points,
                        3.0,
                        N_("an eighth of the bust and 7.8; common practice"),
                    ),
                ),
                expected=expected(("bust_girth",), _bust_points, 6),
            )
        },
    ),
    Measure(
        "shoulder_breadth",
        N_("Shoulder breadth"),
        "across",
        N_("Straight breadth between the two shoulder points, not following the back."),
        N_("Stand with the back to a wall and mark both shoulder bones on paper; seldom needed."),
        way=Way("back", "across", ((-19.5, 34.5), (19.5, 34.5))),
        tapes={
            WOMEN: fitted(
                25,
                55,
                WOMEN_2012.line(0.1475, 0.0273, 0.0102, constant=8.89, scatter=1.49),
                LOOSER,
                column=Column(("biacromial_breadth",)),
            )
        },
    ),
    Measure(
        "shoulder_slope",
        N_("Shoulder slope"),
        "angle",
        N_("Angle by which the shoulder seam falls below level, in degrees."),
        N_(
            "From a photograph taken straight from behind, or with a spirit level that shows angles."
        ),
        way=Way("back", "across", ((-7, 29), (-19.5, 34))),
        tapes={
            WOMEN: Tape(
                5,
                38,
                estimates=(Rule((), lambda: 19.0, 7.0, N_("19 degrees; common practice")),),
                expected=Expected((), lambda: Range(8, 32), ()),
                column=Column(
                    ("cervicale_height", "acromial_height", "shoulder_length"), bridges.slope
                ),
            )
        },
    ),
)
