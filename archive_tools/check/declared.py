"""What is declared public, before embargoes: what a record says, else the default, never more than its tree.

Rules about what the public may see judge by this, so that a mistake is told before an embargo ends and not on its day.
What an edition really shows is decided elsewhere.
"""

from __future__ import annotations

from archive_tools.model.collection import Collection
from archive_tools.model.event import Event
from archive_tools.model.grades import Visibility
from archive_tools.model.kinds import KINDS
from archive_tools.model.people import Steward
from archive_tools.model.photo import Photo
from archive_tools.model.tree import Tree


def is_public(collection: Collection, sort: str, written: Visibility | None) -> bool:
    """Whether a thing of this sort ("trees", "events", …) is declared public by itself."""
    return (written or collection.settings.defaults.get(sort, Visibility.INTERNAL)) is Visibility.PUBLIC


def public_tree(collection: Collection, tree: Tree) -> bool:
    """Whether the tree is declared public."""
    return is_public(collection, "trees", tree.visibility)


def public_photo(collection: Collection, tree: Tree, photo: Photo) -> bool:
    """Whether the photograph and every tree it shows are declared public."""
    shown = [tree, *(collection.trees[a] for a in photo.of if a in collection.trees)]
    return is_public(collection, "photographs", photo.visibility) and all(public_tree(collection, one) for one in shown)


def public_event(collection: Collection, tree: Tree, event: Event) -> bool:
    """Whether the event is declared public, and its tree with it."""
    kind = KINDS.get(event.kind)
    if event.visibility is None and kind is not None and kind.restricted_unless_said:
        return False
    return is_public(collection, "events", event.visibility) and public_tree(collection, tree)


def public_steward(collection: Collection, steward: Steward) -> bool:
    """Whether the public edition may name the steward."""
    return steward.public_name is None and is_public(collection, "stewards", steward.visibility)
