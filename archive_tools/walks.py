"""The walks of one edition: each tour planned with the words spoken at its stops, in every language it is given in."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from archive_tools.model.findings import Findings
from archive_tools.model.grounds import Tour
from archive_tools.model.pictures import Pictures
from archive_tools.model.problems import Problem, Reach
from archive_tools.model.tour_plan import TourPlan
from archive_tools.model.view import EditionView
from archive_tools.publish.context import Context
from archive_tools.publish.spoken import languages_of, stop_texts
from archive_tools.publish.translation import translations_for
from archive_tools.reason import CannotPlan, find, plan_tour


def with_tours(view: EditionView, today: date) -> tuple[EditionView, tuple[Problem, ...]]:
    """The view with its tours worked out, and a problem for each that cannot be walked as it is planned.

    A tour for staff has no page in the public edition, whatever its visibility: it leads where visitors may not go.
    Trees are stood at for as long as their words take; what was measured on pictures does not lengthen a draft's.
    """
    site = view.records.settings.languages[0]
    plans: dict[str, TourPlan] = {}
    spoken: dict[str, Findings] = {site: view.findings}
    problems = []
    for tour in view.records.tours.values():
        if view.is_public and tour.audience != "public":
            continue
        for language in languages_of(view.records, tour):
            if language not in spoken:
                spoken[language] = find(view.records, view.as_of, today, translations_for(language).gettext)
        own = tour.language or site
        heard = replace(view, findings=spoken[own])
        texts = stop_texts(Context(heard, Pictures(), own, translations_for(own)))
        try:
            plans[tour.id] = plan_tour(view, tour, texts, today)
        except CannotPlan as reason:
            problems.append(no_walk(tour, str(reason)))
    further = {language: replace(found, tours=plans) for language, found in spoken.items() if language != site}
    return replace(view, findings=replace(view.findings, tours=plans), findings_in=further), tuple(problems)


def no_walk(tour: Tour, why: str) -> Problem:
    """The problem of a tour that cannot be walked as it is planned."""
    return Problem(
        tour.where.at("minutes"),
        f"this tour cannot be walked: {why}",
        "more minutes, fewer trees under must, or other ends",
        rule="no-walk",
        reach=Reach.TOLD,
    )
