"""Books and dumps harmed by chance: told to be damaged, or still the very same book."""

from __future__ import annotations

import tempfile
import time
from pathlib import Path
from random import Random

from cutwright.book import documents
from cutwright.book.backup import back_up
from cutwright.book.dump import read_tables
from cutwright.book.nouns import DocumentKind
from cutwright.book.opening import open_book
from cutwright.book.restore import restore
from cutwright.errors import CutwrightError
from tests.attack.desk import fill
from tests.attack.tally import Tally

PAGE = 4096


def harmed(chance: Random, raw: bytes) -> tuple[bytes, str]:
    """A book with one harm of the disk in it, and what it was."""
    out = bytearray(raw)
    pages = max(1, len(out) // PAGE)
    page = chance.randrange(pages) * PAGE
    what = chance.choice(
        ("bit", "bit", "bit", "letter", "letter", "page", "swap", "short", "block")
    )
    if what == "bit":
        out[chance.randrange(len(out))] ^= 1 << chance.randrange(8)
    elif what == "letter":  # where text stands
        places = [n for n in range(len(out)) if chr(out[n]).isalnum() and out[n] < 128]
        out[chance.choice(places)] = chance.choice(b"aezAEZ019")
    elif what == "page":
        out[page : page + PAGE] = bytes(PAGE)
    elif what == "swap":
        other = chance.randrange(pages) * PAGE
        out[page : page + PAGE], out[other : other + PAGE] = (
            out[other : other + PAGE],
            out[page : page + PAGE],
        )
    elif what == "short":
        del out[chance.randrange(len(out)) :]
    else:
        at = chance.randrange(len(out))
        out[at : at + 64] = chance.randbytes(64)
    return bytes(out), what


def attack(count: int, seed: int) -> Tally:
    """So many harmed books: three of four as the book itself, the others as the backup of one."""
    tally, chance = Tally("corrupted books"), Random(seed)
    with tempfile.TemporaryDirectory(prefix="cutwright-attack-") as name:
        folder = Path(name)
        with open_book(folder / "sound.sqlite", keep=False) as book:
            fill(book)
            for number in range(12):
                content = {"format": 1, "name": f"Style {number}", "much": "thread " * 300}
                documents.add(book, DocumentKind.STYLE, content)
            back_up(book, folder / "copy.sqlite")
            back_up(book, folder / "copy.json")
            held = read_tables(book)
        for number in range(count):
            form = chance.choice(("sqlite", "sqlite", "sqlite", "json"))
            raw, what = harmed(chance, (folder / f"copy.{form}").read_bytes())
            place = folder / str(number) / "book.sqlite"
            place.parent.mkdir()
            file = place if form == "sqlite" and number % 4 else folder / f"harmed.{form}"
            file.write_bytes(raw)
            began = time.perf_counter()
            try:
                if file != place:
                    restore(file, place)
                with open_book(place, keep=False) as book:
                    same = read_tables(book) == held
                tally.count(f"{what}: whole all the same") if same else tally.stumbled(
                    f"{what}: silently altered", "book", raw
                )
            except CutwrightError:
                tally.count(f"{what}: refused")
            except Exception as fault:
                tally.stumbled(f"{what}: {type(fault).__name__}: {fault}", "book", raw)
            tally.took(time.perf_counter() - began, form)
    return tally
