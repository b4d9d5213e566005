"""Styles that ask for much work, by what they are: for the tests and for `benchmarks.style_load`."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

ROW = dict[str, Any]
SKIRT: list[ROW] = [{"do": "draft_skirt"}]
HEMS = [{"piece": piece, "edge": "hem"} for piece in ("skirt back", "skirt front")]
PARTS = (11, 9, 7, 5, 8, 13)


def nested(
    count: int, parts: Sequence[int] = (0,), do: str = "flounce_straight", **more: Any
) -> list[ROW]:
    """A skirt with flounces, each sewn to the hem of the one before, in so many parts by turns."""
    rows, edges = list(SKIRT), HEMS
    for n in range(count):
        name = f"flounce {n + 1}"
        row = {"do": do, "edges": edges, "piece": name, "depth": 5}
        rows.append({**row, "parts": parts[n % len(parts)], **more})
        edges = [{"piece": name, "edge": "hem"}]
    return rows


def _again(row: ROW, count: int) -> list[ROW]:
    return SKIRT + [row] * count


HEAVY: dict[str, list[ROW]] = {
    "a skirt spread 60 times along 40 lines": _again(
        {"do": "spread", "piece": "skirt front", "lines": 40, "by": 0.1}, 60
    ),
    "a skirt lengthened 190 times": _again(
        {"do": "lengthen", "pieces": ["skirt front", "skirt back"], "by": 0.1}, 190
    ),
    "190 loose strips": SKIRT
    + [{"do": "strip", "piece": f"strip {n}", "long": 100} for n in range(190)],
    "tiers of 11 and 9 parts": nested(2, (11, 9)),
    "32 flounces of differing parts, one on the other": nested(32, PARTS),
    "32 flounces of 8 parts, one on the other": nested(32, (8,)),
    "5 flounces on cloth 20 wide, one on the other": nested(5, cloth=20, ratio=3.0),
    "32 circular flounces, one on the other": nested(32, PARTS, "flounce_circular", fullness=1.2),
    "12 slashed flounces, one on the other": nested(12, PARTS, "flounce_slashed", cuts=20, by=0.5),
    "32 slashed flounces, one on the other": nested(32, PARTS, "flounce_slashed", cuts=20, by=0.5),
}
