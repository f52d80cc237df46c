"""Placing marks in a browser, and the lines it writes read back as the collection reads them.

The originals are larger than any picture shown, and one is stored on its side: what is written must be pixels of the
upright original all the same.
"""

from __future__ import annotations

import io
from collections.abc import Callable, Iterator
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import pytest
from PIL import Image

from archive_tools.model.grades import Edition
from archive_tools.model.photo import Photo
from archive_tools.site_plugin import build_site
from tests.browser.test_accessibility import faults
from tests.read.folder_of import HOUSE, made, read

pytestmark = pytest.mark.slow

OLD, NEW = "1990_front_1.jpg", "2020_front_1.jpg"
SIZES = {OLD: (3000, 2400), NEW: (2400, 3200)}
PHOTOS = "trees/T1-a/photos"
LISTED = f"""\
- file: {OLD}
  view: front
  marks: {{rim left: [300.5, 2000], "foot: the \\"old\\" one": [1500, 1990]}}
"""
TREE = f"""\
accession: T1
taxon: Acer palmatum
name: The One
comparisons:
  - id: then-now
    before: {OLD}
    after: {NEW}
"""


def jpeg(size: tuple[int, int], orientation: int | None = None) -> bytes:
    exif = Image.Exif()
    if orientation:
        exif[0x0112] = orientation
    kept = io.BytesIO()
    Image.linear_gradient("L").resize(size).convert("RGB").save(kept, "JPEG", quality=60, exif=exif)
    return kept.getvalue()


@pytest.fixture(scope="module")
def files() -> dict[str, str | bytes]:
    """A tree with one listed photograph, and one that photos.yml says nothing of and that is stored on its side."""
    wide, high = SIZES[NEW]
    return {
        "trees/T1-a/tree.yml": TREE,
        f"{PHOTOS}/{OLD}": jpeg(SIZES[OLD]),
        f"{PHOTOS}/{NEW}": jpeg((high, wide), orientation=6),
        f"{PHOTOS}/photos.yml": LISTED,
    }


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory, files: dict[str, str | bytes]) -> Path:
    folder = tmp_path_factory.mktemp("marks")
    made(folder / "collection", files, HOUSE)
    house = folder / "collection" / "stewards" / "house.yml"
    house.parent.mkdir()
    house.write_text("name: The House\nkind: institution\n", "utf-8")
    build_site(folder / "collection", folder / "site", edition=Edition.INTERNAL, as_of=date(2026, 11, 25),
               cache=folder / "cache", quiet=True)  # fmt: skip
    return folder / "site"


@pytest.fixture(scope="module")
def address(site: Path, serve: Callable[[Path], str]) -> str:
    return f"{serve(site)}trees/T1/marks/?photo={OLD}&beside={NEW}"


@pytest.fixture
def page(browser: Any, address: str) -> Iterator[Any]:
    context = browser.new_context(viewport={"width": 1440, "height": 1000})
    page = context.new_page()
    wrong: list[str] = []
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.goto(address)
    yield page
    context.close()
    assert wrong == []


def board(page: Any, side: int) -> Any:
    return page.locator(f".board[data-side='{side}']")


def name(page: Any, name: str) -> None:
    page.fill("#new-name", name)
    page.locator("#new-mark button").click()


def click_at(page: Any, side: int, x: float, y: float) -> float:
    """Click where a spot of the original is shown; gives how many pixels of the original one of the screen covers."""
    size = SIZES[(OLD, NEW)[side]]
    picture = board(page, side).locator("img")
    picture.scroll_into_view_if_needed()
    box = picture.bounding_box()
    page.mouse.click(box["x"] + x / size[0] * box["width"], box["y"] + y / size[1] * box["height"])
    return float(size[0] / box["width"])


def read_back(
    folder: Path, files: dict[str, str | bytes], page: Any, texts: dict[str, str] | None = None
) -> dict[str, Photo]:
    """What the collection reads once the lines on the page stand in photos.yml."""
    texts = texts or {file: board(page, side).locator("pre").inner_text() for side, file in enumerate((OLD, NEW))}
    kept = f"- file: {OLD}\n  view: front\n{texts[OLD]}\n{texts[NEW]}\n"
    collection, problems = read(folder, {**files, f"{PHOTOS}/photos.yml": kept})
    assert [p.what for p in problems if p.mark.file.endswith("photos.yml")] == []
    return {photo.file: photo for photo in collection.trees["T1"].photos}


def test_marks_placed_with_the_mouse_are_pixels_of_the_upright_original(
    page: Any, tmp_path: Path, files: dict[str, str | bytes]
) -> None:
    name(page, "rim right")
    coarse = click_at(page, 0, 2700, 2010)
    assert page.locator("#mark-name").input_value() == "rim right", "the other picture lacks it still"
    coarser = click_at(page, 1, 2000, 2600)
    assert page.locator("#mark-name").input_value() == "rim left", "the next one that is lacking"
    photos = read_back(tmp_path, files, page)
    x, y = dict(photos[OLD].marks)["rim right"]
    assert (abs(x - 2700) <= coarse, abs(y - 2010) <= coarse) == (True, True)
    x, y = dict(photos[NEW].marks)["rim right"]
    assert (abs(x - 2000) <= coarser, abs(y - 2600) <= coarser) == (True, True)
    assert dict(photos[OLD].marks)["rim left"] == (300.5, 2000.0), "what was there stays"
    assert dict(photos[OLD].marks)['foot: the "old" one'] == (1500.0, 1990.0)
    assert (photos[NEW].width, photos[NEW].height) == SIZES[NEW]


def test_marks_placed_with_the_keyboard_alone(page: Any, tmp_path: Path, files: dict[str, str | bytes]) -> None:
    page.locator("#new-name").focus()
    page.keyboard.type("first branch")
    page.keyboard.press("Enter")
    place = page.get_by_role("button", name=f"Place in the middle: first branch, {NEW}")
    place.focus()
    page.keyboard.press("Enter")
    cross = page.locator(".cross:focus")
    assert cross.get_attribute("aria-label") == "first branch, 1200 pixels from the left, 1600 from the top"
    for key in ("ArrowLeft", "ArrowLeft", "Shift+ArrowDown", "ArrowUp"):
        page.keyboard.press(key)
    assert cross.get_attribute("aria-label") == "first branch, 1198 pixels from the left, 1609 from the top"
    assert page.locator(".said").inner_text() == "first branch: 1198, 1609."
    assert dict(read_back(tmp_path, files, page)[NEW].marks) == {"first branch": (1198.0, 1609.0)}
    page.keyboard.press("Control+z")
    assert cross.get_attribute("aria-label") == "first branch, 1200 pixels from the left, 1600 from the top"


def test_tab_goes_from_mark_to_mark_and_no_key_moves_one_over_the_edge(page: Any) -> None:
    first = board(page, 0).locator(".cross").first
    first.focus()
    page.keyboard.press("Tab")
    assert page.locator(".cross:focus").get_attribute("data-name") == 'foot: the "old" one'
    page.keyboard.press("Shift+Tab")
    assert page.locator(".cross:focus").get_attribute("data-name") == "rim left"
    for _ in range(35):
        page.keyboard.press("Shift+ArrowLeft")
    assert page.locator(".cross:focus").get_attribute("aria-label").startswith("rim left, 0 pixels")
    page.keyboard.press("Delete")
    assert board(page, 0).locator(".cross").count() == 1
    assert "rim left" not in board(page, 0).locator("pre").inner_text()


def test_a_mark_is_dragged_and_one_undo_takes_the_whole_drag_back(page: Any) -> None:
    cross = board(page, 0).locator(".cross[data-name='rim left']")
    box, wide = cross.bounding_box(), board(page, 0).locator("img").bounding_box()["width"]
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + 20, y - 10, steps=5)
    page.mouse.move(x + 40, y - 30, steps=5)
    page.mouse.up()
    label = cross.get_attribute("aria-label")
    moved = float(label.split(", ")[1].split()[0])
    assert abs(moved - 300.5 - 40 * 3000 / wide) <= 3000 / wide
    page.locator("#undo").click()
    assert cross.get_attribute("aria-label") == "rim left, 300.5 pixels from the left, 2000 from the top"
    page.locator("#undo").click()
    assert page.locator(".said").inner_text() == "Nothing to undo."


def test_a_tap_places_a_mark(browser: Any, address: str) -> None:
    context = browser.new_context(viewport={"width": 390, "height": 844}, has_touch=True, is_mobile=True)
    page = context.new_page()
    page.goto(address)
    name(page, "rim right")
    picture = board(page, 0).locator("img")
    picture.scroll_into_view_if_needed()
    box = picture.bounding_box()
    page.touchscreen.tap(box["x"] + box["width"] / 2, box["y"] + box["height"] / 4)
    assert board(page, 0).locator(".cross[data-name='rim right']").count() == 1
    assert page.evaluate("document.documentElement.scrollWidth") == 390
    context.close()


def test_a_finger_moves_the_mark_it_placed_by_one_pixel(browser: Any, address: str) -> None:
    context = browser.new_context(viewport={"width": 390, "height": 844}, has_touch=True, is_mobile=True)
    page = context.new_page()
    page.goto(address)
    name(page, "rim right")
    page.locator("[data-step=ArrowUp]").tap()
    assert "place it first" in page.locator(".said").inner_text()
    picture = board(page, 1).locator("img")
    picture.scroll_into_view_if_needed()
    box = picture.bounding_box()
    page.touchscreen.tap(box["x"] + box["width"] / 2, box["y"] + box["height"] / 4)
    page.select_option("#mark-name", "rim right")
    cross = board(page, 1).locator(".cross[data-name='rim right']")
    x, y = (float(n.split()[0]) for n in cross.get_attribute("aria-label").split(", ")[1:])
    for step in ("ArrowLeft", "ArrowLeft", "ArrowDown"):
        button = page.locator(f"[data-step={step}]")
        assert min(button.bounding_box()[side] for side in ("width", "height")) >= 44, "as large as a finger"
        button.tap()
    assert page.locator(".said").inner_text() == f"rim right: {x - 2:g}, {y + 1:g}."
    page.locator("#undo").tap()
    assert cross.get_attribute("aria-label").startswith(f"rim right, {x:g} pixels"), "one row of steps is one step back"
    assert page.evaluate("document.documentElement.scrollWidth") == 390
    context.close()


def test_a_scale_and_names_in_any_letters_are_read_back_as_written(
    page: Any, tmp_path: Path, files: dict[str, str | bytes]
) -> None:
    names = ["left, #2 [low]", "1", "no", "樹冠", "back\\slash", "it's 3/4", "- dash"]
    for one in names:
        name(page, one)
        page.get_by_role("button", name=f"Place in the middle: {one}, {OLD}", exact=True).click()
    page.select_option("#from-a", "1")
    page.select_option("#to-a", "rim left")
    page.fill("#cm-a", "50,0")
    page.fill("#pm-a", "0.3")
    photo = read_back(tmp_path, files, page)[OLD]
    assert [one for one, _ in photo.marks] == ["rim left", 'foot: the "old" one', *names]
    assert photo.scale is not None
    assert (photo.scale.from_mark, photo.scale.to_mark) == ("1", "rim left")
    assert (str(photo.scale.cm), photo.scale.plus_minus) == ("50.0", Decimal("0.3")), "the last place stays written"


def test_what_is_downloaded_is_what_is_shown(page: Any, tmp_path: Path, files: dict[str, str | bytes]) -> None:
    shown = board(page, 0).locator("pre").inner_text()
    with page.expect_download() as told:
        board(page, 0).locator("[data-do=download]").click()
    assert told.value.suggested_filename == "1990_front_1.marks.yml"
    told.value.save_as(tmp_path / "lines.yml")
    text = (tmp_path / "lines.yml").read_text("utf-8")
    assert text.strip() == shown.strip()
    assert board(page, 1).locator("[data-do=download]").is_disabled(), "nothing is placed there yet"
    photos = read_back(tmp_path / "again", files, page, {OLD: text, NEW: ""})
    assert dict(photos[OLD].marks)["rim left"] == (300.5, 2000.0)


def test_what_is_copied_is_what_is_shown(browser: Any, address: str) -> None:
    context = browser.new_context(permissions=["clipboard-read", "clipboard-write"])
    page = context.new_page()
    page.goto(address)
    board(page, 0).locator("[data-do=copy]").click()
    page.wait_for_function("document.querySelector('.said').textContent === 'Copied.'")
    assert page.evaluate("navigator.clipboard.readText()").strip() == board(page, 0).locator("pre").inner_text().strip()
    context.close()


def test_warnings_come_and_go(page: Any) -> None:
    def told() -> str:
        return str(page.locator(".warnings").inner_text())

    def put(mark: str, *spots: tuple[float, float]) -> None:
        for side, spot in enumerate(spots):
            page.select_option("#mark-name", mark)
            click_at(page, side, *spot)

    assert "share no mark" in told()
    put("rim left", (300, 2000), (400, 2600))
    assert "share only the mark “rim left”" in told()
    name(page, "rim right")
    put("rim right", (2700, 2000), (2000, 2600))
    assert "Two shared marks are just enough" in told()
    put('foot: the "old" one', (1500, 2002), (1200, 2602))
    assert "nearly on one line" in told()
    put('foot: the "old" one', (1500, 800), (1200, 1400))
    assert told() == "Nothing to warn of."
    page.fill("#cm-a", "46")
    assert "needs two marks and a length" in told()
    page.select_option("#from-a", "rim left")
    page.select_option("#to-a", "rim right")
    assert told() == "Nothing to warn of."
    put("rim right", (400, 2000))
    assert "placing its ends leaves every measure uncertain by 3 per cent" in told(), "2.8 pixels of about 100"
    page.fill("#cm-a", "a foot")
    assert "“a foot” is no length" in told()


def test_the_loupe_shows_the_spot_that_is_pointed_at(page: Any) -> None:
    board(page, 0).locator(".cross").first.focus()
    style = "getComputedStyle(document.querySelector('.loupe'))"
    wide, high = (float(n.removesuffix("px")) for n in page.evaluate(f"{style}.backgroundSize").split())
    left, top = (float(n.removesuffix("px")) for n in page.evaluate(f"{style}.backgroundPosition").split())
    glass = page.locator(".loupe").bounding_box()
    assert (glass["width"] / 2 - left) / wide == pytest.approx(300.5 / 3000, abs=0.001)
    assert (glass["height"] / 2 - top) / high == pytest.approx(2000 / 2400, abs=0.001)


def test_changed_marks_are_not_left_behind_unasked(page: Any) -> None:
    leave = "!dispatchEvent(new Event('beforeunload', {cancelable: true}))"
    assert page.evaluate(leave) is False
    board(page, 0).locator(".cross").first.focus()
    page.keyboard.press("ArrowLeft")
    assert page.evaluate(leave) is True
    with page.expect_download():
        board(page, 0).locator("[data-do=download]").click()
    assert page.evaluate(leave) is False


def test_without_a_script_the_page_says_how_to_write_marks_by_hand(browser: Any, address: str) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(address)
    assert page.get_by_text("Marks can be written by hand").is_visible()
    assert not page.locator("#light-table").is_visible()
    assert page.locator(".by-hand pre").is_visible()
    row = page.locator(".by-hand tbody tr", has_text=OLD).inner_text()
    assert "3000 × 2400" in row.replace("\u00a0", " ")
    assert "rim left" in row
    context.close()


def test_it_works_from_a_disk_and_asks_no_other_host(browser: Any, site: Path, address: str) -> None:
    hosts = set()
    page = browser.new_page()
    page.on("request", lambda request: hosts.add(urlsplit(request.url).netloc))
    page.goto(address, wait_until="networkidle")
    assert hosts - {""} == {urlsplit(address).netloc}
    hosts.clear()
    page.goto((site / "trees" / "T1" / "marks" / "index.html").as_uri(), wait_until="networkidle")
    page.locator(".cross").first.focus()
    page.keyboard.press("ArrowRight")
    assert page.locator(".said").inner_text() == "rim left: 301.5, 2000."
    assert hosts == {""}
    page.close()


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [390, 768, 1440])
def test_the_page_is_accessible(browser: Any, address: str, width: int, scheme: str) -> None:
    context = browser.new_context(viewport={"width": width, "height": 900}, color_scheme=scheme)
    page = context.new_page()
    page.goto(address)
    assert faults(page) == []
    assert page.evaluate("document.documentElement.scrollWidth") == width
    context.close()


def test_the_public_edition_has_no_such_page(public_site: Path) -> None:
    assert not list(public_site.glob("trees/*/marks"))
    assert not list(public_site.glob("assets/marks*"))


def test_every_tree_with_photographs_has_one_and_its_page_leads_there(
    browser: Any, internal: str, internal_site: Path
) -> None:
    trees = [folder for folder in (internal_site / "trees").iterdir() if (folder / "marks").is_dir()]
    assert len(trees) >= 9
    page = browser.new_page()
    page.goto(internal + "trees/S1979.2/")
    page.get_by_role("link", name="Place marks").first.click()
    assert urlsplit(page.url).path == "/trees/S1979.2/marks/"
    page.wait_for_selector(".cross")
    assert page.locator(".warnings").inner_text() == "Nothing to warn of."
    page.locator(".cross[data-name='second branch']").first.focus()
    page.keyboard.press("Delete")
    assert "asks for “second branch”" in page.locator(".warnings").inner_text()
    page.close()
