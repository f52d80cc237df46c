"""A page of the site, before any site engine has seen it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

MADE_FOLDERS: Mapping[str, str] = {
    "trees": "the pages of its trees",
    "stewards": "the pages of the stewards",
    "teaching": "the page of who taught whom",
    "objects": "the pages of pots, trays and stands",
    "tours": "its walks",
    "work": "the work page of the house",
    "assets": "what every page is drawn with",
    "pictures": "its photographs",
}
"""The folders of a site that the archive fills, each with what it puts there."""


def address_of(path: str) -> str:
    """Where a page's source path stands in the site: "objects/" for "objects.md", "objects/index.md" and
    "objects/README.md"; "" for the front door.
    """
    folder, _, name = path.rpartition("/")
    stem = name.removesuffix(".md")
    parts = [part for part in (folder, "" if stem.casefold() in {"index", "readme"} else stem) if part]
    return "".join(f"{part}/" for part in parts)


@dataclass(frozen=True, slots=True)
class Page:
    """One page: where it stands, its title, and its body as HTML (or Markdown for pages written by hand).

    `path` is the page's source path in the site, like "trees/S1979.2/index.md". `section` names the masthead entry that
    is current. `description` goes into the head of the page. `meta` may hold "picture": the address of the picture that
    stands for the page, relative to the site's root.
    """

    path: str
    title: str
    body: str
    section: str = ""
    description: str = ""
    is_markdown: bool = False
    language: str = "en"
    meta: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class SiteFile:
    """A file of the site that is not a page: its path in the site and its bytes, or the file they are copied from.

    `copied_from` is relative to the folder of derivatives (the cache).
    """

    path: str
    content: bytes | None = None
    copied_from: str | None = None


@dataclass(frozen=True, slots=True)
class Entry:
    """One word of the masthead or the colophon: its title, the path it leads to ("trees/", "#years"), its section."""

    title: str
    path: str
    section: str


@dataclass(frozen=True, slots=True)
class Frame:
    """What stands round every page: the house's name, the words of the masthead and the colophon, the colours.

    `band` is the line that marks an internal edition, None in the public one. `words` are the frame's own words, by
    name, in the language of the site. `accent_light` and `accent_dark` are "#rrggbb".
    """

    house: str = ""
    language: str = "en"
    masthead: tuple[Entry, ...] = ()
    colophon: tuple[Entry, ...] = ()
    about: str = ""
    band: str | None = None
    accent_light: str = ""
    accent_dark: str = ""
    site_url: str | None = None
    words: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Site:
    """All pages and files of one edition."""

    pages: tuple[Page, ...]
    files: tuple[SiteFile, ...] = ()
    frame: Frame = Frame()
