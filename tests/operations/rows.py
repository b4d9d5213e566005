"""One minimal call of every step, and what it may change: the table behind the invariants."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any, Literal

from cutwright.pattern.change import follow
from cutwright.pattern.pattern import Pattern
from cutwright.pattern.step_ref import StepRef
from cutwright.steps import register_all
from cutwright.style.document import parse_step
from cutwright.style.step import Step
from tests.hand_pieces import NOBODY, dress, skirt

register_all()

Area = Literal["kept", "traced", "free"]


@dataclass(frozen=True)
class Row:
    """A call and what it may change.

    `changes` names edges ("piece: edge") or darts ("piece: dart") whose length may change; `new` the
    pieces that are added; `area` says whether the paper that was there keeps its area ("kept"),
    changes it by what the traces show as opened and closed ("traced"), or is reshaped ("free").
    `ranges` gives bounds within which hypothesis tries other numbers.
    """

    do: str
    asks: dict[str, Any]
    before: Callable[[], Pattern] = dress
    changes: tuple[str, ...] = ()
    new: tuple[str, ...] = ()
    area: Area = "kept"
    ranges: dict[str, tuple[float, float]] = field(default_factory=dict)
    not_looked_up: tuple[str, ...] = ()
    """Fields that give a new name, or that this call has no need of."""
    title: str = ""

    @property
    def name(self) -> str:
        return self.title or self.do

    @property
    def step(self) -> Step:
        return parse_step({"do": self.do, **self.asks})


def after(step: Step, pattern: Pattern) -> Pattern:
    """The pattern after a step, seams followed."""
    result = step.apply(pattern, NOBODY)
    return follow(pattern, result.pattern, result.change, StepRef(step.do, 1, step.label))


def _then(first: dict[str, Any], before: Callable[[], Pattern]) -> Callable[[], Pattern]:
    def prepared() -> Pattern:
        return after(parse_step(first), before())

    return prepared


def _on(*edges: str) -> list[dict[str, str]]:
    return [
        dict(zip(("piece", "edge"), (x.strip() for x in e.split(":")), strict=True)) for e in edges
    ]


WAISTS = _on("skirt back: waist", "skirt front: waist")
NECKS = _on("back: neckline", "front: neckline")
HEMS = _on("skirt back: hem", "skirt front: hem")
CUT_AT_HIP = {
    "do": "cut_apart",
    "pieces": ["front", "back"],
    "lower": ["lower front", "lower back"],
    "at": "hip",
}
CUT_AT_WAIST = {
    "do": "cut_apart",
    "pieces": ["front", "back"],
    "lower": ["skirt front", "skirt back"],
    "at": "waist",
}
FLARED_FROM_A_DRESS = _then(
    {"do": "close_dart", "piece": "skirt back"},
    _then({"do": "close_dart", "piece": "skirt front"}, _then(CUT_AT_WAIST, dress)),
)

FLARED_UNEVENLY = _then(
    {"do": "spread", "piece": "skirt front", "by": 5.0},
    _then(
        {"do": "close_dart", "piece": "skirt back"},
        _then({"do": "close_dart", "piece": "skirt front"}, skirt),
    ),
)

ROWS: tuple[Row, ...] = (
    Row("allow", {"edges": _on("front: hem"), "width": 4.0}, ranges={"width": (0, 10)}),
    *(
        Row(
            "balance_flare",
            {"edge": {"piece": "skirt front", "edge": "side"}, "way": way},
            FLARED_UNEVENLY,
            changes=("skirt front: hem", "skirt back: hem"),
            area="traced",
            title=f"balance, {way}",
        )
        for way in ("shared", "opened", "folded out")
    ),
    Row(
        "close_dart",
        {"piece": "skirt front", "darts": ["waist dart"]},
        skirt,
        changes=("skirt front: hem", "skirt front: waist dart"),
        area="traced",
        not_looked_up=("of",),
    ),
    Row(
        "close_dart",
        {"piece": "skirt back"},
        skirt,
        changes=("skirt back: hem", "skirt back: waist dart"),
        area="traced",
        title="close every dart of an edge",
    ),
    Row(
        "cut_apart",
        {"pieces": ["front", "back"], "lower": ["lower front", "lower back"], "at": "hip"},
        ranges={"lower_by": (-15, 60)},
        not_looked_up=("lower", "edge"),
    ),
    Row(
        "trim_dart",
        {"piece": "front", "dart": "bust dart", "width": 1.2},
        ranges={"width": (0.5, 4)},
    ),
    Row(
        "dart_to_gathers",
        {"piece": "skirt front", "dart": "waist dart", "over": 16.0},
        skirt,
        changes=("skirt front: waist", "skirt front: waist dart"),
        area="free",
    ),
    Row(
        "facing",
        {"kind": "neck", "width": 5.0},
        new=("front neck facing", "back neck facing"),
        ranges={"width": (2, 20)},
    ),
    Row(
        "facing",
        {"kind": "armhole", "width": 5.0},
        new=("front armhole facing", "back armhole facing"),
        ranges={"width": (2, 20)},
        title="facing of the armhole",
    ),
    Row(
        "facing",
        {"kind": "combined", "width": 7.0},
        new=("front facing", "back facing"),
        ranges={"width": (2, 20)},
        title="combined facing",
    ),
    Row(
        "flounce_circular",
        {"edges": HEMS, "piece": "flounce", "depth": 20.0},
        skirt,
        new=("flounce",),
        ranges={"depth": (1, 150), "fullness": (1.02, 12)},
    ),
    Row(
        "flounce_slashed",
        {"edges": HEMS, "piece": "flounce", "depth": 20.0, "by": 5.0},
        skirt,
        new=("flounce",),
        ranges={"depth": (1, 150), "by": (0, 40), "ratio": (1, 6)},
    ),
    Row(
        "flounce_straight",
        {"edges": HEMS, "piece": "flounce", "depth": 20.0},
        skirt,
        new=("flounce",),
        ranges={"depth": (1, 150), "ratio": (1, 6)},
    ),
    Row(
        "join",
        {
            "to": {"piece": "front", "edge": "cut"},
            "other": {"piece": "lower front", "edge": "cut"},
        },
        _then(CUT_AT_HIP, dress),
        changes=(
            *("front: side", "front: centre front"),
            *("lower front: side", "lower front: centre front"),
        ),
    ),
    Row(
        "lengthen",
        {"pieces": ["skirt front", "skirt back"], "by": 8.0},
        skirt,
        changes=(
            *("skirt front: hem", "skirt front: side", "skirt front: centre front"),
            *("skirt back: hem", "skirt back: side", "skirt back: centre back"),
        ),
        area="free",
        ranges={"by": (-80, 150)},
    ),
    Row(
        "lengthen",
        {"pieces": ["front", "back"], "by": 8.0, "at": "hip"},
        changes=("front: side", "front: centre front", "back: side", "back: centre back"),
        area="free",
        ranges={"by": (-80, 150), "below": (-30, 100)},
        title="lengthen across the hip",
    ),
    Row(
        "lengthen",
        {"pieces": ["skirt front", "skirt back"], "by": 3.0, "at": "hip", "below": -14.0},
        skirt,
        changes=(
            *("skirt front: side", "skirt front: centre front", "skirt front: waist"),
            *("skirt back: side", "skirt back: centre back", "skirt back: waist"),
            *("skirt front: waist dart", "skirt back: waist dart"),
        ),
        area="free",
        ranges={"by": (-80, 150)},
        title="lengthen through a dart",
    ),
    Row("let_go", {"piece": "front", "darts": ["waist dart"]}),
    Row(
        "mirror",
        {"pieces": ["front", "back"]},
        changes=(
            *("front: neckline", "front: hem"),
            *("back: neckline", "back: hem"),
        ),
        area="free",
    ),
    Row(
        "mirror",
        {"pieces": ["skirt front", "skirt back"]},
        skirt,
        changes=(
            *("skirt front: waist", "skirt front: hem"),
            *("skirt back: waist", "skirt back: hem"),
        ),
        area="free",
        title="mirror across darts",
    ),
    Row(
        "part_sides",
        {"pieces": ["back"]},
        _then({"do": "set_centre", "pieces": ["back"]}, dress),
        changes=(  # each is there twice now
            *("back: neckline", "back: shoulder", "back: shoulder dart", "back: armhole"),
            *("back: side", "back: hem", "back: centre back"),
        ),
        new=("right back", "left back"),
        area="free",
    ),
    Row(
        "move_dart",
        {
            "piece": "front",
            "dart": "bust dart",
            "to": {"edge": "side", "near": "armhole", "distance": 6.0},
        },
        changes=("front: bust dart", "front: shoulder"),
        area="traced",
        not_looked_up=("rename",),
    ),
    Row(
        "reshape_armhole",
        {"shoulder_in": 2.0, "deeper": 1.5},
        changes=(
            *("front: armhole", "front: shoulder", "front: side"),
            *("back: armhole", "back: shoulder", "back: side"),
        ),
        area="free",
        ranges={
            "shoulder_in": (-6, 20),
            "deeper": (-4, 40),
            "scoop_front": (-2, 6),
            "scoop_back": (-2, 6),
        },
    ),
    Row(
        "open_side",
        {"edge": {"piece": "skirt front", "edge": "side"}, "zip": 20.0},
        skirt,
        ranges={"zip": (5, 80)},
    ),
    *(
        Row(
            "reshape_neckline",
            {"shape": shape, "wider": 2.0, "front_deeper": 5.0, "back_deeper": 1.0},
            changes=(
                *("front: neckline", "front: shoulder", "front: centre front"),
                *("back: neckline", "back: shoulder", "back: centre back"),
            ),
            area="free",
            ranges={
                "wider": (-3, 25),
                "front_deeper": (-4, 60),
                "back_deeper": (-3, 60),
                "rounding": (0, 15),
            },
            title=f"{shape} neckline",
        )
        for shape in ("round", "square", "V", "boat")
    ),
    Row(
        "seam_by_width",
        {"pieces": ["skirt front", "skirt back"], "cloth": 50.0},
        skirt,
        ranges={"cloth": (20, 400), "allowance": (0, 10)},
    ),
    Row("set_centre", {"pieces": ["back"], "zip": 40.0}, ranges={"zip": (0, 80)}),
    Row(
        "set_centre",
        {"pieces": ["skirt back"], "hollow": 1.5, "zip": 18.0},
        skirt,
        changes=("skirt back: centre back", "skirt back: waist"),
        area="free",
        ranges={"zip": (0, 80), "hollow": (0, 5)},
        title="hollowed centre",
    ),
    Row(
        "shape_hem",
        {"side": -6.0},
        changes=(
            *("front: hem", "front: side", "front: centre front"),
            *("back: hem", "back: side", "back: centre back"),
        ),
        area="free",
        ranges={"side": (-80, 150), "centre_front": (-80, 150), "centre_back": (-80, 150)},
    ),
    Row(
        "shape_hem",
        {"shape": "high-low", "centre_front": -12.0, "side": -4.0, "centre_back": 9.0},
        changes=(
            *("front: hem", "front: side", "front: centre front"),
            *("back: hem", "back: side", "back: centre back"),
        ),
        area="free",
        ranges={"side": (-80, 150), "centre_front": (-80, 150), "centre_back": (-80, 150)},
        title="high-low hem",
    ),
    Row(
        "shorten_dart",
        {"piece": "skirt front", "dart": "waist dart", "short_by": 2.0},
        skirt,
        changes=("skirt front: waist dart",),
        area="free",
        ranges={"short_by": (0, 15)},
    ),
    Row(
        "split_dart",
        {
            "piece": "front",
            "dart": "bust dart",
            "share": 0.5,
            "to": {"edge": "side", "near": "armhole", "distance": 6.0},
            "new": "side dart",
        },
        changes=("front: bust dart", "front: shoulder"),
        area="traced",
        ranges={"share": (0.05, 0.95)},
        not_looked_up=("new",),
    ),
    Row(
        "spread",
        {"piece": "skirt front", "by": 4.0},
        _then({"do": "close_dart", "piece": "skirt front", "darts": ["waist dart"]}, skirt),
        changes=("skirt front: hem", "skirt front: waist"),
        area="traced",
        ranges={"by": (0, 60), "hinge_by": (0, 60)},
    ),
    Row(
        "strip",
        {"edges": NECKS, "share": 0.95, "beyond": 20.0},
        new=("binding",),
        ranges={"width": (0.5, 60), "share": (0.7, 1.3), "beyond": (0, 200)},
    ),
    Row(
        "strip",
        {"piece": "tie", "long": '2 * length("back: neckline")', "grain": "lengthwise"},
        new=("tie",),
        title="tie",
    ),
    Row(
        "true_side",
        {"pieces": ["skirt front", "skirt back"]},
        FLARED_FROM_A_DRESS,
        changes=(
            *("skirt front: side", "skirt front: waist", "skirt front: centre front"),
            *("skirt back: side", "skirt back: waist", "skirt back: centre back"),
        ),
        area="free",
    ),
    Row(
        "waistband",
        {"edges": WAISTS},
        skirt,
        new=("waistband",),
        ranges={"width": (1, 20), "overlap": (0, 15), "ease": (0, 6)},
    ),
    Row(
        "waistband",
        {"edges": WAISTS, "folded": False},
        skirt,
        new=("waistband", "waistband facing"),
        title="faced waistband",
    ),
    Row("write_measure", {"edges": _on("front: hem", "back: shoulder")}),
)
