"""Names of stewards and trees as an edition has them: an id never stands in for a name that is withheld."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from archive_tools.model.collection import Collection
from archive_tools.reason.lineage import sayings as say


class Names:
    """The names of one edition, in one language."""

    def __init__(self, collection: Collection, translate: Callable[[str], str]) -> None:
        self.collection = collection
        self.translate = translate
        languages = collection.settings.languages
        self.language = languages[0] if languages else ""

    def steward(self, steward_id: str) -> str:
        """A steward's name; text that is no id is the name it is."""
        steward = self.collection.stewards.get(steward_id)
        if steward is None:
            return steward_id
        name = steward.name.say(self.language)
        return self.translate(name) if steward.masked else name

    def stewards(self, ids: Sequence[str]) -> str:
        """Several: "A, B and C"."""
        return self.listed([self.steward(one) for one in ids])

    def is_person(self, steward_id: str) -> bool:
        """Whether a steward is somebody who can die, not a house that can close."""
        steward = self.collection.stewards.get(steward_id)
        return steward is not None and steward.kind in ("person", "couple", "family", "unknown")

    def tree(self, accession: str) -> str:
        """A tree by its number and its name, if it has one."""
        tree = self.collection.trees.get(accession)
        if tree is None or not tree.name:
            return accession
        return f"{accession} {tree.name.say(self.language)}"

    def trees(self, accessions: Sequence[str]) -> str:
        """Several trees."""
        return self.listed([self.tree(one) for one in accessions])

    def listed(self, items: Sequence[str]) -> str:
        """Like "A, B and C"."""
        if len(items) < 2:
            return "".join(items)
        return self.translate(say.LIST) % {"some": self.translate(say.COMMA).join(items[:-1]), "last": items[-1]}
