"""A measure and a family of figures that exist in tests alone: an elbow, and dolls a quarter of a woman."""

from __future__ import annotations

from dataclasses import replace

from cutwright.body import Family, Measure
from cutwright.body.family import Chart, Usual, UsualFigure
from cutwright.body.rule import Rule, expected
from cutwright.body.tape import WOMEN, Column, Line, Tape
from cutwright.body.way import Way


def _elbow(arm: float) -> float:
    return 0.9 * arm + 2


ELBOW = Measure(
    "elbow_girth",
    "Elbow",
    "round",
    "Round the bent elbow.",
    "The arm bent at a right angle.",
    way=Way("front", "across", ((21, 64), (27, 63))),
    tapes={
        WOMEN: Tape(
            15,
            55,
            (Rule(("upper_arm_girth",), _elbow, 2.5, "nine tenths of the arm and 2; made up"),),
            expected(("upper_arm_girth",), _elbow, 5),
            chart=Line(26.5, 0.3),
            column=Column(("forearm_girth_flexed",), lambda forearm: forearm + 1),
        )
    },
)


def _quarter() -> dict[str, Tape]:
    """Tapes of a quarter of the size, a few of them, the bust called chest."""
    chest = Tape(15, 45, (), chart=Line(22.0, 0.0), name="Chest", definition="Round the chest.")
    height = Tape(30, 54, (Rule((), lambda: 42.0, 3.0, "made up"),), ask=True)
    waist = Tape(
        11, 45,
        (Rule(("bust_girth",), lambda chest: chest - 4, 1.0, "four less than the chest; made up"),),
        expected(("bust_girth",), lambda chest: chest - 4, 2),
        chart=Line(18.0, 1.0),
        column=Column(("doll_waist",)),
    )  # fmt: skip
    return {
        "stature": height,
        "bust_girth": replace(chest, column=Column(("doll_chest",))),
        "waist_girth": waist,
    }


DOLLS = Family(
    id="dolls",
    name="dolls",
    person="doll",
    needed=("stature", "bust_girth"),
    one_of=("bust_girth",),
    without="No chest was taken for {name}.",
    demo="the-doll",
    pictured="the-doll",
    chart=Chart(
        girth="bust_girth",
        middle=(22, 42),
        girths=(20, 22, 24),
        rows={"regular": 42.0},
        shown={"regular": "regular"},
        heights=(38, 46),
        named_by_row="chest {girth:g}, {row}",
        named_by_height="chest {girth:g}, height {height}",
        off="Dolls run from chest {lo} to {hi}.",
        offered=(22, "regular"),
    ),
    usual=Usual({"bust_girth": 22.0}, 1.0, (1.0, 2.0), {"armhole": UsualFigure(10, 11)}),
    tapes_of_its_own=_quarter(),
)
