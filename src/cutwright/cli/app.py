"""The command line itself, and the wishes that several commands share."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from cutwright import __version__
from cutwright.cli.frame import Group
from cutwright.numerals import measure_in
from cutwright.words import _

app = typer.Typer(
    help=_("From a measured body and a style to paper that is proved to sew together."),
    no_args_is_help=True,
    add_completion=False,
    cls=Group,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
)

StyleArg = Annotated[
    str, typer.Argument(metavar="STYLE", help=_("A style file, or the name of a built-in style."))
]
BodyOpt = Annotated[
    str,
    typer.Option("--body", "-b", help=_("A body card (a file), or the name of a built-in body.")),
]
OutOpt = Annotated[Path, typer.Option("--out", "-o", help=_("The folder for the files."))]
PaperOpt = Annotated[
    str,
    typer.Option(
        "--paper",
        "-p",
        help=_("a4, letter, a3, a0, a1, projector, projector:dark or sheet:90 (width in cm)."),
    ),
]
FamilyOpt = Annotated[str, typer.Option("--family", help=_("The kind of figure, such as women."))]
SheetPaperOpt = Annotated[str, typer.Option("--paper", "-p", help=_("a4 or letter."))]
LargeOpt = Annotated[bool, typer.Option("--large", help=_("Large print."))]


def _chosen_unit(unit: str) -> str:
    """Print lengths in the unit asked for from now on."""
    if unit not in ("cm", "in"):
        raise typer.BadParameter(_("Write cm or in."))
    measure_in("in" if unit == "in" else "cm")
    return unit


UnitOpt = Annotated[
    str,
    typer.Option("--unit", callback=_chosen_unit, help=_("Print lengths in cm or in (inches).")),
]
JsonOpt = Annotated[bool, typer.Option("--json", help=_("Print JSON for machines."))]


@app.callback(invoke_without_command=True)
def start(
    version: Annotated[
        bool, typer.Option("--version", help=_("Print the version and stop."))
    ] = False,
    lang: Annotated[
        str, typer.Option("--lang", help=_("The language: en, de, fr, es, lt or ru."))
    ] = "",
) -> None:
    """From a measured body and a style to paper that is proved to sew together."""
    del lang  # chosen before anything is read: see cli/language.py
    if version:
        print(f"Cutwright {__version__}")
        raise typer.Exit
