"""The rules that look at a whole collection. Each is one function of one topic.

What can be judged value by value (dates, words of the vocabulary, shares, patterns, ids given twice) is judged when the
files are read: a rule here needs more than one value.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from archive_tools.check import (
    circles,
    custody,
    dates_together,
    duplicates,
    house,
    lineage,
    people_in_pictures,
    photograph_dates,
    picture_marks,
    planned,
    public_face,
    queries,
    references,
    rights,
    routes,
    spans,
    stewards,
    tree_links,
    work,
    written_pages,
)
from archive_tools.model.collection import Collection
from archive_tools.model.findings import Findings
from archive_tools.model.problems import Problem

RULES = (
    stewards.unknown_custodian,
    house.accent_too_pale,
    house.site_url_goes_on,
    rights.bad_rights,
    stewards.unknown_in_events,
    stewards.unknown_in_notes,
    stewards.unknown_in_photographs,
    stewards.unknown_in_stewards,
    stewards.unknown_in_things,
    stewards.death_before_birth,
    references.unknown_sources,
    references.unknown_objects,
    references.unknown_places,
    references.unknown_trees,
    references.unknown_events,
    references.unknown_photographs,
    routes.unknown_in_tours,
    routes.unknown_in_talks,
    queries.queries_that_find_nothing,
    tree_links.unknown_tree_links,
    picture_marks.marks_outside,
    picture_marks.scales_between_nothing,
    picture_marks.comparisons_without_marks,
    circles.names_itself,
    circles.circles_of_descent,
    circles.circles_of_teaching,
    circles.circles_of_membership,
    spans.events_that_end_too_soon,
    spans.records_that_end_too_soon,
    work.cycles_beyond_the_whole,
    custody.changes_without_hands,
    custody.loans_without_end,
    custody.bequests_of_the_living,
    custody.tags_of_one_tree,
    lineage.owners_without_joint,
    lineage.circles_of_plantings,
    lineage.things_held_by_the_dead,
    planned.plans_done_wrongly,
    duplicates.members_called_the_same,
    duplicates.pictures_kept_twice,
    duplicates.pictures_that_look_the_same,
    photograph_dates.dates_that_differ,
    photograph_dates.scanned_before_taken,
    people_in_pictures.children_without_consent,
    people_in_pictures.consent_refused,
    people_in_pictures.consent_unsaid,
    public_face.hidden_portraits,
    public_face.faceless_trees,
    public_face.long_labels,
    public_face.ages_on_labels,
    public_face.nameless_in_public,
    written_pages.pages_in_the_way,
)
"""Rules that need only the collection. To add one, write a function and name it here."""

RULES_OF_THE_DAY = (planned.plans_not_ahead, planned.not_yet)
"""Rules that need the day of the check too."""


def check_collection(collection: Collection, today: date) -> list[Problem]:
    """Every problem of a collection that its records show by themselves, file by file. `today`: the day of the check.

    Needs no visibility worked out: what is declared public is judged as such, embargoed or not.
    """
    problems = [problem for rule in RULES for problem in rule(collection)]
    problems += [problem for rule in RULES_OF_THE_DAY for problem in rule(collection, today)]
    return _once(problems)


def check_findings(collection: Collection, findings: Findings) -> list[Problem]:
    """Every problem that shows only when the dates of a collection are taken together."""
    return _once(
        [
            *dates_together.contradictions(findings),
            *dates_together.orders_left_open(collection, findings),
            *photograph_dates.stamps_out_of_order(collection, findings),
            *dates_together.prose_not_borne_out(findings),
            *lineage.givers_who_did_not_hold(collection, findings),
            *lineage.owners_who_differ(collection, findings),
        ]
    )


def _once(problems: Iterable[Problem]) -> list[Problem]:
    """Each problem once, in order of files: a note or photograph of several trees is met under each of them."""
    unique: dict[object, Problem] = {}
    for problem in problems:
        unique.setdefault((problem.mark, problem.rule, problem.what), problem)
    return sorted(unique.values(), key=lambda problem: problem.sort_key)
