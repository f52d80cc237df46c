"""Labels from the records to the printed page: gathered, checked, measured, set.

The order of it: words from the view (`publish.print.label_words`), checks of the words (`check.label_texts`), a trial
that measures them (`publish.print.labels`), the glyphs, and only then the page.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path

from archive_tools import pipeline, typesetter
from archive_tools.check.dates_together import prose_not_borne_out
from archive_tools.check.label_texts import check_label_texts
from archive_tools.check.trade_words import glossary_terms
from archive_tools.model.grades import Edition
from archive_tools.model.label import LabelPrinted, LabelWords, StaleLabel
from archive_tools.model.pictures import Pictures
from archive_tools.model.problems import Problem, Severity
from archive_tools.model.reading import ReadingLevel
from archive_tools.model.tree import Tree
from archive_tools.model.view import EditionView
from archive_tools.publish.context import Context
from archive_tools.publish.print import labels as sheets_of_labels
from archive_tools.publish.print.document import Printed
from archive_tools.publish.print.label_fit import fit_problems
from archive_tools.publish.print.label_words import label_words, labelled_trees
from archive_tools.publish.print.labels import Fit, LabelFormat, common_size
from archive_tools.publish.print.sheets import Sheet, sheet_for
from archive_tools.publish.print.slug import slugs
from archive_tools.publish.print.tags import CARD_SIZE, TAG_SIZE, coded_pieces, end_card, session_card, tree_tag
from archive_tools.publish.translation import translations_for
from archive_tools.read.label_register import read_register
from archive_tools.reason import read_prose
from archive_tools.reason.reading_level import reading_level
from archive_tools.reason.stale_labels import key_of, stale_labels
from archive_tools.sort_in.payload import card_text, end_card_text, label_address


class NoAddressError(ValueError):
    """A collection without a `site_url`: there is no address for a tag to bear."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What to print: which trees of which edition, in which languages (None: the collection's first), on what paper."""

    folder: Path
    edition: Edition
    as_of: date
    today: date
    query: str | None = None
    pages: Path | None = None
    language: str | None = None
    second: str | None = None
    form: LabelFormat = field(default_factory=LabelFormat)
    per_page: str = "A4"


@dataclass(frozen=True, slots=True)
class LabelsMade:
    """Labels and what is to be said of them. pdf is None where an error stops the printing."""

    words: tuple[LabelWords, ...]
    fits: tuple[Fit, ...]
    levels: dict[str, ReadingLevel]
    size: float
    sheet: Sheet
    problems: tuple[Problem, ...]
    left_out: tuple[tuple[str, str], ...]
    pdf: bytes | None


@dataclass(frozen=True, slots=True)
class PiecesMade:
    """Tags or cards: how many, on which sheets."""

    count: int
    sheet: Sheet
    problems: tuple[Problem, ...]
    left_out: tuple[tuple[str, str], ...]
    pdf: bytes | None


@dataclass(frozen=True, slots=True)
class _Gathered:
    context: Context
    trees: tuple[Tree, ...]
    words: tuple[LabelWords, ...]
    left_out: tuple[tuple[str, str], ...]


def make_labels(asked: Asked) -> LabelsMade:
    """The labels that were asked for. Raises RefusedError, QueryProblem and SizeError."""
    sheet = sheet_for(asked.per_page, (asked.form.width, asked.form.height), asked.form.bleed)
    gathered = _gather(asked)
    context, words = gathered.context, gathered.words
    trial = sheets_of_labels.trial(context, words, asked.form)
    levels = {one.accession: level for one in words if (level := _level(one)) is not None}
    problems = [*_text_problems(gathered, levels), *typesetter.missing_glyphs(trial)]
    fits = sheets_of_labels.fits(words, typesetter.measured(trial, sheets_of_labels.TRIAL)) if words else ()
    problems += fit_problems(words, fits, asked.form)
    size = common_size(fits, asked.form)
    made = None
    if words and not _stops(problems):
        lines = slugs(context, words, asked.form, sheet, size)
        made = typesetter.pdf(sheets_of_labels.labels(context, words, asked.form, size, sheet, lines))
    return LabelsMade(words, fits, levels, size, sheet, tuple(problems), gathered.left_out, made)


def make_tags(asked: Asked, size: tuple[float, float] = TAG_SIZE) -> PiecesMade:
    """A tag for every tree asked for, with the permanent address of its page. Raises as `make_labels`, and
    NoAddressError.
    """
    gathered = _gather(asked)
    context = gathered.context
    site = context.records.settings.site_url
    if not site:
        raise NoAddressError("collection.yml gives no `site_url`, so there is no address for a tag to bear")
    tags = [tree_tag(context, one, label_address(site, one.accession, context.records.trees)) for one in gathered.trees]
    sheet = sheet_for(asked.per_page, size, asked.form.bleed)
    _ = context.translations.gettext
    title = _("Tree tags of %(house)s") % {"house": context.house}
    lines = slugs(context, gathered.words, asked.form, sheet, None)
    return _pieces(coded_pieces(context, tags, title, sheet, lines), len(tags), sheet, gathered)


def make_session_cards(asked: Asked, size: tuple[float, float] = CARD_SIZE) -> PiecesMade:
    """A card for every tree asked for, and the one that closes a session. Raises as `make_labels`."""
    gathered = _gather(asked)
    context = gathered.context
    cards = [session_card(context, [one], card_text(one.accession, asked.as_of)) for one in gathered.trees]
    cards.append(end_card(context, end_card_text()))
    sheet = sheet_for(asked.per_page, size, asked.form.bleed)
    _ = context.translations.gettext
    title = _("Session cards of %(house)s") % {"house": context.house}
    lines = slugs(context, gathered.words, asked.form, sheet, None, further=1)
    return _pieces(coded_pieces(context, cards, title, sheet, lines, level="q"), len(cards), sheet, gathered)


def find_stale(asked: Asked) -> tuple[tuple[StaleLabel, ...], int, tuple[Problem, ...]]:
    """Printed labels that are no longer true, how many are in the register, and what is wrong with it."""
    register, problems = read_register(asked.folder)
    # What a label says of its tree's age was said in the language of the label: each is compared in its own.
    spoken = dict.fromkeys(map(_first, register))
    found = [
        one
        for language in spoken
        for one in _compared(asked, language, [label for label in register if _first(label) == language])
    ]
    return tuple(sorted(found, key=lambda one: one.label.mark)), len(register), problems


def _first(label: LabelPrinted) -> str | None:
    return label.languages[0] if label.languages else None


def _compared(asked: Asked, language: str | None, register: Sequence[LabelPrinted]) -> tuple[StaleLabel, ...]:
    def make(view: EditionView) -> tuple[StaleLabel, ...]:
        now: dict[str, LabelWords] = {}
        for label in register:
            tree = view.records.trees.get(label.accession)
            if tree is not None and key_of(label) not in now:
                first, second = _contexts(view, language, next(iter(label.languages[1:]), None))
                now[key_of(label)] = label_words(first, tree, second)
        states = {accession: custody.state.word for accession, custody in view.findings.custodies.items()}
        return stale_labels(register, now, states, view.records, view.findings.chronologies, asked.as_of)

    def texts(found: tuple[StaleLabel, ...]) -> Iterator[tuple[str, str]]:
        # What is told here is told to the house about its own labels; nothing of it is published.
        return iter(())

    return pipeline.prepared(
        asked.folder, edition=asked.edition, as_of=asked.as_of, today=asked.today, make=make, texts=texts,
        language=language, pages=asked.pages, claims=False,
    )  # fmt: skip


def _gather(asked: Asked) -> _Gathered:
    def make(view: EditionView) -> _Gathered:
        first, second = _contexts(view, asked.language, asked.second)
        trees, left = labelled_trees(first, asked.query)
        words = tuple(label_words(first, tree, second) for tree in trees)
        return _Gathered(first, trees, words, tuple((tree.accession, why) for tree, why in left))

    def texts(gathered: _Gathered) -> Iterator[tuple[str, str]]:
        yield "labels", gathered.context.house
        for one in gathered.words:
            yield f"label {one.accession}", "\n".join(one.said.values())

    return pipeline.prepared(
        asked.folder, edition=asked.edition, as_of=asked.as_of, today=asked.today, make=make, texts=texts,
        language=asked.language, pages=asked.pages, claims=False,
    )  # fmt: skip


def _contexts(view: EditionView, language: str | None, second: str | None) -> tuple[Context, Context | None]:
    first = language or view.records.settings.languages[0]
    one = Context(view, Pictures(), first, translations_for(first))
    return one, Context(view, Pictures(), second, translations_for(second)) if second else None


def _text_problems(gathered: _Gathered, levels: dict[str, ReadingLevel]) -> Iterator[Problem]:
    view = gathered.context.view
    settings = view.records.settings
    explained = glossary_terms(view.records)
    yield from check_label_texts(gathered.words, levels, most_words=settings.label_words, explained=explained)
    # Labels alone are read for claims here: reading every note of the collection takes seconds.
    labelled = {tree.accession: replace(tree, talking_points=None, notes=()) for tree in gathered.trees}
    alone = replace(view.records, trees=labelled, tours={}, talks={})
    claims = read_prose(alone, view.findings.chronologies, view.as_of)
    yield from prose_not_borne_out(replace(view.findings, prose=claims))


def _level(one: LabelWords) -> ReadingLevel | None:
    language = one.text_language or one.language
    return reading_level(one.text) if language.split("-", maxsplit=1)[0] == "en" else None


def _pieces(document: Printed, count: int, sheet: Sheet, gathered: _Gathered) -> PiecesMade:
    problems = typesetter.missing_glyphs(document)
    made = None if _stops(problems) else typesetter.pdf(document)
    return PiecesMade(count, sheet, problems, gathered.left_out, made)


def _stops(problems: Iterable[Problem]) -> bool:
    return any(problem.severity is Severity.ERROR for problem in problems)
