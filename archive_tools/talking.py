"""A talk made ready: its slides, what is handed out, and the facts behind it. Beside the order of work, at the edge."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, time
from pathlib import Path

from archive_tools import pipeline
from archive_tools.check import check_findings
from archive_tools.illustrate import cut_file, draw
from archive_tools.model.grades import Edition
from archive_tools.model.grounds import Talk
from archive_tools.model.pictures import Cut
from archive_tools.model.problems import Problem
from archive_tools.model.view import EditionView
from archive_tools.publish.context import Context
from archive_tools.publish.print.document import Printed
from archive_tools.publish.talk import Changes, SectionTime, Slide, fact_sheet, handout, parts_of, slides_of, too_long
from archive_tools.publish.talk import write_deck as deck_of
from archive_tools.publish.translation import translations_for
from archive_tools.reason import told_sentences

_NO_ROOM = "no-room"


@dataclass(frozen=True, slots=True)
class TalkMade:
    """Everything of one talk. `problems`: claims of years that the evidence does not bear out, words without room."""

    talk: Talk
    title: str
    deck: bytes
    changes: Changes
    handout: Printed
    facts: Printed
    slides: tuple[Slide, ...]
    times: tuple[SectionTime, ...]
    unproved: int
    problems: tuple[Problem, ...]


def make_talk(
    folder: Path,
    plan: Talk,
    *,
    edition: Edition,
    as_of: date,
    today: date,
    cache: Path,
    language: str | None = None,
    earlier: bytes | None = None,
    bring_back: bool = False,
    progress: pipeline.Progress | None = None,
) -> TalkMade:
    """The talk as of a day, from what the edition may show. plan: as it is written in the collection.

    language: in which it is given; its plan's where None. earlier: the deck as its speaker left it. Raises RefusedError
    where something would leak, ValueError where `earlier` is no presentation.
    """

    def made(view: EditionView) -> TalkMade:
        return _made(view, folder, plan.id, language, cache, earlier, bring_back, progress)

    return pipeline.prepared(
        folder, edition=edition, as_of=as_of, today=today, make=made, texts=_texts, talk=plan.id,
        language=language or plan.language,
    )  # fmt: skip


def _made(
    view: EditionView,
    folder: Path,
    talk_id: str,
    language: str | None,
    cache: Path,
    earlier: bytes | None,
    bring_back: bool,
    progress: pipeline.Progress | None,
) -> TalkMade:
    talk = view.records.talks[talk_id]
    language = language or talk.language or view.records.settings.languages[0]
    translations = translations_for(language)
    pictures = draw(view, folder, cache, progress=progress, translate=translations.gettext)
    context = Context(view, pictures, language, translations)
    slides, times = slides_of(context, talk)
    parts = parts_of(context, talk)
    spoken = [(part.text, tuple(tree.accession for tree in part.trees)) for part in parts]
    sentences = told_sentences(view.records, view.findings, spoken, view.as_of)

    def read(url: str) -> bytes:
        return cut_file(cache, Cut(url, 0, 0)).read_bytes()

    deck, changes = deck_of(
        slides,
        read,
        accent=(view.records.settings.accent or "#174a55").lstrip("#"),
        title=context.say(talk.title),
        speaker=context.steward(talk.speaker).name if talk.speaker else "",
        house=context.house,
        language=language,
        day=datetime.combine(view.as_of, time(), UTC),
        earlier=earlier,
        bring_back=bring_back,
    )
    claims = [p for p in check_findings(view.records, view.findings) if p.mark.file == talk.where.file]
    return TalkMade(
        talk=talk,
        title=context.say(talk.title),
        deck=deck,
        changes=changes,
        handout=handout(context, talk, read),
        facts=fact_sheet(context, talk, sentences, times),
        slides=slides,
        times=times,
        unproved=sum(sentence.standing.value == "unproved" for sentence in sentences),
        problems=(*claims, *_without_room(talk, slides)),
    )


def _without_room(talk: Talk, slides: tuple[Slide, ...]) -> Iterator[Problem]:
    for slide, words in too_long(slides):
        yield Problem(
            talk.where.at("sections"),
            f"the words “{words}” have no room on the slide “{slide.title}” even at the smallest size",
            "fewer words: a shorter title, caption or name",
            rule=_NO_ROOM,
        )


def _texts(made: TalkMade) -> Iterable[tuple[str, str]]:
    """All that a listener or a reader of the files may see, for the search for hidden names."""
    for slide in made.slides:
        plates = [f"{plate.alt}\n{plate.caption}" for plate in slide.plates]
        yield f"slide {slide.key}", "\n".join((slide.title, *slide.lines, slide.botanical, slide.notes, *plates))
        if slide.figure is not None:
            figure = slide.figure
            said = (figure.says, *(bar.words for bar in figure.bars), *(spot.name for spot in figure.spots))
            yield f"slide {slide.key}", "\n".join(said)
    yield "handout", made.handout.source
    yield "fact sheet", made.facts.source
