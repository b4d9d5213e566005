"""The command line as a user meets it: what it writes, what it says, and how it takes bad input."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from cutwright.cli import main
from cutwright.words import set_language
from cutwright.workshop.gallery import shipped


def run(*arguments: str) -> int:
    """Run the command line and give its exit code."""
    with pytest.raises(SystemExit) as stop:
        main(arguments)
    code = stop.value.code
    return code if isinstance(code, int) else int(code is not None)


def card(tmp_path: Path, **changes: Any) -> str:
    """A copy of a demo body with some measures changed (None = left out)."""
    document = json.loads(shipped("bodies")["the-rower"].read_text(encoding="utf-8"))
    for name, value in changes.items():
        if value is None:
            document["measures"].pop(name, None)
        else:
            document["measures"][name] = value
    path = tmp_path / "body.json"
    path.write_text(json.dumps(document), encoding="utf-8")
    return str(path)


def style(tmp_path: Path, *steps: dict[str, Any], **more: Any) -> str:
    """A style file of some steps."""
    path = tmp_path / "style.json"
    document = {"format": 1, "name": "Trial", "steps": list(steps), **more}
    path.write_text(json.dumps(document), encoding="utf-8")
    return str(path)


SKIRT = {"do": "draft_skirt", "length": 60}


def test_make_writes_the_whole_packet(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = tmp_path / "packet"
    assert run("make", "flared-skirt", "--body", "the-rower", "--out", str(out)) == 0
    names = {p.name for p in out.iterdir()}
    assert names == {
        "pattern-a4.pdf",
        "pattern-sheet.pdf",
        "pattern.svg",
        "pattern.dxf",
        "pattern.json",
        "worksheet.pdf",
        "worksheet.html",
    }
    said = capsys.readouterr().out
    assert "pattern-a4.pdf" in said
    assert "Proved:" in said
    document = json.loads((out / "pattern.json").read_text(encoding="utf-8"))
    assert document["format"] == 2
    assert document["unit"] == "cm"
    assert {p["name"] for p in document["pieces"]} >= {"skirt front", "skirt back"}


@pytest.mark.parametrize(
    "paper", ["letter", "a3", "a0", "projector", "projector:dark", "sheet:120"]
)
def test_every_paper_can_be_asked_for(paper: str, tmp_path: Path) -> None:
    assert (
        run("make", "close-skirt", "--body", "the-rower", "--out", str(tmp_path), "--paper", paper)
        == 0
    )
    name = (
        "pattern-sheet.pdf"
        if paper.startswith("sheet")
        else f"pattern-{paper.replace(':', '-')}.pdf"
    )
    assert (tmp_path / name).read_bytes().startswith(b"%PDF")


def test_prove_tells_what_was_checked(capsys: pytest.CaptureFixture[str]) -> None:
    assert run("prove", "close-skirt", "--body", "the-alto", "--json") == 0
    told = json.loads(capsys.readouterr().out)
    assert told["sound"] is True
    assert {"seam-walk", "edge-flow", "fold-square"} <= {row["code"] for row in told["checked"]}


def test_lists_and_schemas(capsys: pytest.CaptureFixture[str]) -> None:
    for arguments in (["measures", "--json"], ["steps", "--json"]):
        assert run(*arguments) == 0
        assert len(json.loads(capsys.readouterr().out)) > 10
    for document in ("body", "style", "cloth", "pattern"):
        assert run("schema", document) == 0
        assert json.loads(capsys.readouterr().out)["type"] == "object"


def test_a_family_that_is_not_there_is_named(capsys: pytest.CaptureFixture[str]) -> None:
    assert run("measures", "--family", "women") == 0
    assert "bust_girth: Bust" in capsys.readouterr().out
    for command in (["measures"], ["demo"], ["survey", "shift", "--bodies", "x.csv"]):
        assert run(*command, "--family", "elves") == 1
        assert "There is no kind of figure “elves”; there is women." in capsys.readouterr().err


def test_a_step_is_listed_as_a_sentence_with_its_fields(capsys: pytest.CaptureFixture[str]) -> None:
    assert run("steps") == 0
    text = capsys.readouterr().out
    assert "{" not in text
    assert "spread: Slash skirt front at 3 lines from the hem" in text
    assert "      by: gap at the opening edge (from 0 to 60 cm; needed)" in text
    assert "      lines: how many lines (from 1 to 40; usual: 3)" in text


@pytest.mark.parametrize(
    ("arguments", "code", "words"),
    [
        (["--help"], 0, ("Aufruf:", "Optionen:", "Befehle:", "Diese Hilfe zeigen.")),
        (["make", "--help"], 0, ("[OPTIONEN]", "[nötig]", "[Vorgabe: out]")),
        (["make"], 2, ("Es fehlt: 'STYLE'", "Hilfe gibt")),
        (["make", "--bodi", "x"], 2, ("keine Option --bodi", "--body")),
        (["fit"], 2, ("keinen Befehl 'fit'",)),
    ],
)
def test_the_frame_of_the_help_is_translated(
    arguments: list[str], code: int, words: tuple[str, ...]
) -> None:
    ran = subprocess.run(
        [sys.executable, "-m", "cutwright", "--lang", "de", *arguments],
        capture_output=True,
        text=True,
        check=False,
    )
    assert ran.returncode == code
    for word in words:
        assert word in ran.stdout + ran.stderr
    assert "Usage" not in ran.stdout + ran.stderr


def test_a_mistyped_style_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    assert run("prove", "orchrd", "--body", "the-rower") == 1
    assert "no such file, and no built-in style of that name" in capsys.readouterr().err


def test_survey_counts(capsys: pytest.CaptureFixture[str]) -> None:
    sample = Path(__file__).parent / "survey" / "sample.csv"
    assert run("survey", "close-skirt", "--bodies", str(sample), "--workers", "1", "--json") == 0
    row = json.loads(capsys.readouterr().out.splitlines()[-1])
    assert row["bodies"] == row["drafted"] + row["refused"] + row["crashed"] > 30
    assert row["crashed"] == 0


class TestBadInput:
    """Ten kinds of bad input and more: a message in the user's words, exit 1, nothing lost."""

    def told(self, capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
        assert run(*arguments) == 1
        said = capsys.readouterr()
        assert "Traceback" not in said.err + said.out
        return said.err

    def test_a_missing_measure(self, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
        body = card(tmp_path, bust_girth=None, hip_girth=None, waist_girth=None)
        said = self.told(capsys, "make", "shift", "--body", body, "--out", str(tmp_path / "o"))
        assert "bust" in said

    def test_880_for_88(self, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
        said = self.told(capsys, "prove", "shift", "--body", card(tmp_path, bust_girth=880))
        assert "880" in said
        assert "88" in said

    def test_a_waist_larger_than_the_hip_by_40(
        self, tmp_path: Path, capsys: pytest.CaptureFixture[str]
    ) -> None:
        body = card(tmp_path, waist_girth=136, hip_girth=96)
        run("prove", "close-skirt", "--body", body)
        said = capsys.readouterr().out
        assert "measure-doubtful (waist_girth)" in said
        assert "hip" in said

    def test_an_unknown_edge(self, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
        flounce = {
            "do": "flounce_straight",
            "depth": 20,
            "edges": [{"piece": "skirt front", "edge": "hemm"}],
        }
        said = self.told(capsys, "prove", style(tmp_path, SKIRT, flounce), "--body", "the-alto")
        assert '"hemm"' in said
        assert "hem" in said
        assert "Step 2" in said

    def test_a_dart_closed_twice(self, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
        close = {"do": "close_dart", "piece": "skirt front", "darts": ["waist dart"]}
        said = self.told(
            capsys, "prove", style(tmp_path, SKIRT, close, close), "--body", "the-alto"
        )
        assert "Step 3" in said
        assert '"waist dart"' in said

    def test_a_spread_that_turns_over_itself(
        self, tmp_path: Path, capsys: pytest.CaptureFixture[str]
    ) -> None:
        wide = {"do": "spread", "piece": "skirt front", "lines": 30, "by": 55}
        close = {"do": "close_dart", "piece": "skirt front"}
        said = self.told(capsys, "prove", style(tmp_path, SKIRT, close, wide), "--body", "the-alto")
        assert "skirt front" in said

    def test_a_flounce_ratio_of_nothing(
        self, tmp_path: Path, capsys: pytest.CaptureFixture[str]
    ) -> None:
        flounce = {
            "do": "flounce_straight",
            "depth": 20,
            "ratio": 0,
            "edges": [{"piece": "skirt front", "edge": "hem"}],
        }
        said = self.told(capsys, "prove", style(tmp_path, SKIRT, flounce), "--body", "the-alto")
        assert "step 2" in said
        assert "ratio" in said

    def test_a_sum_with_a_forbidden_name(
        self, tmp_path: Path, capsys: pytest.CaptureFixture[str]
    ) -> None:
        for wish in (
            "__import__('os')",
            "waist_girth.real",
            "open('x')",
            "stature ** 9",
            "(" * 60 + "1" + ")" * 60,
        ):
            said = self.told(
                capsys,
                "prove",
                style(tmp_path, {"do": "draft_skirt", "length": wish}),
                "--body",
                "the-alto",
            )
            assert said.strip()

    def test_truncated_json(self, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
        path = tmp_path / "style.json"
        path.write_text('{"format": 1, "name": "Half", "steps": [{"do":', encoding="utf-8")
        said = self.told(
            capsys, "make", str(path), "--body", "the-alto", "--out", str(tmp_path / "o")
        )
        assert "line 1" in said
        assert not (tmp_path / "o").exists()

    @pytest.mark.skipif(os.name != "posix", reason="folders of the system are unlike elsewhere")
    def test_an_unwritable_folder(self, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
        blocked = tmp_path / "file"
        blocked.write_text("not a folder", encoding="utf-8")
        said = self.told(
            capsys, "make", "close-skirt", "--body", "the-alto", "--out", str(blocked / "o")
        )
        assert "--out" in said

    def test_unknown_names(self, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
        assert "orchard-dress" in self.told(capsys, "prove", "orchid-dress", "--body", "the-alto")
        assert "the-alto" in self.told(capsys, "prove", "orchard-dress", "--body", "nobody")
        assert "sheet:NN" in self.told(
            capsys, "make", "shift", "--body", "the-alto", "--paper", "a9"
        )
        assert "close_dart" in self.told(
            capsys, "prove", style(tmp_path, {"do": "fly"}), "--body", "the-alto"
        )

    def test_every_problem_at_once(
        self, tmp_path: Path, capsys: pytest.CaptureFixture[str]
    ) -> None:
        path = style(
            tmp_path, {"do": "draft_skirt", "length": -4, "colour": "red"}, {"do": "fly"}, tint=1
        )
        said = self.told(capsys, "prove", path, "--body", "the-alto")
        assert all(word in said for word in ("length", "colour", "fly", "tint"))

    def test_a_cloth_card_with_an_unknown_fold(
        self, tmp_path: Path, capsys: pytest.CaptureFixture[str]
    ) -> None:
        card = tmp_path / "mine.json"
        card.write_text('{"format": 1, "name": "mine", "width": 140, "fold": "twice"}')
        said = self.told(capsys, "lay", "shift", "--body", "the-alto", "--cloth", str(card))
        assert said.splitlines() == [
            "The cloth card “mine.json” cannot be used:",
            "  fold: this must be lengthwise, selvedges to the middle, open or crosswise. Found: twice",
        ]

    def test_usage_is_exit_2(self) -> None:
        assert run("make", "--nonsense") == 2
        assert run("survey", "--bodies", "x.csv") == 2

    @pytest.mark.parametrize(
        ("words", "reason"),
        [
            (
                "lay x -b x -c x --fold foo",
                "'--fold' cannot be used: this must be lengthwise, selvedges, open or crosswise. Found: foo",
            ),
            (
                "lay x -b x -c x --seed -3",
                "'--seed' cannot be used: this must be at least 1. Found: -3",
            ),
            (
                "survey x --workers many",
                "'--workers' cannot be used: this must be a whole number. Found: many",
            ),
            ("make x -b x --unit ell", "'--unit' cannot be used: Write cm or in."),
            (
                "make x -b",
                "-b cannot be used so: options take one value, switches such as --json none.",
            ),
            (
                "make x -b x --json=3",
                "--json cannot be used so: options take one value, switches such as --json none.",
            ),
            (
                "make orchard dress -b x",
                "That is more than this command takes. Put a name with spaces in quotes.",
            ),
            ("survey --bodies x.csv", "Name a style, or ask for --all."),
        ],
    )
    def test_a_command_line_is_refused_in_our_words(
        self, words: str, reason: str, capsys: pytest.CaptureFixture[str]
    ) -> None:
        assert run(*words.split()) == 2
        assert capsys.readouterr().err.splitlines()[-1] == reason


class TestLanguage:
    """Every command speaks the language asked for; what machines read stays as it is."""

    @pytest.fixture(autouse=True)
    def english_again(self) -> Iterator[None]:
        yield
        set_language("en")

    def test_it_may_be_asked_for_anywhere(self, capsys: pytest.CaptureFixture[str]) -> None:
        assert run("prove", "close-skirt", "--body", "the-alto") == 0
        english = capsys.readouterr().out
        told = []
        for order in (["--lang", "de", "prove"], ["prove", "--lang", "de"], ["prove", "--lang=de"]):
            assert run(*order, "close-skirt", "--body", "the-alto") == 0
            told.append(capsys.readouterr().out)
        assert told[0] == told[1] == told[2] != english

    def test_it_may_be_set_once_for_all(
        self, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
    ) -> None:
        assert run("measures") == 0
        english = capsys.readouterr().out
        monkeypatch.setenv("CUTWRIGHT_LANG", "fr")
        assert run("measures") == 0
        assert capsys.readouterr().out != english
        assert run("--lang", "en", "measures") == 0
        assert capsys.readouterr().out == english

    def test_an_unknown_one_is_told(self, capsys: pytest.CaptureFixture[str]) -> None:
        assert run("--lang", "xx", "measures") == 1
        assert "de, es, fr" in capsys.readouterr().err

    def test_help_speaks_it_too(self) -> None:
        command = [sys.executable, "-m", "cutwright", "make", "--help"]
        told = {
            lang: subprocess.run(
                [*command, "--lang", lang], check=True, capture_output=True, text=True
            ).stdout
            for lang in ("en", "ru")
        }
        assert "Make the pattern" in told["en"]
        assert "Make the pattern" not in told["ru"]
        assert "--paper" in told["ru"]


def test_the_book_is_backed_up_and_restored(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    book, copy = str(tmp_path / "book.sqlite"), str(tmp_path / "copy.json")
    assert run("book", "backup", copy, "--book", book) == 0
    assert run("book", "restore", copy, "--book", book) == 0
    assert "restored" in capsys.readouterr().out
    assert run("book", "restore", copy, "--unreadable-too", "--book", book) == 0
    capsys.readouterr()
    assert run("book", "restore", str(tmp_path / "none.json"), "--book", book) == 1
    assert "none.json" in capsys.readouterr().err
