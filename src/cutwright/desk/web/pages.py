"""Pages made from templates: where they lie, what every one of them knows, how they are sent."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

from fastapi.responses import HTMLResponse
from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from cutwright import __version__
from cutwright.desk.web.alarm import altered, no_backup
from cutwright.desk.web.locale import choices
from cutwright.numerals import by_custom, day_words
from cutwright.wording.message_text import message_text
from cutwright.wording.names import called, name_text
from cutwright.words import _, current_language, ngettext

HERE = Path(__file__).parents[1]
STATIC = HERE / "static"


@cache
def environment() -> Environment:
    """The templates, with every value escaped and every missing one an error."""
    made = Environment(
        loader=FileSystemLoader(HERE / "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.globals.update(
        _=_,
        ngettext=ngettext,
        current_language=current_language,
        languages=choices,
        version=__version__,
        no_backup=no_backup,
        altered=altered,
    )
    made.filters.update(
        safe_svg=Markup,
        by_custom=by_custom,
        called=called,
        name_text=name_text,
        message_text=message_text,
        day=day_words,
    )
    return made


def fragment(template: str, **values: Any) -> str:
    """A piece of a page as text."""
    return environment().get_template(template).render(**values)


def page(template: str, status: int = 200, **values: Any) -> HTMLResponse:
    """A whole page."""
    return HTMLResponse(fragment(template, **values), status)
