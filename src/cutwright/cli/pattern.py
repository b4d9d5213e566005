"""`make`, `demo`, `prove`: a style worked on a body."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from cutwright.cli.app import BodyOpt, FamilyOpt, JsonOpt, OutOpt, PaperOpt, StyleArg, UnitOpt, app
from cutwright.cli.frame import Command
from cutwright.cli.telling import (
    print_json,
    print_proof,
    proof_document,
    sound,
    stop_on_faults,
    tell,
    while_preparing,
    work_on,
)
from cutwright.words import _

if TYPE_CHECKING:
    from collections.abc import Iterator

    from cutwright.lay.cloth import Cloth
    from cutwright.workshop.packet import Written
    from cutwright.workshop.work import Work

DEMO_STYLE, DEMO_CLOTH = "orchard-dress", "plain-cotton-140"


@app.command(
    cls=Command,
    options_metavar=_("[OPTIONS]"),
    help=_("Make the pattern of a style for a body: paper, drawing and data."),
)
def make(
    style: StyleArg,
    body: BodyOpt,
    out: OutOpt = Path("out"),
    paper: PaperOpt = "a4",
    cloth: Annotated[str, typer.Option("--cloth", "-c", help=_("Also lay it on this cloth."))] = "",
    unit: UnitOpt = "cm",
    as_json: JsonOpt = False,
) -> None:
    """Make the pattern and write the packet."""
    del unit  # chosen as it is read
    from cutwright import load_cloth

    card = load_cloth(cloth) if cloth else None
    done = sound(style, body)
    written = []
    for file in _everything(done, out, paper, card):
        written.append(file)
        if not as_json:
            tell(file)
    if as_json:
        print_json({"files": [str(f.path) for f in written], **proof_document(done)})
    else:
        print_proof(done)
    stop_on_faults(done)


@app.command(
    cls=Command,
    options_metavar=_("[OPTIONS]"),
    help=_("Make the demo dress for a demo body into out/ and say where to look."),
)
def demo(out: OutOpt = Path("out"), paper: PaperOpt = "a4", family: FamilyOpt = "women") -> None:
    """Make the demo packet."""
    from cutwright import load_cloth
    from cutwright.body.families import family_named
    from cutwright.wording.sentences import sentence

    done = sound(DEMO_STYLE, family_named(family).demo)
    said = done.finished.options
    print(_('"{style}" for {body}:').format(style=said.garment, body=said.who))
    for stage in done.replay.stages:
        print(f"  {sentence(stage.step)}")
    print(_("Made:"))
    for file in _everything(done, out, paper, load_cloth(DEMO_CLOTH)):
        tell(file)
    print_proof(done)
    print(
        _("Look first at {path}: page 1 shows how the sheets go together.").format(
            path=out / f"pattern-{paper}.pdf"
        )
    )
    stop_on_faults(done)


@app.command(
    cls=Command,
    options_metavar=_("[OPTIONS]"),
    help=_("Prove a style on a body: what is right, what is not, and by how much."),
)
def prove(style: StyleArg, body: BodyOpt, as_json: JsonOpt = False) -> None:
    """List the proof."""
    done = work_on(style, body)
    if as_json:
        print_json(proof_document(done))
    else:
        print_proof(done, whole=True)
    if done.trouble is not None:
        raise done.trouble
    stop_on_faults(done)


def _everything(done: Work, out: Path, paper: str, cloth: Cloth | None) -> Iterator[Written]:
    """The packet, the lay where there is a cloth, and the work sheet."""
    from cutwright import write_packet, write_worksheet
    from cutwright.cli.telling import written_lay
    from cutwright.workshop.laying import lay_or_why
    from cutwright.workshop.sheets import sheet_options

    yield from write_packet(done, out, paper)
    laid = None
    if cloth:
        with while_preparing():
            laid = lay_or_why(done, cloth)
        yield from written_lay(laid, out)
    page = "letter" if paper.casefold() == "letter" else "a4"
    yield from write_worksheet(done, out, sheet_options(done, laid), page)
