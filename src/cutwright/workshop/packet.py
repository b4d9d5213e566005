"""The packet: every file of a finished pattern, written into a folder."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from cutwright.documents import write_json
from cutwright.errors import CutwrightError, StoreError
from cutwright.finish.document import pattern_document, pattern_json
from cutwright.paper.dxf import write_dxf
from cutwright.paper.pieces import PlacedPiece, Title
from cutwright.paper.projector import write_projector
from cutwright.paper.sheet import A0, write_sheet
from cutwright.paper.svg_file import write_svg
from cutwright.paper.tiles import write_tiles
from cutwright.words import _
from cutwright.workshop.work import Work

TILED = ("a4", "letter", "a3")
DEFAULT_ROLL = 90.0


@dataclass(frozen=True, slots=True)
class Written:
    """One file of the packet: where it is, what it is, and how many pages it has (0 = no pages)."""

    path: Path
    what: str
    pages: int = 0


@dataclass(frozen=True, slots=True)
class PaperWish:
    """Which paper is wanted: tiles of a home paper, or a sheet of a width in cm."""

    name: str = "a4"
    roll: float = DEFAULT_ROLL


def read_paper(text: str) -> PaperWish:
    """Read a wish such as "a4", "letter", "a3", "a0", "projector", "projector-dark", "sheet:90"."""
    name = text.strip().lower()
    if name in (*TILED, "a0", "projector", "projector-dark"):
        return PaperWish(name)
    kind, colon, width = name.partition(":")
    if kind == "sheet" and colon:
        try:
            return PaperWish("sheet", float(width.replace(",", ".")))
        except ValueError:
            pass
    raise CutwrightError(
        _(
            'The paper "{text}" is not known. Choose a4, letter, a3, a0, projector, projector-dark or '
            "sheet: and a width in cm, such as sheet:90."
        ).format(text=text)
    )


def placed(work: Work) -> tuple[PlacedPiece, ...]:
    """The finished pieces as paper takes them."""
    return tuple(PlacedPiece(name, drawing) for name, drawing in work.drawings())


def title_of(work: Work, made: date | None, who: str | None = None) -> Title:
    """What stands in the corner of a sheet."""
    faults = tuple(f.text for f in work.faults)
    return Title(style=work.style.name, body=who or work.body.name, made=made, faults=faults)


def write_packet(
    work: Work, folder: Path, paper: PaperWish, made: date | None = None
) -> Iterator[Written]:
    """Write every file of the packet, telling each as it is done.

    Raises StoreError when the folder cannot be made or written to.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as fault:
        raise StoreError(
            _('The folder "{folder}" cannot be made: {why}. Choose another with --out.').format(
                folder=folder, why=fault.strerror or fault
            )
        ) from None
    pieces, title = placed(work), title_of(work, made)
    for name, what, write in _files(pieces, title, paper):
        path = folder / name
        yield Written(path, what, write(path) or 0)
    path = folder / "pattern.json"
    document = pattern_document(
        work.finished,
        style=work.style.name,
        body=work.body.name,
        figures=work.replay.figures,
        findings=(*work.proof.findings, *work.replay.findings),
    )
    write_json(path, pattern_json(document))
    yield Written(path, _("the pattern as data: lines, seams, figures, findings"))


_Writer = Callable[[Path], int | None]


def _files(
    pieces: tuple[PlacedPiece, ...], title: Title, paper: PaperWish
) -> Iterator[tuple[str, str, _Writer]]:
    if paper.name in TILED:
        name = paper.name.capitalize() if paper.name == "letter" else paper.name.upper()
        yield (
            f"pattern-{paper.name}.pdf",
            _("full size on {paper} sheets to stick together, the plan first").format(paper=name),
            lambda path: write_tiles(pieces, name, path, title),
        )
    elif paper.name == "a0":
        yield (
            "pattern-a0.pdf",
            _("full size on A0"),
            lambda path: write_sheet(pieces, A0, path, title),
        )
    elif paper.name.startswith("projector"):
        dark = paper.name.endswith("dark")
        yield (
            f"pattern-{paper.name}.pdf",
            _("full size for a projector over the table"),
            lambda path: write_projector(pieces, path, title, dark=dark),
        )
    roll = paper.roll
    yield (
        "pattern-sheet.pdf",
        _("full size on one sheet {width:g} cm wide").format(width=roll),
        lambda path: write_sheet(pieces, roll, path, title),
    )
    yield (
        "pattern.svg",
        _("the same as a drawing in true millimetres"),
        lambda path: write_svg(pieces, path, title, width=roll),
    )
    yield (
        "pattern.dxf",
        _("the pieces for a cutter or plotter"),
        lambda path: write_dxf(pieces, path, title),
    )
