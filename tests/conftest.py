"""What every test may count on: profiles of chance, a browser if there is one, a home of its own."""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, settings

from tests.survey import tables

ROOT = Path(__file__).resolve().parents[1]
CI = bool(os.environ.get("CI"))

settings.register_profile(
    "dev", deadline=None, max_examples=50, suppress_health_check=[HealthCheck.too_slow]
)
settings.register_profile(
    "ci",
    settings.get_profile("dev"),
    max_examples=100,
    derandomize=True,  # a red run can be run again
    database=None,
    print_blob=True,
)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE") or ("ci" if CI else "dev"))

BROWSERS = ("chromium", "chromium-browser", "google-chrome")
BROWSER_FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)


@pytest.fixture(scope="session", autouse=True)
def home_of_its_own() -> Iterator[Path]:
    """No test reads or writes the book and the settings of whoever runs it."""
    with (
        tempfile.TemporaryDirectory(prefix="cutwright-test-") as folder,
        pytest.MonkeyPatch.context() as patch,
    ):
        for name in ("XDG_DATA_HOME", "XDG_CONFIG_HOME", "XDG_STATE_HOME"):
            patch.setenv(name, str(Path(folder) / name.lower()))
        yield Path(folder)


@pytest.fixture(scope="session")
def browser_type_launch_args(browser_type_launch_args: dict[str, Any]) -> dict[str, Any]:
    """Drive the machine's own Chromium; without one, skip here and fail where all must run."""
    names = [name for name in (os.environ.get("CHROMIUM"), *BROWSERS) if name]
    found = next((path for path in map(shutil.which, names) if path), None)
    if found is None:
        message = "no Chromium found: install one, or name it in CHROMIUM"
        if CI:
            pytest.fail(message)
        pytest.skip(message)
    return {**browser_type_launch_args, "executable_path": found, "args": list(BROWSER_FLAGS)}


@pytest.fixture(scope="session")
def large_table() -> Path:
    """The table of 993 measured women; not everybody has it."""
    path = tables.large_table()
    if path is None:
        pytest.skip(tables.MISSING)
    return path
