"""Tree tags and session cards, read from paper by two readers and by what sorts photographs in."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from archive_tools.sort_in.payload import card_text, end_card_text, meant_by
from tests.making import tree
from tests.publish.print.house import SITE, codes_by_zbar, codes_by_zxing, house, labels, poppler, raster

TREES = {name: tree(accession=name) for name in ("T1", "T2")}


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return house(tmp_path_factory.mktemp("tags") / "collection")


def test_a_tag_bears_its_trees_page_number_and_names(folder: Path, tmp_path: Path) -> None:
    out = tmp_path / "tags.pdf"
    result = labels(folder, "--tags", "--out", out)
    assert result.exit_code == 0, result.output
    addresses = [f"{SITE}trees/T1/", f"{SITE}trees/T2/"]
    picture = raster(out, 150)
    assert codes_by_zxing(picture) == addresses
    assert codes_by_zbar(picture, tmp_path) == addresses
    said = " ".join(poppler("pdftotext", "-raw", out, "-").split())
    assert said.startswith("T1 The Old Elm Ulmus × hollandica ‘Jacqueline Hillier’ T2 Low Water Pinus thunbergii ")


def test_session_cards_say_whose_pictures_follow_and_when_they_end(folder: Path, tmp_path: Path) -> None:
    out = tmp_path / "cards.pdf"
    result = labels(folder, "--session-cards", "--out", out)
    assert result.exit_code == 0, result.output
    found = [text for page in (1, 2) for text in codes_by_zxing(raster(out, 150, page))]
    day = date(2026, 11, 25)
    assert found == [card_text("T1", day), card_text("T2", day), end_card_text()]
    assert codes_by_zbar(raster(out, 150, 2), tmp_path) == [end_card_text()]
    meant = [meant_by(text, TREES, SITE) for text in found]
    assert [one.trees for one in meant if one] == [("T1",), ("T2",), ()]
    assert meant[-1] is not None
    assert meant[-1].is_end


def test_tags_of_the_house_include_what_the_public_does_not_see(tmp_path: Path) -> None:
    folder = house(tmp_path / "c", T2="accession: T2\nname: Low Water\ntaxon: Pinus thunbergii\nvisibility: internal\n")
    out = tmp_path / "tags.pdf"
    assert labels(folder, "--tags", "--out", out).exit_code == 0
    assert codes_by_zxing(raster(out, 150)) == [f"{SITE}trees/T1/"]
    assert labels(folder, "--tags", "--edition", "internal", "--out", out).exit_code == 0
    assert codes_by_zxing(raster(out, 150)) == [f"{SITE}trees/T1/", f"{SITE}trees/T2/"]
