"""What a mark on the paper says."""

from __future__ import annotations

from enum import StrEnum


class MarkKind(StrEnum):
    """What a mark is for; how it is drawn and who heeds it follow from it."""

    NOTCH = "notch"  # a balance mark; its text holds how many
    POINT = "point"  # a place of the body or of the draft, such as the bust point
    CORNER = "corner"  # a corner of an edge that the style asks for, such as the point of a V
    DRILL = "drill"  # a hole inside the piece
    DART_MOUTH = "dart mouth"  # where the leg of a dart, run on, meets the cut line
    GATHERS = "gathers"  # from `at` to `to` the edge is gathered; `amount` is drawn up
    EASE = "ease"  # from `at` to `to` the edge is eased; `amount` is drawn up
    PLEAT = "pleat"  # from `at` to `to` the edge is folded away; `amount` is what it takes up
    TUCK = "tuck"  # the same, stitched down
    ZIP_END = "zip end"  # where an opening ends; `amount` is its length
    OVERLAP = "overlap"  # a line from `at` to `to` where a band begins to overlap by `amount`
    MEASURE = "measure"  # a figure written along an edge
    LINE = "line"  # a line from `at` to `to`


BUST_POINT = "bust point"
"""What a `POINT` mark at the bust point is called: drafts write it, the proof looks for it."""


class Pressed(StrEnum):
    """Which way a fold lies, seen from the right side, walking the outline clockwise."""

    ONWARDS = "onwards"  # towards the end of the edge
    BACKWARDS = "backwards"  # towards its start
    APART = "apart"  # both folds away from each other: a box pleat
    TOGETHER = "together"  # both folds meet: an inverted pleat
