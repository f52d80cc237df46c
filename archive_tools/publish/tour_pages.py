"""Pages of the tours an edition holds: all of them, the plan of each, and the walk itself for whoever cannot come.

Every tour has a page in each language it can be given in; the frame round it stays in the language of the site.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from importlib.resources import files

from archive_tools.model.grounds import Tour
from archive_tools.model.page import Page, SiteFile
from archive_tools.model.tour_plan import TourPlan
from archive_tools.publish.addresses import addresses
from archive_tools.publish.context import Context
from archive_tools.publish.courts_drawing import way_of_walk
from archive_tools.publish.spoken.cards import cards_of
from archive_tools.publish.spoken.run_sheet import clock, start_seconds
from archive_tools.publish.spoken.stop_text import languages_of
from archive_tools.publish.translation import translations_for

TOURS = "tours/index.md"
_OFFLINE = "offline.js"


@dataclass(frozen=True, slots=True)
class TourLine:
    """A tour as the list of tours shows it. languages: (code, path of the walk in it).

    title_language, text_language: which language each is in.
    """

    title: str
    title_language: str
    path: str
    walk: str
    when: str
    minutes: int
    stops: int
    step_free: bool
    text: str
    text_language: str
    languages: tuple[tuple[str, str], ...]


def tour_pages(context: Context) -> Iterator[Page]:
    """Every page of every tour that can be walked as it is planned; none where there is no tour."""
    plans = context.view.findings.tours
    if not plans:
        return
    named = addresses(plans)
    lines = []
    for tour_id, plan in plans.items():
        tour = context.records.tours[tour_id]
        spoken = languages_of(context.records, tour)
        base = f"tours/{named[tour_id]}/"
        further = tuple((language, f"{base}walk/{language}/") for language in spoken[1:])
        walks = ((spoken[0], f"{base}walk/"), *further)
        own = _in(context, spoken[0])
        lines.append(_line(own, context, tour, plan, base, walks))
        yield _plan_page(own, context, tour, plan, base, walks)
        for language, path in walks:
            yield _walk_page(_in(context, language), context, tour, plan, base, path, walks)
    _ = context.translations.gettext
    body = context.render("tour/tours.html", TOURS, lines=lines)
    yield Page(TOURS, _("Walks"), body, "tours", language=context.language)


def tour_files(context: Context) -> Iterator[SiteFile]:
    """The script of the walks, and beside each walk the one that keeps it for when there is no network."""
    plans = context.view.findings.tours
    if not plans:
        return
    folder = files("archive_tools").joinpath("templates", "tour")
    yield SiteFile("assets/walk.js", folder.joinpath("walk.js").read_bytes())
    for address in addresses(plans).values():
        yield SiteFile(f"tours/{address}/walk/{_OFFLINE}", folder.joinpath(_OFFLINE).read_bytes())


def _in(context: Context, language: str) -> Context:
    if language == context.language:
        return context
    findings = context.view.findings_in.get(language, context.view.findings)
    heard = replace(context.view, findings=findings)
    return replace(context, view=heard, language=language, translations=translations_for(language))


def _line(
    own: Context, site: Context, tour: Tour, plan: TourPlan, base: str, walks: tuple[tuple[str, str], ...]
) -> TourLine:
    first = next((card for card in cards_of(own, tour, plan) if card.text), None)
    return TourLine(
        title=site.say(tour.title),
        title_language=tour.title.language_said(site.language) or own.language,
        path=base,
        walk=walks[0][1],
        when=site.dates.when(tour.when),
        minutes=-(-plan.seconds // 60),
        stops=len(plan.stops),
        step_free=plan.step_free,
        text=first.text if first else "",
        text_language=first.language if first else "",
        languages=walks[1:],
    )


def _plan_page(
    own: Context, site: Context, tour: Tour, plan: TourPlan, base: str, walks: tuple[tuple[str, str], ...]
) -> Page:
    """The itinerary: when, where, in which order; in the language of the site, whatever is spoken on the walk."""
    source = f"{base}index.md"
    start = start_seconds(tour)
    unseen = () if site.is_public else tuple(one.id for one in plan.left_out if one.sort == "tree")
    told = zip(cards_of(site, tour, plan), cards_of(own, tour, plan), strict=True)
    body = site.render(
        "tour/plan.html",
        source,
        title=site.say(tour.title),
        title_language=tour.title.language_said(site.language) or own.language,
        cards=[replace(card, is_draft=spoken.is_draft) for card, spoken in told],
        stops=plan.stops,
        when=site.dates.when(tour.when),
        begins=clock(start, 0) if start is not None else "",
        ends=clock(start, -(-plan.seconds // 60) * 60) if start is not None else "",
        minutes=-(-plan.seconds // 60),
        step_free=plan.step_free,
        from_place=site.place(plan.start),
        to_place=site.place(plan.end),
        way=way_of_walk(site, plan),
        walks=walks,
        left_out=tuple(site.tree_named(accession) for accession in unseen),
    )
    return Page(source, site.say(tour.title), body, "tours", language=site.language)


def _walk_page(
    own: Context,
    site: Context,
    tour: Tour,
    plan: TourPlan,
    base: str,
    path: str,
    walks: tuple[tuple[str, str], ...],
) -> Page:
    """The walk itself, stop by stop: a picture as wide as the page, and what is said there."""
    source = f"{path}index.md"
    offline = _OFFLINE if path.endswith("/walk/") else f"../{_OFFLINE}"
    cards = cards_of(own, tour, plan)
    body = own.render(
        "tour/walk.html",
        source,
        title=own.say(tour.title),
        cards=cards,
        base=base,
        walks=[walk for walk in walks if walk[1] != path],
        offline=offline,
        foreign=own.language != site.language,
    )
    picture = next((card.portrait.large.url for card in cards if card.portrait), "")
    meta = {"picture": picture} if picture else {}
    return Page(source, own.say(tour.title), body, "tours", language=own.language, meta=meta)
