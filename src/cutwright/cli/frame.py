"""The frame of the help and of refused command lines ("Usage", "Options"), in the language in force.

What the library looks up itself it finds in our catalogue; what it has written out is said here.
"""

from __future__ import annotations

import gettext
import os
from typing import Any

import typer
from typer.core import TyperCommand, TyperGroup

from cutwright.words import LOCALES, N_, _

UsageFault: Any = typer.BadParameter.__mro__[1]
"""Whatever a command line can be refused for."""

_LOOKED_UP = (
    N_("Options"), N_("Arguments"), N_("Commands"), N_("required"), N_("default: {default}"),
    N_("Missing command."), N_("No such command {name!r}."),
)  # fmt: skip
"""Texts that the library itself looks up."""


_PIECES = {"[OPTIONS]": N_("[OPTIONS]"), "COMMAND [ARGS]...": N_("COMMAND …")}
"""How the library writes the pieces of a command line, and how they are said."""


def frame_in(language: str) -> None:
    """Let the library look its own texts up in our catalogue of a language."""
    os.environ["LANGUAGE"] = language
    gettext.bindtextdomain("cutwright", str(LOCALES))
    gettext.textdomain("cutwright")


def _write_usage(command: Any, ctx: Any, formatter: Any) -> None:
    """The line of how to call a command."""
    pieces = " ".join(command.collect_usage_pieces(ctx))
    for written, text in _PIECES.items():
        pieces = pieces.replace(written, _(text))
    formatter.write_usage(ctx.command_path, pieces, prefix=_("Usage:") + " ")


def _said(option: Any) -> Any:
    """The option that shows the help, with its own help in the language in force."""
    if option is not None:
        option.help = _("Show this message and exit.")
    return option


class Command(TyperCommand):
    """A command whose help is framed in the language in force."""

    def format_usage(self, ctx: Any, formatter: Any) -> None:
        """The line of how to call it."""
        _write_usage(self, ctx, formatter)

    def get_help_option(self, ctx: Any) -> Any:
        """The option that shows its help."""
        return _said(super().get_help_option(ctx))


class Group(TyperGroup):
    """A group of such commands."""

    def format_usage(self, ctx: Any, formatter: Any) -> None:
        """The line of how to call it."""
        _write_usage(self, ctx, formatter)

    def get_help_option(self, ctx: Any) -> Any:
        """The option that shows its help."""
        return _said(super().get_help_option(ctx))


def refusal(fault: Any) -> str:
    """Why a command line was refused, with how it is written, in the language in force."""
    if type(fault).__name__ == "NoArgsIsHelpError":
        return str(fault.format_message())
    context = getattr(fault, "ctx", None)
    lines = []
    if context is not None:
        command = f"{context.command_path} {context.help_option_names[0]}"
        lines = [context.get_usage(), _("Try '{command}' for help.").format(command=command), ""]
    return "\n".join([*lines, _reason(fault)])


def _reason(fault: Any) -> str:
    """The reason alone."""
    name = getattr(fault, "option_name", "")
    param = getattr(fault, "param", None)
    kind = type(fault).__name__
    if kind == "MissingParameter" and param is not None:
        return _("Missing: {name}").format(name=param.get_error_hint())
    if kind == "NoSuchOption":
        near = ", ".join(getattr(fault, "possibilities", None) or ())
        if near:
            return _("There is no option {name}. Did you mean {near}?").format(name=name, near=near)
        return _("There is no option {name}.").format(name=name)
    if kind == "BadOptionUsage":
        text = _("{name} cannot be used so: options take one value, switches such as --json none.")
        return text.format(name=name)
    if isinstance(fault, typer.BadParameter):
        if param is None:
            return str(fault.message)
        text = _("{name} cannot be used: {why}")
        return text.format(name=param.get_error_hint(), why=_why(fault, param))
    if kind == "UsageError" and not isinstance(fault.ctx.command, TyperGroup):
        return _("That is more than this command takes. Put a name with spaces in quotes.")
    return str(fault.format_message())


def _why(fault: Any, param: Any) -> str:
    """What is wrong with a value: our own sentence, or what the validator found in our words."""
    from pydantic import ValidationError

    from cutwright.documents.sentences import told_problems
    from cutwright.wording.message_text import message_text

    if not isinstance(fault.__cause__, ValidationError):
        return str(fault.message)
    error = dict(fault.__cause__.errors(include_url=False)[0])
    if choices := param.type_descriptor.choices:
        error |= {"type": "literal_error", "ctx": {"expected": str(choices)}}
    ((_place, text),) = told_problems([error])
    return message_text(text)
