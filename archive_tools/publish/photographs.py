"""Photographs as pages show them: the cuts, the words that stand for them, whom to credit."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from archive_tools.model.photo import Photo
from archive_tools.model.pictures import Cut, CutPicture
from archive_tools.model.tree import Tree
from archive_tools.publish.context import Context

PHONE = 600
"""The widest cut, in pixels, that a small screen is sent."""


@dataclass(frozen=True, slots=True)
class Shot:
    """One photograph of a page. `caption`, `credit` and `year` are words and may be empty."""

    picture: CutPicture
    alt: str
    caption: str = ""
    credit: str = ""
    year: str = ""

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
    )


def photographer(context: Context, photo: Photo) -> str:
    """Who took it, by name; "" where nobody is known."""
    return context.steward(photo.photographer).name if photo.photographer else ""


def credit(context: Context, photo: Photo) -> str:
    """The credit as its holder asks for it, else the photographer's name."""
    return context.say(photo.credit) or photographer(context, photo)


def rights(context: Context, photo: Photo) -> str:
    """The licence or rights statement, the collection's own where the photograph says nothing."""
    return photo.rights or context.records.settings.rights or ""
