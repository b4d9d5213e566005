"""Women: the family whose estimates, ranges and sizes this program was made with.

The chart of sizes is our own: every figure is a straight line through bust 88 and height 168; slopes and
middle values are ours (common practice, rounded), held against single published values in the tests. Girths
do not change with height; lengths do. The usual figures of a block are common practice, no source.
"""

from __future__ import annotations

from cutwright.body.family import Chart, Family, Usual, UsualFigure
from cutwright.body.tape import WOMEN
from cutwright.messages import N_

CHART = Chart(
    girth="bust_girth",
    middle=(88, 168),
    girths=(*range(76, 105, 4), *range(110, 141, 6)),
    rows={"short": 160.0, "regular": 168.0, "tall": 176.0},
    shown={"short": N_("short"), "regular": N_("regular"), "tall": N_("tall")},
    heights=(150, 186),
    named_by_row=N_("bust {girth:g}, {row}"),
    named_by_height=N_("bust {girth:g}, height {height}"),
    off=N_("The chart of sizes runs from bust {lo} to {hi} cm; {girth:g} is not on it."),
    offered=(92, "regular"),
)

USUAL = Usual(
    body={"bust_girth": 88.0, "waist_girth": 70.0, "hip_girth": 96.0, "stature": 168.0},
    near=6.0,
    ease=(6.0, 8.0),
    figures={
        "armhole": UsualFigure(41, 45, per_girth=0.33),
        "armhole-depth": UsualFigure(20.5, 22.5),
        "back-neck-width": UsualFigure(6.8, 7.8),
        "back-neck-rise": UsualFigure(1.5, 2.5),
        "front-neck-depth": UsualFigure(7.0, 8.5),
        "back-shoulder-slope": UsualFigure(17, 21),
        "back-shoulder-dart": UsualFigure(0.8, 1.5),
        "bust-dart": UsualFigure(6, 9),
        "half-back-waist": UsualFigure(17.5, 19.5),
        "half-front-waist": UsualFigure(17.5, 19.5),
    },
)

FAMILY = Family(
    id=WOMEN,
    name=N_("women"),
    person="woman",
    needed=("stature", "bust_girth", "waist_girth", "hip_girth"),
    one_of=("bust_girth", "hip_girth"),
    without=N_("Neither bust nor hip was taken for {name}; take both, with height and waist."),
    demo="the-alto",
    pictured="the-rower",
    chart=CHART,
    usual=USUAL,
)
