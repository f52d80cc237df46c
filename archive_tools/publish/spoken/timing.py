"""Chapters and captions of a tour: by its plan, or by what was heard in a recording."""

from __future__ import annotations

from collections.abc import Sequence

from archive_tools.model.speech import speech_seconds
from archive_tools.model.timed_text import Said, StopFound
from archive_tools.model.tour_plan import TourPlan
from archive_tools.publish.context import Context
from archive_tools.publish.spoken.webvtt import Cue, captions

SETTLING = 10
"""Seconds at a stop in which a group gathers before anybody speaks. Common practice, no source."""


def tour_chapters(names: Sequence[str], plan: TourPlan) -> tuple[Cue, ...]:
    """One chapter a stop, from when the walk to it begins to when the walk to the next does."""
    cues, begin = [], 0
    for number, (name, stop) in enumerate(zip(names, plan.stops, strict=True), 1):
        last = number == len(plan.stops)
        end = stop.leave + (plan.last_walk if last else 0)
        cues.append(Cue(begin * 1000, end * 1000, name, f"stop-{number}"))
        begin = stop.leave
    return tuple(cues)


def tour_captions(plan: TourPlan, texts: Sequence[str], context: Context) -> tuple[Cue, ...]:
    """The words of every stop, spoken from when the group has gathered, at the house's rate; never beyond the stop."""
    rate = context.records.settings.speaking_rate
    cues: list[Cue] = []
    for stop, text in zip(plan.stops, texts, strict=True):
        if not text:
            continue
        lasting = min(speech_seconds(text, rate), stop.leave - stop.arrive)
        begin = stop.arrive + min(SETTLING, stop.leave - stop.arrive - lasting)
        cues += captions(text, begin * 1000, (begin + lasting) * 1000)
    return tuple(cues)


def retimed_chapters(names: Sequence[str], found: Sequence[StopFound], said: Sequence[Said]) -> tuple[Cue, ...]:
    """One chapter for each stop that was found in a recording, to the next that was, the last to the end."""
    heard = [(stop.at, names[stop.stop], stop.stop + 1) for stop in found if stop.at is not None]
    ends = [at for at, _, _ in heard[1:]] + [max((one.end for one in said), default=0)]
    return tuple(
        Cue(at, max(end, at), name, f"stop-{number}") for (at, name, number), end in zip(heard, ends, strict=True)
    )


def spoken_captions(said: Sequence[Said]) -> tuple[Cue, ...]:
    """What was heard, as captions that keep to the format: in order, none ending after the next begins."""
    cues: list[Cue] = []
    for at, one in enumerate(said):
        end = min(one.end, said[at + 1].begin) if at + 1 < len(said) else one.end
        cues += captions(one.text, one.begin, max(end, one.begin + 1))
    return tuple(cues)
