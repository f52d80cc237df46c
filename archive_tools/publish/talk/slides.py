"""What a talk shows, slide by slide: made from its plan and from the records its edition may show."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from archive_tools.model.grounds import Talk, TalkSection
from archive_tools.model.pictures import CutPicture
from archive_tools.model.tree import Tree
from archive_tools.model.tree_query import trees_that_fit
from archive_tools.publish import botanical_names
from archive_tools.publish.context import Context
from archive_tools.publish.photographs import Shot, caution, portrait, portrait_photo, shot
from archive_tools.publish.prose import as_text
from archive_tools.publish.statement_words import dated_by_words
from archive_tools.publish.talk import slide as kinds
from archive_tools.publish.talk.ending import ending
from archive_tools.publish.talk.figures import line_figure
from archive_tools.publish.talk.minutes import SectionTime, clock, times_of
from archive_tools.publish.talk.slide import Plate, Slide
from archive_tools.publish.tree_age import sentence_of
from archive_tools.publish.tree_comparison import comparisons_of

MOST_TREES_NAMED = 4
"""How many trees of a section are named on its first slide."""
FRAMES = 6
FEWEST_FRAMES = 3
HOLDERS = 3
"""A line of stewards is shown where a section is about one tree that so many had, gaps counted."""


@dataclass(frozen=True, slots=True)
class Part:
    """A section with its trees, its words in the talk's language, and its slides."""

    section: TalkSection
    title: str
    text: str
    trees: tuple[Tree, ...]
    slides: tuple[Slide, ...]


def slides_of(context: Context, talk: Talk) -> tuple[tuple[Slide, ...], tuple[SectionTime, ...]]:
    """All slides of a talk, in order, and its sections on the clock.

    A picture or comparison that the edition does not hold is left out. Every slide but the opening and the last ones
    carries in its notes the section's words, or what is known of its picture.
    """
    parts = tuple(_part(context, talk, at, section) for at, section in enumerate(talk.sections, 1))
    pictures = tuple(sum(bool(s.plates) for s in part.slides) for part in parts)
    texts = tuple(part.text for part in parts)
    rate = context.records.settings.speaking_rate
    times = times_of(talk, tuple(part.title for part in parts), texts, pictures, rate)
    slides = [_opening(context, talk, parts)]
    for part, time in zip(parts, times, strict=True):
        slides += _timed(context, part, time)
    shown = tuple(dict.fromkeys(tree for part in parts for tree in part.trees))
    return (*slides, *ending(context, shown, tuple(slides))), times


def parts_of(context: Context, talk: Talk) -> tuple[Part, ...]:
    """The sections of a talk, for what is printed beside the slides."""
    return tuple(_part(context, talk, at, section) for at, section in enumerate(talk.sections, 1))


def trees_of(context: Context, section: TalkSection) -> tuple[Tree, ...]:
    """The trees a section is about, as far as the edition holds them."""
    known = context.records.trees
    named = [known[accession] for accession in section.trees if accession in known]
    if section.trees_query:
        named += trees_that_fit(section.trees_query, known.values())
    return tuple(dict.fromkeys(named))


def plate(shown: Shot, caption: str = "", picture: CutPicture | None = None) -> Plate:
    """A photograph at its largest, as a slide shows it."""
    cut = (picture or shown.picture).largest
    said = ", ".join(part for part in (caption or shown.year, shown.doubt) if part)
    return Plate(cut.url, shown.alt, round(cut.width / cut.height, 4), said)


def _opening(context: Context, talk: Talk, parts: tuple[Part, ...]) -> Slide:
    portraits = (portrait(context, tree) for part in parts for tree in part.trees)
    first = next((one for one in portraits if one), None)
    speaker = context.steward(talk.speaker).name if talk.speaker else ""
    lines = (speaker, context.house, context.dates.when(talk.when))
    return Slide(
        key="opening",
        layout=kinds.OPENING,
        title=context.say(talk.title),
        lines=tuple(line for line in lines if line),
        plates=(plate(first),) if first else (),
    )


def _part(context: Context, talk: Talk, number: int, section: TalkSection) -> Part:
    _ = context.translations.gettext
    trees = trees_of(context, section)
    title = context.say(section.title) or _("Part %(n)s") % {"n": number}
    key = f"section-{number}"
    one = trees[0] if len(trees) == 1 else None
    text = as_text(context, section.text, one.accession if one else None)
    shown = [slide for item in section.show for slide in _shown(context, key, item)]
    told = {item.partition("/")[0].partition("#")[0] for item in section.show}
    rest = [s for tree in trees if tree.accession not in told and (s := _tree(context, key, tree))]
    more = [s for tree in trees[:1] if one for s in (_years(context, key, tree), line_slide(context, key, tree)) if s]
    first = next((seen for tree in trees if (seen := portrait(context, tree))), None)
    opening = Slide(
        key=key,
        layout=kinds.SECTION,
        title=title,
        lines=tuple(_named(context, tree) for tree in trees[:MOST_TREES_NAMED]),
        plates=(plate(first),) if first and not rest else (),
        notes=text,
    )
    return Part(section, title, text, trees, (opening, *shown, *rest, *more))


def _named(context: Context, tree: Tree) -> str:
    said = sentence_of(context, tree.accession)
    return f"{context.tree_name(tree)}. {said}" if said else context.tree_name(tree)


def _timed(context: Context, part: Part, time: SectionTime) -> list[Slide]:
    _ = context.translations.gettext
    said = _("%(begin)s to %(end)s (%(given)s)") % {
        "begin": clock(time.begin), "end": clock(time.end), "given": clock(time.given),
    }  # fmt: skip
    first = replace(part.slides[0], notes=f"{said}\n\n{part.slides[0].notes}".strip())
    return [first, *part.slides[1:]]


def _shown(context: Context, key: str, item: str) -> Iterator[Slide]:
    """The slides of one thing to show: `accession/photo` or `accession#comparison`."""
    accession, hash_, comparison = item.partition("#")
    if hash_:
        tree = context.records.trees.get(accession)
        if tree is not None:
            yield from _compared(context, key, tree, comparison)
        return
    accession, _slash, file = item.partition("/")
    tree = context.records.trees.get(accession)
    photo = tree.photo(file) if tree else None
    if tree is None or photo is None or photo.path not in context.pictures.photos:
        return
    seen = shot(context, tree, photo)
    when = context.dates.when(photo.when)
    name = context.tree_name(tree)
    yield Slide(
        key=f"{key}/{item}",
        layout=kinds.PICTURE,
        title=", ".join(part for part in (name, when) if part),
        lines=tuple(line for line in (caution(context, photo), seen.caption) if line),
        plates=(plate(seen),),
        notes="\n".join(
            line for line in (seen.alt, dated_by_words(context, photo), _credited(context, seen.credit)) if line
        ),
    )


def _compared(context: Context, key: str, tree: Tree, wanted: str) -> Iterator[Slide]:
    """A comparison: both pictures beside each other and, where they lie on each other, one after the other."""
    _ = context.translations.gettext
    figure = next((one for one in comparisons_of(context, tree) if one.id == wanted), None)
    if figure is None:
        return
    name = context.tree_name(tree)
    title = figure.title or name
    measured = tuple(f"{m.name}: {m.words}" if m.name not in m.words else m.words for m in figure.measures)
    notes = "\n".join(
        line for line in (figure.text, figure.how, *measured, figure.caution, _matched(context, figure.matched)) if line
    )
    then, now = plate(figure.then, figure.then_year), plate(figure.now, figure.now_year)
    yield Slide(f"{key}/{tree.accession}#{wanted}", kinds.PAIR, title, measured[:2], (then, now), notes=notes)
    if figure.slides:
        before = _("%(name)s, before: %(year)s") % {"name": name, "year": figure.then_year}
        after = _("%(name)s, after: %(year)s") % {"name": name, "year": figure.now_year}
        yield Slide(f"{key}/{tree.accession}#{wanted}/before", kinds.PICTURE, before, (), (then,), notes=figure.how)
        yield Slide(
            f"{key}/{tree.accession}#{wanted}/after", kinds.PICTURE, after, measured[:1], (now,), notes=figure.text
        )


def _matched(context: Context, matched: bool) -> str:
    if not matched:
        return ""
    return context.translations.gettext("The earlier picture was given the brightness of the later one, for the eye.")


def _credited(context: Context, credit: str) -> str:
    return context.translations.gettext("Photograph: %(who)s") % {"who": credit} if credit else ""


def _tree(context: Context, key: str, tree: Tree) -> Slide | None:
    """A tree of which the plan names no picture: its portrait, its names, and what may be said of its years."""
    photo = portrait_photo(context, tree)
    if photo is None:
        return None
    seen = shot(context, tree, photo)
    _ = context.translations.gettext
    doubted = _("The photograph: %(what)s") % {"what": seen.doubt} if seen.doubt else ""
    lines = (sentence_of(context, tree.accession), doubted, context.say(tree.credit_line))
    return Slide(
        key=f"{key}/{tree.accession}",
        layout=kinds.TREE,
        title=context.tree_name(tree),
        lines=tuple(line for line in lines if line),
        plates=(plate(seen),),
        notes="\n".join(
            part for part in (as_text(context, tree.talking_points, tree.accession), _credited(context, seen.credit))
            if part
        ),
        botanical=", ".join(botanical_names.plain(name) for name in tree.taxon) if tree.name else "",
    )  # fmt: skip


def _years(context: Context, key: str, tree: Tree) -> Slide | None:
    """A tree through its years: up to six pictures from one side that can follow each other."""
    strip = next((s for s in context.pictures.strips.get(tree.accession, ()) if s.view == "front"), None)
    if strip is None or len(strip.aligned) < FEWEST_FRAMES:
        return None
    frames = strip.aligned
    count = min(FRAMES, len(frames))
    chosen = [frames[round(at * (len(frames) - 1) / (count - 1))] for at in range(count)]
    plates = []
    for frame in chosen:
        photo = tree.photo(frame.file)
        if photo is None:
            continue
        year = context.dates.year(photo.when)
        alt = context.say(photo.alt) or context.tree_name(tree)
        plates.append(Plate(frame.cut.url, alt, round(frame.cut.width / frame.cut.height, 4), year))
    title = context.translations.gettext("%(name)s through the years") % {"name": context.tree_name(tree)}
    return Slide(f"{key}/{tree.accession}/years", kinds.YEARS, title, (), tuple(plates))


def line_slide(context: Context, key: str, tree: Tree) -> Slide | None:
    """Through whose hands a tree went, as a drawing the speaker can edit; None where there is little to draw."""
    custody = context.view.findings.custodies.get(tree.accession)
    if custody is None or len(custody.periods) < HOLDERS:
        return None
    figure = line_figure(context, custody)
    if figure is None:
        return None
    title = context.translations.gettext("Through whose hands: %(name)s") % {"name": context.tree_name(tree)}
    lineage = context.view.findings.lineages.get(tree.accession)
    notes = "\n".join(lineage.text) if lineage else figure.says
    return Slide(f"{key}/{tree.accession}/line", kinds.LINE, title, (), (), figure, notes)
