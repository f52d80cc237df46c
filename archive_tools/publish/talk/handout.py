"""The handout of a talk: what was shown and said, on paper, for those who heard it."""

from __future__ import annotations

from collections.abc import Iterator

from archive_tools.model.grounds import Talk
from archive_tools.model.tree import Tree
from archive_tools.publish.context import Context
from archive_tools.publish.photographs import portrait
from archive_tools.publish.print.document import Printed, Told, botanical, mm, printed, string, text
from archive_tools.publish.print.style import HouseStyle
from archive_tools.publish.prose import as_text
from archive_tools.publish.talk.deck_file import ReadPicture
from archive_tools.publish.talk.ending import picture_credits, source_lines
from archive_tools.publish.talk.slide import Plate, Slide
from archive_tools.publish.talk.slides import Part, parts_of
from archive_tools.publish.tree_age import sentence_of

_WIDE_PICTURE = 46.0
"""Millimetres."""


def handout(context: Context, talk: Talk, read: ReadPicture) -> Printed:
    """Section by section: what it was about, and each tree with a small portrait, its names, years and label."""
    _ = context.translations.gettext
    files: dict[str, bytes] = {}
    parts = parts_of(context, talk)
    told = [Told(context.say(talk.title), talk.where.at("title"))]
    seen: set[str] = set()
    body = [_page(context), _head(context, talk)]
    for part in parts:
        told += [Told(part.text, part.section.where.at("text")), Told(part.title, part.section.where.at("title"))]
        body.append(f"== {text(part.title)}\n")
        for tree in part.trees:
            if tree.accession in seen:
                continue
            seen.add(tree.accession)
            body.append(_tree(context, tree, files, read))
            told.append(Told(as_text(context, tree.label, tree.accession), tree.where.at("label")))
    trees = tuple(dict.fromkeys(tree for part in parts for tree in part.trees))
    body += list(_end(context, trees, parts, files))
    return printed(
        "\n".join(body),
        title=context.say(talk.title),
        language=context.language,
        style=HouseStyle(size=10.5, accent=context.records.settings.accent or "#174a55"),
        day=context.as_of,
        author=context.house,
        files=files,
        told=told,
    )


def _page(context: Context) -> str:
    foot = text(context.house)
    return (
        "#set page(paper: \"a4\", margin: (x: 24mm, top: 22mm, bottom: 20mm), "
        f"footer: context align(right)[#data[{foot} · #counter(page).display()]])\n"
    )  # fmt: skip


def _head(context: Context, talk: Talk) -> str:
    speaker = context.steward(talk.speaker).name if talk.speaker else ""
    line = " · ".join(part for part in (speaker, context.house, context.dates.when(talk.when)) if part)
    return f"= {text(context.say(talk.title))}\n#data[{text(line)}]\n#v({mm(4)})\n"


def _tree(context: Context, tree: Tree, files: dict[str, bytes], read: ReadPicture) -> str:
    shown = portrait(context, tree)
    name = text(context.tree_name(tree))
    names = ", ".join(botanical(taxon) for taxon in tree.taxon) if tree.name or tree.common_name else ""
    years = sentence_of(context, tree.accession)
    label = as_text(context, tree.label, tree.accession)
    words = [f"=== {name}"]
    facts = [part for part in (names, text(years) if years else "", text(tree.accession)) if part]
    words.append("#data[" + " · ".join(facts) + "]\n")
    if label:
        words.append(text(label) + "\n")
    said = "\n".join(words)
    if shown is None:
        return f"#block(breakable: false)[{said}]\n"
    cut = shown.middle
    file = cut.url.rsplit("/", maxsplit=1)[-1]
    files[file] = read(cut.url)
    picture = f"#image({string(file)}, width: {mm(_WIDE_PICTURE)}, alt: {string(shown.alt)})"
    return (
        f"#block(breakable: false, above: {mm(4)})[#grid(columns: ({mm(_WIDE_PICTURE)}, 1fr), gutter: {mm(6)}, "
        f"[{picture}], [{said}])]\n"
    )


def _end(context: Context, trees: tuple[Tree, ...], parts: tuple[Part, ...], files: dict[str, bytes]) -> Iterator[str]:
    _ = context.translations.gettext
    sources = source_lines(context, trees)
    if sources:
        head = _("Sources")
        yield f"== {text(head)}\n"
        yield "\n".join(f"#data[{text(line)}]\n" for line in sources)
    urls = {cut.url for picture in context.pictures.photos.values() for cut in picture.cuts}
    used = tuple(Plate(url, "", 1) for url in urls if url.rsplit("/", maxsplit=1)[-1] in files)
    lines = picture_credits(context, trees, (Slide("printed", "", "", plates=used),))
    if lines:
        yield f"== {text(_('Pictures'))}\n"
        yield "\n".join(f"#data[{text(line)}]\n" for line in lines)
