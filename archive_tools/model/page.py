"""A page of the site, before any site engine has seen it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Page:
    """One page: where it stands, its title, and its body as HTML (or Markdown for pages written by hand).

    `path` is the page's source path in the site, like "trees/S1979.2/index.md". `section` names the masthead entry that is
    current. `description` goes into the head of the page.
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
    """A file of the site that is not a page: its path in the site and its bytes, or the file they are copied from."""

    path: str
    content: bytes | None = None
    copied_from: str | None = None


@dataclass(frozen=True, slots=True)
class Site:
    """All pages and files of one edition."""

    pages: tuple[Page, ...]
    files: tuple[SiteFile, ...] = ()
