"""Gather every sentence a user may read, for translators, and compile what they gave back.

`python -m tools.words` writes `cutwright.pot`, brings each `cutwright.po` up to it and compiles
it; `python -m tools.words --check` only says whether the template is up to date.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.extract import extract_from_dir
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po, write_po

SOURCE = Path("src") / "cutwright"
TEMPLATE = SOURCE / "locales" / "cutwright.pot"
METHODS = [("**/templates/**.html", "jinja2"), ("**.py", "python")]
OPTIONS = {"**/templates/**.html": {"silent": "false", "trimmed": "true"}}
KEYWORDS = {"_": None, "N_": None, "gettext": None, "ngettext": (1, 2), "N_plural": (1, 2)}
# Header lines that change with the day, or that only a translation can fill in.
LEFT_OUT = (
    '"Project-Id-Version',
    '"Report-Msgid-Bugs-To',
    '"POT-Creation-Date',
    '"PO-Revision-Date',
    '"Last-Translator',
    '"Language-Team',
    '"Generated-By',
)


def gather(root: Path) -> Catalog:
    """Every message that stands in the program below `root`, sorted by its text."""
    source = root / SOURCE
    catalogue = Catalog(
        project="Cutwright",
        header_comment="# Every sentence that Cutwright says. Made by `make words`; not edited.",
        fuzzy=False,
    )
    found = sorted(
        extract_from_dir(source, METHODS, OPTIONS, KEYWORDS, comment_tags=("Translators:",)),
        key=lambda message: (message[0], message[1]),
    )
    for filename, _line, message, comments, context in found:
        place = (SOURCE / filename).as_posix()
        catalogue.add(message, None, [(place, 0)], auto_comments=comments, context=context)
    return catalogue


def text_of(catalogue: Catalog) -> str:
    """A catalogue as it is kept: the same program always gives the same text."""
    out = BytesIO()
    write_po(
        out, catalogue, width=100, sort_output=True, include_lineno=False, ignore_obsolete=True
    )
    lines = out.getvalue().decode("utf-8").splitlines(keepends=True)
    return "".join(line for line in lines if not line.startswith(LEFT_OUT))


def translations(locales: Path) -> Iterator[Path]:
    """The catalogue of each language there is."""
    yield from sorted(locales.glob("*/LC_MESSAGES/cutwright.po"))


def bring_up(path: Path, template: Catalog) -> None:
    """Give a language the new messages, and compile what it has."""
    with path.open("rb") as file:
        catalogue = read_po(file, locale=path.parents[1].name)
    catalogue.update(template, no_fuzzy_matching=True)
    path.write_text(text_of(catalogue), "utf-8")
    with path.with_suffix(".mo").open("wb") as file:
        write_mo(file, catalogue)


def main(arguments: list[str]) -> int:
    """Write the catalogues, or with --check only compare."""
    root = Path(__file__).resolve().parents[1]
    template = gather(root)
    text = text_of(template)
    path = root / TEMPLATE
    if arguments == ["--check"]:
        if path.exists() and path.read_text("utf-8") == text:
            return 0
        print(f"{TEMPLATE} is not up to date: run `make words`", file=sys.stderr)
        return 1
    if arguments:
        print("usage: python -m tools.words [--check]", file=sys.stderr)
        return 2
    path.parent.mkdir(exist_ok=True)
    path.write_text(text, "utf-8")
    for language in translations(path.parent):
        bring_up(language, template)
    print(f"{len(template)} messages in {TEMPLATE}")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
