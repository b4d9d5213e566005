"""What the commands print."""

from __future__ import annotations

import contextlib
import json
import sys
import threading
from collections.abc import Iterator
from dataclasses import asdict
from datetime import date
from typing import TYPE_CHECKING, Any

import typer

from cutwright.numerals import by_custom
from cutwright.pattern.result import Severity
from cutwright.wording.message_text import message_text
from cutwright.words import N_, _, ngettext, spaced

if TYPE_CHECKING:
    from pathlib import Path

    from cutwright.pattern.result import Finding
    from cutwright.workshop.laying import LaidWork, NotLaid
    from cutwright.workshop.packet import Written
    from cutwright.workshop.work import Work

_LONG_WAIT = 3.0
"""Seconds of silence after which a reason is given."""

_LEVELS = {
    Severity.FAULT: N_("fault"),
    Severity.WARNING: N_("warning"),
    Severity.NOTE: N_("note"),
}


def work_on(style: str, body: str) -> Work:
    """A style worked on a body, both by name or file, today."""
    from cutwright import finishing, load_body, load_style, work

    chosen, person = load_style(style), load_body(body)
    return work(chosen, person, finishing(chosen, person, date.today()))


def print_proof(done: Work, whole: bool = False) -> None:
    """Print what was checked and what was found; several notes only where the whole is asked for."""
    from cutwright.workshop.telling import proof_line

    print(_("Proved:"))
    for row in done.proof.checked:
        if row.count:
            print(spaced(f"  {_(row.what)}: {proof_line(row)}"))
    notes = sum(f.level == Severity.NOTE for f in done.findings)
    every = whole or notes == 1
    shown = [f for f in done.findings if every or f.level != Severity.NOTE]
    for finding in shown:
        print(f"  {_finding_line(finding)}")
    if notes and not every:
        print(
            "  "
            + ngettext(
                "{count} note; `cutwright prove` lists it.",
                "{count} notes; `cutwright prove` lists them.",
                notes,
            ).format(count=notes)
        )


def _finding_line(finding: Finding) -> str:
    from cutwright.wording.names import name_text

    level = _LEVELS.get(finding.level, finding.level)
    return by_custom(
        f"{_(level)} {finding.code} ({name_text(finding.where)}): {message_text(finding.message)}"
    )


def proof_document(done: Work) -> dict[str, Any]:
    """The proof for machines."""
    return {
        "style": done.style.name,
        "body": done.body.name,
        "sound": done.trouble is None and not done.faults,
        "checked": [asdict(row) for row in done.proof.checked],
        "findings": [
            {
                "code": f.code,
                "level": f.level,
                "where": f.where,
                "text": message_text(f.message),
                "value": f.value,
            }
            for f in done.findings
        ],
        "trouble": message_text(done.trouble) if done.trouble else None,
    }


def stop_on_faults(done: Work) -> None:
    """End with exit code 1 where the pattern has faults."""
    if done.faults:
        print(
            ngettext(
                "{count} fault: this pattern does not sew together yet. Mend the style before you cut.",
                "{count} faults: this pattern does not sew together yet. Mend the style before you cut.",
                len(done.faults),
            ).format(count=len(done.faults)),
            file=sys.stderr,
        )
        raise typer.Exit(1)


def sound(style: str, body: str) -> Work:
    """A style worked on a body to the last step; trouble on the way is raised."""
    done = work_on(style, body)
    if done.trouble is not None:
        raise done.trouble
    return done


def tell(file: Written) -> None:
    """Print what was written and where."""
    pages = _(" ({count} pages)").format(count=file.pages) if file.pages > 1 else ""
    print(f"  {file.path}: {file.what}{pages}", flush=True)


def written_lay(laid: LaidWork | NotLaid, out: Path, marker: bool = False) -> Iterator[Written]:
    """The files of a lay; where the cloth is too narrow, the page that says so, told at once."""
    from cutwright.workshop.laying import NotLaid, write_lay, write_not_laid

    if not isinstance(laid, NotLaid):
        yield from write_lay(laid, out, marker)
        return
    yield from write_not_laid(laid, out)
    for caption in laid.captions():
        print(caption, file=sys.stderr)


def print_json(value: object) -> None:
    """Print a document for machines."""
    print(json.dumps(value, ensure_ascii=False, indent=1, default=str))


@contextlib.contextmanager
def while_preparing() -> Iterator[None]:
    """Say why nothing happens if the search of a lay is still being prepared after some seconds."""
    from cutwright.lay.search import prepared

    text = _("Preparing the search: up to half a minute, only once on this machine.")

    def say() -> None:
        if not prepared():
            print(text, file=sys.stderr, flush=True)

    timer = threading.Timer(_LONG_WAIT, say)
    timer.daemon = True
    if sys.stderr.isatty():
        timer.start()
    try:
        yield
    finally:
        timer.cancel()
