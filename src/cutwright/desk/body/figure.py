"""Where to measure: the figure of a family from the front and from behind, and the way of each tape."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from cutwright.body.family import Family
from cutwright.drawing.body_figure import BEHIND, outline_paths, view_marks, way_path
from cutwright.drawing.svg import path_data
from cutwright.geometry.path import Path
from cutwright.words import _

_BOX = "-46 -3 168 182"
"""Both views with the longest tapes beside them and the words below, in cm of the figure."""


def figure_svg(kind: Family) -> str:
    """Both views side by side with every tape, one of which a page lights at a time."""
    label = _("A figure with the way of the tape")
    return (
        f'<svg class="figure" viewBox="{_BOX}" role="img" aria-label="{label}">'
        + "".join([*_views(kind), *_ways(kind)])
        + "</svg>"
    )


def _views(kind: Family) -> Iterator[str]:
    outline = kind.outline
    views = (
        (0.0, view_marks(outline, "front"), _("from the front")),
        (BEHIND, view_marks(outline, "back", BEHIND), _("from behind")),
    )
    for x, marks, words in views:
        yield from _paths("limb", outline_paths(outline, x))
        yield from _paths("mark", marks)
        yield f'<text x="{x:g}" y="{outline.height + 9:g}">{words}</text>'


def _paths(look: str, paths: Iterable[Path]) -> Iterator[str]:
    for path in paths:
        yield f'<path class="{look}" d="{path_data(path)}"/>'


def _ways(kind: Family) -> Iterator[str]:
    for tape in kind.tapes.values():
        if tape.way is not None:
            d = path_data(way_path(tape.way))
            yield f'<path class="way" data-measure="{tape.id}" d="{d}"/>'
