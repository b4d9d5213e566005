"""The packet: every file of a finished pattern, written into a folder."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from cutwright.documents import write_json
from cutwright.errors import StoreError
from cutwright.finish.document import PatternDocument, pattern_document, pattern_json
from cutwright.finish.label import revision_message
from cutwright.paper.pieces import PlacedPiece, Title
from cutwright.paper.targets import writer_for
from cutwright.wording.message_text import message_text
from cutwright.words import _
from cutwright.workshop.work import Work

ROLL = "sheet:90"
"""The sheet that is written beside home tiles, 90 cm wide."""


@dataclass(frozen=True, slots=True)
class Written:
    """One file of the packet: where it is, what it is, and how many pages it has (0 = no pages)."""

    path: Path
    what: str
    pages: int = 0


@dataclass(frozen=True, slots=True)
class _File:
    name: str
    target: str
    what: str


def placed(work: Work) -> tuple[PlacedPiece, ...]:
    """The finished pieces as paper takes them."""
    return tuple(PlacedPiece(name, drawing) for name, drawing in work.drawings())


def title_of(work: Work) -> Title:
    """What stands in the corner of a sheet: the same as on the pieces."""
    options = work.finished.options
    return Title(
        style=options.garment,
        body=" · ".join(filter(None, [options.who, options.order])),
        made=options.made,
        revision=message_text(told) if (told := revision_message(options.revision)) else "",
        faults=tuple(message_text(f.message) for f in work.faults),
    )


def write_packet(work: Work, folder: Path, paper: str) -> Iterator[Written]:
    """Write every file of the packet, telling each as it is done.

    `paper` is a target of `paper.targets`: "a4", "letter", "a3", "sheet:90" ... Raises PaperError
    for one there is not, StoreError when the folder cannot be made or written to.
    """
    writer_for(paper)
    make_folder(folder)
    pieces, title = placed(work), title_of(work)
    for file in _files(paper.strip().casefold()):
        path = folder / file.name
        pages = writer_for(file.target)[1](pieces, path, title)
        yield Written(path, file.what, pages if isinstance(pages, int) else 0)
    path = folder / "pattern.json"
    write_json(path, pattern_json(document_of(work)))
    yield Written(path, _("the pattern as data: lines, seams, figures, findings"))


def make_folder(folder: Path) -> None:
    """Make the folder for the files; StoreError when it cannot be made."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as fault:
        raise StoreError(
            _('The folder "{folder}" cannot be made: {why}. Choose another with --out.').format(
                folder=folder, why=fault.strerror or fault
            )
        ) from None


def document_of(work: Work) -> PatternDocument:
    """The pattern document of a work."""
    return pattern_document(
        work.finished,
        style=work.style.name,
        body=work.body.name,
        family=work.body.family,
        figures=work.replay.figures,
        findings=(*work.proof.findings, *work.replay.findings),
    )


def _files(paper: str) -> Iterator[_File]:
    sheet = paper if paper.startswith("sheet:") else ROLL
    if paper == "projector" or paper.startswith("projector:"):
        what = _("full size for a projector over the table")
        yield _File(f"pattern-{paper.replace(':', '-')}.pdf", paper, what)
    elif paper in ("a0", "a1"):
        yield _File(
            f"pattern-{paper}.pdf", paper, _("full size on {paper}").format(paper=paper.upper())
        )
    elif paper not in ("svg", "dxf") and sheet == ROLL and paper != ROLL:
        what = _("full size on {paper} sheets to join, the plan first").format(
            paper=paper.capitalize() if paper == "letter" else paper.upper()
        )
        yield _File(f"pattern-{paper}.pdf", paper, what)
    width = sheet.partition(":")[2]
    yield _File(
        "pattern-sheet.pdf", sheet, _("full size on a sheet {width} cm wide").format(width=width)
    )
    yield _File("pattern.svg", "svg", _("the same as a drawing in true millimetres"))
    yield _File("pattern.dxf", "dxf", _("the pieces for a cutting table or plotter"))
