"""`desk` and `book`: the page on this machine, and its book kept safe."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Annotated

import typer

from cutwright.cli.app import app
from cutwright.cli.frame import Command, Group
from cutwright.words import _


@app.command(cls=Command, help=_("Open the desk: the whole job in a page on this machine."))
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
    help=_("Keep the workshop's book safe: back it up, restore it."),
    no_args_is_help=True,
    cls=Group,
)
app.add_typer(book, name="book")

WhereOpt = Annotated[
    str, typer.Option("--book", help=_("The book: a file or an address; left out, your own book."))
]


@book.command("backup", cls=Command, help=_("Write the whole book into one file."))
def book_backup(
    file: Annotated[
        Path, typer.Argument(metavar="FILE", help=_("Where to; .json for a plain document."))
    ],
    where: WhereOpt = "",
) -> None:
    """Back the book up."""
    from cutwright.book.backup import back_up
    from cutwright.book.opening import open_book

    with open_book(where or None) as opened:
        back_up(opened, file)
        altered = ", ".join(opened.altered)
    if altered:
        text = _(
            "Altered outside of the program: {what}. Compare it with a backup before you rely on it."
        )
        print(text.format(what=altered), file=sys.stderr)
    print(
        _(
            "The book is kept in {file}. It holds personal measures: keep it where only you can read it."
        ).format(file=file)
    )


@book.command(
    "restore",
    cls=Command,
    help=_("Replace the book with a backup; the old book is kept beside it."),
)
def book_restore(
    file: Annotated[Path, typer.Argument(metavar="FILE", help=_("The backup."))],
    where: WhereOpt = "",
    unreadable: Annotated[
        bool,
        typer.Option(
            "--unreadable-too",
            help=_("Take documents that cannot be read, too; they are kept as they are."),
        ),
    ] = False,
) -> None:
    """Restore the book."""
    from cutwright.book.restore import restore
    from cutwright.desk.book.entering import checked_content

    kept = restore(file, where or None, check=None if unreadable else checked_content)
    print(_("The book is restored from {file}.").format(file=file))
    if kept:
        print(_("What was there before is kept in {file}.").format(file=kept))
