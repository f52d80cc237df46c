"""Labels before they are printed: length, sentences, reading level, words that nobody has explained.

Lengths after the Smithsonian Guidelines for Accessible Exhibition Design, section "Label Design and Text": at most 25
words a sentence (15 are better), at most 75 to 100 words a label. A reading level that most visitors share: the eighth
or ninth year of school (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from archive_tools.check.trade_words import unexplained
from archive_tools.model.label import LabelWords
from archive_tools.model.places_in_files import Mark
from archive_tools.model.problems import Problem, Reach, Severity
from archive_tools.model.reading import ReadingLevel

SENTENCE_WORDS = 25
GRADE = 9.0


def check_label_texts(
    labels: Iterable[LabelWords], levels: Mapping[str, ReadingLevel], *, most_words: int, explained: Iterable[str]
) -> tuple[Problem, ...]:
    """Warnings about the texts of labels. levels: of the English texts, by accession; others are not read.

    most_words: `label_words` of the collection. explained: words that the house's glossary explains.
    """
    known = tuple(explained)
    return tuple(problem for label in labels for problem in _of(label, levels.get(label.accession), most_words, known))


def _of(label: LabelWords, level: ReadingLevel | None, most: int, explained: tuple[str, ...]) -> Iterator[Problem]:
    mark = label.marks.get("text", Mark("collection.yml"))
    if not label.text:
        name = label.name or label.accession
        yield _warning(mark, "label-empty", f"{name} has no label text, so its label says the facts alone", "label: …")
        return
    yield from _languages(label, mark)
    if level is None:
        return
    count = len(label.text.split())
    if count > most:
        over = count - most
        what = f"the label has {count} words, {over} more than the house allows (`label_words`: {most})"
        yield _warning(mark, "label-long", what, f"the same in {most} words, or a larger `label_words`")
    if level.longest > SENTENCE_WORDS:
        what = (
            f"a sentence of {level.longest} words, which is hard to read standing; at most {SENTENCE_WORDS} are "
            f"advised: “{level.longest_sentence}”"
        )
        yield _warning(mark, "label-sentence", what, "two sentences")
    if level.grade > GRADE:
        what = (
            f"the label asks for about {level.grade:.0f} years of school (Flesch-Kincaid {level.grade:.1f}); "
            f"what costs most is “{level.costly}”"
        )
        yield _warning(mark, "label-hard", what, "shorter words or shorter sentences there")
    for word, plain in unexplained(label.text, explained):
        what = f"“{word}” is a word of the trade that neither the label nor the glossary explains"
        yield _warning(mark, "label-jargon", what, f"{plain}, or the word in the glossary")


def _languages(label: LabelWords, mark: Mark) -> Iterator[Problem]:
    if label.text_language and _base(label.text_language) != _base(label.language):
        what = (
            f"the label text of {label.accession} is not written in “{label.language}”, so another language is printed"
        )
        yield _warning(mark, "label-language", what, f"label: {{{label.language}: …}}")
    if label.other is not None and not label.other.text:
        what = f"the label text of {label.accession} is not written in “{label.other.language}”"
        yield _warning(mark, "label-language", what, f"label: {{{label.other.language}: …}}")


def _base(language: str) -> str:
    return language.split("-", maxsplit=1)[0]


def _warning(mark: Mark, rule: str, what: str, instead: str) -> Problem:
    return Problem(mark, what, instead, rule, Severity.WARNING, Reach.TOLD)
