"""A tour planned from what an edition shows: who may be seen, where, for how long, in which order."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date

from archive_tools.model.grounds import Stop, Tour
from archive_tools.model.speech import speech_seconds
from archive_tools.model.tour_plan import Candidate, NotSeen, StopText, TourPlan, TourStop, WalkAsked, Window
from archive_tools.model.tree_query import trees_that_fit
from archive_tools.model.view import EditionView
from archive_tools.reason.tours.interest import EVERY_TREE, interest_of
from archive_tools.reason.tours.plan import CannotPlan, plan_walk, with_more_time
from archive_tools.reason.tours.speech import dwell_seconds
from archive_tools.reason.tours.walking import walking_seconds, ways

MINUTES = 45
"""How long a walk is of which nobody says."""
NOTHING = StopText("", "")


@dataclass(frozen=True, slots=True)
class WhatIf:
    """What is asked otherwise than the plan says: minutes, step-free, places shut from one second to another."""

    minutes: int | None = None
    step_free: bool | None = None
    shut: Mapping[str, tuple[Window, ...]] | None = None


@dataclass(frozen=True, slots=True)
class _Sight:
    """A candidate and the stop it stands for."""

    candidate: Candidate
    sort: str
    id: str
    text: StopText


def plan_tour(
    view: EditionView, tour: Tour, texts: Mapping[str, StopText], today: date, what_if: WhatIf | None = None
) -> TourPlan:
    """The best walk for a tour's minutes. `texts`: what is said of each tree, by accession.

    On a day after `today` a tree is taken to stand in its usual place, or where it was last on display: where it
    winters now says nothing of then.

    Stops that the plan lists keep their order; a tree it must see, and those it prefers, come where they fit. Without
    stops of its own, or with `prefer`, it may fill up with any tree that may be seen. Raises CannotPlan where what
    must be seen is not there, cannot be reached, or does not fit.
    """
    if what_if is None:
        what_if = WhatIf()
    seconds = 60 * (what_if.minutes or tour.minutes or MINUTES)
    step_free = tour.step_free if what_if.step_free is None else what_if.step_free
    sights, missing = _sights(view, tour, texts, today)
    times = {place: _open(closed, seconds) for place, closed in (what_if.shut or {}).items()}
    missing |= {s.id: "not open" for s in sights if s.sort == "tree" and times.get(s.candidate.place) == ()}
    for sight in sights:
        if sight.candidate.required and times.get(sight.candidate.place) == ():
            raise CannotPlan(f"{sight.id} must be seen, and its place is shut for the whole of the walk")
    sights = [s for s in sights if times.get(s.candidate.place) != ()]
    candidates = tuple(
        replace(s.candidate, windows=times[s.candidate.place]) if s.candidate.place in times else s.candidate
        for s in sights
    )
    places = [c.place for c in candidates] + [place for place in (tour.start, tour.end) if place]
    known = ways(view.records.paths, step_free=step_free, open_places=_open_places(view, tour))
    walking = walking_seconds(places, known, view.records.settings.walking_speed)
    asked = WalkAsked(candidates, walking, seconds, tour.start, tour.end)
    plan = plan_walk(asked)
    by_key = {sight.candidate.key: sight for sight in sights}
    rate = view.records.settings.speaking_rate
    stops = tuple(
        TourStop(
            by_key[visit.key].sort,
            by_key[visit.key].id,
            visit.place,
            visit.walk,
            visit.arrive,
            visit.leave,
            visit.wait,
            speech_seconds(by_key[visit.key].text.text, rate),
            by_key[visit.key].text,
        )
        for visit in plan.visits
    )
    return TourPlan(
        tour=tour.id,
        asked=seconds,
        stops=stops,
        last_walk=plan.last_walk,
        seconds=plan.seconds,
        interest=plan.interest,
        best_possible=plan.best_possible,
        start=tour.start,
        end=tour.end,
        step_free=step_free,
        left_out=(
            *(NotSeen("tree", accession, why) for accession, why in missing.items()),
            *(NotSeen(by_key[key].sort, by_key[key].id, why) for key, why in plan.left_out.items()),
        ),
        with_more=tuple(
            NotSeen(by_key[key].sort, by_key[key].id) for key in (with_more_time(asked, plan) if plan.left_out else ())
        ),
    )


def _open_places(view: EditionView, tour: Tour) -> set[str]:
    public = tour.audience == "public"
    return {place.id for place in view.records.places.values() if place.open_to == "public" or not public}


def _open(shut: tuple[Window, ...], seconds: int) -> tuple[Window, ...]:
    """The times in which a place is open that is shut in these."""
    windows, begin = [], 0
    for closes, opens in sorted(shut):
        if closes > begin:
            windows.append((begin, closes))
        begin = max(begin, opens)
    return (*windows, (begin, seconds)) if begin < seconds else tuple(windows)


def _sights(
    view: EditionView, tour: Tour, texts: Mapping[str, StopText], today: date
) -> tuple[list[_Sight], dict[str, str]]:
    """Everything the walk may stop at, and the trees that it cannot, with the reason."""
    trees = view.records.trees
    listed = {stop.tree: stop for stop in tour.stops if stop.tree}
    preferred = {t.accession for t in trees_that_fit(tour.prefer, trees.values())} if tour.prefer else set()
    wanted = dict.fromkeys([*listed, *tour.must])
    if tour.prefer or not tour.stops:
        wanted |= dict.fromkeys(trees)
    missing: dict[str, str] = {}
    free: list[_Sight] = []
    standing: dict[str, str] = {}
    for accession in wanted:
        place = _place_of(view, tour, accession, today)
        if place in ("not here", "not open"):
            if accession in tour.must:
                raise CannotPlan(_must_be_seen(accession, place))
            missing[accession] = place
            continue
        standing[accession] = place
        if accession not in listed:
            free.append(_tree(view, tour, accession, place, texts, accession in preferred))
    most = sum(sight.candidate.interest for sight in free)
    told = _listed(view, tour, texts, standing, preferred, most)
    return [*told, *free], missing


def _must_be_seen(accession: str, why: str) -> str:
    reasons = {
        "not here": "is not in the collection on that day",
        "not open": "stands where this audience may not go, or nobody has said where it stands",
    }
    return f"{accession} must be seen, and it {reasons[why]}"


def _place_of(view: EditionView, tour: Tour, accession: str, today: date) -> str:
    """Where a tree stands; "not here" or "not open" where it cannot be seen."""
    custody = view.findings.custodies.get(accession)
    if accession not in view.records.trees or custody is None or not custody.state.in_collection:
        return "not here"
    day = tour.when.earliest if tour.when else None
    tree = view.records.trees[accession]
    shown = [event.at for event in tree.events if event.kind == "on display" and not event.planned and event.at]
    usual = (tree.place or (shown[-1] if shown else None)) if day is not None and day > today else None
    place = usual or custody.state.place
    return place if place and place in _open_places(view, tour) else "not open"


def _tree(
    view: EditionView, tour: Tour, accession: str, place: str, texts: Mapping[str, StopText], preferred: bool
) -> _Sight:
    tree, custody = view.records.trees[accession], view.findings.custodies[accession]
    text = texts.get(accession, NOTHING)
    points = interest_of(
        tree,
        view.findings.chronologies.get(accession),
        on_display=custody.state.on_display,
        preferred=preferred,
        month=_month(tour),
    )
    dwell = dwell_seconds(text.text, view.records.settings.speaking_rate)
    return _Sight(Candidate(accession, place, points, dwell, accession in tour.must), "tree", accession, text)


def _month(tour: Tour) -> int | None:
    day = tour.when.earliest if tour.when else None
    return day.month if day else None


def _listed(
    view: EditionView,
    tour: Tour,
    texts: Mapping[str, StopText],
    standing: Mapping[str, str],
    preferred: set[str],
    most_of_free: int,
) -> list[_Sight]:
    """The stops that the plan lists, in their order; each is worth more than all that it does not list."""
    found: list[_Sight] = []
    language = tour.language or view.records.settings.languages[0]
    here = tour.start
    for rank, stop in enumerate(tour.stops):
        sort, id_ = _names(stop)
        place = standing.get(id_) if sort == "tree" else _place_of_stop(view, tour, stop, rank, here)
        if place is None:
            continue
        text = StopText(stop.text.say(language), stop.text.language_said(language)) if stop.text else NOTHING
        points = EVERY_TREE
        if sort == "tree":
            sight = _tree(view, tour, id_, place, texts, id_ in preferred)
            text, points = (text if stop.text else sight.text), sight.candidate.interest
        dwell = stop.seconds
        if dwell is None:
            dwell = dwell_seconds(text.text, view.records.settings.speaking_rate)
        required = sort == "tree" and id_ in tour.must
        key = id_ if sort == "tree" else f"{sort} {id_} {rank}"
        found.append(_Sight(Candidate(key, place, points + most_of_free, dwell, required, rank), sort, id_, text))
        here = place
    return found


def _names(stop: Stop) -> tuple[str, str]:
    for sort, id_ in (("tree", stop.tree), ("place", stop.place), ("object", stop.object)):
        if id_ is not None:
            return sort, id_
    raise ValueError("a stop without anything to see")


def _place_of_stop(view: EditionView, tour: Tour, stop: Stop, rank: int, here: str | None) -> str | None:
    """Where a place or an object is; an object is where it was last shown, else where the walk has come to or ends."""
    if stop.place is not None:
        return stop.place if stop.place in _open_places(view, tour) else None
    thing = view.records.objects.get(stop.object or "")
    if thing is None:
        return None
    shown = [event.at for event in thing.events if event.at in view.records.places and not event.planned]
    if shown:
        return shown[-1]
    return tour.end if rank == len(tour.stops) - 1 else here
