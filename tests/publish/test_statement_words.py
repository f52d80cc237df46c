"""How we know: what stands in the record of another tree or of a steward is told by names and with dates in words."""

from __future__ import annotations

from dataclasses import replace
from gettext import NullTranslations

import pytest

from archive_tools.model.collection import Selected
from archive_tools.model.event import EventRef, Timing
from archive_tools.model.grades import Edition
from archive_tools.model.people import Steward
from archive_tools.model.pictures import Pictures
from archive_tools.model.places_in_files import Where
from archive_tools.model.tree import Member, Tree
from archive_tools.model.view import EditionView
from archive_tools.model.words import Words
from archive_tools.publish.context import Context
from archive_tools.publish.statement_words import statement_line
from archive_tools.publish.translation import translations_for
from archive_tools.publish.tree_age import proof_of
from archive_tools.read.durations import read_duration
from archive_tools.reason import find
from tests.making import AS_OF, collection, event, source, tree, when
from tests.reason.lineage_asking import refs

LANTERNS, ODD = Words.plain("The Lanterns"), Words.plain("The Odd One")


def context_of(*trees: Tree, stewards: tuple[Steward, ...] = (), language: str = "en") -> Context:
    cards = source("cards", "Bench cards", kind="bench card")
    records = collection(*trees, stewards=stewards, sources=(cards,))
    view = EditionView(Edition.PUBLIC, AS_OF, Selected(records), find(records, AS_OF, AS_OF))
    return Context(view, Pictures(), language, translations_for(language) if language != "en" else NullTranslations())


def steps(context: Context, accession: str = "T2") -> list[tuple[str, str, str]]:
    proof = proof_of(context, context.records.trees[accession])
    assert proof is not None
    return [(step.when, step.says, step.sources) for step in proof.steps]


def forest(*members: Member) -> Tree:
    assembled = event("assembled", "1979-03-25", id="assembled", trees=refs("leaner"), sources="cards")
    listed = members or (Member("leaner", Where("trees/T1/tree.yml"), "T2"),)
    return tree(assembled, kind="planting", name=LANTERNS, members=listed)


def test_a_planting_s_record_is_told_by_its_name_and_its_day_in_words() -> None:
    """The member has an event of the same id, which is not the one that is meant."""
    own = replace(event("observed", "2020-05-01", id="assembled"), where=Where("trees/T2/tree.yml"))
    found = steps(context_of(forest(), tree(own, accession="T2", name=ODD)))
    assert found == [("25 March 1979", "The Lanterns: Planted together, with The Odd One", "Bench cards")]


def test_the_same_in_japanese() -> None:
    names = {"name": Words((("en", "The Odd One"), ("ja", "はぐれ者")))}
    (found,) = [
        says
        for when_said, says, _ in steps(context_of(forest(), tree(accession="T2", **names), language="ja"))
        if when_said == "1979年3月25日"
    ]
    assert found == "The Lanterns：寄せ植え、はぐれ者とともに"


def test_a_daughter_s_record_names_her_and_her_mother() -> None:
    struck = event("struck", "1960-04", from_tree=EventRef("T2", None))
    found = steps(context_of(tree(struck, name=LANTERNS), tree(accession="T2", name=ODD)))
    assert found == [("April 1960", "The Lanterns: Struck as a cutting, from The Odd One", "")]


def test_a_steward_s_death_bounds_what_they_did() -> None:
    mark = Where("stewards/anna.yml", {("died",): (4, 7), ("born",): (3, 7)})
    anna = Steward("anna", Words.plain("Anna Orr"), mark, born=when("1901"), died=when("1974-02"))
    potted = tree(event("potted", "197X", by="anna"), accession="T2")
    found = steps(context_of(potted, stewards=(anna,)))
    assert ("February 1974", "Death of Anna Orr", "") in found


def test_where_a_member_is_listed_with_a_date_the_planting_is_named() -> None:
    where = Where("trees/T1/tree.yml", {("members", 0): (9, 5), ("members", 0, "from"): (9, 30)}, ("members", 0))
    listed = Member("leaner", where, "T2", from_=when("1979-03"))
    planting = tree(kind="planting", name=LANTERNS, members=(listed,))
    context = context_of(planting, tree(accession="T2", name=ODD))
    chronology = context.view.findings.chronologies["T2"]
    said = {statement_line(context, context.records.trees["T2"], one)
            for finding in chronology.milestones.values()
            for one in finding.because_latest}  # fmt: skip
    assert said == {"In The Lanterns since then, March 1979"}


@pytest.mark.parametrize("language", ["en", "ja"])
def test_a_lapse_of_time_after_another_tree_s_event_names_both(language: str) -> None:
    where = Where("tree.yml", {("events", 0, "timing"): (5, 1)}, ("events", 0, "timing"))
    lapse = Timing("after", EventRef("T1", "begun"), read_duration("P2Y"), None, where)
    potted = event("potted", None, id="potted", timing=(lapse,))
    begun = tree(event("training begun", "1953", id="begun"), name=LANTERNS)
    context = context_of(begun, tree(potted, accession="T2"), language=language)
    chronology = context.view.findings.chronologies["T2"]
    (said,) = {
        statement_line(context, context.records.trees["T2"], one)
        for finding in chronology.milestones.values()
        for one in finding.because_earliest
        if one.event == "potted"
    }
    if language == "en":
        assert said == "First pot. At least 2 years after “Training begun” of The Lanterns"
    else:
        assert said == "初めての鉢上げ. The Lanternsの「培養開始」の少なくとも2年後"
