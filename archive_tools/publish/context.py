"""What every page is made from: the view, the pictures, and the words of one language."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from gettext import NullTranslations
from typing import Any

from babel import Locale
from markupsafe import Markup, escape

from archive_tools.model.collection import Selected
from archive_tools.model.event import Event
from archive_tools.model.people import Steward
from archive_tools.model.pictures import Pictures
from archive_tools.model.tree import Tree
from archive_tools.model.view import EditionView
from archive_tools.model.words import Words
from archive_tools.publish import botanical_names
from archive_tools.publish.addresses import addresses
from archive_tools.publish.date_words import DateWords
from archive_tools.publish.japanese_marks import with_own_marks
from archive_tools.publish.templates import environment
from archive_tools.publish.typography import set_in_type


@dataclass(frozen=True, slots=True)
class Named:
    """Somebody or something with a name, and the path of its page relative to the site's root, if it has one."""

    name: str
    path: str | None = None
    language: str = ""


@dataclass(frozen=True)
class Context:
    """One edition in one language, with the few things every page asks for."""

    view: EditionView
    pictures: Pictures
    language: str
    translations: NullTranslations

    @property
    def records(self) -> Selected:
        """The records of the edition."""
        return self.view.records

    @property
    def is_public(self) -> bool:
        """True in the public edition."""
        return self.view.is_public

    @property
    def as_of(self) -> date:
        """The day for which ages are worked out."""
        return self.view.as_of

    @cached_property
    def dates(self) -> DateWords:
        """Dates in words."""
        return DateWords(self.language, self.translations)

    @cached_property
    def tree_addresses(self) -> Mapping[str, str]:
        """Folder names of the trees' pages, by accession."""
        return addresses(self.records.trees)

    @cached_property
    def steward_addresses(self) -> Mapping[str, str]:
        """Folder names of the stewards' pages, by id; masked stewards have none."""
        return addresses(key for key, steward in self.records.stewards.items() if not steward.masked)

    @cached_property
    def object_addresses(self) -> Mapping[str, str]:
        """Folder names of the pages of pots, trays, stands …, by id; masked ones have none."""
        return addresses(key for key, thing in self.records.objects.items() if not thing.masked)

    @cached_property
    def offspring(self) -> Mapping[str, tuple[tuple[Tree, Event], ...]]:
        """By the mother's accession: the trees raised from it, each with the event that says so."""
        found: dict[str, list[tuple[Tree, Event]]] = {}
        for tree in self.records.trees.values():
            for event in tree.events:
                mother = event.from_tree.accession if event.from_tree else None
                if mother is not None and mother != tree.accession:
                    found.setdefault(mother, []).append((tree, event))
        return {mother: tuple(raised) for mother, raised in found.items()}

    @cached_property
    def plantings(self) -> Mapping[str, tuple[Tree, ...]]:
        """By a member's accession: the plantings it is part of."""
        found: dict[str, list[Tree]] = {}
        for tree in self.records.trees.values():
            for accession in dict.fromkeys(member.accession for member in tree.members if member.accession):
                found.setdefault(accession, []).append(tree)
        return {accession: tuple(trees) for accession, trees in found.items()}

    @cached_property
    def house(self) -> str:
        """The collection's name."""
        return self.say(self.records.settings.name)

    def say(self, words: Words | None) -> str:
        """A text in the language of the site, set in type; "" for none."""
        return (
            set_in_type(words.say(self.language), words.language_said(self.language) or self.language) if words else ""
        )

    def tree_path(self, accession: str) -> str | None:
        """Where a tree's page stands, from the site's root; None for a tree the edition does not hold."""
        address = self.tree_addresses.get(accession)
        return None if address is None else f"trees/{address}/"

    def tree_name(self, tree: Tree) -> str:
        """What the tree is called on a page."""
        if tree.name or tree.common_name:
            return self.say(tree.name or tree.common_name)
        return ", ".join(botanical_names.plain(name) for name in tree.taxon)

    def tree_named(self, accession: str) -> Named:
        """A tree with its page, or the bare number of one the edition does not hold."""
        tree = self.records.trees.get(accession)
        return Named(accession) if tree is None else Named(self.tree_name(tree), self.tree_path(accession))

    def tree_heading(self, tree: Tree) -> Markup:
        """The same for a heading: a tree known by its botanical name alone has it set by the codes."""
        if tree.name or tree.common_name:
            return escape(self.tree_name(tree))
        return Markup(", ").join(self.botanical(name) for name in tree.taxon)

    def taxa_beside(self, tree: Tree) -> tuple[Markup, ...]:
        """The botanical names that stand under the heading: none where they are the heading."""
        return tuple(self.botanical(name) for name in tree.taxon) if tree.name or tree.common_name else ()

    def steward(self, steward_id: str) -> Named:
        """A steward by name, with the page if there is one. Text that is no id is taken as the name it is."""
        steward = self.records.stewards.get(steward_id)
        if steward is None:
            return Named(steward_id)
        return Named(self.steward_name(steward), self.steward_path(steward_id))

    def steward_name(self, steward: Steward) -> str:
        """The steward's name; the plain words for one who is withheld pass through the catalogue."""
        name = self.say(steward.name)
        return self.translations.gettext(name) if steward.masked else name

    def steward_path(self, steward_id: str) -> str | None:
        """Where a steward's page stands, from the site's root."""
        address = self.steward_addresses.get(steward_id)
        return None if address is None else f"stewards/{address}/"

    def object_path(self, object_id: str) -> str | None:
        """Where the page of a pot, tray, stand … stands, from the site's root."""
        address = self.object_addresses.get(object_id)
        return None if address is None else f"objects/{address}/"

    def thing(self, object_id: str) -> Named:
        """A pot, tray, stand … by name, with its page if there is one; text that is no id as the name it is."""
        known = self.records.objects.get(object_id)
        if known is None:
            return Named(object_id)
        name = self.say(known.name)
        return Named(self.translations.gettext(name) if known.masked else name, self.object_path(object_id))

    def stewards(self, ids: tuple[str, ...]) -> tuple[Named, ...]:
        """Several stewards by name."""
        return tuple(self.steward(steward_id) for steward_id in ids)

    def names(self, ids: tuple[str, ...]) -> str:
        """Several stewards in one text: "A, B and C"."""
        return self.listed([self.steward(steward_id).name for steward_id in ids])

    def listed(self, items: list[str]) -> str:
        """Like "A, B and C"."""
        if len(items) < 2:
            return "".join(items)
        _ = self.translations.gettext
        return _("%(some)s and %(last)s") % {"some": _(", ").join(items[:-1]), "last": items[-1]}

    def place(self, place_id: str | None) -> str:
        """A place by name; text that is no place id as it is; "" for none, or for one the public may not know."""
        if not place_id:
            return ""
        place = self.records.places.get(place_id)
        return place_id if place is None else self.say(place.name)

    def is_here(self, place_id: str | None) -> bool:
        """Whether it is a place of the house itself."""
        return place_id in self.records.places

    def language_name(self, language: str) -> str:
        """What a language is called in itself: "日本語"."""
        return Locale.parse(language.replace("-", "_")).get_display_name() or language

    def botanical(self, name: str) -> Markup:
        """A botanical name, set by the codes."""
        return botanical_names.markup(name, self.language)

    def render(self, template: str, path: str, **values: Any) -> str:
        """A template's HTML for the page at `path` (its source path, like "trees/S1979.2/index.md")."""
        env = environment(self.translations)
        html = env.get_template(template).render(c=self, root=root_of(path), **values)
        return with_own_marks(html, self.language)


def root_of(path: str) -> str:
    """The way from a page to the site's root: "../../" for "trees/S1979.2/index.md", "../" for "visiting.md"."""
    parts = path.split("/")
    depth = len(parts) - 1 if parts[-1] == "index.md" else len(parts)
    return "../" * depth
