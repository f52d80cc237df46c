"""Photographs as pages show them: the cuts, the words that stand for them, whom to credit."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from archive_tools.model.photo import Photo
from archive_tools.model.pictures import Cut, CutPicture
from archive_tools.model.tree import Tree
from archive_tools.publish.context import Context
from archive_tools.publish.statement_words import dated_by_words

NOT_WRITTEN_DOWN = frozenset({"what it shows", "estimate", "scan"})
"""Reasons of a date that nobody wrote down when the picture was made."""
PHONE = 600
"""The widest cut, in pixels, that a small screen is sent."""


@dataclass(frozen=True, slots=True)
class Shot:
    """One photograph of a page. `caption`, `credit`, `year` and `doubt` are words and may be empty.

    doubt: that it is not certain to show this tree; whatever shows the photograph says so, in every edition.
    """

    picture: CutPicture
    alt: str
    caption: str = ""
    credit: str = ""
    year: str = ""
    doubt: str = ""

    @property
    def small(self) -> Cut:
        """What a phone is sent: the widest cut of at most 600 pixels, else the smallest there is."""
        fitting = [cut for cut in self.picture.cuts if cut.width <= PHONE]
        return fitting[-1] if fitting else self.picture.cuts[0]

    @property
    def middle(self) -> Cut:
        """The next larger cut, for a column of text or a dense small screen."""
        return self._after(self.small)

    @property
    def large(self) -> Cut:
        """The largest cut, for a picture that leads a wide page."""
        return self.picture.largest

    @property
    def ratio(self) -> float:
        """Width over height, to three decimals."""
        return round(self.picture.ratio, 3)

    def _after(self, cut: Cut) -> Cut:
        wider = [other for other in self.picture.cuts if other.width > cut.width]
        return wider[0] if wider else cut


def in_order(photos: tuple[Photo, ...]) -> list[Photo]:
    """Photographs by the earliest day they can be of; undated ones last, by name."""

    def key(photo: Photo) -> tuple[bool, str, str]:
        first = photo.when.said.first or photo.when.said.last if photo.when else None
        return (first is None, first.isoformat() if first else "", photo.file)

    return sorted(photos, key=key)


def shown(context: Context, tree: Tree) -> Iterator[Photo]:
    """The tree's photographs that have cuts, in order of time. "Certainly not this tree" is not shown."""
    for photo in in_order(tree.photos):
        if photo.path in context.pictures.photos and photo.sure != "no":
            yield photo


def portrait_photo(context: Context, tree: Tree) -> Photo | None:
    """The portrait, else the latest photograph of the front, else none."""
    named = tree.photo(tree.portrait) if tree.portrait else None
    if named is not None and named.path in context.pictures.photos:
        return named
    fronts = [photo for photo in shown(context, tree) if photo.view in {None, "front"} and photo.when]
    return fronts[-1] if fronts else None


def portrait(context: Context, tree: Tree) -> Shot | None:
    """The portrait as a page shows it."""
    photo = portrait_photo(context, tree)
    return None if photo is None else shot(context, tree, photo)


def shot(context: Context, tree: Tree, photo: Photo) -> Shot:
    """A photograph with its words. Raises KeyError for one without cuts."""
    _ = context.translations.gettext
    when = context.dates.when(photo.when)
    alt = context.say(photo.alt) or context.say(photo.caption)
    if not alt:
        alt = context.tree_name(tree)
        if when:
            alt = _("%(name)s, %(date)s") % {"name": alt, "date": when}
    return Shot(
        picture=context.pictures.photos[photo.path],
        alt=alt,
        caption=context.say(photo.caption),
        credit=credit(context, photo),
        year=context.dates.year(photo.when),
        doubt=doubt(context, photo),
    )


def doubt(context: Context, photo: Photo) -> str:
    """That a photograph is not certain to show this tree, as it stands within a line; "" where nobody doubts it."""
    return context.translations.gettext("probably this tree") if photo.sure == "probably" else ""


def caution(context: Context, photo: Photo) -> str:
    """What a reader of a caption has to be told before it: "Probably this tree. Dated by estimate", or "".

    What a date itself says ("about 1962", "perhaps 1953") is said with the date.
    """
    dating = dated_by_words(context, photo) if photo.dated_by in NOT_WRITTEN_DOWN else ""
    told = "; ".join(part for part in (doubt(context, photo), dating[:1].lower() + dating[1:]) if part)
    return f"{told[:1].upper()}{told[1:]}"


def photographer(context: Context, photo: Photo) -> str:
    """Who took it, by name; "" where nobody is known."""
    return context.steward(photo.photographer).name if photo.photographer else ""


def credit(context: Context, photo: Photo) -> str:
    """The credit as its holder asks for it, else the photographer's name."""
    return context.say(photo.credit) or photographer(context, photo)


def rights(context: Context, photo: Photo) -> str:
    """The licence or rights statement, the collection's own where the photograph says nothing."""
    return photo.rights or context.records.settings.rights or ""
