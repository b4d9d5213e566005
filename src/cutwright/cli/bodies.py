"""`survey`: styles on many bodies."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Annotated, Any

import typer

from cutwright.cli.app import FamilyOpt, JsonOpt, app
from cutwright.cli.frame import Command
from cutwright.words import _


@app.command(
    cls=Command,
    options_metavar=_("[OPTIONS]"),
    help=_("Work styles on every body of a survey file and count the results."),
)
def survey(
    style: Annotated[
        list[str] | None, typer.Argument(metavar="[STYLE]...", help=_("Styles; or --all."))
    ] = None,
    bodies: Annotated[
        Path, typer.Option("--bodies", help=_("A survey file, one person a row (CSV)."))
    ] = Path(),
    every: Annotated[bool, typer.Option("--all", help=_("Every built-in style."))] = False,
    workers: Annotated[
        int, typer.Option("--workers", min=0, max=64, help=_("Processes; 0 = one for each core."))
    ] = 0,
    family: FamilyOpt = "women",
    as_json: JsonOpt = False,
) -> None:
    """Survey styles on bodies."""
    from cutwright import load_style
    from cutwright.body.families import family_named
    from cutwright.body.survey import read_survey
    from cutwright.workshop.gallery import shipped
    from cutwright.workshop.survey import survey as run

    names = list(shipped("styles")) if every else list(style or [])
    if not names:
        raise typer.BadParameter(_("Name a style, or ask for --all."))
    styles = [load_style(name) for name in names]
    cards = list(read_survey(bodies, family_named(family)))
    total = len(cards) * len(styles)
    tallies = run(styles, cards, workers or None, _progress(total, quiet=as_json))
    if not as_json:
        for tally in tallies:
            print(
                _(
                    "{style}: {bodies} bodies, {proved} proved without fault, {refused} refused, {crashed} crashed"
                ).format(
                    style=tally.style,
                    bodies=tally.bodies,
                    proved=tally.proved,
                    refused=tally.refused,
                    crashed=tally.crashed,
                )
            )
            for reason, count in [*tally.reasons.most_common(5), *tally.faults.most_common(5)]:
                print(f"    {count} × {reason}")
    for tally in tallies:
        print(json.dumps(tally.document(), ensure_ascii=False))
    if any(tally.crashed for tally in tallies):
        raise typer.Exit(1)


def _progress(total: int, quiet: bool) -> Any:
    if quiet or not sys.stderr.isatty():
        return lambda _done: None

    def tell(done: int) -> None:
        print(f"\r{done} / {total}", end="\n" if done >= total else "", file=sys.stderr, flush=True)

    return tell
