"""Write the reference pages from the declarations: steps, measures, checks and schemas.

Run by `make docs`; `--check` only says whether the pages are as they should be.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

from cutwright.body.families import FAMILIES
from cutwright.body.family import Family
from cutwright.style.registry import all_steps
from cutwright.style.step import Step
from cutwright.wording.measures import describe_measures
from cutwright.wording.reasons import reasons
from cutwright.wording.sentences import sentence
from cutwright.words import _
from cutwright.workshop.examples import example
from cutwright.workshop.gallery import know_all_steps, load_style, shipped
from cutwright.workshop.schemas import SCHEMAS, schema_of

DOCS = Path(__file__).parents[1] / "docs"
HEAD = "<!-- Written by `make docs` from the declarations in the code; do not edit by hand. -->\n\n"


def pages() -> dict[Path, str]:
    """Every generated page by its path."""
    know_all_steps()
    out = {
        DOCS / "reference" / "steps.md": steps_page(),
        DOCS / "reference" / "measures.md": measures_page(),
        DOCS / "reference" / "gallery.md": gallery_page(),
    }
    for name in SCHEMAS:
        path = DOCS / "schema" / f"{name}.json"
        out[path] = json.dumps(schema_of(name), ensure_ascii=False, indent=1, sort_keys=True) + "\n"
    return out


def steps_page() -> str:
    """The page of all steps, grouped as they are declared."""
    groups: dict[str, list[tuple[str, type[Step]]]] = {}
    for tag, step in all_steps().items():
        groups.setdefault(step.GROUP, []).append((tag, step))
    lines = [
        HEAD,
        "# Steps\n\n",
        "A style is a list of these. Lengths are centimetres; a length may be a sum.\n",
    ]
    for group, steps in sorted(groups.items()):
        lines.append(f"\n## {group.capitalize()}\n")
        for tag, step in steps:
            lines += _step(tag, step)
    return "".join(lines)


def _step(tag: str, step: type[Step]) -> list[str]:
    lines = [f"\n### `{tag}`\n\n*{sentence(example(tag))}*\n\n{_(step.HELP)}\n\n"]
    lines += [f"{reason}\n\n" for reason in reasons(step)]
    lines.append("| field | what it is | default |\n|---|---|---|\n")
    for name, field in step.model_fields.items():
        if name in ("do", "name"):
            continue
        default = "needed" if field.is_required() else f"`{_plain(field.default)}`"
        lines.append(f"| `{name}` | {_(field.description or '')} | {default} |\n")
    return lines


def _plain(value: Any) -> str:
    return json.dumps(
        value, default=lambda v: v.model_dump() if hasattr(v, "model_dump") else list(v)
    )


def measures_page() -> str:
    """The page of all measures."""
    lines = [
        HEAD,
        "# Measures\n\n",
        "Names follow ISO 8559-1 where it has one; clauses as other public texts quote it.\n",
    ]
    for kind in FAMILIES.values():
        if len(FAMILIES) > 1:
            lines.append(f"\n# {_(kind.name).capitalize()}: `{kind.id}`\n")
        lines += _measures_of(kind)
    return "".join(lines)


def _measures_of(kind: Family) -> list[str]:
    lines = []
    for row in describe_measures(kind):
        lines.append(f"\n## {row.name}: `{row.id}`\n\n{row.definition} {row.how}\n\n")
        lines.append(f"{row.extent.capitalize()}, {row.bounds} {row.unit}.")
        lines.append(f" {row.standard}." if row.standard else "")
        lines.append(" Ask for the tape: the estimate is poor." if row.asks else "")
        lines.append(f"\n\nNot taped: {row.estimate}.\n" if row.estimate else "\n")
    return lines


def gallery_page() -> str:
    """The styles that ship, as sentences."""
    lines = [HEAD, "# Gallery\n"]
    for name in shipped("styles"):
        style = load_style(name)
        lines.append(f"\n## {style.name}: `{name}`\n\n{style.about}\n\n")
        lines += [f"{i}. {sentence(step)}\n" for i, step in enumerate(style.steps, 1)]
    return "".join(lines)


def main() -> None:
    """Write the pages, or check them."""
    stale = [
        path
        for path, text in pages().items()
        if not path.exists() or path.read_text(encoding="utf-8") != text
    ]
    if "--check" in sys.argv:
        for path in stale:
            print(f"stale: {path.relative_to(DOCS.parent)}; run `make docs`")
        sys.exit(bool(stale))
    for path, text in pages().items():
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    print(f"{len(stale)} pages written")


if __name__ == "__main__":
    main()
