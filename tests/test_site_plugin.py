"""The one file that knows MkDocs: what reaches the site, what does not, and what an interrupted build leaves."""

from __future__ import annotations

import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest

from archive_tools import pipeline, site_plugin
from archive_tools.model.grades import Edition
from archive_tools.model.page import Frame, Page, Site, SiteFile
from archive_tools.model.places_in_files import Mark
from archive_tools.model.problems import Problem
from archive_tools.site_plugin import build_site

AS_OF = date(2026, 11, 25)
ROOT = Path(__file__).resolve().parent.parent


def frame(**keys: object) -> Frame:
    words = dict.fromkeys(
        (
            "skip",
            "main",
            "more",
            "edition",
            "paper",
            "light",
            "dark",
            "device",
            "as_of",
            "lost_title",
            "lost_text",
            "lost_link",
        ),
        "words",
    )
    return Frame(house="The House & Co", accent_light="#174a55", accent_dark="#93c6cd", words=words, **keys)  # type: ignore[arg-type]


HOME = Page("index.md", "The House & Co", "<h1>Home</h1>", "home", "A <house>.")
TREE = Page("trees/T1/index.md", "A “tree”", '<h1 id="name">{{ not a template }} *not Markdown*</h1>', "trees")
WRITTEN = Page("visiting.md", "Visiting", "# Visiting\n\nSee [a tree](trees/T1/index.md).\n", "visit", is_markdown=True)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A collection folder with things in it that must never be copied."""
    (tmp_path / "collection" / "trees").mkdir(parents=True)
    (tmp_path / "collection" / "trees" / "secret.md").write_text("# secret", "utf-8")
    (tmp_path / "collection" / "secret.jpg").write_bytes(b"original")
    (tmp_path / "cache" / "pictures").mkdir(parents=True)
    (tmp_path / "cache" / "pictures" / "ours.jpg").write_bytes(b"ours")
    (tmp_path / "cache" / "pictures" / "other-edition.jpg").write_bytes(b"theirs")
    return tmp_path


def made(site: Site) -> pipeline.Made:
    return pipeline.Made(site=site, problems=(), trees=1, photographs=1, left_out=())


def build(folder: Path, monkeypatch: pytest.MonkeyPatch, site: Site, **keys: object) -> Path:
    monkeypatch.setattr(site_plugin.pipeline, "make", lambda *_args, **_keys: made(site))
    out = folder / "site"
    build_site(folder / "collection", out, as_of=AS_OF, cache=folder / "cache", quiet=True, **keys)  # type: ignore[arg-type]
    return out


def test_pages_and_files_of_the_edition_reach_the_site_and_nothing_else(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    files = (SiteFile("pictures/ours.jpg", copied_from="pictures/ours.jpg"), SiteFile("data/x.json", b"{}"))
    out = build(folder, monkeypatch, Site((HOME, TREE, WRITTEN), files, frame()))
    found = {p.relative_to(out).as_posix() for p in out.rglob("*") if p.is_file()}
    assert {f for f in found if not f.startswith("assets/")} == {
        "404.html", "index.html", "trees/T1/index.html", "visiting/index.html", "pictures/ours.jpg", "data/x.json",
    }  # fmt: skip
    theme = {
        p.relative_to(site_plugin.THEME).as_posix() for p in (site_plugin.THEME / "assets").rglob("*") if p.is_file()
    }
    assert {f for f in found if f.startswith("assets/")} == theme, "no file of another theme"


def test_a_body_is_neither_a_template_nor_markdown(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    out = build(folder, monkeypatch, Site((HOME, TREE), (), frame()))
    html = (out / "trees" / "T1" / "index.html").read_text("utf-8")
    assert TREE.body in html
    assert "<title>A “tree” – The House &amp; Co</title>" in html


def test_descriptions_are_escaped_and_links_of_written_pages_followed(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    out = build(folder, monkeypatch, Site((HOME, TREE, WRITTEN), (), frame()))
    assert 'content="A &lt;house&gt;."' in (out / "index.html").read_text("utf-8")
    assert '<a href="../trees/T1/">a tree</a>' in (out / "visiting" / "index.html").read_text("utf-8")


def test_a_link_that_leads_nowhere_stops_the_build_and_leaves_the_former_site(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    out = build(folder, monkeypatch, Site((HOME, TREE), (), frame()))
    before = (out / "index.html").read_bytes()
    bad = Page("visiting.md", "Visiting", "[gone](trees/T9/index.md)", is_markdown=True)
    (folder / "content").mkdir()
    (folder / "content" / "visiting.md").write_text(
        "---\ntitle: Visiting\n---\n\nOr [gone](trees/T9/index.md).\n", "utf-8"
    )
    with pytest.raises(pipeline.RefusedError) as refused:
        build(folder, monkeypatch, Site((Page("index.md", "x", "new"), bad), (), frame()), pages=folder / "content")
    (problem,) = refused.value.problems
    assert str(problem.mark) == "content/visiting.md:5:11"
    assert problem.what == "the link “trees/T9/index.md” leads nowhere"
    assert (out / "index.html").read_bytes() == before
    assert sorted(p.name for p in folder.iterdir()) == ["cache", "collection", "content", "site"]


def test_a_refusal_is_passed_on_and_leaves_the_former_site(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    out = build(folder, monkeypatch, Site((HOME,), (), frame()))
    problem = Problem(Mark("trees/x/tree.yml", 3, 1), "a name that is not public")

    def refuse(*_args: object, **_keys: object) -> pipeline.Made:
        raise pipeline.RefusedError([problem])

    monkeypatch.setattr(site_plugin.pipeline, "make", refuse)
    with pytest.raises(pipeline.RefusedError) as refused:
        build_site(folder / "collection", out, as_of=AS_OF, cache=folder / "cache", quiet=True)
    assert refused.value.problems == (problem,)
    assert (out / "index.html").is_file()


def test_canonical_addresses_only_where_the_house_has_one(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    out = build(folder, monkeypatch, Site((HOME, TREE), (), frame()))
    assert "canonical" not in (out / "trees" / "T1" / "index.html").read_text("utf-8")
    assert "og:" not in (out / "index.html").read_text("utf-8")
    out = build(folder, monkeypatch, Site((HOME, TREE), (), frame(site_url="https://house.example/trees")))
    html = (out / "trees" / "T1" / "index.html").read_text("utf-8")
    assert '<link rel="canonical" href="https://house.example/trees/trees/T1/">' in html
    assert (out / "sitemap.xml").is_file()
    assert 'href="/trees/assets/catalogue.css"' in (out / "404.html").read_text("utf-8")


def test_the_internal_edition_keeps_out_of_indexes_and_has_no_sitemap(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    site = Site((HOME,), (), frame(band="Internal edition, as of 25 November 2026."))
    out = build(folder, monkeypatch, site, edition=Edition.INTERNAL, site_url="https://house.example/")
    html = (out / "index.html").read_text("utf-8")
    assert '<meta name="robots" content="noindex">' in html
    assert "Internal edition, as of 25 November 2026." in html
    assert "canonical" not in html
    assert not (out / "sitemap.xml").exists()


def test_the_language_of_the_frame_is_that_of_the_edition(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    out = build(folder, monkeypatch, Site((HOME,), (), frame(language="ja")))
    assert '<html lang="ja">' in (out / "index.html").read_text("utf-8")
    assert '<html lang="ja">' in (out / "404.html").read_text("utf-8")


def test_the_summary_counts(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(site_plugin.pipeline, "make", lambda *_a, **_k: made(Site((HOME,), (), frame())))
    built = build_site(folder / "collection", folder / "site", as_of=AS_OF, cache=folder / "cache", quiet=True)
    assert built.summary_lines[0].endswith(
        "site: public edition as of 2026-11-25, 1 tree, 1 photograph, 1 page, 0 pictures encoded"
    )


@pytest.mark.slow
def test_mkdocs_alone_builds_the_demo(tmp_path: Path) -> None:
    command = [sys.executable, "-m", "mkdocs", "build", "--strict", "--site-dir", str(tmp_path / "site")]
    built = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    assert built.returncode == 0, built.stderr
    assert (tmp_path / "site" / "trees" / "S1979.2" / "index.html").is_file()
    assert not (tmp_path / "site" / "staff-handbook").exists()
