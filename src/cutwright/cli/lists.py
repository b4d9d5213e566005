"""`measures`, `steps`, `schema`: what there is to write with."""

from __future__ import annotations

from typing import Annotated

import typer

from cutwright.cli.app import FamilyOpt, JsonOpt, app
from cutwright.cli.frame import Command
from cutwright.cli.telling import print_json
from cutwright.words import _


@app.command(
    cls=Command,
    options_metavar=_("[OPTIONS]"),
    help=_("List the measures: what each is and how to take it."),
)
def measures(family: FamilyOpt = "women", as_json: JsonOpt = False) -> None:
    """List the measures."""
    from dataclasses import asdict

    from cutwright.body.families import family_named
    from cutwright.numerals import by_custom
    from cutwright.wording.measures import describe_measures

    rows = describe_measures(family_named(family))
    if as_json:
        print_json([asdict(row) for row in rows])
        return
    for row in rows:
        print(f"{row.id}: {row.name} ({row.extent}, {row.bounds} {row.unit})")
        print(f"    {row.definition} {row.how}")
        if row.estimate:
            print("    " + by_custom(_("If it is not measured: {how}").format(how=row.estimate)))


@app.command(cls=Command, help=_("List the steps a style can be made of."))
def steps(as_json: JsonOpt = False) -> None:
    """List the steps."""
    from cutwright.cli.step_fields import field_lines
    from cutwright.style.registry import all_steps
    from cutwright.wording.reasons import reasons
    from cutwright.wording.sentences import sentence
    from cutwright.workshop.examples import example
    from cutwright.workshop.gallery import know_all_steps

    know_all_steps()
    known = all_steps()
    if as_json:
        print_json(
            [
                {
                    "do": tag,
                    "sentence": sentence(example(tag)),
                    "help": _(step.HELP),
                    "why": _(step.WHY),
                    "cloth": _(step.CLOTH) if step.CLOTH else "",
                    "schema": step.model_json_schema(),
                }
                for tag, step in known.items()
            ]
        )
        return
    for tag, step in known.items():
        print(f"{tag}: {sentence(example(tag))}")
        for line in (_(step.HELP), *reasons(step)):
            print(f"    {line}")
        for line in field_lines(step):
            print(f"      {line}")


@app.command(
    cls=Command,
    options_metavar=_("[OPTIONS]"),
    help=_("Print the JSON Schema of a document: body, style, cloth or pattern."),
)
def schema(
    document: Annotated[
        str, typer.Argument(metavar="DOCUMENT", help=_("body, style, cloth or pattern"))
    ],
) -> None:
    """Print a schema."""
    from cutwright.workshop.schemas import schema_of

    print_json(schema_of(document))
