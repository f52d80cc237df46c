"""Every link of the built site leads somewhere, fragments included; no browser needed."""

from __future__ import annotations

import posixpath
from collections.abc import Iterator
from dataclasses import dataclass, field
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote, urlsplit

import pytest

pytestmark = pytest.mark.slow


@dataclass
class Read(HTMLParser):
    """What one page points at, and the ids it has."""

    links: list[str] = field(default_factory=list)
    ids: list[str] = field(default_factory=list)
    refers: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        super().__init__()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        for name, value in attrs:
            if value is None:
                continue
            if name in {"href", "src", "data-offline"} and tag != "base":
                self.links.append(value)
            elif name == "srcset":
                self.links += [part.split()[0] for part in value.split(",")]
            elif name == "id":
                self.ids.append(value)
            elif name in {"aria-labelledby", "aria-describedby", "aria-controls"}:
                self.refers += value.split()


def read(page: Path) -> Read:
    reader = Read()
    reader.feed(page.read_text("utf-8"))
    return reader


def broken(site: Path) -> Iterator[str]:
    pages = {page: read(page) for page in sorted(site.rglob("*.html"))}
    for page, found in pages.items():
        here = page.relative_to(site).as_posix()
        for link in found.links:
            parts = urlsplit(link)
            if parts.scheme or parts.netloc:
                continue
            path = unquote(parts.path)
            # 404.html is shown for any address, so its links begin at the root.
            base = "/" if path.startswith("/") else posixpath.dirname("/" + here)
            target = site / posixpath.normpath(posixpath.join(base, path)).lstrip("/") if path else page
            if target.is_dir():
                target = target / "index.html"
            if not target.is_file():
                yield f"{here}: {link} leads nowhere"
            elif parts.fragment and target.suffix == ".html" and unquote(parts.fragment) not in pages[target].ids:
                yield f"{here}: {link}: no such place on that page"


@pytest.mark.parametrize("edition", ["public_site", "internal_site"])
def test_no_link_leads_nowhere(edition: str, request: pytest.FixtureRequest) -> None:
    assert list(broken(request.getfixturevalue(edition))) == []


@pytest.mark.parametrize("edition", ["public_site", "internal_site"])
def test_ids_are_unique_and_what_refers_to_one_finds_it(edition: str, request: pytest.FixtureRequest) -> None:
    for page in request.getfixturevalue(edition).rglob("*.html"):
        found = read(page)
        assert len(found.ids) == len(set(found.ids)), page
        assert set(found.refers) <= set(found.ids), page


def test_the_check_sees_a_broken_link_and_a_broken_fragment(tmp_path: Path) -> None:
    (tmp_path / "index.html").write_text('<a href="gone/">x</a><a href="#here">y</a><p id="there">', "utf-8")
    assert len(list(broken(tmp_path))) == 2


def test_nothing_is_published_that_no_page_needs(public_site: Path) -> None:
    used = {"assets/catalogue.css", "assets/catalogue.js"}
    for page in public_site.rglob("*.html"):
        here = page.parent.relative_to(public_site).as_posix()
        used |= {posixpath.normpath(posixpath.join(here, unquote(urlsplit(link).path))) for link in read(page).links}
    files = {p.relative_to(public_site).as_posix() for p in public_site.rglob("*") if p.is_file()}
    kept = {f for f in files if f.startswith("assets/fonts/") or f.endswith(".html") or f.startswith("sitemap.xml")}
    css = (public_site / "assets" / "catalogue.css").read_text("utf-8")
    assert all(f.removeprefix("assets/") in css or "LICENSE" in f for f in kept if f.startswith("assets/fonts/"))
    assert {f for f in files - kept - used if not f.startswith("pictures/")} == set()
