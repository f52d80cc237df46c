"""Changes of hands that do not say whose hands."""

from __future__ import annotations

from collections.abc import Iterator

from archive_tools.check.telling import in_event, warning
from archive_tools.model.collection import Collection
from archive_tools.model.kinds import KINDS
from archive_tools.model.problems import Problem

_ARTICLE = {"exchange": "an exchange"}


def changes_without_hands(collection: Collection) -> Iterator[Problem]:
    """A gift, bequest, purchase, exchange or transfer without anybody; a loan to nobody; from and to the same."""
    for tree in collection.trees.values():
        for event in tree.events:
            kind = KINDS.get(event.kind)
            if kind is None or not kind.custody:
                continue
            called = _ARTICLE.get(event.kind, f"a {event.kind}")
            if kind.custody == "acquired" and not event.from_ and not event.to:
                what = f"{called} changes hands, and neither `from` nor `to` is written"
                instead = "`from` or `to` with the id of a steward, or both"
                yield in_event(tree.accession, event, ("kind",), "nobodys-hands", what, instead)
            elif kind.custody == "loan" and not event.to:
                what = "a loan goes to somebody, and `to` is not written"
                yield in_event(tree.accession, event, ("kind",), "nobodys-hands", what, "`to` with the id of a steward")
            elif event.from_ and set(event.from_) == set(event.to):
                what = f"{called} from and to the same hands changes nothing"
                yield in_event(tree.accession, event, ("to",), "same-hands", what, "whoever received the tree")


def loans_without_end(collection: Collection) -> Iterator[Problem]:
    """A loan that does not say when it ends; one that became a gift is ended by the gift."""
    for tree in collection.trees.values():
        for event in tree.events:
            if event.kind != "loan" or event.until is not None or event.planned:
                continue
            kept = any(KINDS[e.kind].custody == "acquired" and set(e.to) & set(event.to) for e in tree.events)
            if not kept:
                what = "this loan does not say when it ends, so the tree is still lent"
                yield warning(event.where.at("kind"), "loan-without-end", what, "`until`, as vague as it is known")


def bequests_of_the_living(collection: Collection) -> Iterator[Problem]:
    """A bequest by a person whose death is not recorded; it bounds the bequest."""
    for tree in collection.trees.values():
        for event in tree.events:
            for index, giver in enumerate(event.from_ if event.kind == "bequest" else ()):
                steward = collection.stewards.get(giver)
                if steward is not None and steward.died is None and steward.kind in ("person", "couple", "unknown"):
                    what = f"a bequest follows a death, and {giver} has no `died`"
                    instead = f"`died` in {steward.where.file}, as vague as it is known"
                    yield warning(event.where.at("from", index), "bequest-without-death", what, instead)


def tags_of_one_tree(collection: Collection) -> Iterator[Problem]:
    """Tags exchanged with no other tree named."""
    for tree in collection.trees.values():
        for event in tree.events:
            if event.kind == "tags exchanged" and not event.trees:
                what = "tags are exchanged between trees, and `trees` is not written"
                yield in_event(
                    tree.accession, event, ("kind",), "tags-of-one-tree", what, "`trees` with the other accessions"
                )
