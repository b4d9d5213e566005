"""`sheet` and `lesson`: every figure explained."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Any

import typer

from cutwright.cli.app import BodyOpt, LargeOpt, OutOpt, SheetPaperOpt, StyleArg, UnitOpt, app
from cutwright.cli.frame import Command
from cutwright.cli.telling import sound, tell
from cutwright.words import _


@app.command(
    cls=Command,
    options_metavar=_("[OPTIONS]"),
    help=_("Write the work sheet: every step with its picture and its sums."),
)
def sheet(
    style: StyleArg,
    body: BodyOpt,
    out: OutOpt = Path("out"),
    paper: SheetPaperOpt = "a4",
    large: LargeOpt = False,
    unit: UnitOpt = "cm",
) -> None:
    """Write the work sheet."""
    del unit  # chosen as it is read
    from cutwright import write_worksheet

    _write_sheets(write_worksheet, style, body, out, paper, large)


@app.command(
    cls=Command,
    options_metavar=_("[OPTIONS]"),
    help=_("Write the lesson of a style: blanks for one's own figures, then the answers."),
)
def lesson(
    style: StyleArg,
    body: Annotated[str, typer.Option("--body", "-b", help=_("The reference body."))] = "the-rower",
    out: OutOpt = Path("out"),
    paper: SheetPaperOpt = "a4",
    large: LargeOpt = False,
    unit: UnitOpt = "cm",
) -> None:
    """Write the lesson."""
    del unit  # chosen as it is read
    from cutwright.workshop.sheets import write_lesson

    _write_sheets(write_lesson, style, body, out, paper, large)


def _write_sheets(write: Any, style: str, body: str, out: Path, paper: str, large: bool) -> None:
    """Write one of the sheets."""
    from cutwright.workshop.packet import make_folder
    from cutwright.workshop.sheets import sheet_options

    done = sound(style, body)
    make_folder(out)
    for file in write(done, out, sheet_options(done, large=large), paper):
        tell(file)
