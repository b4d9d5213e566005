"""The tool that breaks the program: it breaks what it says, and asks the tests that reach it."""

from __future__ import annotations

import importlib.util
import signal
from pathlib import Path
from types import FunctionType
from typing import Any

from tools.mutants.live import SURVIVED, _replaced, forked
from tools.mutants.reach import Reach, _follow

TEXT = """
from functools import cache

@cache
def half(x):
    return x / 2

class Cloth:
    def wide(self):
        def doubled(y):
            return y * 2
        return doubled(70)
"""


def functions(folder: Path) -> tuple[dict[str, FunctionType], Any]:
    file = folder / "some.py"
    file.write_text(TEXT, "utf-8")
    spec = importlib.util.spec_from_file_location("some", file)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return {"half": module.half.__wrapped__, "wide": module.Cloth.wide}, module


def test_a_living_function_is_broken_under_its_decorator_and_inside(tmp_path: Path) -> None:
    found, module = functions(tmp_path)
    assert _replaced(list(found.values()), "some.py", TEXT.replace("x / 2", "x * 2"))
    assert module.half(8.0) == 16.0
    assert _replaced(list(found.values()), "some.py", TEXT.replace("y * 2", "y * 3"))
    assert module.Cloth().wide() == 210


def test_a_break_outside_of_functions_is_not_taken_for_one(tmp_path: Path) -> None:
    found, _module = functions(tmp_path)
    assert not _replaced(list(found.values()), "some.py", TEXT + "LARGEST = 5\n")


def test_a_child_tells_how_it_ended() -> None:
    def stopped() -> str:
        signal.raise_signal(signal.SIGKILL)
        return SURVIVED

    assert forked(lambda: "some test", 60) == "some test"
    assert forked(lambda: SURVIVED, 60) == SURVIVED
    assert forked(stopped, 60) is None


def test_the_map_follows_lines_that_moved() -> None:
    reach = Reach(
        {"a": 1.0, "b": 0.5, "c": 3.0},
        {"x.py": {1: {"a"}, 2: {"a", "b"}, 3: {"c"}}},
        texts={"x.py": "one\ntwo\nthree\n"},
    )
    _follow(reach, "x.py", "nought\none\ntwo\nthree and more\n")
    assert reach.of_lines("x.py", [2]) == {"a"}
    assert reach.of_lines("x.py", [3]) == {"a", "b"}
    assert reach.of_lines("x.py", [4]) == {"c"}
    assert reach.quickest({"a", "b", "c"}, 2.0) == ["b", "a"]
