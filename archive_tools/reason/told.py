"""What stands behind each sentence of a text that is spoken.

A sentence is read for what records can bear out: claims of years (as labels are read for them), years, numbers, and the
names of stewards. It is laid beside the events and photographs of the trees that are spoken of. That a record names the
same year and the same person does not prove the sentence; it tells the speaker where to look.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from datetime import date

from archive_tools.model.collection import Collection
from archive_tools.model.dates import WhenWritten
from archive_tools.model.event import Event
from archive_tools.model.findings import Findings, ProseClaim
from archive_tools.model.people import Steward
from archive_tools.model.places_in_files import Mark
from archive_tools.model.told import Behind, Standing, ToldSentence
from archive_tools.model.tree import Tree
from archive_tools.reason.prose.sentences import sentences
from archive_tools.reason.prose.texts import Told, house_names, judge

_YEAR = re.compile(r"(?<![\d.,])(1[5-9]\d\d|20\d\d)(?![\d,]|\.\d)")
_NUMBER = re.compile(
    r"(?<![\w.])\d+(?:[.,]\d+)?(?!\w)|\b(?:two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen"
    r"|fifteen|sixteen|seventeen|eighteen|nineteen|(?:twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety)(?:-\w+)?"
    r"|hundred|thousand)\b",
    re.IGNORECASE,
)
_WIDEST = 4
"""Years: an event dated more vaguely than this is not found by a year."""
_YEAR_COUNTS = 2
"""The same year weighs more than the same person."""
_MOST = 4
"""So many records are told of a sentence, the closest first."""

Names = Mapping[str, re.Pattern[str]]


def told_sentences(
    collection: Collection, findings: Findings, parts: Iterable[tuple[str, tuple[str, ...]]], as_of: date
) -> tuple[ToldSentence, ...]:
    """Every sentence of the parts, each part a text with the accessions it speaks of, as of a day."""
    names = _names(collection.stewards)
    found = []
    for number, (text, accessions) in enumerate(parts):
        trees = [collection.trees[a] for a in accessions if a in collection.trees]
        for sentence in sentences(text):
            claims = tuple(_claims(collection, findings, trees, sentence.text, as_of)) if len(trees) == 1 else ()
            years = {int(year) for year in _YEAR.findall(sentence.text)}
            people = {who for who, pattern in names.items() if pattern.search(sentence.text)}
            weight, behind = _behind(findings, trees, years, people) if years or people else (0, ())
            if claims:
                standing = Standing.YEARS
            elif weight >= (_YEAR_COUNTS if years else 1):
                standing = Standing.RECORDED
            elif years or people or _NUMBER.search(sentence.text):
                standing = Standing.UNPROVED
            else:
                standing = Standing.PLAIN
            found.append(ToldSentence(number, sentence.text, standing, behind[:_MOST], claims))
    return tuple(found)


def _claims(
    collection: Collection, findings: Findings, trees: list[Tree], text: str, as_of: date
) -> Iterator[ProseClaim]:
    for tree in trees:
        chronology = findings.chronologies.get(tree.accession)
        if chronology is not None and not chronology.under_review:
            told = Told(tree, text, Mark(tree.where.file), as_of, house=house_names(collection))
            yield from judge(told, chronology, collection.settings.dates)


def _names(stewards: Mapping[str, Steward]) -> Names:
    """How each steward may be named in a sentence: in full, by an alias, or by a surname that no other shares."""
    last: dict[str, int] = {}
    for steward in stewards.values():
        for text in steward.name.all_texts:
            word = text.split(" ")[-1]
            last[word] = last.get(word, 0) + 1
    found = {}
    for key, steward in stewards.items():
        if steward.masked:
            continue
        said = [*steward.name.all_texts, *(name for _, name in steward.names), *steward.aliases]
        if steward.kind in ("person", "unknown"):
            said += [w for t in steward.name.all_texts if last[w := t.split(" ")[-1]] == 1 and len(w) > 2]
        alternatives = "|".join(re.escape(name) for name in sorted(dict.fromkeys(said), key=len, reverse=True))
        found[key] = re.compile(rf"(?<!\w)(?:{alternatives})(?!\w)")
    return found


def _behind(findings: Findings, trees: list[Tree], years: set[int], people: set[str]) -> tuple[int, tuple[Behind, ...]]:
    """How much is the same, and the records of which it is: of the year and the person, or of one of them."""
    weighed: list[tuple[int, Behind]] = []
    for tree in trees:
        chronology = findings.chronologies.get(tree.accession)
        for event in tree.events:
            finding = chronology.event(event.id) if chronology else None
            span = _span(finding.bounds.earliest, finding.bounds.latest) if finding else _of_when(event.when)
            weighed.append((_weight(span, years, _people_of(event), people), Behind(tree.accession, event.id)))
        for photo in tree.photos:
            by = {photo.photographer} if photo.photographer else set()
            weighed.append((_weight(_of_when(photo.when), years, by, people), Behind(tree.accession, photo.file)))
    best = max((weight for weight, _ in weighed), default=0)
    return best, tuple(behind for weight, behind in weighed if weight == best > 0)


def _weight(span: tuple[int, int] | None, years: set[int], who: set[str], people: set[str]) -> int:
    same_year = span is not None and any(span[0] <= year <= span[1] for year in years)
    return (_YEAR_COUNTS if same_year else 0) + (1 if who & people else 0)


def _people_of(event: Event) -> set[str]:
    return {*event.by, *event.from_, *event.to, *event.with_}


def _span(first: date | None, last: date | None) -> tuple[int, int] | None:
    if first is None or last is None or last.year - first.year > _WIDEST:
        return None
    return first.year, last.year


def _of_when(when: WhenWritten | None) -> tuple[int, int] | None:
    return _span(when.earliest, when.latest) if when else None
