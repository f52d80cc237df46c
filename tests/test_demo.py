"""The whole thing, on the invented collection: what is built, what is kept back, what survives an interruption."""

from __future__ import annotations

import io
import os
import signal
import subprocess
import sys
import time
import unicodedata
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest
from PIL import Image

ROOT = Path(__file__).resolve().parent.parent
DEMO = ROOT / "demo_collection"
AS_OF = "2026-11-25"
PRIVATE = [line for line in (ROOT / "tests" / "demo_private_strings.txt").read_text("utf-8").splitlines() if line]
TEXT = {".html", ".css", ".js", ".json", ".xml", ".txt", ".svg", ".webmanifest", ".vtt", ".gz", ""}

pytestmark = pytest.mark.slow


def fold(text: str) -> str:
    """Letter case and accents put aside, by hand: this search must not lean on the program's own."""
    plain = unicodedata.normalize("NFKD", text.replace("\u2011", "-").replace("\u00a0", " "))
    return "".join(letter for letter in plain if not unicodedata.combining(letter)).casefold()


def build(out: Path, *more: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "archive_tools", "build", str(DEMO), "--as-of", AS_OF, "--out", str(out), *more]
    return subprocess.run(command, capture_output=True, text=True, cwd=out.parent, check=False)


@pytest.fixture(scope="module")
def public_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    out = tmp_path_factory.mktemp("public") / "site"
    built = build(out, "--pages", str(ROOT / "content"))
    assert built.returncode == 0, built.stderr
    return out


@pytest.fixture(scope="module")
def internal_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    out = tmp_path_factory.mktemp("internal") / "site"
    built = build(out, "--edition", "internal", "--pages", str(ROOT / "content"))
    assert built.returncode == 0, built.stderr
    return out


def files(site: Path) -> Iterator[Path]:
    return (path for path in sorted(site.rglob("*")) if path.is_file())


def pages_to_read(site: Path) -> list[Path]:
    """Every page that stays on the screen. A former number's page leads on at once and says nothing."""
    pages = sorted(site.rglob("*.html"))
    leading_on = [page for page in pages if 'http-equiv="refresh"' in page.read_text("utf-8")]
    assert [page.parent.name for page in leading_on] == ["the-leaner"]
    return [page for page in pages if page not in leading_on]


def test_the_tree_under_review_does_not_stop_a_build_and_says_so(public_site: Path) -> None:
    page = (public_site / "trees" / "S2010.1" / "index.html").read_text("utf-8")
    assert "Dates under review" in page


def test_no_private_string_stands_in_any_byte_of_the_public_site(public_site: Path) -> None:
    names = [fold(text) for text in PRIVATE]
    assert names
    for path in files(public_site):
        where = path.relative_to(public_site).as_posix()
        data = path.read_bytes()
        searched = [fold(where), *(fold(data.decode(code, "replace")) for code in ("utf-8", "utf-16-le", "latin-1"))]
        if path.suffix not in TEXT:
            # Three letters turn up by chance in compressed pixels; whole names do not.
            present = [name for name in names if len(name) > 4 and any(name in form for form in searched)]
        else:
            present = [name for name in names if any(name in form for form in searched[:2])]
        assert present == [], where


def test_no_picture_of_the_site_carries_anything_but_pixels(public_site: Path) -> None:
    pictures = [p for p in files(public_site) if p.suffix in {".jpg", ".jpeg", ".png", ".webp"}]
    assert pictures
    for path in pictures:
        with Image.open(io.BytesIO(path.read_bytes())) as picture:
            assert dict(picture.getexif()) == {}, path.name
            carried = set(picture.info) - {"jfif", "jfif_version", "jfif_unit", "jfif_density", "dpi"}
            assert carried <= {"progressive", "progression"}, (path.name, carried)


def test_originals_with_places_in_them_exist_so_that_stripping_is_seen_to_work() -> None:
    gps_ifd = 0x8825  # Exif 2.32, GPS Info IFD pointer
    located = 0
    for path in DEMO.glob("trees/*/photos/*.jpg"):
        with Image.open(path) as picture:
            located += bool(picture.getexif().get_ifd(gps_ifd))
    assert located >= 2


def test_the_tree_that_is_not_public_is_in_the_internal_edition_only(public_site: Path, internal_site: Path) -> None:
    assert (internal_site / "trees" / "S2019.1" / "index.html").is_file()
    assert not (public_site / "trees" / "S2019.1").exists()


def test_what_is_restricted_is_in_neither_edition(internal_site: Path) -> None:
    restricted = [fold(text) for text in ("Cordelia", "Vaszary", "38,500")]
    for path in files(internal_site):
        if path.suffix in TEXT:
            text = fold(path.read_text("utf-8", "replace"))
            assert [secret for secret in restricted if secret in text] == [], path


def test_every_page_of_the_internal_edition_says_so_and_none_of_the_public_one(
    public_site: Path, internal_site: Path
) -> None:
    pages = pages_to_read(internal_site)
    assert pages
    for page in pages:
        assert "Internal edition" in page.read_text("utf-8"), page
    for page in pages_to_read(public_site):
        assert "Internal edition" not in page.read_text("utf-8"), page


def test_every_page_says_that_it_is_invented(public_site: Path) -> None:
    """Who scans a code on a bench never sees the home page."""
    pages = pages_to_read(public_site)
    assert len(pages) > 30
    assert [p for p in pages if "nvented for demonstration" not in p.read_text("utf-8")] == []


def test_a_second_build_encodes_no_photograph(tmp_path: Path, public_site: Path) -> None:
    again = build(tmp_path / "site", "--pages", str(ROOT / "content"))
    assert again.returncode == 0, again.stderr
    assert "0 pictures encoded" in again.stderr


def test_two_builds_are_the_same(tmp_path: Path, public_site: Path) -> None:
    out = tmp_path / "site"
    assert build(out, "--pages", str(ROOT / "content")).returncode == 0
    first = {p.relative_to(public_site): p.read_bytes() for p in files(public_site) if p.suffix == ".html"}
    second = {p.relative_to(out): p.read_bytes() for p in files(out) if p.suffix == ".html"}
    assert first == second


def test_a_build_killed_half_way_leaves_the_former_site_whole(tmp_path: Path) -> None:
    out = tmp_path / "site"
    out.mkdir()
    (out / "index.html").write_text("the former site")
    command = [sys.executable, "-m", "archive_tools", "build", str(DEMO), "--as-of", AS_OF, "--out", str(out)]
    for seconds in (0.3, 0.9, 1.5, 2.2, 3.0):
        with subprocess.Popen(command, stderr=subprocess.DEVNULL, start_new_session=True) as running:
            time.sleep(seconds)
            if running.poll() is None:
                os.killpg(running.pid, signal.SIGKILL)
            running.wait()
        names = {p.name for p in out.iterdir()}
        # Either the former site or the new one, whole: the kill may come just after the exchange.
        if names != {"index.html"}:
            assert {"index.html", "trees", "assets", "pictures", "404.html"} <= names
            break
        assert (out / "index.html").read_text() == "the former site"


def test_it_builds_from_any_folder_without_a_configuration_of_the_site_engine(tmp_path: Path) -> None:
    assert not (DEMO / "mkdocs.yml").exists()
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    built = build(elsewhere / "out")
    assert built.returncode == 0, built.stderr
    assert (elsewhere / "out" / "how-we-date" / "index.html").is_file()
    assert (elsewhere / "out" / "glossary" / "index.html").is_file()


def test_originals_are_not_touched(public_site: Path) -> None:
    changed = subprocess.run(
        ["git", "status", "--porcelain", "--", "demo_collection"], cwd=ROOT, capture_output=True, text=True, check=False
    )
    if changed.returncode:
        pytest.skip("not a git checkout, so there is nothing to compare the originals with")
    assert [line for line in changed.stdout.splitlines() if line.endswith(".jpg") and line[0:2] != "??"] == []


def test_the_two_editions_agree_on_the_day(public_site: Path) -> None:
    assert date.fromisoformat(AS_OF).strftime("%Y") in (public_site / "index.html").read_text("utf-8")
