"""An example of every step: a sentence as it stands in a style."""

from __future__ import annotations

from typing import Any

from cutwright.style.registry import step_class
from cutwright.style.step import Step
from cutwright.workshop.gallery import load_style, shipped

_WRITTEN: dict[str, dict[str, Any]] = {
    "allow": {"edges": [{"piece": "skirt front", "edge": "hem"}], "width": 4},
    "dart_to_gathers": {"piece": "front", "dart": "bust dart", "into": "gathers"},
    "join": {
        "to": {"piece": "front yoke", "edge": "shoulder"},
        "other": {"piece": "back yoke", "edge": "shoulder"},
    },
    "lengthen": {"pieces": ["skirt front", "skirt back"], "by": 4, "at": "hem"},
    "mirror": {"pieces": ["front"]},
    "open_side": {"edge": {"piece": "skirt front", "edge": "side"}, "zip": 20},
    "part_sides": {"pieces": ["front"]},
    "reshape_armhole": {"front": "front", "back": "back", "shoulder_in": 1, "deeper": 2},
    "shape_hem": {"front": "skirt front", "back": "skirt back", "centre_back": 8},
    "shorten_dart": {"piece": "front", "dart": "bust dart", "short_by": 2},
    "split_dart": {
        "piece": "front",
        "dart": "bust dart",
        "share": 0.5,
        "to": {"edge": "waist", "near": "side", "share": 0.5},
        "new": "waist dart",
    },
    "strip": {
        "piece": "binding",
        "edges": [{"piece": "front", "edge": "armhole"}, {"piece": "back", "edge": "armhole"}],
        "width": 4,
        "share": 0.95,
        "grain": "bias",
    },
    "trim_dart": {"piece": "front", "dart": "bust dart"},
    "write_measure": {"edges": [{"piece": "front", "edge": "neckline"}]},
}
"""Examples of the steps that no built-in style uses, by their tag."""


def example(tag: str) -> Step:
    """A step of this tag: the first in the built-in styles, else the one written here."""
    if tag in _WRITTEN:
        return step_class(tag).model_validate({"do": tag, **_WRITTEN[tag]})
    return next(
        step for name in shipped("styles") for step in load_style(name).steps if step.do == tag
    )
