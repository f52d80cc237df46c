"""The text of notes and labels as HTML: Markdown by python-markdown, made safe, with live references filled in.

Raw HTML in a note is shown as it is written, never obeyed. Links lead to http, https, mailto or a place in the same
page; anything else stays as words. Pictures of a note are shown where the edition has their cuts. `[[accession]]`
becomes a link to the tree, `{{ since.care }}` and `{{ years.care }}` the range the evidence allows.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from urllib.parse import urlsplit
from xml.etree.ElementTree import Element

import markdown
from markdown.extensions import Extension
from markdown.inlinepatterns import InlineProcessor
from markdown.treeprocessors import Treeprocessor
from markupsafe import Markup, escape

from archive_tools.model.grades import Milestone
from archive_tools.model.words import Words
from archive_tools.publish.age_words import since_token, years_token
from archive_tools.publish.context import Context, Named
from archive_tools.publish.typography import set_in_type

_REFERENCE = re.compile(r"\[\[\s*([^\[\]|]+?)\s*\]\]")
_TOKEN = re.compile(r"\{\{\s*(since|years)\.(origin|care|container|arrival)\s*\}\}")
_SAFE = frozenset({"http", "https", "mailto"})
_HEADINGS = re.compile(r"h([1-6])")

FindPicture = Callable[[str], tuple[str, int, int] | None]
"""Given the address a note uses: (path from the site's root, width, height) of the cut to show, or None."""


def no_pictures(_address: str) -> None:
    """For texts that show no pictures."""


@dataclass(frozen=True, slots=True)
class Setting:
    """Where a text stands: the tree it speaks of (for `{{ … }}`), the way to the root, the level its headings begin
    at.
    """

    root: str
    accession: str | None = None
    first_heading: int = 4
    find_picture: FindPicture = no_pictures


def block(context: Context, text: str, setting: Setting) -> Markup:
    """Markdown text as paragraphs and what else it holds."""
    # Its quotation marks are English ones; a dash or an ellipsis is left as it was typed.
    smart = ["smarty"] if context.language.split("-", maxsplit=1)[0] == "en" else []
    converter = markdown.Markdown(
        extensions=["tables", "sane_lists", *smart, _Ours(context, setting)],
        extension_configs={"smarty": {"smart_dashes": False, "smart_ellipses": False}},
        output_format="html",
    )
    return Markup(converter.convert(fill_tokens(context, text, setting.accession)))


def inline(context: Context, words: Words | str | None, setting: Setting) -> Markup:
    """A label or another short plain text: references and tokens filled in, everything else as it is written."""
    text = context.say(words) if isinstance(words, Words) else set_in_type(words or "", context.language)
    text = fill_tokens(context, " ".join(text.split()), setting.accession)
    pieces: list[Markup] = []
    last = 0
    for match in _REFERENCE.finditer(text):
        pieces.append(escape(text[last : match.start()]))
        pieces.append(_link(context.tree_named(match.group(1)), setting.root))
        last = match.end()
    pieces.append(escape(text[last:]))
    return Markup("").join(pieces)


def as_text(context: Context, words: Words | str | None, accession: str | None = None) -> str:
    """A short text without any markup, for descriptions and alternative texts."""
    text = context.say(words) if isinstance(words, Words) else words or ""
    text = fill_tokens(context, " ".join(text.split()), accession)
    return _REFERENCE.sub(lambda match: context.tree_named(match.group(1)).name, text)


def fill_tokens(context: Context, text: str, accession: str | None) -> str:
    """`text` with its age tokens filled in; a token whose answer is not known says so in words."""
    if "{{" not in text:
        return text

    def answer(match: re.Match[str]) -> str:
        chronology = context.view.findings.chronologies.get(accession or "")
        milestone = Milestone(match.group(2))
        token = since_token if match.group(1) == "since" else years_token
        return token(context, chronology, milestone)

    return _TOKEN.sub(answer, text)


def linked_markdown(context: Context, text: str, root: str) -> str:
    """A hand-written page's Markdown with `[[accession]]` turned into Markdown links."""

    def link(match: re.Match[str]) -> str:
        named = context.tree_named(match.group(1))
        return named.name if named.path is None else f"[{named.name}]({root}{named.path}index.md)"

    return _REFERENCE.sub(link, text)


def _link(named: Named, root: str) -> Markup:
    if named.path is None:
        return escape(named.name)
    return Markup('<a href="{}">{}</a>').format(root + named.path, named.name)


class _Ours(Extension):
    """The rules of this house over python-markdown's own."""

    def __init__(self, context: Context, setting: Setting) -> None:
        super().__init__()
        self.context = context
        self.setting = setting

    def extendMarkdown(self, md: markdown.Markdown) -> None:  # noqa: N802 (python-markdown's name)
        md.preprocessors.deregister("html_block")
        md.inlinePatterns.deregister("html")
        md.inlinePatterns.register(_References(self.context, self.setting, md), "tree_reference", 175)
        md.treeprocessors.register(_Tidied(self.setting, md), "tidied", 5)


class _References(InlineProcessor):
    def __init__(self, context: Context, setting: Setting, md: markdown.Markdown) -> None:
        super().__init__(_REFERENCE.pattern, md)
        self.context = context
        self.setting = setting

    def handleMatch(  # type: ignore[override]  # noqa: N802 (python-markdown's name)
        self, m: re.Match[str], data: str
    ) -> tuple[Element | str, int, int]:
        named = self.context.tree_named(m.group(1))
        if named.path is None:
            return named.name, m.start(0), m.end(0)
        link = Element("a", {"href": self.setting.root + named.path})
        link.text = named.name
        return link, m.start(0), m.end(0)


class _Tidied(Treeprocessor):
    """Headings under the page's own, links that are safe, pictures that exist."""

    def __init__(self, setting: Setting, md: markdown.Markdown) -> None:
        super().__init__(md)
        self.setting = setting

    def run(self, root: Element) -> None:
        levels = sorted({int(m.group(1)) for e in root.iter() if (m := _HEADINGS.fullmatch(e.tag))})
        for element in root.iter():
            if match := _HEADINGS.fullmatch(element.tag):
                # Levels close up as well as move down, so that a note that begins with "###" skips none.
                element.tag = f"h{min(6, self.setting.first_heading + levels.index(int(match.group(1))))}"
            elif element.tag == "a":
                self._mind_link(element)
            elif element.tag == "img":
                self._mind_picture(element)

    def _mind_link(self, element: Element) -> None:
        href = element.get("href", "")
        ours = href.startswith(("#", self.setting.root + "trees/"))
        # Split only to read the scheme: an address that cannot be split is no address.
        try:
            scheme = urlsplit(href).scheme.lower()
        except ValueError:
            scheme = ""
        if not ours and scheme not in _SAFE:
            element.tag = "span"
            element.attrib.clear()

    def _mind_picture(self, element: Element) -> None:
        found = self.setting.find_picture(element.get("src", ""))
        alt = element.get("alt", "")
        element.attrib.clear()
        if found is None:
            element.tag = "em"
            element.text = alt
            return
        path, width, height = found
        for name, value in (("src", self.setting.root + path), ("alt", alt), ("width", str(width)),
                            ("height", str(height)), ("loading", "lazy")):  # fmt: skip
            element.set(name, value)
