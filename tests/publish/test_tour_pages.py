"""The pages of walks: the frame in the language of the site, and whatever is not in it marked with its own."""

from __future__ import annotations

from dataclasses import replace

from archive_tools.model.words import Words
from archive_tools.publish.context import Context
from archive_tools.publish.tour_pages import tour_pages
from archive_tools.publish.translation import translations_for
from tests.publish.spoken.walks import context, plan, tour

BOTH = Words((("en", "All of them"), ("ja", "すべての木")))


def japanese_site(title: Words) -> Context:
    """A Japanese site with one walk, which is given in English."""
    asked = context(language="ja")
    walk = replace(tour(), title=title, language="en")
    view = replace(
        asked.view,
        records=replace(asked.view.records, tours={"all-of-them": walk}),
        findings=replace(asked.view.findings, tours={"all-of-them": plan()}),
    )
    return replace(asked, view=view, translations=translations_for("ja"))


def bodies(site: Context) -> dict[str, str]:
    return {page.path: page.body for page in tour_pages(site)}


def test_a_list_of_walks_marks_what_is_said_in_another_language() -> None:
    listed = bodies(japanese_site(BOTH))["tours/index.md"]
    assert "<h2><a" in listed
    assert "すべての木" in listed
    assert '<p lang="en">Look at the foot of it.' in listed


def test_a_title_that_nobody_translated_says_its_language() -> None:
    made = bodies(japanese_site(Words((("en", "All of them"),))))
    assert '<h2 lang="en"><a' in made["tours/index.md"]
    assert '<h1 id="name" lang="en">All of them</h1>' in made["tours/all-of-them/index.md"]


def test_the_plan_of_a_walk_is_told_in_the_language_of_the_site() -> None:
    planned = bodies(japanese_site(BOTH))["tours/all-of-them/index.md"]
    assert '<h1 id="name">すべての木</h1>' in planned
    assert "All of them" not in planned


def test_the_walk_itself_is_in_its_own_language() -> None:
    walked = bodies(japanese_site(BOTH))["tours/all-of-them/walk/index.md"]
    assert 'lang="en"' in walked
    assert "All of them" in walked
