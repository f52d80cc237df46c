"""Codes as cameras see them: at an angle, out of focus, small in twelve million pixels; read by a second reader too."""

from __future__ import annotations

import io
import re
import xml.etree.ElementTree as ET

import cv2
import numpy as np
import pytest
import segno
from PIL import Image

from archive_tools.sort_in import card_svg, card_text, end_card_text
from archive_tools.sort_in.card import code_of
from archive_tools.sort_in.codes import codes_in
from archive_tools.sort_in.payload import label_address, meant_by
from tests.making import tree
from tests.sort_in.scenes import DAY, SITE

TREES = {name: tree(accession=name) for name in ("S1979.2", "S1979-2", "1985/3", "盆 7", "S2015.9")}
LABEL = "https://skerrow-terraces.example/trees/S1979.2/"


def _code(code: segno.QRCode) -> np.ndarray:
    drawn = io.BytesIO()
    code.save(drawn, kind="png", scale=12, border=4)
    return np.asarray(Image.open(drawn).convert("L"))


def _photographed(text: str, side: int, lean: float = 0.0, blur: float = 0.0, dim: float = 1.0) -> np.ndarray:
    """A 4000 × 3000 picture of leaves and bark with a code `side` pixels wide in it.

    lean: how far two corners move, as a share of the side. blur: standard deviation in pixels. dim: of the light.
    """
    rng = np.random.default_rng(5)
    picture = cv2.resize(rng.integers(0, 255, (375, 500), np.uint8), (4000, 3000), interpolation=cv2.INTER_CUBIC)
    code = _code(segno.make(text, error="m", micro=False))
    size = code.shape[0]
    x, y = 2300.0, 1400.0
    corners = np.array([[0, 0], [size, 0], [size, size], [0, size]], np.float32)
    seen = np.array(
        [
            [x, y + lean * side],
            [x + side, y],
            [x + side * (1 - lean), y + side],
            [x + lean * side, y + side * (1 - lean)],
        ],
        np.float32,
    )
    matrix = cv2.getPerspectiveTransform(corners, seen)
    # Shrinking first, as a lens does, keeps the pattern from being sampled away.
    factor = max(size // (2 * side), 1)
    small = cv2.resize(code, None, fx=1 / factor, fy=1 / factor, interpolation=cv2.INTER_AREA)
    matrix = matrix @ np.diag([size / small.shape[0], size / small.shape[0], 1.0])
    placed = cv2.warpPerspective(small, matrix, (4000, 3000), flags=cv2.INTER_LINEAR)
    where = cv2.warpPerspective(np.full_like(small, 255), matrix, (4000, 3000))
    picture = np.where(where > 127, placed, picture)
    if blur:
        picture = cv2.GaussianBlur(picture, (0, 0), blur)
    noise = rng.normal(0, 4, picture.shape)
    return np.clip(picture * dim + noise, 0, 255).astype(np.uint8)


@pytest.mark.parametrize(
    ("side", "lean", "blur", "dim"),
    [
        (1200, 0.0, 0.0, 1.0),
        (900, 0.25, 0.0, 1.0),
        (900, 0.15, 4.0, 1.0),
        (400, 0.12, 2.0, 0.5),
        (220, 0.08, 1.0, 1.0),
        (160, 0.05, 0.6, 1.0),
    ],
    ids=["straight", "steep", "blurred", "dim", "small", "very small"],
)
def test_the_code_of_a_label_is_read_from_a_picture_of_twelve_million_pixels(
    side: int, lean: float, blur: float, dim: float
) -> None:
    (found,) = codes_in(Image.fromarray(_photographed(LABEL, side, lean, blur, dim)))
    assert found.text == LABEL
    modules = segno.make(LABEL, error="m", micro=False).symbol_size(border=0)[0]
    expected = side * modules / (modules + 8) / 3000
    assert found.share == pytest.approx(expected, rel=0.35)


@pytest.mark.parametrize(
    "text", [LABEL, card_text("S1979.2", DAY), card_text(["S1979.2", "盆 7"], DAY), end_card_text()]
)
def test_a_second_reader_finds_the_same_words_in_what_is_published(text: str) -> None:
    """OpenCV's own detector, which shares no code with the reader that is used."""
    picture = cv2.resize(_code(code_of(text)), None, fx=1.5, fy=1.5, interpolation=cv2.INTER_CUBIC)
    seen, _, _ = cv2.QRCodeDetector().detectAndDecode(picture)
    (ours,) = codes_in(Image.fromarray(picture))
    assert seen == ours.text == text


def test_a_picture_without_a_code_has_none() -> None:
    rng = np.random.default_rng(1)
    assert codes_in(Image.fromarray(rng.integers(0, 255, (600, 800), np.uint8))) == ()


def test_the_printed_card_is_read_as_it_would_be_drawn() -> None:
    """Every dark module of the drawing, set as pixels by the drawing's own numbers."""
    text = card_text("S1979.2", DAY)
    svg = card_svg(text, "S1979.2", "Halvard's Maple & <others>")
    root = ET.fromstring(svg)
    assert root.attrib["width"] == "148mm"
    words = [element.text for element in root.iter("{http://www.w3.org/2000/svg}text")]
    assert words == ["S1979.2", "Halvard's Maple & <othe…", text]
    (path,) = [element for element in root.iter("{http://www.w3.org/2000/svg}path") if "stroke" in element.attrib]
    side = code_of(text).symbol_size(border=4)[0]
    drawn = np.full((side * 8, side * 8), 255, np.uint8)
    x = y = 0.0
    for step, across, down in re.findall(r"([Mmh])(-?[0-9.]+)(?: (-?[0-9.]+))?", path.attrib["d"]):
        if step == "h":
            top = round((y - 0.5) * 8)
            drawn[top : top + 8, round(x * 8) : round((x + float(across)) * 8)] = 0
            x += float(across)
        elif step == "m":
            x, y = x + float(across), y + float(down)
        else:
            x, y = float(across), float(down)
    (found,) = codes_in(Image.fromarray(drawn))
    assert found.text == text


@pytest.mark.parametrize(
    ("text", "trees"),
    [
        ("https://the-slope.example/trees/S1979.2/", ("S1979.2",)),
        ("HTTPS://THE-SLOPE.EXAMPLE/trees/S1979.2/", ("S1979.2",)),
        ("http://the-slope.example/trees/S1979.2", ("S1979.2",)),
        ("https://the-slope.example/trees/S1979.2/index.html", ("S1979.2",)),
        ("https://the-slope.example/trees/S1979.2/?from=label#top", ("S1979.2",)),
        ("archive card S1979.2 k7x2", ("S1979.2",)),
        ("  Archive  card S1979.2 k7x2 \n", ("S1979.2",)),
        ("archive card S1979.2 + S2015.9 k7x2", ("S1979.2", "S2015.9")),
        ("archive card 盆 7 k7x2", ("盆 7",)),
    ],
)
def test_what_a_code_says_names_a_tree(text: str, trees: tuple[str, ...]) -> None:
    meant = meant_by(text, TREES, SITE)
    assert meant is not None
    assert (meant.trees, meant.doubt) == (trees, None)


@pytest.mark.parametrize(
    "text",
    ["https://another.example/trees/S1979.2/", "https://the-slope.example/stewards/x/", "WIFI:S:x;;", "", "S1979.2"],
)
def test_a_code_of_something_else_means_nothing(text: str) -> None:
    assert meant_by(text, TREES, SITE) is None


@pytest.mark.parametrize(
    "text", ["https://the-slope.example/trees/S1999.9/", "archive card S1999.9 k7x2", "archive card x"]
)
def test_a_code_of_a_tree_that_is_not_there_is_doubtful(text: str) -> None:
    meant = meant_by(text, TREES, SITE)
    assert meant is not None
    assert meant.doubt
    assert not meant.trees


def test_every_tree_is_known_again_by_its_own_labels_address() -> None:
    for accession in TREES:
        meant = meant_by(label_address(SITE, accession, TREES), TREES, SITE)
        assert meant is not None
        assert meant.trees == (accession,) or accession not in ("S1979.2", "S2015.9", "S1979-2", "1985/3")


def test_two_trees_with_one_address_are_not_guessed_between() -> None:
    alike = {name: tree(accession=name) for name in ("A/1", "A 1")}
    meant = meant_by(f"{SITE}trees/A-1/", alike, SITE)
    assert meant is not None
    assert "A/1" in (meant.doubt or "")
    assert meant.trees == ()


def test_a_site_below_a_path_and_a_label_with_a_former_number() -> None:
    site = "https://town.example/garden/"
    assert meant_by("https://town.example/garden/trees/S2015.9/", TREES, site) is not None
    assert meant_by("https://town.example/trees/S2015.9/", TREES, site) is None


def test_a_cards_mark_is_the_same_all_day_and_another_the_next() -> None:
    assert card_text("S1979.2", DAY) == card_text("S1979.2", DAY)
    assert card_text("S1979.2", DAY) != card_text("S1979.2", DAY.replace(day=24))
    assert card_text("S1979.2", DAY).startswith("archive card S1979.2 ")
