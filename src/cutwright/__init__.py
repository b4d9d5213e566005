"""Cutwright: from a measured body and a style to paper that is proved to sew together.

What a program of one's own needs stands here: `from cutwright import load_body, load_style, work`. Each
name is imported when it is first asked for, and every draft and step is known from then on;
docs/python.md shows how they go together.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from cutwright.body.body import Body as Body
    from cutwright.body.card import BodyCard as BodyCard
    from cutwright.body.card import read_card as read_card
    from cutwright.body.resolve import resolve as resolve
    from cutwright.body.size_charts import size as size
    from cutwright.checks.proof import Proof as Proof
    from cutwright.errors import CutwrightError as CutwrightError
    from cutwright.finish.options import FinishOptions as FinishOptions
    from cutwright.lay.cloth import Cloth as Cloth
    from cutwright.messages import Message as Message
    from cutwright.style.document import Style as Style
    from cutwright.style.document import parse_style as parse_style
    from cutwright.wording.message_text import message_text as message_text
    from cutwright.wording.sentences import sentence as sentence
    from cutwright.words import set_language as set_language
    from cutwright.workshop.gallery import load_body as load_body
    from cutwright.workshop.gallery import load_style as load_style
    from cutwright.workshop.laying import lay_work as lay_work
    from cutwright.workshop.laying import load_cloth as load_cloth
    from cutwright.workshop.laying import write_lay as write_lay
    from cutwright.workshop.packet import document_of as document_of
    from cutwright.workshop.packet import write_packet as write_packet
    from cutwright.workshop.sheets import write_worksheet as write_worksheet
    from cutwright.workshop.work import Work as Work
    from cutwright.workshop.work import finishing as finishing
    from cutwright.workshop.work import work as work

__version__ = "0.1.0"

_PUBLIC = {
    "body.body": ("Body",),
    "body.card": ("BodyCard", "read_card"),
    "body.resolve": ("resolve",),
    "body.size_charts": ("size",),
    "checks.proof": ("Proof",),
    "errors": ("CutwrightError",),
    "finish.options": ("FinishOptions",),
    "lay.cloth": ("Cloth",),
    "messages": ("Message",),
    "style.document": ("Style", "parse_style"),
    "wording.message_text": ("message_text",),
    "wording.sentences": ("sentence",),
    "words": ("set_language",),
    "workshop.gallery": ("load_body", "load_style"),
    "workshop.laying": ("lay_work", "load_cloth", "write_lay"),
    "workshop.packet": ("document_of", "write_packet"),
    "workshop.sheets": ("write_worksheet",),
    "workshop.work": ("Work", "finishing", "work"),
}
_HOME = {name: module for module, names in _PUBLIC.items() for name in names}

__all__ = sorted(_HOME)


if not TYPE_CHECKING:  # a name that is not public is a type error

    def __getattr__(name: str) -> Any:
        """A public name when it is first asked for; every draft and step is made known on the way."""
        if name not in _HOME:
            raise AttributeError(name)
        import_module("cutwright.workshop.gallery").know_all_steps()
        found = getattr(import_module(f"cutwright.{_HOME[name]}"), name)
        globals()[name] = found
        return found


def __dir__() -> list[str]:
    return sorted({*globals(), *__all__})
