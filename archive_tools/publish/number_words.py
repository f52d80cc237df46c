"""Small numbers in words, as running text has them."""

from __future__ import annotations

from archive_tools.publish.context import Context


def number_in_words(context: Context, number: int) -> str:
    """One to twelve in words, the rest in figures."""
    _ = context.translations.gettext
    words = (
        _("no"), _("one"), _("two"), _("three"), _("four"), _("five"), _("six"), _("seven"), _("eight"), _("nine"),
        _("ten"), _("eleven"), _("twelve"),
    )  # fmt: skip
    return words[number] if 0 <= number < len(words) else str(number)


def counted_trees(context: Context, number: int) -> str:
    """Like "Nine trees", "43 trees", as a sentence begins."""
    said = context.translations.ngettext("%(number)s tree", "%(number)s trees", number)
    words = said % {"number": number_in_words(context, number)}
    return words[:1].upper() + words[1:]
