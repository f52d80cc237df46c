"""Style, tradition and origin in words, with the Japanese or Chinese term where visitors meet it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from archive_tools.model.event import Event
from archive_tools.model.tree import Tree
from archive_tools.model.vocabulary import PENJING_CLASSES, STYLES
from archive_tools.publish.context import Context

Say = Callable[[str], str]


@dataclass(frozen=True, slots=True)
class Term:
    """A term, and the word of its own tradition with that word's language, if there is one. path: of the page of a
    thing that has one, from the site's root.
    """

    word: str
    native: str | None = None
    language: str = ""
    path: str | None = None


def style_words(_: Say) -> Mapping[str, str]:
    """Style terms in the language of the page."""
    return {
        "formal upright": _("formal upright"), "informal upright": _("informal upright"), "slanting": _("slanting"),
        "semi-cascade": _("semi-cascade"), "cascade": _("cascade"), "literati": _("literati"),
        "windswept": _("windswept"), "broom": _("broom"), "weeping": _("weeping"),
        "twisted trunk": _("twisted trunk"), "twin trunk": _("twin trunk"), "triple trunk": _("triple trunk"),
        "multi-trunk": _("multi-trunk"), "clump": _("clump"), "raft": _("raft"), "sinuous raft": _("sinuous raft"),
        "forest": _("forest"), "root over rock": _("root over rock"), "planted on rock": _("planted on rock"),
        "exposed root": _("exposed root"), "driftwood": _("driftwood"), "split trunk": _("split trunk"),
    }  # fmt: skip


def styles_of(context: Context, tree: Tree) -> tuple[Term, ...]:
    """The tree's styles."""
    return tuple(style_term(context, form) for form in tree.form)


def style_term(context: Context, form: str) -> Term:
    """A style, with its Japanese word where the page itself is not in Japanese."""
    native = None if context.language.split("-", maxsplit=1)[0] == "ja" else STYLES.get(form)
    return Term(style_words(context.translations.gettext).get(form, form), native, "ja-Latn")


def tradition_of(context: Context, tree: Tree) -> Term | None:
    """Bonsai, penjing with its class, or another tradition; None where the record does not say."""
    _ = context.translations.gettext
    words = {"bonsai": _("bonsai"), "penjing": _("penjing"), "other": _("another tradition")}
    if tree.tradition is None and tree.penjing_class is None:
        return None
    tradition = words.get(tree.tradition or "penjing", tree.tradition or "")
    if tree.penjing_class is None:
        return Term(tradition)
    classes = {"tree": _("penjing, tree"), "landscape": _("penjing, landscape"),
               "water-and-land": _("penjing, water-and-land")}  # fmt: skip
    word = classes.get(tree.penjing_class, f"{tradition}, {tree.penjing_class}")
    return Term(word, PENJING_CLASSES.get(tree.penjing_class), "zh-Latn")


def beginning_words(_: Say) -> Mapping[str, str]:
    """How a tree began, by the kind of the event that says so."""
    return {
        "sown": _("seed"), "germinated": _("seed"), "struck": _("cutting"), "layer severed": _("layering"),
        "raised from graft": _("grafting"), "raised from division": _("division"), "collected": _("collected"),
        "assembled": _("planted together"),
    }  # fmt: skip


def beginning_of(context: Context, tree: Tree) -> str:
    """How the tree began: seed, cutting, collected …, or "not known"."""
    _ = context.translations.gettext
    words = beginning_words(_)
    # A planting is first of all planted together; what its members grew from is told with them.
    kinds = [event.kind for event in tree.events if event.kind in words and not event.planned]
    if tree.is_planting and "assembled" in kinds:
        return words["assembled"]
    return words[kinds[0]] if kinds else _("not known")


def hazard_words(_: Say) -> Mapping[str, str]:
    """What a visitor or a helper should mind."""
    return {
        "sharp": _("Sharp: do not reach into it."), "irritant sap": _("Its sap irritates the skin."),
        "poisonous if eaten": _("Poisonous if eaten."), "heavy": _("Heavy: never lifted by one person."),
    }  # fmt: skip


def hazards_of(context: Context, tree: Tree) -> tuple[str, ...]:
    """The tree's hazards as short sentences; a term of the house's own as it stands."""
    words = hazard_words(context.translations.gettext)
    return tuple(words.get(hazard, f"{hazard[:1].upper()}{hazard[1:]}.") for hazard in tree.hazards)


def first_event(tree: Tree, kinds: frozenset[str]) -> Event | None:
    """The first written event of one of these kinds."""
    return next((event for event in tree.events if event.kind in kinds and not event.planned), None)
