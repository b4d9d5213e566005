"""Where a pattern can go, by a short name: `A4`, `sheet:90`, `projector`, `svg`, `dxf` and so on."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path

from cutwright.drawing.paper_sizes import PAPER_SIZES
from cutwright.paper.dxf import write_dxf
from cutwright.paper.errors import PaperError
from cutwright.paper.grid import PAPERS
from cutwright.paper.pieces import PlacedPiece, Title
from cutwright.paper.projector import write_projector
from cutwright.paper.sheet import LARGE, Size, write_sheet
from cutwright.paper.svg_file import write_svg
from cutwright.paper.tiles import write_tiles
from cutwright.words import _

Writer = Callable[[Sequence[PlacedPiece], Path, Title], object]


def _tiles(paper: str, pieces: Sequence[PlacedPiece], path: Path, title: Title) -> object:
    return write_tiles(pieces, paper, path, title)


def _sheet(size: Size, pieces: Sequence[PlacedPiece], path: Path, title: Title) -> object:
    return write_sheet(pieces, size, path, title)


_PLAIN: dict[str, tuple[str, Writer]] = {
    **{name.casefold(): (".pdf", partial(_tiles, name)) for name in PAPERS},
    **{name: (".pdf", partial(_sheet, size)) for name, size in LARGE.items()},
    "projector": (".pdf", write_projector),
    "projector:dark": (".pdf", partial(write_projector, dark=True)),
    "svg": (".svg", write_svg),
    "dxf": (".dxf", write_dxf),
}

TARGETS = (
    *(size.name for size in PAPER_SIZES.values()),
    "sheet:NN",
    "projector",
    "projector:dark",
    "svg",
    "dxf",
)
"""Every name; NN stands for the width of a roll in cm."""


def writer_for(target: str) -> tuple[str, Writer]:
    """The ending of the file and what writes it; `PaperError` with all names if there is none."""
    name = target.strip().casefold()
    if name in _PLAIN:
        return _PLAIN[name]
    kind, _colon, width = name.partition(":")
    if kind == "sheet":
        try:
            size = float(width.removesuffix("cm"))
        except ValueError:
            size = float("nan")
        if size == size:  # a number was given
            return ".pdf", lambda pieces, path, title: write_sheet(pieces, size, path, title)
    raise PaperError(
        _(
            "Nothing can be printed on “{target}”; there are {targets} (NN is the width of a roll in cm)."
        ).format(target=target, targets=", ".join(TARGETS))
    )


def write(
    pieces: Sequence[PlacedPiece], target: str, folder: Path, stem: str, title: Title
) -> Path:
    """Write the pieces for a target into a folder; returns the file, named after stem and target."""
    ending, writer = writer_for(target)
    name = target.strip().casefold().replace(":", "-")
    suffix = "" if name == ending[1:] else f"-{name}"
    path = folder / f"{stem}{suffix}{ending}"
    writer(pieces, path, title)
    return path
