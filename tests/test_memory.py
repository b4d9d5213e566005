"""Reading a hostile document takes bounded memory, whatever stands in its two million bytes."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

MOST_MB = 300
"""What reading any document may take beyond the program itself."""

FILLS: dict[str, Any] = {
    "empty names": {},
    "numbers": 7,
    "texts": "x",
    "edges": {"piece": "a", "edge": "b"},
    "steps": {"do": "spread"},
    "nested": [[[[]]]],
}

CHILD = """
import json, resource, sys, tempfile
from pathlib import Path
from cutwright.book import exchange
from cutwright.book.opening import open_book
from cutwright.book.nouns import DocumentKind
from cutwright.desk.book.entering import checked_content
from cutwright.documents import parse_json
from cutwright.errors import CutwrightError
from cutwright.style.document import parse_style, stored_style
from cutwright.workshop.gallery import know_all_steps, load_style, load_body
from cutwright.lay.cloth import Cloth

know_all_steps()
folder = Path(tempfile.mkdtemp())
book = open_book(folder / "book.sqlite")
kind, files = sys.argv[1], sys.argv[2:]

def take(file):
    raw = Path(file).read_bytes()
    if kind == "client":
        exchange.import_client(book, Path(file), checked_content)
    elif kind == "stored":
        stored_style(json.loads(raw)).document()
    else:
        checked_content(DocumentKind(kind), parse_json(raw, kind))

def peak():
    return int(Path("/proc/self/status").read_text().split("VmHWM:")[1].split()[0]) / 1024

before, ends = peak(), []
for file in files:
    try:
        take(file)
        ends.append("taken")
    except CutwrightError as fault:
        ends.append("refused" if len(str(fault)) < 20_000 else "told at length")
print(json.dumps([ends, peak() - before]))
"""


def _many(one: Any, most: int = 1_900_000) -> list[Any]:
    return [one] * (most // (len(json.dumps(one)) + 2))


def _hostile(kind: str, many: list[Any]) -> list[dict[str, Any]]:
    names = {f"n{n}": one for n, one in enumerate(many[:100_000])}
    if kind in ("style", "stored"):
        step = {"do": "lengthen", "pieces": ["a"], "by": 2}
        fields = [{**step, "pieces": many}, {**step, **names}, {**step, "through": many}]
        rows = [
            many,
            names,
            *([field] for field in fields),
            [{**step, "pieces": many[:9000]}] * 200,
        ]
        return [{"format": 1, "name": "x", "steps": steps} for steps in rows]
    if kind == "body":
        values = [many, names, {"bust_girth": many}, {"height": names}]
        return [{"format": 1, "name": "x", "measures": value} for value in values]
    if kind == "cloth":
        return [{"format": 1, "name": "x", "width": 140, "match": m} for m in (many, names)]
    head = {"format": 1, "kind": "client", "exported_at": "2026-03-14T10:00:00Z", "client": {}}
    revision = {"number": 1, "title": "x", "made_at": "2026-03-14T10:00:00Z", "content": {}}
    part = {"id": "a", "kind": "body", "current": 1, "revisions": [revision]}
    content = {**part, "revisions": [{**revision, "content": {"format": 1, "measures": names}}]}
    documents = [many, [{**part, "revisions": many}], [content], [part] * 15_000]
    return [*({**head, "documents": value} for value in documents), {**head, "fittings": many}]


@pytest.mark.slow
@pytest.mark.parametrize(
    "kind",
    [
        "style",
        "client",
        *(pytest.param(k, marks=pytest.mark.survey) for k in ("stored", "body", "cloth")),
    ],
)
def test_no_document_fills_the_memory(kind: str, tmp_path: Path) -> None:
    files: list[str] = []
    for one in FILLS.values():
        for value in _hostile(kind, _many(one)):
            raw = json.dumps(value).encode()
            if len(raw) <= 2_100_000:
                files.append(str(tmp_path / f"{len(files)}.json"))
                Path(files[-1]).write_bytes(raw)
    done = subprocess.run(
        [sys.executable, "-c", CHILD, kind, *files], capture_output=True, text=True
    )
    assert done.returncode == 0, done.stderr[-2000:]
    ends, more = json.loads(done.stdout)
    assert len(ends) == len(files) > 5
    assert "told at length" not in ends
    assert more < MOST_MB, f"{kind}: {more:.0f} MB"
