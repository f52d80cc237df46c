"""Every word of the pages passes through a message catalogue."""

from __future__ import annotations

import re
from gettext import NullTranslations
from pathlib import Path

from babel.messages.extract import DEFAULT_KEYWORDS, extract_from_dir
from babel.messages.frontend import parse_mapping_cfg

import archive_tools
from archive_tools.model.grades import Edition
from archive_tools.publish import make_site
from archive_tools.publish.translation import translations_for
from tests.publish.sample_view import sample_pictures, sample_view

PACKAGE = Path(archive_tools.__file__).parent


def messages() -> set[str]:
    """The message ids that Babel finds with the mapping that comes with the package."""
    with (PACKAGE / "locale" / "babel.cfg").open(encoding="utf-8") as mapping:
        methods, options = parse_mapping_cfg(mapping)
    found: set[str] = set()
    for _, _, message, _, _ in extract_from_dir(
        str(PACKAGE), methods, options, {**DEFAULT_KEYWORDS, "translate": None}
    ):
        found |= set(message) if isinstance(message, tuple) else {message}
    return found


class Marked(NullTranslations):
    """A catalogue in which every translation is its message in brackets."""

    def gettext(self, message: str) -> str:
        return f"⟦{message}⟧"

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return f"⟦{msgid1 if n == 1 else msgid2}⟧"


def test_the_mapping_finds_the_words_of_modules_and_templates() -> None:
    found = messages()
    assert {"How we know", "Dates under review", "The line of stewards", "Repotted", "%(n)s year"} <= found
    assert len(found) > 250


def test_no_word_of_a_page_escapes_the_catalogue() -> None:
    known = {message for message in messages() if re.search(r"[A-Za-z]{3}", message)}
    for edition in Edition:
        site = make_site(sample_view(edition), sample_pictures(), Marked())
        for page in site.pages:
            texts = {text.strip() for text in re.findall(r">([^<>]+)<", page.body)}
            texts |= set(re.findall(r'(?:aria-label|data-says|data-all|data-some)="([^"]+)"', page.body))
            assert texts & known == set(), page.path
        words = set(site.frame.words.values()) | {entry.title for entry in site.frame.masthead}
        assert all("⟦" in word for word in words)


def test_a_language_without_a_catalogue_is_english() -> None:
    assert translations_for("xx-Latn").gettext("How we know") == "How we know"
