"""The text of notes and labels: safe, linked, filled in."""

from __future__ import annotations

from gettext import NullTranslations
from html.parser import HTMLParser

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archive_tools.publish.context import Context
from archive_tools.publish.prose import Setting, as_text, block, inline, linked_markdown
from archive_tools.publish.typography import set_in_type, years_in_type
from tests.publish.sample_view import sample_pictures, sample_view

CONTEXT = Context(sample_view(), sample_pictures(), "en", NullTranslations())
HERE = Setting("../../", "M1")


class Elements(HTMLParser):
    def __init__(self, html: str) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.attributes: list[tuple[str, str]] = []
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.attributes += [(name, value or "") for name, value in attrs]


@pytest.mark.parametrize(
    "text",
    [
        "<script>alert(1)</script>",
        "a <b onclick=alert(1)>b</b>",
        "<img src=x onerror=alert(1)>",
        "<!-- hidden --> seen",
        "<div>\n\n*x*\n\n</div>",
        "&lt;i&gt;",
    ],
)
def test_raw_html_is_shown_as_it_is_written(text: str) -> None:
    tags = set(Elements(block(CONTEXT, text, HERE)).tags)
    assert tags <= {"p", "em"}


@pytest.mark.parametrize(
    "href", ["javascript:alert(1)", "JaVaScRiPt:alert(1)", "data:text/html,x", "../tree.yml", "//x"]
)
def test_a_link_that_is_not_safe_stays_as_words(href: str) -> None:
    made = Elements(block(CONTEXT, f"[words]({href})", HERE))
    assert "a" not in made.tags
    assert not any("script" in value for _, value in made.attributes)


@pytest.mark.parametrize("href", ["https://example.org/", "http://example.org/", "mailto:a@example.org", "#there"])
def test_a_link_that_is_safe_stays_a_link(href: str) -> None:
    assert ("href", href) in Elements(block(CONTEXT, f"[words]({href})", HERE)).attributes


@given(st.text(alphabet="<>&\"'`[](){}!*_#-=x/:;javscript\n ", max_size=60))
def test_no_text_makes_a_script_or_a_handler(text: str) -> None:
    made = Elements(block(CONTEXT, text, HERE))
    assert not {"script", "iframe", "style", "object", "embed"} & set(made.tags)
    assert not any(name.startswith("on") for name, _ in made.attributes)
    assert not any(value.strip().lower().startswith(("javascript:", "data:")) for _, value in made.attributes)


def test_headings_go_under_those_of_the_page_and_skip_no_level() -> None:
    made = block(CONTEXT, "### One\n\n##### Two\n\n### Three", Setting("../../", "M1", first_heading=4))
    assert Elements(made).tags == ["h4", "h5", "h4"]


def test_a_reference_becomes_a_link_with_the_name_of_the_tree() -> None:
    link = '<a href="../../trees/M2/">The Daughter</a>'
    assert link in block(CONTEXT, "See [[M2]].", HERE)
    assert link in inline(CONTEXT, "See [[M2]].", HERE)
    assert as_text(CONTEXT, "See [[M2]].") == "See The Daughter."
    assert linked_markdown(CONTEXT, "See [[M2]].", "") == "See [The Daughter](trees/M2/index.md)."


def test_a_reference_to_a_tree_the_edition_does_not_hold_is_no_link() -> None:
    assert "<a" not in block(CONTEXT, "See [[M9]].", HERE)
    assert inline(CONTEXT, "See [[M9]].", HERE) == "See M9."


def test_tokens_carry_range_hedge_and_day() -> None:
    assert as_text(CONTEXT, "since {{ since.care }}", "M1") == "since 1953"
    assert as_text(CONTEXT, "{{ years.care }}", "M1") == "73, as of November 2026"
    assert as_text(CONTEXT, "{{ since.care }}", "M2") == "1986 or earlier"
    assert as_text(CONTEXT, "{{ years.care }}", "M2") == "at least 40, as of November 2026"
    assert as_text(CONTEXT, "{{ years.care }}", "M3") == "dates under review"
    assert as_text(CONTEXT, "{{ since.care }}", "M/4") == "a day not known"


def test_a_picture_without_cuts_leaves_its_words() -> None:
    made = Elements(block(CONTEXT, "![the old print](../photos/gone.jpg)", HERE))
    assert "img" not in made.tags
    assert "the old print" in block(CONTEXT, "![the old print](../photos/gone.jpg)", HERE)


@pytest.mark.parametrize(
    ("typed", "set_"),
    [
        ("Halvard's Maple", "Halvard’s Maple"),
        ('he said "No. But it was freer."', "he said “No. But it was freer.”"),
        ("5' 11\"", "5' 11\""),
    ],
)
def test_apostrophes_and_quotation_marks_are_set_in_type(typed: str, set_: str) -> None:
    assert set_in_type(typed, "en") == set_
    assert set_in_type(typed, "ja") == typed


@pytest.mark.parametrize(
    ("typed", "set_"),
    [
        ("In training since 1953-1955", "In training since 1953–1955"),
        ("Between 1953-04-14 and 1955", "Between 1953-04-14 and 1955"),
        ("In training since 1953", "In training since 1953"),
    ],
)
def test_a_printer_sets_a_longer_dash_between_years(typed: str, set_: str) -> None:
    assert years_in_type(typed) == set_
