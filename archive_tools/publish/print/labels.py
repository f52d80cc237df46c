"""Labels: the words of each set on a piece of card, measured until they fit, laid several to a sheet.

A run is set in one size of type: the largest in which every label fits that fits at all. `trial` is the document that
finds it out (the typesetter measures, nothing is printed), `labels` the one that is printed.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from archive_tools.model.label import LabelWords, OtherLanguage
from archive_tools.model.places_in_files import Mark
from archive_tools.publish.accent import accent_tokens
from archive_tools.publish.botanical_names import plain
from archive_tools.publish.context import Context
from archive_tools.publish.print.document import (
    Markup,
    Printed,
    Told,
    botanical,
    has_cjk,
    mm,
    printed,
    pt,
    string,
    text,
)
from archive_tools.publish.print.label_layout import LAYOUT, TRIALS
from archive_tools.publish.print.label_type import LINE_LENGTH, LabelType, label_type
from archive_tools.publish.print.qr import USUAL_MODULE, qr_svg, side_in_modules
from archive_tools.publish.print.sheets import Sheet, sheets
from archive_tools.publish.print.style import HouseStyle
from archive_tools.publish.translation import translations_for

TRIAL = "fit"
NO_BREAK = "\u00a0"
BAND = 3.0
"""Millimetres of the band in the house's colour, on the left, where there is a bleed for it to run out into."""


@dataclass(frozen=True, slots=True)
class LabelFormat:
    """How a run of labels looks. width, height, bleed, module (of the QR code) in millimetres; distance too."""

    width: float = 148.0
    height: float = 105.0
    bleed: float = 0.0
    large_print: bool = False
    high_contrast: bool = False
    distance: float | None = None
    module: float | None = None

    @property
    def code_module(self) -> float:
        """Millimetres of one module of the code: what is asked, else in keeping with the label's width."""
        return self.module or min(1.0, max(USUAL_MODULE, round(USUAL_MODULE * self.width / 148, 2)))

    @property
    def type(self) -> LabelType:
        """The sizes its type may have."""
        return label_type(self.width, large_print=self.large_print, distance=self.distance)

    @property
    def margin(self) -> float:
        """White on all four sides."""
        return min(12.0, max(4.0, 0.062 * self.width))


@dataclass(frozen=True, slots=True)
class Fit:
    """How one label fits. size: the largest type in points, None where none is small enough.

    room: how many of its text's words (characters, in a script without spaces) fit at the smallest size; -1 where the
    label is too small even without its text. line: characters on a full line of the text.
    """

    accession: str
    size: float | None
    room: int
    line: float


def house_style(context: Context, form: LabelFormat, size: float) -> HouseStyle:
    """The style of a run."""
    accent = accent_tokens(context.records.settings.accent).light
    sans = form.large_print or form.high_contrast
    return HouseStyle(size=size, leading=0.56, accent=accent, sans=sans, contrast=form.high_contrast)


def trial(context: Context, words: Sequence[LabelWords], form: LabelFormat) -> Printed:
    """The document that measures every label; its answers are read by `fits`."""
    kind = form.type
    tried = ", ".join(pt(size) for size in kind.sizes)
    lines = [_measures(words, form), LAYOUT, f"#let sizes = ({tried},)", TRIALS]
    for number, one in enumerate(words):
        lines.append(_definitions(context, one, number, form))
        parts = f"main-{number}, side-{number}, words-{number}, credit-{number}"
        lines.append(f"#context [#metadata(trial({parts}))<{TRIAL}>]")
    return _document(context, words, form, "\n".join(lines), kind.smallest)


def fits(words: Sequence[LabelWords], answers: Iterable[dict[str, Any]]) -> tuple[Fit, ...]:
    """What the trial measured, label by label."""
    return tuple(
        Fit(one.accession, answer["size"], int(answer["room"]), float(answer["line"]))
        for one, answer in zip(words, answers, strict=True)
    )


def common_size(found: Iterable[Fit], form: LabelFormat) -> float:
    """The size of type for the whole run."""
    return min((fit.size for fit in found if fit.size is not None), default=form.type.smallest)


def labels(
    context: Context, words: Sequence[LabelWords], form: LabelFormat, size: float, sheet: Sheet, slug: Sequence[str]
) -> Printed:
    """The labels on their sheets. size: of the text, in points; slug: a line outside the trim for each sheet."""
    lines = [_measures(words, form), LAYOUT]
    lines += [_definitions(context, one, number, form) for number, one in enumerate(words)]
    pieces = [f"#label-of({pt(size)}, main-{n}, side-{n}, words-{n}, credit-{n})" for n in range(len(words))]
    under = ""
    if form.bleed:
        height = mm(form.height + 2 * form.bleed)
        under = f"#rect(width: {mm(form.bleed + BAND)}, height: {height}, fill: accent-ink, stroke: none)"
    lines.append(sheets(sheet, pieces, slug, under))
    return _document(context, words, form, "\n".join(lines), size)


def _document(context: Context, words: Sequence[LabelWords], form: LabelFormat, body: str, size: float) -> Printed:
    _ = context.translations.gettext
    return printed(
        body,
        title=_("Labels of %(house)s") % {"house": context.house},
        author=context.house,
        language=context.language,
        style=house_style(context, form, size),
        day=context.as_of,
        files={_code_file(number): qr_svg(one.address) for number, one in enumerate(words) if one.address},
        told=_told(words),
    )


def _told(words: Iterable[LabelWords]) -> Iterable[Told]:
    for one in words:
        for what, said in one.said.items():
            key = what.split(" ", maxsplit=1)[0]
            yield Told(said, one.marks.get(key, one.marks.get("name", Mark("collection.yml"))))


def _code_file(number: int) -> str:
    return f"code-{number}.svg"


def _measures(words: Sequence[LabelWords], form: LabelFormat) -> Markup:
    """The lengths all labels of a run share."""
    kind = form.type
    code = max((side_in_modules(one.address) * form.code_module for one in words if one.address), default=0.0)
    inner = form.width - 2 * form.margin
    band = BAND if form.bleed else 0.0
    inner -= band
    beside = any(one.other is not None for one in words)
    upright = form.width <= form.height
    side = max(code, 0.4 * inner) if beside else code
    gutter = min(8.0, 0.05 * inner) if side else 0.0
    main = inner if upright else inner - side - gutter
    lengths = {
        "label-width": form.width,
        "label-height": form.height,
        "pad": form.margin,
        "band": band,
        "side-width": inner if upright else side,
        "gutter": gutter,
        "main-width": main,
        "inner-height": form.height - 2 * form.margin,
        "code-width": code,
    }
    lines = [f"#let {name} = {mm(length)}" for name, length in lengths.items()]
    lines.append(f"#let upright = {'true' if upright else 'false'}")
    lines.append(f"#let credit-width = {mm(inner - code - gutter if upright else main)}")
    lines += [f"#let least = {pt(kind.smallest)}", f"#let small = {pt(kind.small_print)}"]
    lines.append(f"#let line-length = {LINE_LENGTH}")
    lines.append(f"#let name-weight = {600 if form.high_contrast or form.large_print else 400}")
    return "\n".join(lines)


def _definitions(context: Context, one: LabelWords, number: int, form: LabelFormat) -> Markup:
    """The parts of one label as functions of the size of type `b`."""
    _ = context.translations.gettext
    own = _language(one.text_language or one.language, context)
    name = text(one.name) if one.name else ", ".join(botanical(taxon) for taxon in one.taxa)
    beneath = []
    if one.name:
        beneath.append(", ".join(botanical(taxon) for taxon in one.taxa))
    common = text(one.common_name) if one.common_name else ""
    facts = _language(one.facts_language, context)
    stop = translations_for(one.facts_language or context.language).gettext("%(sentence)s.")
    ages = "#linebreak()".join(text(_sentence(said, stop), facts) for said in (one.origin, one.since) if said)
    common = (
        text(_("%(name)s. %(where)s") % {"name": one.common_name, "where": one.native_to})
        if (one.common_name and one.native_to)
        else common or (text(one.native_to) if one.native_to else "")
    )
    pieces = [f"#name-line(b)[{name}]", *(f"#taxon-line(b)[{line}]" for line in beneath)]
    pieces += [f"#common-line(b)[{common}]"] if common else []
    pieces += [f"#age-line(b)[{ages}]"] if ages else []
    units = list(one.text) if has_cjk(one.text) else one.text.split(" ")
    between = "" if has_cjk(one.text) else " "
    alt = _("QR code for the page of %(name)s: %(address)s") % {
        "name": one.name or ", ".join(plain(taxon) for taxon in one.taxa),
        "address": one.address,
    }
    code = f"#image({string(_code_file(number))}, width: code-width, alt: {string(alt)})" if one.address else ""
    return "\n".join(
        [
            f"#let main-{number}(b) = [{''.join(pieces)}]",
            f"#let words-{number} = (units: ({', '.join(map(string, units))},), between: {string(between)}, "
            f"language: {string(own or one.language)})",
            f"#let credit-{number}(b) = [{f'#credit-line(b)[{text(one.credit)}]' if one.credit else ''}]",
            f"#let side-{number}(b) = (over: [{_beside(one.other)}], under: [#foot(b)[{code}][{text(one.accession)}]])",
        ]
    )


def _beside(other: OtherLanguage | None) -> Markup:
    if other is None:
        return ""
    name, common = other.name or other.common_name, other.common_name if other.name else ""
    parts = [f"#other-name(b)[{text(name, other.language)}]" if name else ""]
    parts.append(f"#other-common(b)[{text(common, other.language)}]" if common else "")
    parts.append(f"#other-text(b)[{text(other.text, other.language)}]" if other.text else "")
    return "".join(parts)


def _language(language: str, context: Context) -> str:
    """The language to mark a text with, or "" for the document's own."""
    return "" if language == context.language else language


def _sentence(words: str, stop: str) -> str:
    """A sentence about age with its stop, held together so that no year is left alone on a line."""
    first, sign, second = words.partition("; ")
    held = f"{first}{sign}{second.replace(' ', NO_BREAK)}" if sign else NO_BREAK.join(words.rsplit(" ", 1))
    held = re.sub("(?<=[0-9])–(?=[0-9])", "\u2060–\u2060", held)
    return held if held.endswith((".", "。")) else stop % {"sentence": held}
