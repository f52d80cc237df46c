"""Every label, tag and card of the invented collection: printed, read back, and searched for what nobody may see."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path

import pytest

from archive_tools.sort_in.payload import card_text, end_card_text
from tests.publish.print.house import codes_by_zbar, codes_by_zxing, labels, need_cjk, poppler, raster

pytestmark = pytest.mark.slow

ROOT = Path(__file__).resolve().parent.parent
DEMO = ROOT / "demo_collection"
PRIVATE = [line for line in (ROOT / "tests/demo_private_strings.txt").read_text("utf-8").splitlines() if line.strip()]
SITE = "https://skerrow-terraces.example/"
LEAST_LABELS = 28

RUNS = {
    "english": (),
    "japanese": ("--language", "ja"),
    "two languages with bleed": ("--second-language", "ja", "--size", "210x148", "--bleed", "3"),
    "large print": ("--large-print",),
    "large print in high contrast": ("--large-print", "--high-contrast", "--second-language", "ja", "--size", "297x210",
                                     "--per-page", "A3"),
    "a page of each": ("--per-page", "label", "--bleed", "3"),
}  # fmt: skip


@pytest.mark.parametrize("run", list(RUNS))
def test_all_labels_can_be_printed_and_read(run: str, tmp_path: Path) -> None:
    need_cjk()
    out = tmp_path / "labels.pdf"
    result = labels(DEMO, "--pages", ROOT / "content", "--json", "--out", out, *RUNS[run])
    assert result.exit_code == 0, result.output
    said = json.loads(result.stdout)
    assert len(said["labels"]) >= LEAST_LABELS
    assert {one["accession"] for one in said["left_out"]} == {"S1984.2", "S2009.6"}  # dead; out on loan
    text = poppler("pdftotext", out, "-") + poppler("pdfinfo", "-meta", out)
    assert [private for private in PRIVATE if private.casefold() in text.casefold()] == []
    pages = -(-len(said["labels"]) // said["per_sheet"])
    pictures = [raster(out, 150, page) for page in range(1, pages + 1)]
    wanted = sorted(f"{SITE}trees/{one['accession']}/" for one in said["labels"])
    assert sorted(code for picture in pictures for code in codes_by_zxing(picture)) == wanted
    assert sorted(code for picture in pictures for code in codes_by_zbar(picture, tmp_path)) == wanted


@pytest.mark.parametrize("kind", ["--tags", "--session-cards"])
def test_all_tags_and_cards_can_be_printed_and_read(kind: str, tmp_path: Path) -> None:
    out = tmp_path / "pieces.pdf"
    result = labels(DEMO, kind, "--json", "--out", out)
    assert result.exit_code == 0, result.output
    said = json.loads(result.stdout)
    text = poppler("pdftotext", out, "-")
    assert [private for private in PRIVATE if private.casefold() in text.casefold()] == []
    pages = -(-said["count"] // said["per_sheet"])
    found = {code for page in range(1, pages + 1) for code in codes_by_zxing(raster(out, 150, page))}
    assert len(found) == said["count"]
    if kind == "--tags":
        assert f"{SITE}trees/S1979.2/" in found
    else:
        assert {end_card_text(), card_text("S1979.2", date(2026, 11, 25))} <= found


def test_labels_of_the_demo_that_are_no_longer_true_are_told() -> None:
    result = labels(DEMO, "--stale", "--json")
    assert result.exit_code == 1
    said = json.loads(result.stdout)
    assert said["problems"] == []
    told = {one["accession"]: {change["what"] for change in one["changes"]} for one in said["stale"]}
    assert told == {"S2003.7": {"origin", "since", "text"}, "S1988.2": {"since", "text"}, "S2009.6": {"tree"},
                    "S1998.4": {"text"}}  # fmt: skip
    assert said["recorded"] == len(told) + 2
