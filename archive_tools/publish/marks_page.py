"""Placing marks: a page of the internal edition on which marks and a scale are pointed at in a photograph.

The page carries what it needs (pictures, marks, words) and writes the lines for photos.yml in the browser; nothing is
sent anywhere. Positions are pixels of the upright original, although a reduced cut is shown.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from dataclasses import asdict, dataclass
from importlib.resources import files
from urllib.parse import urlencode

from markupsafe import Markup

from archive_tools.model.page import Page, SiteFile
from archive_tools.model.photo import ComparisonWanted, Photo
from archive_tools.model.tree import Tree
from archive_tools.publish.context import Context, root_of
from archive_tools.publish.photographs import shown

PLACING = 2.0
"""Standard uncertainty with which a mark is placed, in pixels along each axis: what measuring reckons with as well."""
UNSURE_SCALE = 0.02
"""A scale so short that placing its two ends alone leaves more than this share uncertain is warned of."""
ON_ONE_LINE = 0.05
"""Marks spread across their common line by less than this share of their spread along it stand on one line."""
INSTRUMENTS = ("marks.css", "marks.js")
MARKS_FOLDER = "assets"


@dataclass(frozen=True, slots=True)
class MarkedPhoto:
    """A photograph as the page knows it: the cut shown, the upright original's size, what is written of it already.

    `where` is its entry in photos.yml, `listed` whether there is one, `indent` the column of the entry's keys.
    """

    file: str
    named: str
    url: str
    width: int
    height: int
    where: str
    listed: bool
    indent: int
    marks: tuple[tuple[str, tuple[float, float]], ...]
    scale: tuple[str, str, str, str] | None


@dataclass(frozen=True, slots=True)
class AskedPair:
    """A comparison, and the names of marks it leans on."""

    id: str
    before: str
    after: str
    names: tuple[str, ...]


def marks_pages(context: Context) -> Iterator[Page]:
    """One page for each tree with photographs; none in the public edition."""
    if context.is_public:
        return
    for tree in context.records.trees.values():
        if any(markable(context, tree)):
            yield _marks_page(context, tree)


def marks_files(context: Context) -> tuple[SiteFile, ...]:
    """The style sheet and the script of these pages; none where there is no such page."""
    if context.is_public or not any(any(markable(context, tree)) for tree in context.records.trees.values()):
        return ()
    folder = files("archive_tools").joinpath("templates", "marks")
    return tuple(SiteFile(f"{MARKS_FOLDER}/{name}", folder.joinpath(name).read_bytes()) for name in INSTRUMENTS)


def marks_path(context: Context, tree: Tree, photo: str = "", beside: str = "") -> str | None:
    """Where marks are placed for a tree (with two of its photographs side by side), from the site's root."""
    if context.is_public or not any(markable(context, tree)):
        return None
    asked = {key: value for key, value in (("photo", photo), ("beside", beside)) if value}
    return f"{context.tree_path(tree.accession)}marks/" + (f"?{urlencode(asked)}" if asked else "")


def markable(context: Context, tree: Tree) -> Iterator[Photo]:
    """The tree's photographs on which marks can be placed: those shown whose size is known."""
    return (photo for photo in shown(context, tree) if photo.width > 0 and photo.height > 0)


def _marks_page(context: Context, tree: Tree) -> Page:
    _ = context.translations.gettext
    path = f"{context.tree_path(tree.accession)}marks/index.md"
    root = root_of(path)
    photos = tuple(_marked(context, photo, root) for photo in markable(context, tree))
    pairs = tuple(_asked(wanted) for wanted in tree.comparisons)
    sheet = {
        "photos": [asdict(photo) for photo in photos],
        "pairs": [asdict(pair) for pair in pairs],
        "words": _words(_),
        "placing": PLACING,
        "unsureScale": UNSURE_SCALE,
        "onOneLine": ON_ONE_LINE,
    }
    # Inside a script element only "<" could end it early; as an escape it reads back as itself.
    data = Markup(json.dumps(sheet, ensure_ascii=False).replace("<", "\\u003c"))
    title = _("Marks: %(tree)s") % {"tree": context.tree_name(tree)}
    body = context.render("marks/page.html", path, tree=tree, photos=photos, data=data, example=photos[0].file)
    return Page(path, title, body, "work", language=context.language)


def _marked(context: Context, photo: Photo, root: str) -> MarkedPhoto:
    cut = context.pictures.photos[photo.path].largest
    place = photo.where.at()
    listed = place.line is not None
    named = ", ".join(part for part in (context.dates.when(photo.when), photo.file) if part)
    scale = photo.scale
    return MarkedPhoto(
        photo.file,
        named,
        root + cut.url,
        photo.width,
        photo.height,
        str(place) if listed else f"{photo.path.rpartition('/')[0]}/photos.yml",
        listed,
        max((place.column or 3) - 1, 0) if listed else 2,
        photo.marks,
        None
        if scale is None
        else (
            scale.from_mark,
            scale.to_mark,
            f"{scale.cm:f}",
            "" if scale.plus_minus is None else f"{scale.plus_minus:f}",
        ),
    )


def _asked(wanted: ComparisonWanted) -> AskedPair:
    measured = [mark for m in wanted.measure for mark in (m.from_mark, m.to_mark, m.mark) if mark]
    return AskedPair(wanted.id, wanted.before, wanted.after, tuple(dict.fromkeys([*wanted.align_on, *measured])))


def _words(_: Callable[[str], str]) -> dict[str, str]:
    """What the script says. Names in %(…)s are filled in by it."""
    return {
        "alone": _("no other picture"),
        "cross": _("%(name)s, %(x)s pixels from the left, %(y)s from the top"),
        "placed": _("%(name)s placed in %(picture)s at %(x)s, %(y)s."),
        "moved": _("%(name)s: %(x)s, %(y)s."),
        "removed": _("%(name)s taken away from %(picture)s."),
        "next": _("Next: %(name)s."),
        "noName": _("Give the mark a name first."),
        "sameName": _("There is a mark named “%(name)s” already."),
        "noneToMove": _("There is no mark of this name yet: place it first."),
        "undone": _("Undone."),
        "nothingToUndo": _("Nothing to undo."),
        "copied": _("Copied."),
        "copyYourself": _("The browser does not copy by itself. The lines are selected: copy them."),
        "placeHere": _("Place in the middle"),
        "placeLabel": _("Place in the middle: %(name)s, %(picture)s"),
        "takeAway": _("Take away"),
        "takeAwayLabel": _("Take away: %(name)s, %(picture)s"),
        "nameLabel": _("Name of mark %(number)s"),
        "size": _("%(width)s × %(height)s pixels"),
        "board": _("Photograph with marks: %(picture)s"),
        "inEntry": _("In the entry of %(file)s, in place of its marks and scale:"),
        "newEntry": _("A new entry for %(file)s:"),
        "noMarks": _("No mark has been placed in %(file)s."),
        "shareNone": _("%(one)s and %(other)s share no mark. Two at least bring them to one scale."),
        "shareOne": _("%(one)s and %(other)s share only the mark “%(name)s”. Two at least bring them to one scale."),
        "shareTwo": _("Two shared marks are just enough. A third, off their line, would show one that is misplaced."),
        "oneLine": _(
            "The shared marks stand nearly on one line: a mirrored print, or a camera held at another angle, would go "
            "unnoticed. Place one off the line."
        ),
        "asked": _("The comparison “%(comparison)s” asks for “%(name)s”, and %(picture)s does not have it."),
        "scaleHalf": _("%(picture)s: a scale needs two marks and a length."),
        "scaleSame": _("%(picture)s: the scale begins and ends at the same mark."),
        "scaleNumber": _("%(picture)s: “%(written)s” is no length in centimetres. Write digits, like 46.5."),
        "scaleShort": _(
            "%(picture)s: the scale is %(pixels)s pixels long, and placing its ends leaves every measure uncertain by "
            "%(percent)s per cent. Take a longer known length."
        ),
        "scaleNothing": _("%(picture)s: the marks of the scale are too near each other; nothing can be measured."),
        "allWell": _("Nothing to warn of."),
    }
