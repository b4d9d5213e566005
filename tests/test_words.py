"""Everything that is said to a user passes the catalogue, and the catalogue can be translated."""

from __future__ import annotations

import ast
import gettext
import string
from collections.abc import Iterator
from pathlib import Path

import pytest
from babel.messages.catalog import Catalog
from babel.messages.pofile import read_po

from cutwright import words
from tests import sentences
from tests.conftest import ROOT
from tools.words import SOURCE, bring_up, gather, text_of

FILES = sorted(
    path
    for pattern in ("**/*.py", "**/templates/**/*.html")
    for path in (ROOT / SOURCE).glob(pattern)
)


@pytest.fixture(scope="module")
def catalogue() -> Catalog:
    return gather(ROOT)


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.relative_to(ROOT / SOURCE).as_posix())
def test_no_sentence_goes_round_the_catalogue(path: Path) -> None:
    faults = [f"{path.name}:{line}: {what}" for line, what in sentences.in_file(path)]
    assert not faults, "\n".join(faults)


@pytest.mark.parametrize(
    "bad",
    [
        'raise StepError("no")',
        'raise StepError(f"no edge {name}")',
        'raise StepError("no edge {}".format(name))',
        'raise StepError("no edge " + name)',
        'raise ValueError("a tape is missing")',
        'raise DocumentError(_("the body"), [("bust", "this is too long")])',
        'raise DocumentError(_("the body"), [("bust", f"this is {n} too long")])',
        '_(f"no edge {name}")',
        '_("no edge {name}".format(name=name))',
        '_("no edge " + name)',
        "N_(name)",
        'Finding("seam", "fault", where, "the seam does not walk")',
        'Finding("seam", "fault", where, text=f"{a} does not walk")',
        'Figure("length of the hem", 3.2, "cm", how)',
        'raise PydanticCustomError("name", "this must be one line")',
        'typer.Option(help="where to write")',
        'typer.echo("all is well")',
    ],
)
def test_the_search_finds(bad: str) -> None:
    assert sentences.in_python(bad)


@pytest.mark.parametrize(
    "good",
    [
        'raise StepError(_("no edge {name}").format(name=name))',
        'raise StepError(_("no edge {name}").format(name="hem"))',
        'raise StepError(ngettext("{n} edge", "{n} edges", n).format(n=n))',
        'raise DocumentError(_("the body"), [("bust", _("this is too long"))])',
        "raise StepError(text)",
        'raise PydanticCustomError("name", "{error}", {"error": _("one line")})',
        'raise AssertionError("a loop always closes")',
        'Finding("seam", "fault", "skirt: hem", _("the seam does not walk"))',
        'Finding("seam", "fault", where="skirt: hem", text=_("the seam does not walk"))',
        'typer.Option("--out", help=N_("where to write"))',
        "_(declared)",
        'EDGE = "side seam of the skirt"',
    ],
)
def test_the_search_leaves_alone(good: str) -> None:
    assert not sentences.in_python(good)


@pytest.mark.parametrize(
    "bad",
    ["<p>Your bodies</p>", '<a title="Go back">{{ _("Back") }}</a>', "<p>{{ n }} pieces</p>"],
)
def test_the_search_reads_pages(bad: str) -> None:
    assert sentences.in_template(bad)


@pytest.mark.parametrize(
    "good",
    [
        '<p class="side seam">{{ _("Your bodies") }} 3 &times; {# why #}</p>',
        "<p>{% trans n=n %}{{ n }} piece{% pluralize %}{{ n }} pieces{% endtrans %}</p>",
        """<a title="{{ _('Go back') }}">{% if wide > 3 %}×{% endif %}</a>""",
        "<script>const wide = 3</script><style>p { color: red }</style>",
    ],
)
def test_the_search_leaves_pages_alone(good: str) -> None:
    assert not sentences.in_template(good)


def said(path: Path) -> Iterator[str]:
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Call) and sentences.called(node.func) in sentences.SAYS:
            first = node.args[0] if node.args else None
            if isinstance(first, ast.Constant) and isinstance(first.value, str):
                yield first.value


def test_every_message_is_gathered(catalogue: Catalog) -> None:
    missing = [
        (path.name, message)
        for path in FILES
        if path.suffix == ".py"
        for message in said(path)
        if message not in catalogue
    ]
    assert not missing


def test_pages_are_gathered(tmp_path: Path) -> None:
    page = tmp_path / SOURCE / "desk" / "templates" / "part" / "a.html"
    page.parent.mkdir(parents=True)
    page.write_text(
        '{{ _("Bodies") }}{% trans n=n %}{{ n }} piece{% pluralize %}{{ n }} pieces{% endtrans %}'
    )
    (page.parents[2] / "a.py").write_text('ngettext("a", "b", 2); N_("one " "text")')
    assert {message.id for message in gather(tmp_path) if message.id} == {
        "Bodies",
        ("%(n)s piece", "%(n)s pieces"),
        ("a", "b"),
        "one text",
    }


def test_every_hole_has_a_name(catalogue: Catalog) -> None:
    """A translator may have to turn the order round, so `{}` and `{0}` will not do."""
    nameless = []
    for message in catalogue:
        for text in [message.id] if isinstance(message.id, str) else message.id:
            holes = [name for _, name, _, _ in string.Formatter().parse(text) if name is not None]
            nameless += [text for name in holes if not name or name[0].isdigit()]
    assert not nameless


def test_the_template_is_the_same_each_time(catalogue: Catalog) -> None:
    text = text_of(catalogue)
    assert text == text_of(gather(ROOT))
    assert "charset=utf-8" in text
    assert "Creation-Date" not in text


def test_a_translation_reaches_the_user(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    template = Catalog()
    template.add("the hem")
    template.add(("{n} piece", "{n} pieces"))
    path = tmp_path / "de" / "LC_MESSAGES" / "cutwright.po"
    path.parent.mkdir(parents=True)
    path.write_text(
        'msgid ""\nmsgstr "Content-Type: text/plain; charset=utf-8\\n"\n\n'
        'msgid "the hem"\nmsgstr "der Saum"\n',
        "utf-8",
    )
    bring_up(path, template)
    with path.open("rb") as file:
        assert ("{n} piece", "{n} pieces") in read_po(file, locale="de")
    with path.with_suffix(".mo").open("rb") as file:
        assert gettext.GNUTranslations(file).gettext("the hem") == "der Saum"

    monkeypatch.setattr(words, "LOCALES", tmp_path)
    before = words.current_language()
    words._catalogue.cache_clear()
    try:
        words.set_language("de")
        assert words._("the hem") == "der Saum"
        assert words._("the waist") == "the waist"
        words.set_language("en")
        assert words._("the hem") == "the hem"
    finally:
        words.set_language(before)
        words._catalogue.cache_clear()


@pytest.mark.parametrize(
    ("language", "line", "shown"),
    [
        ("fr", "ourlet: 3,0; 4,0", "ourlet\u00a0: 3,0\u202f; 4,0"),
        ("fr", "déjà\u00a0: 3 à 12:30 http://a", "déjà\u00a0: 3 à 12:30 http://a"),
        ("fr", "fin:", "fin\u00a0:"),
        ("de", "Saum: 3,0; 4,0", "Saum: 3,0; 4,0"),
        ("en", "hem: 3.0; 4.0", "hem: 3.0; 4.0"),
    ],
)
def test_french_has_a_space_before_colon_and_semicolon(
    language: str, line: str, shown: str
) -> None:
    before = words.current_language()
    try:
        words.set_language(language)
        assert words.spaced(line) == shown
        assert words.spaced(words.spaced(line)) == shown
    finally:
        words.set_language(before)
