"""The configuration of the site engine, written by us for one run: a collection needs none of its own."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date
from pathlib import Path

import yaml

from archive_tools.made_before import CACHE
from archive_tools.model.grades import Edition

THEME = Path(__file__).resolve().parent / "theme"
NOTICE = "NO_MKDOCS_2_WARNING"
"""Set, it silences a notice of the theme package that has nothing to do with a build."""
MARKDOWN_EXTENSIONS = ["attr_list", "def_list", "footnotes", "md_in_html", "smarty"]
"""For hand-written pages, beside MkDocs' own (toc, tables, fenced_code)."""


@contextmanager
def config_file(
    folder: Path,
    edition: Edition,
    as_of: date | None,
    site_url: str | None,
    pages: Path | None,
    cache: Path | None,
    *,
    announce: bool = False,
) -> Iterator[Path]:
    """A config for one run, in a temporary folder whose docs_dir is empty."""
    folder = folder.resolve()
    options: dict[str, str | bool] = {
        "raise_refusals": True,
        "announce": announce,
        "collection": str(folder),
        "edition": edition.value,
        "as_of": (as_of or date.today()).isoformat(),
        "cache": str((cache or folder / CACHE).resolve()),
    }
    if pages is not None:
        options["pages"] = str(pages.resolve())
    with tempfile.TemporaryDirectory(prefix="archive-tools-") as room:
        base = Path(room)
        (base / "docs").mkdir()
        config: dict[str, object] = {
            "site_name": "archive",
            "docs_dir": "docs",
            "theme": {"name": "material", "custom_dir": str(THEME)},
            "plugins": {"living_archive": options},
            "markdown_extensions": MARKDOWN_EXTENSIONS,
            "strict": True,
        }
        if site_url is not None:
            config["site_url"] = site_url
        path = base / "mkdocs.yml"
        path.write_text(yaml.safe_dump(config, allow_unicode=True, sort_keys=False), encoding="utf-8")
        os.environ.setdefault(NOTICE, "1")
        yield path
