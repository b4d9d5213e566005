"""The interpreter's settings while the desk serves, and that they are put back."""

from __future__ import annotations

import gc
import sys

import pytest

from cutwright.desk.web.interpreter import HAND_OVER, tuned_interpreter


def test_threads_take_quick_turns_only_while_it_serves() -> None:
    usual = sys.getswitchinterval()
    with tuned_interpreter():
        assert sys.getswitchinterval() == pytest.approx(HAND_OVER)
        assert gc.get_freeze_count() > 0
    assert sys.getswitchinterval() == usual
    assert gc.get_freeze_count() == 0
