"""What tests of every folder share: one browser, and the rule for tools that are not there."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from typing import Any, NoReturn

import pytest


def missing(what: str) -> NoReturn:
    """Skip and say why; where everything has to be there (CI is set), fail."""
    if os.environ.get("CI"):
        pytest.fail(f"{what} is missing")
    pytest.skip(f"{what} is missing: see README, “Two commands”")


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    """One chromium for all tests: a second one could not be started beside it in the same process."""
    try:
        from playwright import sync_api as api
    except ImportError:
        missing("playwright")
    program = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
    if program is None:
        missing("chromium")
    driver = api.sync_playwright()
    try:
        started = driver.start().chromium.launch(executable_path=program, args=["--no-sandbox"])
    except Exception as fault:
        missing(f"a browser that starts ({fault}; Debian: chromium, libatomic1)")
    yield started
    started.close()
    driver.__exit__(None, None, None)
