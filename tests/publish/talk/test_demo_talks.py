"""The demonstration's talks, made by the command and opened by other programs: LibreOffice, poppler."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest
from click.testing import CliRunner
from pptx import Presentation
from pptx.enum.shapes import MSO_SHAPE_TYPE

from archive_tools.cli import cli
from tests.conftest import missing

ROOT = Path(__file__).resolve().parents[3]
TALKS = ("other-hands", "what-we-do-not-know")
PRIVATE = [line for line in (ROOT / "tests" / "demo_private_strings.txt").read_text("utf-8").splitlines() if line]
POINT = 25.4 / 72

pytestmark = pytest.mark.slow


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> dict[str, tuple[Path, dict[str, Any]]]:
    found = {}
    for name in TALKS:
        out = tmp_path_factory.mktemp(name)
        run = CliRunner().invoke(
            cli, ["talk", name, "--collection", str(ROOT / "demo_collection"), "--out", str(out), "--json"]
        )
        assert run.exit_code == 0, run.output
        found[name] = (out, json.loads(run.stdout))
    return found


def shapes_of(slide: Any) -> Iterator[Any]:
    todo = list(slide.shapes)
    while todo:
        shape = todo.pop(0)
        if shape.shape_type == MSO_SHAPE_TYPE.GROUP:
            todo += shape.shapes
        yield shape


@pytest.mark.parametrize("name", TALKS)
def test_every_picture_and_drawing_can_be_heard(made: dict[str, Any], name: str) -> None:
    deck = Presentation(made[name][0] / f"{name}.pptx")
    for slide in deck.slides:
        for shape in slide.shapes:
            if hasattr(shape, "image"):
                assert len(shape._element.nvPicPr.cNvPr.get("descr", "")) > 10
            elif shape.shape_type == MSO_SHAPE_TYPE.GROUP:
                assert len(shape._element.nvGrpSpPr.cNvPr.get("descr", "")) > 10
        assert slide.shapes.title is not None and slide.shapes.title.text_frame.text


@pytest.mark.parametrize("name", TALKS)
def test_no_word_leaves_its_box_where_it_is_drawn(made: dict[str, Any], name: str, tmp_path: Path) -> None:
    """Drawn by LibreOffice with the widest common substitute for the typeface; words measured by poppler."""
    if not shutil.which("soffice") or not shutil.which("pdftotext"):
        missing("soffice or pdftotext (Debian: libreoffice-impress, poppler-utils)")
    deck_path = made[name][0] / f"{name}.pptx"
    subprocess.run(
        ["soffice", "--headless", f"-env:UserInstallation=file://{tmp_path}/office", "--convert-to", "pdf",
         "--outdir", str(tmp_path), str(deck_path)],
        check=True, capture_output=True, timeout=240,
    )  # fmt: skip
    told = subprocess.run(
        ["pdftotext", "-bbox", str(tmp_path / f"{name}.pdf"), "-"], check=True, capture_output=True, text=True
    ).stdout
    pages = list(
        ElementTree.fromstring(re.sub(r"<!DOCTYPE[^>]*>|&nbsp;", "", told)).iter("{http://www.w3.org/1999/xhtml}page")
    )
    deck = Presentation(deck_path)
    assert len(pages) == len(deck.slides)
    for page, slide in zip(pages, deck.slides, strict=True):
        boxes = [
            (s.text_frame.text, *(length / 36000 for length in (s.left, s.top, s.left + s.width, s.top + s.height)))
            for s in shapes_of(slide)
            if s.has_text_frame and s.text_frame.text
        ]
        for word in page:
            said = "".join(word.itertext())
            x1, y1, x2, y2 = (float(word.get(key, "0")) * POINT for key in ("xMin", "yMin", "xMax", "yMax"))
            tall = 1 + 0.15 * (y2 - y1)  # poppler counts the typeface's whole height, not the letters'
            at_home = [
                text for text, left, top, right, bottom in boxes
                if said in text and left - 1 <= x1 and x2 <= right + 1 and top - tall <= y1 and y2 <= bottom + tall
            ]  # fmt: skip
            assert at_home, (slide.shapes.title.text_frame.text, said, (x1, y1, x2, y2))


@pytest.mark.parametrize("name", TALKS)
def test_what_is_handed_out_is_tagged_and_brings_its_fonts(made: dict[str, Any], name: str) -> None:
    if not shutil.which("pdfinfo"):
        missing("pdfinfo (Debian: poppler-utils)")
    for kind in ("handout", "facts"):
        path = made[name][0] / f"{name}-{kind}.pdf"
        told = subprocess.run(["pdfinfo", str(path)], check=True, capture_output=True, text=True).stdout
        assert re.search(r"Tagged:\s+yes", told)
        fonts = subprocess.run(["pdffonts", str(path)], check=True, capture_output=True, text=True).stdout
        rows = fonts.splitlines()[2:]
        assert rows and all(re.search(r"\byes yes yes\b", row) for row in rows)
        words = subprocess.run(["pdftotext", str(path), "-"], check=True, capture_output=True, text=True).stdout
        title = Presentation(made[name][0] / f"{name}.pptx").slides[0].shapes.title.text_frame.text
        assert title in words.splitlines()[0] or title in words[:200]


@pytest.mark.parametrize("name", TALKS)
def test_nothing_private_is_in_any_file(made: dict[str, Any], name: str) -> None:
    out = made[name][0]
    texts = []
    with zipfile.ZipFile(out / f"{name}.pptx") as parts:
        texts += [parts.read(part).decode("utf-8", "replace") for part in parts.namelist()]
        texts += parts.namelist()
    for kind in ("handout", "facts"):
        if not shutil.which("pdftotext"):
            missing("pdftotext (Debian: poppler-utils)")
        path = str(out / f"{name}-{kind}.pdf")
        texts.append(subprocess.run(["pdftotext", path, "-"], check=True, capture_output=True, text=True).stdout)
    whole = "\n".join(texts).casefold()
    assert [private for private in PRIVATE if private.casefold() in whole] == []


def test_the_clock_and_the_files_are_told(made: dict[str, Any]) -> None:
    out, told = made["what-we-do-not-know"]
    assert told["as_of"] == "2027-02-18" and told["minutes"] == 30
    assert [part["given"] for part in told["sections"]] == [240, 420, 360, 360, 300]
    assert all(
        a["begin"] + a["given"] == b["begin"] for a, b in zip(told["sections"], told["sections"][1:], strict=False)
    )
    assert all(Path(path).is_file() for path in told["files"]) and len(told["files"]) == 3
    assert len(Presentation(out / "what-we-do-not-know.pptx").slides) == len(told["slides"])


def test_made_twice_it_says_that_nothing_has_changed(made: dict[str, Any]) -> None:
    out, _ = made["other-hands"]
    run = CliRunner().invoke(
        cli, ["talk", "other-hands", "--collection", str(ROOT / "demo_collection"), "--out", str(out)]
    )
    assert run.exit_code == 0 and "Nothing has changed since last time." in run.stdout


def test_a_misspelt_name_is_told_with_the_nearest() -> None:
    run = CliRunner().invoke(cli, ["talk", "other-hand", "--collection", str(ROOT / "demo_collection")])
    assert run.exit_code == 2 and "did you mean other-hands?" in run.output


def test_a_spoilt_deck_is_left_as_it_is(tmp_path: Path) -> None:
    deck = tmp_path / "other-hands.pptx"
    deck.write_bytes(b"not a deck")
    run = CliRunner().invoke(
        cli, ["talk", "other-hands", "--collection", str(ROOT / "demo_collection"), "--out", str(tmp_path)]
    )
    assert run.exit_code == 2 and str(deck) in run.output and "--afresh" in run.output
    assert deck.read_bytes() == b"not a deck"
