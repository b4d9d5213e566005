"""The command line. It reads wishes, calls the workshop and prints; it holds no arithmetic."""

from __future__ import annotations

import json
import os
import sys
from contextlib import suppress
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from cutwright import __version__
from cutwright.errors import CutwrightError
from cutwright.words import N_, _

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from cutwright.lay.cloth import Cloth
    from cutwright.pattern.result import Finding
    from cutwright.workshop.packet import Written
    from cutwright.workshop.work import Work

app = typer.Typer(
    help=_("From a measured body and a style to paper that is proved to sew together."),
    no_args_is_help=True,
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
)

DEMO_STYLE, DEMO_BODY, DEMO_CLOTH = "orchard-dress", "the-alto", "plain-cotton-140"
_LEVELS = {"fault": N_("fault"), "warning": N_("warning"), "note": N_("note")}

StyleArg = Annotated[
    str, typer.Argument(metavar="STYLE", help=_("A style file, or the name of one that ships."))
]
BodyOpt = Annotated[
    str, typer.Option("--body", "-b", help=_("A body card, or the name of one that ships."))
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
SheetPaperOpt = Annotated[str, typer.Option("--paper", "-p", help=_("a4 or letter."))]
LargeOpt = Annotated[bool, typer.Option("--large", help=_("Large print."))]
LangOpt = Annotated[str, typer.Option("--lang", help=_("The language: en, de, fr, es, lt or ru."))]
JsonOpt = Annotated[bool, typer.Option("--json", help=_("Print JSON for machines."))]


@app.callback(invoke_without_command=True)
def start(
    version: Annotated[
        bool, typer.Option("--version", help=_("Print the version and stop."))
    ] = False,
) -> None:
    """From a measured body and a style to paper that is proved to sew together."""
    if version:
        print(f"Cutwright {__version__}")
        raise typer.Exit


@app.command(help=_("Make the pattern of a style for a body: paper, drawing and data."))
def make(
    style: StyleArg,
    body: BodyOpt,
    out: OutOpt = Path("out"),
    paper: PaperOpt = "a4",
    cloth: Annotated[str, typer.Option("--cloth", "-c", help=_("Also lay it on this cloth."))] = "",
    as_json: JsonOpt = False,
) -> None:
    """Make the pattern and write the packet."""
    from cutwright.workshop.laying import load_cloth

    card = load_cloth(cloth) if cloth else None
    done = _worked(style, body)
    if done.trouble is not None:
        raise done.trouble
    written = []
    for file in _everything(done, out, paper, card):
        written.append(file)
        if not as_json:
            _tell(file)
    if as_json:
        _print_json({"files": [str(f.path) for f in written], **_proof_document(done)})
    else:
        _print_proof(done)
    _stop_on_faults(done)


@app.command(help=_("Make the demo dress for a demo body into out/ and say where to look."))
def demo(out: OutOpt = Path("out"), paper: PaperOpt = "a4") -> None:
    """Make the demo packet."""
    from cutwright.workshop.laying import load_cloth

    done = _worked(DEMO_STYLE, DEMO_BODY)
    if done.trouble is not None:
        raise done.trouble
    print(_('"{style}" for {body}:').format(style=done.style.name, body=done.body.name))
    for stage in done.replay.stages:
        print(f"  {stage.step.sentence()}")
    print(_("Made:"))
    for file in _everything(done, out, paper, load_cloth(DEMO_CLOTH), places=300_000):
        _tell(file)
    _print_proof(done)
    print(
        _("Look first at {path}: page 1 shows how the sheets go together.").format(
            path=out / f"pattern-{paper}.pdf"
        )
    )
    _stop_on_faults(done)


@app.command(help=_("Prove a style on a body: what holds, what does not, and by how much."))
def prove(style: StyleArg, body: BodyOpt, as_json: JsonOpt = False) -> None:
    """List the proof."""
    done = _worked(style, body)
    if as_json:
        _print_json(_proof_document(done))
    else:
        _print_proof(done, whole=True)
    if done.trouble is not None:
        raise done.trouble
    _stop_on_faults(done)


@app.command(help=_("Lay the pieces on a cloth: how they lie, how much to buy, what it costs."))
def lay(
    style: StyleArg,
    body: BodyOpt,
    cloth: Annotated[
        str, typer.Option("--cloth", "-c", help=_("A cloth card, or the name of one that ships."))
    ],
    out: OutOpt = Path("out"),
    seed: Annotated[
        int, typer.Option("--seed", min=1, help=_("Another number, another search."))
    ] = 1,
    places: Annotated[
        int, typer.Option("--places", min=1000, help=_("How many places to try."))
    ] = 4_000_000,
    full_size: Annotated[
        bool, typer.Option("--full-size", help=_("Also write the lay at full size."))
    ] = False,
    as_json: JsonOpt = False,
) -> None:
    """Lay the pieces of a style for a body on a cloth."""
    from cutwright.workshop.laying import lay_work, load_cloth, write_lay
    from cutwright.workshop.packet import make_folder

    card = load_cloth(cloth)
    done = _worked(style, body)
    if done.trouble is not None:
        raise done.trouble
    told = sys.stderr.isatty() and not as_json
    laid = lay_work(
        done,
        card,
        places,
        seed,
        lambda better: (
            print(f"  {better.length:.1f} cm", file=sys.stderr, flush=True) if told else None
        ),
    )
    make_folder(out)
    files = list(write_lay(laid, out, date.today(), full_size))
    if as_json:
        _print_json(
            {"files": [str(f.path) for f in files], "lay": laid.lay.model_dump(mode="json")}
        )
        return
    for caption in laid.captions():
        print(caption)
    for file in files:
        _tell(file)


@app.command(help=_("Write the work sheet: every step with its picture and its sums."))
def sheet(
    style: StyleArg,
    body: BodyOpt,
    out: OutOpt = Path("out"),
    paper: SheetPaperOpt = "a4",
    large: LargeOpt = False,
    lang: LangOpt = "en",
) -> None:
    """Write the work sheet."""
    from cutwright.workshop.sheets import write_worksheet

    _write_sheets(write_worksheet, style, body, out, paper, large, lang)


@app.command(help=_("Write the lesson of a style: blanks for one's own figures, then the answers."))
def lesson(
    style: StyleArg,
    body: Annotated[str, typer.Option("--body", "-b", help=_("The reference body."))] = "the-rower",
    out: OutOpt = Path("out"),
    paper: SheetPaperOpt = "a4",
    large: LargeOpt = False,
    lang: LangOpt = "en",
) -> None:
    """Write the lesson."""
    from cutwright.workshop.sheets import write_lesson

    _write_sheets(write_lesson, style, body, out, paper, large, lang)


@app.command(help=_("Work styles on every body of a survey file and count what came of it."))
def survey(
    style: Annotated[
        list[str] | None, typer.Argument(metavar="[STYLE]...", help=_("Styles; or --all."))
    ] = None,
    bodies: Annotated[
        Path, typer.Option("--bodies", help=_("A survey file, one person a row (CSV)."))
    ] = Path(),
    every: Annotated[bool, typer.Option("--all", help=_("Every style that ships."))] = False,
    workers: Annotated[
        int, typer.Option("--workers", min=0, max=64, help=_("Processes; 0 = one for each core."))
    ] = 0,
    as_json: JsonOpt = False,
) -> None:
    """Survey styles on bodies."""
    from cutwright.body.survey import read_survey
    from cutwright.workshop.gallery import load_style, shipped
    from cutwright.workshop.survey import survey as run

    names = list(shipped("styles")) if every else list(style or [])
    if not names:
        raise typer.BadParameter(_("Name a style, or ask for --all."))
    styles = [load_style(name) for name in names]
    cards = list(read_survey(bodies))
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


@app.command(help=_("List the measures: what each is and how to take it."))
def measures(as_json: JsonOpt = False) -> None:
    """List the measures."""
    from dataclasses import asdict

    from cutwright.body.describe import describe_measures

    rows = describe_measures()
    if as_json:
        _print_json([asdict(row) for row in rows])
        return
    for row in rows:
        print(f"{row.id}: {row.name} ({row.extent}, {row.bounds} {row.unit})")
        print(f"    {row.definition} {row.how}")
        if row.estimate:
            print("    " + _("If it is not taped: {how}").format(how=row.estimate))


@app.command(help=_("List the steps a style can be made of."))
def steps(as_json: JsonOpt = False) -> None:
    """List the steps."""
    from cutwright.style.registry import all_steps
    from cutwright.workshop.gallery import know_all_steps

    know_all_steps()
    known = all_steps()
    if as_json:
        _print_json(
            [
                {
                    "do": tag,
                    "sentence": _(step.SENTENCE),
                    "help": _(step.HELP),
                    "schema": step.model_json_schema(),
                }
                for tag, step in known.items()
            ]
        )
        return
    for tag, step in known.items():
        print(f"{tag}: {_(step.SENTENCE)}")
        print(f"    {_(step.HELP)}")


@app.command(help=_("Print the JSON Schema of a document: body, style, cloth or pattern."))
def schema(
    document: Annotated[
        str, typer.Argument(metavar="DOCUMENT", help=_("body, style, cloth or pattern"))
    ],
) -> None:
    """Print a schema."""
    from cutwright.workshop.schemas import schema_of

    _print_json(schema_of(document))


@app.command(help=_("Open the desk: the whole job in a page on this machine."))
def desk(
    port: Annotated[
        int, typer.Option("--port", min=0, max=65535, help=_("Port; 0 = any free one."))
    ] = 0,
    no_browser: Annotated[
        bool, typer.Option("--no-browser", help=_("Do not open a browser."))
    ] = False,
    lan: Annotated[
        bool, typer.Option("--lan", help=_("Let a tablet in the same network in, by a code."))
    ] = False,
) -> None:
    """Open the desk."""
    from cutwright.desk import run

    run(port=port or None, browser=not no_browser, lan=lan)


book = typer.Typer(
    help=_("Keep the workshop's book safe: back it up, restore it."), no_args_is_help=True
)
app.add_typer(book, name="book")

WhereOpt = Annotated[
    str, typer.Option("--book", help=_("The book: a file or an address; left out, your own book."))
]


@book.command("backup", help=_("Write the whole book into one file."))
def book_backup(
    file: Annotated[
        Path, typer.Argument(metavar="FILE", help=_("Where to; .json for a plain document."))
    ],
    where: WhereOpt = "",
) -> None:
    """Back the book up."""
    from cutwright.book.backup import back_up
    from cutwright.book.book import open_book

    with open_book(where or None) as opened:
        back_up(opened, file)
    print(
        _(
            "The book is kept in {file}. It holds personal measures: keep it where only you can read it."
        ).format(file=file)
    )


@book.command(
    "restore", help=_("Put a backup in the place of the book; the book there is kept beside it.")
)
def book_restore(
    file: Annotated[Path, typer.Argument(metavar="FILE", help=_("The backup."))],
    where: WhereOpt = "",
) -> None:
    """Restore the book."""
    from cutwright.book.restore import restore

    kept = restore(file, where or None)
    print(_("The book is restored from {file}.").format(file=file))
    if kept:
        print(_("What was there before is kept in {file}.").format(file=kept))


def _everything(
    done: Work, out: Path, paper: str, cloth: Cloth | None, places: int = 2_000_000
) -> Iterator[Written]:
    """The packet, the lay where there is a cloth, and the work sheet."""
    from cutwright.workshop.laying import lay_work, write_lay
    from cutwright.workshop.packet import write_packet
    from cutwright.workshop.sheets import sheet_options, write_worksheet

    today = date.today()
    yield from write_packet(done, out, paper, today)
    laid = lay_work(done, cloth, places) if cloth else None
    if laid:
        yield from write_lay(laid, out, today)
    page = "letter" if paper.casefold() == "letter" else "a4"
    yield from write_worksheet(done, out, sheet_options(today, laid), page)


def _tell(file: Written) -> None:
    pages = _(" ({count} pages)").format(count=file.pages) if file.pages > 1 else ""
    print(f"  {file.path}: {file.what}{pages}", flush=True)


def _write_sheets(
    write: Any, style: str, body: str, out: Path, paper: str, large: bool, lang: str
) -> None:
    """Write one of the sheets in a language."""
    from cutwright.words import speak
    from cutwright.workshop.packet import make_folder
    from cutwright.workshop.sheets import sheet_options

    speak(lang)
    done = _worked(style, body)
    if done.trouble is not None:
        raise done.trouble
    make_folder(out)
    for file in write(done, out, sheet_options(date.today(), large=large), paper):
        _tell(file)


def _worked(style: str, body: str) -> Work:
    from cutwright.workshop.gallery import load_body, load_style
    from cutwright.workshop.work import work

    chosen = load_style(style)
    return work(chosen, load_body(body))


def _print_proof(done: Work, whole: bool = False) -> None:
    from cutwright.workshop.telling import proof_line

    print(_("Proved:"))
    for row in done.proof.checked:
        if row.count:
            print(f"  {row.what}: {proof_line(row)}")
    shown = done.findings if whole else [f for f in done.findings if f.level != "note"]
    for finding in shown:
        print(f"  {_finding_line(finding)}")
    notes = len(done.findings) - len(shown)
    if notes:
        print("  " + _("{count} notes; `cutwright prove` lists them.").format(count=notes))


def _finding_line(finding: Finding) -> str:
    level = _LEVELS.get(finding.level, finding.level)
    return f"{_(level)} {finding.code} ({finding.where}): {finding.text}"


def _proof_document(done: Work) -> dict[str, Any]:
    from dataclasses import asdict

    return {
        "style": done.style.name,
        "body": done.body.name,
        "sound": done.trouble is None and not done.faults,
        "checked": [asdict(row) for row in done.proof.checked],
        "findings": [
            {"code": f.code, "level": f.level, "where": f.where, "text": f.text, "value": f.value}
            for f in done.findings
        ],
        "trouble": str(done.trouble) if done.trouble else None,
    }


def _stop_on_faults(done: Work) -> None:
    if done.faults:
        print(
            _(
                "{count} faults: this pattern does not sew together yet. Mend the style before you cut."
            ).format(count=len(done.faults)),
            file=sys.stderr,
        )
        raise typer.Exit(1)


def _progress(total: int, quiet: bool) -> Any:
    if quiet or not sys.stderr.isatty():
        return lambda _done: None

    def tell(done: int) -> None:
        print(f"\r{done} / {total}", end="\n" if done >= total else "", file=sys.stderr, flush=True)

    return tell


def _print_json(value: object) -> None:
    print(json.dumps(value, ensure_ascii=False, indent=1, default=str))


def main(arguments: Sequence[str] | None = None) -> None:
    """Run the command line; every trouble is told in plain words and never as a traceback."""
    with suppress(AttributeError, ValueError):
        sys.stdout.reconfigure(errors="replace")  # type: ignore[union-attr]
    try:
        app(args=list(arguments) if arguments is not None else None, standalone_mode=True)
    except CutwrightError as fault:
        print(fault, file=sys.stderr)
        sys.exit(1)
    except KeyboardInterrupt:
        print(_("Stopped; files that were finished are complete."), file=sys.stderr)
        sys.exit(130)
    except Exception as fault:
        if os.environ.get("CUTWRIGHT_DEBUG"):
            raise
        print(
            _(
                "Something went wrong that should not: {kind}: {text}. Nothing was half written. "
                "Please report it, with the style and the body if you can share them."
            ).format(kind=type(fault).__name__, text=fault),
            file=sys.stderr,
        )
        sys.exit(1)
