"""Every page of both editions against the Nu Html Checker (validator.github.io; version in package.json)."""

from __future__ import annotations

import json
import shutil
import subprocess
from pathlib import Path

import pytest

from tests.browser.conftest import missing, tool

pytestmark = pytest.mark.slow


@pytest.mark.parametrize("edition", ["public_site", "internal_site"])
def test_every_page_is_valid_html(edition: str, request: pytest.FixtureRequest) -> None:
    java = shutil.which("java")
    if java is None:
        missing("java")
    checker = tool("vnu-jar/build/dist/vnu.jar")
    site: Path = request.getfixturevalue(edition)
    command = [java, "-jar", str(checker), "--skip-non-html", "--format", "json", str(site)]
    told = subprocess.run(command, capture_output=True, text=True, check=False).stderr
    messages = json.loads(told)["messages"]
    assert [f"{m.get('url', '')}: {m['message']}" for m in messages] == []


def test_the_checker_finds_what_is_wrong(tmp_path: Path) -> None:
    java = shutil.which("java")
    if java is None:
        missing("java")
    (tmp_path / "bad.html").write_text("<!doctype html><title>x</title><p id=a><p id=a>", "utf-8")
    command = [java, "-jar", str(tool("vnu-jar/build/dist/vnu.jar")), "--format", "json", str(tmp_path)]
    told = subprocess.run(command, capture_output=True, text=True, check=False).stderr
    assert any("Duplicate ID" in message["message"] for message in json.loads(told)["messages"])
