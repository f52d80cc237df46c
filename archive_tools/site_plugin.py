"""The one file that knows MkDocs: an edition's pages handed to the site engine, and the engine driven without a config.

MkDocs is used for what it does well (writing pages in a frame, checking the links of hand-written pages, serving with
live reload). Pages come from memory (`File.generated`), never from a folder: nothing of the collection lies in
`docs_dir`, so nothing of it can be copied by accident.
"""

from __future__ import annotations

import logging
import shutil
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

from jinja2 import Environment
from mkdocs.commands.build import build as mkdocs_build
from mkdocs.commands.serve import serve as mkdocs_serve
from mkdocs.config import load_config
from mkdocs.config.base import Config
from mkdocs.config.config_options import Choice, Optional, Type
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort, PluginError
from mkdocs.livereload import LiveReloadServer
from mkdocs.plugins import BasePlugin
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page as EnginePage
from mkdocs.utils.templates import TemplateContext

from archive_tools import pipeline
from archive_tools.made_before import CACHE
from archive_tools.model.grades import Edition
from archive_tools.model.page import Page, SiteFile
from archive_tools.model.problems import Problem
from archive_tools.publish.problem_lines import number_of
from archive_tools.site_config import THEME, config_file
from archive_tools.site_faults import link_problems
from archive_tools.swap import put_in_place


class PluginOptions(Config):  # type: ignore[no-untyped-call]
    """What mkdocs.yml may say of the plugin. Paths are relative to mkdocs.yml."""

    collection = Type(str, default=".")
    edition = Choice([edition.value for edition in Edition], default=Edition.PUBLIC.value)
    as_of = Optional(Type((str, date)))
    pages = Optional(Type(str))
    cache = Type(str, default=CACHE)
    raise_refusals = Type(bool, default=False)
    announce = Type(bool, default=False)


class ArchivePlugin(BasePlugin[PluginOptions]):  # type: ignore[no-untyped-call]
    """Makes one edition of a collection and hands its pages to MkDocs."""

    made: pipeline.Made
    pages: dict[str, Page]

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """The theme's frame is ours, whatever mkdocs.yml says."""
        if str(THEME) not in config.theme.dirs:
            config.theme.dirs.insert(0, str(THEME))
        config.theme.static_templates = {"404.html"}
        return config

    def on_files(self, files: Files, /, *, config: MkDocsConfig) -> Files:
        """The edition's pages and pictures and our theme's own files: nothing else reaches the site."""
        base = Path(config.config_file_path).parent if config.config_file_path else Path.cwd()
        cache = base / self.config.cache
        try:
            self.made = pipeline.make(
                base / self.config.collection,
                edition=Edition(self.config.edition),
                as_of=_day(self.config.as_of),
                today=date.today(),
                pages=base / self.config.pages if self.config.pages else None,
                cache=cache,
            )
        except pipeline.RefusedError as refused:
            # The command line tells a refusal itself; under plain MkDocs it has to end the build with words.
            if self.config.raise_refusals:
                raise
            raise PluginError("\n".join(_line(problem) for problem in refused.problems)) from refused
        self.pages = {page.path: page for page in self.made.site.pages}
        if not config.site_url and self.made.site.frame.site_url:
            config.site_url = self.made.site.frame.site_url.rstrip("/") + "/"
        if config.site_url and self.config.edition == Edition.PUBLIC.value:
            config.theme.static_templates.add("sitemap.xml")
        ours = [file for file in files if file.abs_src_path and Path(file.abs_src_path).is_relative_to(THEME)]
        generated = [_page_file(config, page) for page in self.made.site.pages]
        copied = [_site_file(config, file, cache) for file in self.made.site.files]
        return Files([*ours, *generated, *copied])

    def on_env(self, env: Environment, /, *, config: MkDocsConfig, files: Files) -> Environment:
        """What stands round every page, and the page that is shown for an address without one."""
        env.globals["frame"] = self.made.site.frame
        env.globals["lost"] = Page("404.md", self.made.site.frame.words.get("lost_title", ""), "")
        return env

    def on_page_markdown(self, markdown: str, /, *, page: EnginePage, config: MkDocsConfig, files: Files) -> str:
        """Titles are ours; a page that is HTML already has no Markdown to convert."""
        ours = self.pages[page.file.src_uri]
        page.meta["title"] = ours.title
        return markdown if ours.is_markdown else ""

    def on_page_content(self, html: str, /, *, page: EnginePage, config: MkDocsConfig, files: Files) -> str:
        """The body of a page that is HTML already."""
        ours = self.pages[page.file.src_uri]
        return html if ours.is_markdown else ours.body

    def on_page_context(
        self, context: TemplateContext, /, *, page: EnginePage, config: MkDocsConfig, nav: Navigation
    ) -> TemplateContext:
        """The page as `publish` made it, for the frame."""
        values: dict[str, Any] = context  # type: ignore[assignment]
        values["sheet"] = self.pages[page.file.src_uri]
        return context

    def on_serve(self, server: LiveReloadServer, /, *, config: MkDocsConfig, builder: Any) -> LiveReloadServer:
        """Build again when a record changes. Hidden folders (caches, git) are not watched."""
        base = Path(config.config_file_path).parent if config.config_file_path else Path.cwd()
        watched = [base / self.config.collection]
        if self.config.pages:
            watched.append(base / self.config.pages)
        for folder in watched:
            for entry in sorted(folder.iterdir()):
                if not entry.name.startswith("."):
                    server.watch(str(entry))
        if self.config.announce:
            print(f"The site is at {server.url} (Ctrl-C ends)", file=sys.stderr, flush=True)
        return server


def _day(written: object) -> date:
    if written is None:
        return date.today()
    return written if isinstance(written, date) else date.fromisoformat(str(written))


def _line(problem: Problem) -> str:
    return f"{problem.mark}: {problem.what}" + (f" ({problem.instead})" if problem.instead else "")


def _page_file(config: MkDocsConfig, page: Page) -> File:
    # What is in the nav is drawn on every page, which would make a thousand trees slow; ours has none.
    content = page.body if page.is_markdown else ""
    return File.generated(config, page.path, content=content, inclusion=InclusionLevel.NOT_IN_NAV)


def _site_file(config: MkDocsConfig, file: SiteFile, cache: Path) -> File:
    if file.copied_from is not None:
        return File.generated(config, file.path, abs_src_path=str(cache / file.copied_from))
    return File.generated(config, file.path, content=file.content or b"")


@dataclass(frozen=True, slots=True)
class Built:
    """What a build did: the problems met, and a few lines that say what was made and what was left out."""

    made: pipeline.Made
    out: Path
    edition: Edition
    as_of: date

    @property
    def problems(self) -> tuple[Problem, ...]:
        """Every problem met, in the order of the files."""
        return self.made.problems

    @property
    def summary_lines(self) -> tuple[str, ...]:
        """What a person is told at the end of a build."""
        made = self.made
        counts = [
            number_of(made.trees, "tree"),
            number_of(made.photographs, "photograph"),
            number_of(len(made.site.pages), "page"),
            f"{number_of(made.encoded, 'picture')} encoded",
        ]
        lines = [f"{self.out}: {self.edition.value} edition as of {self.as_of.isoformat()}, {', '.join(counts)}"]
        for out in made.left_out:
            lines.append(f"left out: {number_of(out.count, out.what.removesuffix('s'))} ({out.why})")
        return tuple(lines)


def _pages(folder: Path, pages: Path | None) -> Path:
    return pages.resolve() if pages is not None else folder.resolve() / "pages"


def build_site(
    folder: Path,
    out: Path,
    *,
    edition: Edition = Edition.PUBLIC,
    as_of: date | None = None,
    site_url: str | None = None,
    pages: Path | None = None,
    cache: Path | None = None,
    quiet: bool = False,
) -> Built:
    """Make the site of one edition at `out`.

    The site is written beside `out` and then put in its place by renaming, so that a build that is stopped leaves the
    former site whole. Raises pipeline.RefusedError where something private would get out, a record cannot be trusted or
    a link of a hand-written page leads nowhere, and OSError where the disk refuses. A build says nothing itself,
    `quiet` or not: what it has to tell is returned.
    """
    out, as_of = out.resolve(), as_of or date.today()
    out.parent.mkdir(parents=True, exist_ok=True)
    room = Path(tempfile.mkdtemp(prefix=f".{out.name}-", dir=out.parent))
    try:
        with config_file(folder, edition, as_of, site_url, pages, cache) as written, _heard(_pages(folder, pages)):
            config = load_config(config_file=str(written), site_dir=str(room / "site"))
            plugin = config.plugins["living_archive"]
            assert isinstance(plugin, ArchivePlugin)
            config.plugins.on_startup(command="build", dirty=False)
            try:
                mkdocs_build(config)
            finally:
                config.plugins.on_shutdown()
        put_in_place(room / "site", out)
        return Built(plugin.made, out, edition, as_of)
    finally:
        shutil.rmtree(room, ignore_errors=True)


def serve_site(
    folder: Path,
    *,
    edition: Edition = Edition.PUBLIC,
    as_of: date | None = None,
    port: int = 8000,
    pages: Path | None = None,
    cache: Path | None = None,
    out: Path | None = None,
    quiet: bool = False,
) -> None:
    """Show the site on this machine alone (127.0.0.1) and build it again when a record changes, until interrupted.

    With `out` the site is also kept there, as it was at the start.
    """
    if out is not None:
        build_site(folder, out, edition=edition, as_of=as_of, pages=pages, cache=cache, quiet=quiet)
    config = config_file(folder, edition, as_of, None, pages, cache, announce=True)
    with config as written, _heard(_pages(folder, pages), aloud=not quiet):
        mkdocs_serve(str(written), livereload=True, dev_addr=f"127.0.0.1:{port}")


class _Heard(logging.Handler):
    """Keeps what MkDocs warns of. It is a handler of ours that is quiet: lowering MkDocs' own logger would switch its
    strict mode off.
    """

    def __init__(self, *, aloud: bool) -> None:
        super().__init__(logging.WARNING)
        self.messages: list[str] = []
        self.aloud = aloud

    def emit(self, record: logging.LogRecord) -> None:
        """Keep one message, and say it where nobody else will."""
        self.messages.append(record.getMessage())
        if self.aloud:
            print(record.getMessage(), file=sys.stderr, flush=True)


@contextmanager
def _heard(pages: Path, *, aloud: bool = False) -> Iterator[None]:
    """Turns a build that MkDocs stops into a refusal that names the pages and links at fault."""
    logger, heard = logging.getLogger("mkdocs"), _Heard(aloud=aloud)
    logger.addHandler(heard)
    try:
        yield
    except Abort as stopped:
        problems = link_problems(heard.messages or [str(stopped)], pages, pages.name)
        raise pipeline.RefusedError(problems) from stopped
    finally:
        logger.removeHandler(heard)
