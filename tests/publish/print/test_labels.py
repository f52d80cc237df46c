"""Labels as other programs see them: poppler the fonts, tags, boxes and text; zxing-cpp and zbar the codes."""

from __future__ import annotations

import json
import re
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from archive_tools.sort_in.payload import label_address, meant_by
from tests.making import tree
from tests.publish.print.house import (
    AS_OF,
    ELM,
    HOUSE,
    PINE,
    SITE,
    TEXT,
    boxes,
    codes_by_zbar,
    codes_by_zxing,
    house,
    labels,
    need_cjk,
    poppler,
    raster,
)

TOLERANCE = 0.2
"""Millimetres."""
DPI = 600


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return house(tmp_path_factory.mktemp("labels") / "collection")


@pytest.fixture(scope="module")
def pdf(folder: Path) -> Path:
    out = folder.parent / "labels.pdf"
    result = labels(folder, "--out", out)
    assert result.exit_code == 0, result.output
    assert result.stdout.strip() == str(out)
    return out


def test_fonts_are_in_the_file_and_it_is_tagged(pdf: Path) -> None:
    fonts = poppler("pdffonts", pdf).splitlines()[2:]
    assert {line.split()[0].split("+")[1] for line in fonts} >= {"EBGaramond-Regular", "EBGaramond-Italic"}
    assert all(re.search(r"\byes +yes +yes +\d+ +\d+$", line) for line in fonts), fonts
    assert re.search(r"^Tagged: +yes$", poppler("pdfinfo", pdf), re.M)
    assert re.search(r"pdfuaid:part\W+1\b", poppler("pdfinfo", "-meta", pdf))
    structure = poppler("pdfinfo", "-struct", pdf)
    assert structure.count("H1") == 2
    assert structure.count("Figure") == 2
    # Botanical names are Latin, the rest is in the language of the house.
    assert set(re.findall(r"/Lang\s*\(([\w-]+)\)", _uncompressed(pdf))) == {"en", "la"}


def test_the_text_is_read_in_the_order_of_the_label(pdf: Path) -> None:
    said = " ".join(poppler("pdftotext", "-raw", "-l", "1", pdf, "-").split())
    order = [
        "The Old Elm",
        "Ulmus × hollandica ‘Jacqueline Hillier’",
        "Dutch elm. Gardens",
        "In training since 1953.",
        TEXT,
        "Given by Edda Lund, 1985 T1 Low Water",
        "Pinus thunbergii",
        "A pine from the shore.",
        "T2 The Slope, as of 25 November 2026. Sheet 1 of 1",
    ]
    at = [said.index(words) for words in order]
    assert at == sorted(at), said
    # The same by the tags, which is what a screen reader goes by; the sheet's own line is no part of them.
    tagged = " ".join(re.findall(r'"(.*?)"$', poppler("pdfinfo", "-struct-text", pdf), re.M))
    at = [tagged.index(words) for words in ("The Old Elm", "Dutch elm", "kept this elm", "Given by", "Low Water")]
    assert at == sorted(at), tagged
    assert "Sheet 1 of 1" not in tagged


def test_the_codes_lead_to_the_trees_pages_by_two_readers(pdf: Path, tmp_path: Path) -> None:
    picture = raster(pdf, 150)
    addresses = [f"{SITE}trees/T1/", f"{SITE}trees/T2/"]
    assert codes_by_zxing(picture) == addresses
    assert codes_by_zbar(picture, tmp_path) == addresses
    trees = {name: tree(accession=name) for name in ("T1", "T2")}
    assert [label_address(SITE, name, trees) for name in trees] == addresses
    # What sorts photographs in takes a label's code for the tree it stands beside.
    assert [getattr(meant_by(one, trees, SITE), "trees", None) for one in addresses] == [("T1",), ("T2",)]


@pytest.mark.parametrize(
    ("size", "bleed"),
    [
        ("148x105", 3),
        pytest.param("148x105", 0, marks=pytest.mark.slow),
        pytest.param("90x60", 0, marks=pytest.mark.slow),
        pytest.param("85.5x54", 2, marks=pytest.mark.slow),
    ],
)
def test_sheets_and_trims_are_as_large_as_was_asked(folder: Path, tmp_path: Path, size: str, bleed: float) -> None:
    out = tmp_path / "labels.pdf"
    result = labels(folder, "--size", size, "--bleed", str(bleed), "--out", out, "T2")
    assert result.exit_code == 0, result.output
    assert sorted(boxes(out)["MediaBox"]) == pytest.approx([210, 297], abs=TOLERANCE)  # ISO 216
    picture = raster(out, DPI)
    width, height = (float(part) for part in size.split("x"))
    # Where the label lies is not asked, only how far its marks are from one another.
    columns = marks(picture, DPI)
    rows = marks(np.ascontiguousarray(picture.T), DPI)
    assert columns[1] - columns[0] == pytest.approx(width, abs=TOLERANCE)
    assert rows[1] - rows[0] == pytest.approx(height, abs=TOLERANCE)


def marks(picture: np.ndarray, dpi: int) -> tuple[float, float]:
    """The two upright marks nearest the upper edge of a picture, in millimetres from its left edge."""
    dark = picture < 128
    for top in range(0, picture.shape[0], dpi // 50):
        band = dark[top : top + int(2.5 / 25.4 * dpi)]
        upright = np.flatnonzero(band.all(axis=0))
        groups = np.split(upright, np.flatnonzero(np.diff(upright) > 1) + 1)
        thin = [group for group in groups if 0 < len(group) < 0.3 / 25.4 * dpi]
        if len(thin) == 2:
            first, second = (float(group.mean()) + 0.5 for group in thin)
            return first / dpi * 25.4, second / dpi * 25.4
    raise AssertionError("no pair of marks")


def test_a_page_of_each_has_its_trim_and_bleed_in_the_boxes(folder: Path, tmp_path: Path) -> None:
    out = tmp_path / "labels.pdf"
    assert labels(folder, "--per-page", "label", "--bleed", "3", "--out", out).exit_code == 0
    found = boxes(out)
    assert found["TrimBox"] == pytest.approx((148, 105), abs=TOLERANCE)
    assert found["MediaBox"] == pytest.approx((154, 111), abs=TOLERANCE)
    # The band runs out to the very edge of the bleed.
    assert raster(out, 100)[5, 2] < 128


def test_the_same_records_give_the_same_bytes(folder: Path, pdf: Path, tmp_path: Path) -> None:
    again = tmp_path / "again.pdf"
    assert labels(folder, "--out", again).exit_code == 0
    assert again.read_bytes() == pdf.read_bytes()


def test_two_languages_stand_side_by_side_each_marked_as_its_own(folder: Path, tmp_path: Path) -> None:
    need_cjk()
    out = tmp_path / "labels.pdf"
    assert labels(folder, "--second-language", "ja", "--out", out, "T1").exit_code == 0
    said = "".join(poppler("pdftotext", "-raw", out, "-").split())
    assert "エッダ・ルンドが三十年、桶で育てた楡。" in said
    assert said.index("Leanstothesea".lower()) < said.index("エッダ")
    assert "ja" in re.findall(r"/Lang\s*\(([\w-]+)\)", _uncompressed(out))


def _uncompressed(pdf: Path) -> str:
    """The objects of the file, its object streams inflated."""
    import zlib

    data = pdf.read_bytes()
    streams = re.findall(rb"stream\r?\n(.*?)\r?\nendstream", data, re.S)
    texts = [data]
    for stream in streams:
        try:
            texts.append(zlib.decompress(stream))
        except zlib.error:
            continue
    return b"\n".join(texts).decode("latin-1")


def test_a_text_that_does_not_fit_stops_the_printing_and_says_by_how_much(tmp_path: Path) -> None:
    long = ELM.replace(TEXT, " ".join(["Stone"] * 200) + ".")
    folder = house(tmp_path / "c", T1=long)
    out = tmp_path / "labels.pdf"
    result = labels(folder, "--out", out, "T1")
    assert result.exit_code == 1
    assert not out.exists()
    found = re.search(r"trees/T1-the-old-elm/tree.yml:\d+:\d+: error: .* (\d+) words too many", result.stderr)
    assert found, result.stderr
    kept = 200 - int(found[1])
    # What it says fits does fit, and one word more does not.
    for words, code in ((kept, 0), (kept + 1, 1)):
        folder = house(tmp_path / f"c{words}", T1=ELM.replace(TEXT, " ".join(["Stone"] * (words - 1)) + " Stone."))
        assert labels(folder, "--out", out, "--quiet", "T1").exit_code == code


def test_a_viewing_distance_sets_the_least_type(folder: Path, tmp_path: Path) -> None:
    # Smithsonian Guidelines for Accessible Exhibition Design, values from memory: 24 point at 75 mm.
    result = labels(folder, "--viewing-distance", "75", "--size", "297x210", "--per-page", "A3", "--json",
                    "--out", tmp_path / "a.pdf")  # fmt: skip
    assert result.exit_code == 0, result.output
    assert json.loads(result.stdout)["points"] >= 24
    result = labels(folder, "--viewing-distance", "1000", "--out", tmp_path / "b.pdf")
    assert result.exit_code == 1
    assert "in 100 point" in result.stderr


def test_large_print_is_large_and_without_serifs(folder: Path, tmp_path: Path) -> None:
    out = tmp_path / "labels.pdf"
    result = labels(folder, "--large-print", "--high-contrast", "--json", "--out", out)
    assert json.loads(result.stdout)["points"] >= 16  # UKAAF G003
    assert "Garamond" not in poppler("pdffonts", out)
    assert colour_in(out) == 0
    assert labels(folder, "--out", out).exit_code == 0
    assert colour_in(out) > 30  # the age, in the house's own green


def colour_in(pdf: Path) -> int:
    """How far the most colourful pixel of the first page is from grey."""
    poppler("pdftoppm", "-r", "100", "-l", "1", "-singlefile", pdf, pdf.with_suffix(""))
    picture = np.asarray(Image.open(pdf.with_suffix(".ppm"))).astype(int)
    return int((picture.max(axis=2) - picture.min(axis=2)).max())


def test_the_house_is_not_given_away(tmp_path: Path) -> None:
    folder = house(tmp_path / "c", T2=PINE.replace("name: Low Water", "name: Low Water\ncredit_line: Given by Oda Vik"))
    (folder / "stewards/oda.yml").write_text("name: Oda Vik\nvisibility: internal\npublic_name: a friend\n", "utf-8")
    result = labels(folder, "--out", tmp_path / "a.pdf")
    assert result.exit_code == 1
    assert not (tmp_path / "a.pdf").exists()
    assert "trees/T2-low-water/tree.yml" in result.stderr


def test_a_giver_who_asked_for_silence_is_called_what_they_may_be_called(tmp_path: Path) -> None:
    folder = house(tmp_path / "c", T2=PINE.replace("from: edda", "from: oda"))
    (folder / "stewards/oda.yml").write_text("name: Oda Vik\nvisibility: internal\npublic_name: a friend\n", "utf-8")
    out = tmp_path / "a.pdf"
    assert labels(folder, "--out", out, "T2").exit_code == 0
    said = poppler("pdftotext", out, "-")
    assert "Given by a friend, 1990" in said
    assert "Vik" not in said


def test_wrong_use_says_what_can_be_done(folder: Path, tmp_path: Path) -> None:
    out = ("--out", tmp_path / "a.pdf")
    assert "width x height" in labels(folder, "--size", "big", *out).stderr
    result = labels(folder, "--size", "300x200", *out)
    assert result.exit_code == 2
    assert "larger sheet" in result.stderr
    assert "taxon" in labels(folder, *out, "species = Acer").stderr


def test_a_house_without_an_address_prints_labels_without_codes(tmp_path: Path) -> None:
    folder = house(tmp_path / "c", house=HOUSE.replace(f"site_url: {SITE}\n", ""))
    out = tmp_path / "a.pdf"
    assert labels(folder, "--out", out).exit_code == 0
    assert codes_by_zxing(raster(out, 150)) == []
    assert labels(folder, "--tags", "--out", out).exit_code == 1


def test_json_says_what_stands_on_each_label(folder: Path, tmp_path: Path) -> None:
    said = json.loads(labels(folder, "--json", "--out", tmp_path / "a.pdf").stdout)
    elm = said["labels"][0]
    assert elm["says"]["botanical"] == "Ulmus × hollandica 'Jacqueline Hillier'"
    assert elm["says"]["since"] == "In training since 1953"
    assert elm["words"] == len(TEXT.split())
    assert elm["characters_a_line"] <= 55.5  # Smithsonian guidelines: at most 55 characters a line
    assert AS_OF not in elm["says"].values()


def test_an_upright_label_has_one_column_with_the_second_language_below(folder: Path, tmp_path: Path) -> None:
    need_cjk()
    out = tmp_path / "a.pdf"
    wide = ("--second-language", "ja", "--per-page", "label", "--out", out, "T1")
    assert labels(folder, "--size", "105x148", *wide).exit_code == 0
    spots = {word: float(y) for y, word in re.findall(r'yMin="([\d.]+)"[^>]*>([^<]+)</word>', poppler("pdftotext", "-bbox", out, "-"))}  # fmt: skip  # noqa: E501
    assert spots["Elm"] < spots["leans"] < min(y for word, y in spots.items() if "エッダ" in word) < spots["Given"]
    assert codes_by_zxing(raster(out, 150)) == [f"{SITE}trees/T1/"]


def test_a_character_that_no_font_has_stops_the_printing_at_its_place(tmp_path: Path) -> None:
    folder = house(tmp_path / "c", T2=PINE.replace("A pine from the shore.", "A pine 𓆭 from the shore."))
    result = labels(folder, "--out", tmp_path / "a.pdf")
    assert result.exit_code == 1
    assert not (tmp_path / "a.pdf").exists()
    assert "trees/T2-low-water/tree.yml:4" in result.stderr
    assert "U+131AD" in result.stderr


def test_a_claim_stronger_than_the_evidence_is_told_before_printing(tmp_path: Path) -> None:
    claim = "It has been in training for ninety years."
    folder = house(tmp_path / "c", T1=ELM.replace(TEXT, claim) + "talking_points: In training since 1890, they say.\n")
    said = json.loads(labels(folder, "--json", "--out", tmp_path / "a.pdf", "T1").stdout)
    (problem,) = [one for one in said["problems"] if one["rule"].startswith("claim")]
    assert "ninety years" in problem["what"]
    assert problem["line"] == ELM[: ELM.index("en: " + TEXT[:9])].count("\n") + 1
    assert problem["severity"] == "warning"
