"""`lay`: the pieces on a cloth."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal

import typer

from cutwright.cli.app import BodyOpt, JsonOpt, OutOpt, StyleArg, UnitOpt, app
from cutwright.cli.frame import Command
from cutwright.cli.telling import print_json, sound, tell, while_preparing, written_lay
from cutwright.numerals import length_words
from cutwright.words import _

if TYPE_CHECKING:
    from cutwright.lay.cloth import Fold
    from cutwright.lay.search import Budget
    from cutwright.workshop.laying import LaidWork


FoldName = Literal["lengthwise", "selvedges", "open", "crosswise"]
FOLDS: dict[FoldName, Fold] = {
    "lengthwise": "lengthwise",
    "selvedges": "selvedges to the middle",
    "open": "open",
    "crosswise": "crosswise",
}


@app.command(
    cls=Command,
    options_metavar=_("[OPTIONS]"),
    help=_("Lay the pieces on a cloth: how they lie, how much to buy, what it costs."),
)
def lay(
    style: StyleArg,
    body: BodyOpt,
    cloth: Annotated[
        str,
        typer.Option(
            "--cloth", "-c", help=_("A cloth card (a file), or the name of a built-in cloth.")
        ),
    ],
    fold: Annotated[
        FoldName | None,
        typer.Option(
            "--fold",
            help=_(
                "How the cloth lies, where other than on its card; selvedges: both to the middle."
            ),
        ),
    ] = None,
    out: OutOpt = Path("out"),
    seed: Annotated[
        int, typer.Option("--seed", min=1, help=_("Another number, another search."))
    ] = 1,
    places: Annotated[
        int, typer.Option("--places", min=1000, help=_("How many places to try."))
    ] = 4_000_000,
    seconds: Annotated[
        float | None,
        typer.Option("--seconds", min=0.1, help=_("End the search after so many seconds.")),
    ] = None,
    full_size: Annotated[
        bool, typer.Option("--full-size", help=_("Also write the lay at full size."))
    ] = False,
    unit: UnitOpt = "cm",
    as_json: JsonOpt = False,
) -> None:
    """Lay the pieces of a style for a body on a cloth."""
    del unit  # chosen as it is read
    from cutwright import load_cloth
    from cutwright.lay.search import Budget
    from cutwright.workshop.laying import NotLaid, lay_or_why
    from cutwright.workshop.packet import make_folder

    card = load_cloth(cloth)
    if fold is not None:
        card = card.model_copy(update={"fold": FOLDS[fold]})
    done = sound(style, body)
    told = sys.stderr.isatty() and not as_json
    with while_preparing():
        laid = lay_or_why(
            done,
            card,
            Budget(places, seconds),
            seed,
            lambda better: (
                print(f"  {length_words(better.length)}", file=sys.stderr, flush=True)
                if told
                else None
            ),
        )
    make_folder(out)
    files = list(written_lay(laid, out, full_size))
    lay_found = None if isinstance(laid, NotLaid) else laid.lay.model_dump(mode="json")
    if as_json:
        print_json({"files": [str(f.path) for f in files], "lay": lay_found})
    else:
        for caption in laid.captions() if lay_found else ():
            print(caption)
        if not isinstance(laid, NotLaid) and fold is None:
            _tell_of_less(laid, Budget(places // 2, seconds), seed)
        for file in files:
            tell(file)
    if lay_found is None:
        raise typer.Exit(1)


def _tell_of_less(laid: LaidWork, budget: Budget, seed: int) -> None:
    """Say so where less would have to be bought with both selvedges folded to the middle."""
    from cutwright.workshop.laying import with_less

    less = with_less(laid, budget, seed)
    if less is not None:
        text = _("With both selvedges folded to the middle (--fold selvedges) less will do: {buy}")
        print(text.format(buy=less.buy()))
