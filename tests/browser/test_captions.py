"""Chapters and captions as others read them: the strict W3C parser (npm webvtt-parser), Chromium's <track>."""

from __future__ import annotations

import json
import shutil
import subprocess
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from archive_tools.commands.tour import tour
from archive_tools.publish.spoken.webvtt import Cue, webvtt
from tests.browser.conftest import ROOT, missing, tool

pytestmark = pytest.mark.slow

HARD = (
    "Ring & Stone",
    "a < b, and <b>not bold</b>",
    "--> an arrow -->",
    "夕照鷺湾 & 青沼すみれ",
    "&amp; as it was typed",
    "NOTE this is said",
    "first line\n\nthird line",
    "&lt;",
)
TOURS = [("gold-red-and-fruit", "en"), ("gold-red-and-fruit", "ja"), ("mother-and-daughter", "en"),
         ("mother-and-daughter", "ja"), ("what-is-carried-first", "en")]  # fmt: skip
STRICT = """
const { WebVTTParser } = require(process.argv[1]);
const text = require("fs").readFileSync(process.argv[2], "utf8");
const found = new WebVTTParser().parse(text, process.argv[3]);
console.log(JSON.stringify({
  errors: found.errors.map(e => e.line + ":" + e.col + " " + e.message),
  cues: found.cues.map(c => ({ begin: c.startTime, end: c.endTime, id: c.id, text: c.text })),
}));
"""
TRACK = """async address => {
  const video = document.createElement("video"), track = document.createElement("track");
  track.src = address; track.default = true; video.append(track); document.body.append(video);
  track.track.mode = "hidden";
  await new Promise((done, fail) => { track.onload = done; track.onerror = () => fail("refused"); });
  return [...track.track.cues].map(c => (
    { begin: c.startTime, end: c.endTime, id: c.id, text: c.getCueAsHTML().textContent }));
}"""


def strictly(file: Path, kind: str = "metadata") -> dict[str, Any]:
    """What the strict parser finds; `kind`: chapters, subtitles or metadata."""
    node = shutil.which("node")
    if node is None:
        missing("node")
    parser = tool("webvtt-parser/parser.js")
    run = subprocess.run([node, "-e", STRICT, str(parser), str(file), kind], capture_output=True, text=True, check=True)
    found: dict[str, Any] = json.loads(run.stdout)
    return found


def in_chromium(browser: Any, address: str) -> list[dict[str, Any]]:
    page = browser.new_page()
    page.goto(address.rpartition("/")[0] + "/blank.html")
    found: list[dict[str, Any]] = page.evaluate(TRACK, address)
    page.close()
    return found


def test_hard_titles_come_out_as_they_are_written(browser: Any, serve: Callable[[Path], str], tmp_path: Path) -> None:
    cues = tuple(Cue(1000 * n, 1000 * n + 900, title, f"stop-{n + 1}") for n, title in enumerate(HARD))
    (tmp_path / "hard.vtt").write_text(webvtt(cues, "A title --> with\n\neverything & <all>", "ja"), "utf-8")
    (tmp_path / "blank.html").write_text("<!doctype html><title>x</title><body>", "utf-8")
    strict = strictly(tmp_path / "hard.vtt", "chapters")
    assert strict["errors"] == []
    wanted = [" ".join(title.split("\n\n")).replace("\n", " ") for title in HARD]
    heard = in_chromium(browser, serve(tmp_path) + "hard.vtt")
    assert [" ".join(cue["text"].split()) for cue in heard] == wanted
    assert [cue["id"] for cue in heard] == [cue.id for cue in cues]
    assert [(cue["begin"], cue["end"]) for cue in heard] == [(n, n + 0.9) for n in range(len(HARD))]


def test_the_strict_parser_and_chromium_find_what_is_wrong(
    browser: Any, serve: Callable[[Path], str], tmp_path: Path
) -> None:
    """So that the tests above can fail: a comma before the milliseconds, and an ampersand that is not escaped."""
    (tmp_path / "bad.vtt").write_text(
        "WEBVTT\n\n00:00,000 --> 00:01,000\nA & B\n\n00:01.000 --> 00:02.000\nC\n", "utf-8"
    )
    (tmp_path / "blank.html").write_text("<!doctype html><title>x</title><body>", "utf-8")
    assert strictly(tmp_path / "bad.vtt")["errors"]
    assert [cue["text"] for cue in in_chromium(browser, serve(tmp_path) + "bad.vtt")] == ["C"]


@pytest.mark.parametrize(("name", "language"), TOURS)
def test_the_demonstrations_recordings(
    name: str, language: str, browser: Any, serve: Callable[[Path], str], tmp_path: Path
) -> None:
    demo = ROOT / "demo_collection"
    arguments = [name, "--collection", str(demo), "--language", language, "--out", str(tmp_path), "--json"]
    run = CliRunner().invoke(tour, arguments)
    assert run.exit_code == 0, run.output
    plan = json.loads(run.stdout)
    (tmp_path / "blank.html").write_text("<!doctype html><title>x</title><body>", "utf-8")
    address = serve(tmp_path)
    chapters = strictly(tmp_path / f"{name}.chapters.vtt", "chapters")
    assert chapters["errors"] == []
    assert [cue["id"] for cue in chapters["cues"]] == [f"stop-{n + 1}" for n in range(len(plan["stops"]))]
    said = strictly(tmp_path / f"{name}.captions.vtt")
    assert said["errors"] == [] and said["cues"]
    for kind in ("chapters", "captions"):
        heard = in_chromium(browser, f"{address}{name}.{kind}.vtt")
        strict = chapters if kind == "chapters" else said
        # To the millisecond: the parser adds up its seconds in binary fractions.
        told, wanted = ([(round(c["begin"], 3), round(c["end"], 3)) for c in cues] for cues in (heard, strict["cues"]))
        assert told == wanted
        assert all(one["end"] <= other["begin"] for one, other in pairwise(heard))
    names = [cue["text"] for cue in in_chromium(browser, f"{address}{name}.chapters.vtt")]
    assert names == [stop["name"] for stop in plan["stops"]]
