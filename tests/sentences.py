"""Find what a user would read although no translator ever saw it."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

SAYS = frozenset({"_", "N_", "gettext", "ngettext"})
# Which arguments of these are read by a user, by their place; the rest are codes and references.
SPEAKERS = {"Finding": 3, "Figure": 0, "print": 0, "echo": 0, "secho": 0, "HTTPException": 0}
SPEAKING_ARGUMENTS = frozenset(
    {"help", "description", "detail", "message", "prompt", "hint", "sentence", "question"}
)
CANNOT_HAPPEN = frozenset({"AssertionError"})
# These take a code, a title or a mould before the words.
CODED = frozenset({"PydanticCustomError", "from_exception_data"})
# The program's own name and the sign of a unit are the same in every language.
SAME_EVERYWHERE = re.compile(r"\b(?:Cutwright|cm)\b|\{% block kind %\}.*?\{% endblock %\}")
WORD = re.compile(r"[^\W\d_]{2,}")
SENTENCE = re.compile(r"[^\W\d_]{2,}[,;:]? +[^\W\d_]+")
SPOKEN_ATTRIBUTE = re.compile(r"""\b(?:title|alt|aria-label|placeholder)=(["'])(.*?)\1""", re.S)
NOT_TEXT = re.compile(
    r"\{#.*?#\}|\{%-?\s*trans\b.*?endtrans\s*-?%\}|\{\{.*?\}\}|\{%.*?%\}"
    r"|<!--.*?-->|<(script|style)\b.*?</\1\s*>|<[^>]*>|&\w+;",
    re.S,
)


class Fault(NamedTuple):
    """A place where a sentence slips past the catalogue."""

    line: int
    what: str


def called(node: ast.expr) -> str:
    """The last name of what is called: `typer.echo(...)` gives `echo`."""
    if isinstance(node, ast.Name):
        return node.id
    return node.attr if isinstance(node, ast.Attribute) else ""


def literals(node: ast.AST) -> Iterator[tuple[int, str]]:
    """The strings under a node that go round the catalogue, f-strings with {} for each hole."""
    if isinstance(node, ast.Call) and called(node.func) in SAYS:
        return
    if isinstance(node, ast.Constant):
        if isinstance(node.value, str):
            yield node.lineno, node.value
        return
    if isinstance(node, ast.JoinedStr):
        parts = [str(v.value) if isinstance(v, ast.Constant) else "{}" for v in node.values]
        yield node.lineno, "".join(parts)
        return
    for child in ast.iter_child_nodes(node):
        yield from literals(child)


def unspoken_raise(node: ast.Raise) -> Iterator[Fault]:
    """An error whose own text, or a sentence inside it, is not looked up."""
    if not isinstance(node.exc, ast.Call) or called(node.exc.func) in CANNOT_HAPPEN:
        return
    coded = called(node.exc.func) in CODED
    for argument in [*node.exc.args, *(keyword.value for keyword in node.exc.keywords)]:
        bare = isinstance(argument, ast.Constant | ast.JoinedStr | ast.BinOp) and not coded
        for line, text in literals(argument):
            if (WORD if bare else SENTENCE).search(text):
                yield Fault(line, f"raised without the catalogue: {text!r}")


def unspoken_call(node: ast.Call) -> Iterator[Fault]:
    """A finding, a figure or a help text that is not looked up; a message filled in too soon."""
    name = called(node.func)
    if name in SAYS:
        for argument in node.args[: 2 if name == "ngettext" else 1]:  # a third one is the count
            if isinstance(argument, ast.JoinedStr | ast.BinOp | ast.Call):
                yield Fault(argument.lineno, f"{name}() gets a text that is already filled in")
            elif name == "N_" and not isinstance(argument, ast.Constant):
                yield Fault(argument.lineno, "N_() marks a text written out on the spot")
        return
    heard: list[ast.expr] = [k.value for k in node.keywords if k.arg in SPEAKING_ARGUMENTS]
    if name in SPEAKERS:
        texts = (keyword.value for keyword in node.keywords if keyword.arg not in {"where", "code"})
        heard = [*node.args[SPEAKERS[name] :], *texts]
    for argument in heard:
        for line, text in literals(argument):
            if SENTENCE.search(text):
                yield Fault(line, f"shown without the catalogue: {text!r}")


def in_python(source: str) -> list[Fault]:
    """Every fault of a module."""
    faults: set[Fault] = set()
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Raise):
            faults.update(unspoken_raise(node))
        elif isinstance(node, ast.Call):
            faults.update(unspoken_call(node))
    return sorted(faults)


def in_template(source: str) -> list[Fault]:
    """Every fault of a page: words between tags, or in an attribute that is read out."""
    faults: list[Fault] = []
    for match in SPOKEN_ATTRIBUTE.finditer(source):
        if WORD.search(NOT_TEXT.sub("", match[2])):
            line = source.count("\n", 0, match.start()) + 1
            faults.append(Fault(line, f"an attribute without the catalogue: {match[0]!r}"))
    bare = NOT_TEXT.sub(lambda match: "\n" * match[0].count("\n"), SAME_EVERYWHERE.sub("", source))
    for number, text in enumerate(bare.splitlines(), start=1):
        if WORD.search(text):
            faults.append(Fault(number, f"a text without the catalogue: {text.strip()!r}"))
    return faults


def in_file(path: Path) -> list[Fault]:
    """Every fault of a module or a page."""
    source = path.read_text("utf-8")
    return in_template(source) if path.suffix == ".html" else in_python(source)
