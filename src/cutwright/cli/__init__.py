"""The command line. It reads wishes, calls the workshop and prints; it holds no arithmetic."""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from contextlib import suppress
from typing import TYPE_CHECKING

from cutwright.cli.frame import UsageFault, frame_in, refusal
from cutwright.cli.language import chosen
from cutwright.errors import CutwrightError
from cutwright.unforeseen import foreseen
from cutwright.words import _, set_language

if TYPE_CHECKING:
    import typer


def main(arguments: Sequence[str] | None = None) -> None:
    """Run the command line; every trouble is told in plain words and never as a traceback."""
    with suppress(AttributeError, ValueError):
        sys.stdout.reconfigure(errors="replace")  # type: ignore[union-attr]
    try:
        language, rest = chosen(sys.argv[1:] if arguments is None else arguments)
        set_language(language)
        frame_in(language)
        sys.exit(_run(rest))
    except CutwrightError as fault:
        from cutwright.wording.message_text import message_text

        print(message_text(fault), file=sys.stderr)
        sys.exit(1)
    except KeyboardInterrupt:
        print(_("Stopped; files that were finished are complete."), file=sys.stderr)
        sys.exit(130)
    except Exception as fault:
        if os.environ.get("CUTWRIGHT_DEBUG"):
            raise
        print(foreseen(fault), file=sys.stderr)
        sys.exit(1)


def _run(arguments: list[str]) -> int:
    """Run a command and give its exit code; a command line that cannot be read is told."""
    try:
        code = commands()(args=arguments, standalone_mode=False)
    except UsageFault as fault:
        print(refusal(fault), file=sys.stderr)
        return 2
    return code if isinstance(code, int) else 0


def commands() -> typer.Typer:
    """Every command; read after the language is chosen, for their help speaks it, too."""
    from cutwright.cli import bodies, cloth, desk, lists, pattern, sheets  # noqa: F401
    from cutwright.cli.app import app

    return app
