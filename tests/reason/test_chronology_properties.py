"""What must hold of the chronology whatever the records say.

Order never matters, evidence never widens, and a set of contradictory statements is no larger than it must be.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from archive_tools.model.dates import Duration
from archive_tools.model.event import Event, EventRef, Timing
from archive_tools.model.findings import Bounds, TreeChronology
from archive_tools.model.grades import Grade, Milestone
from archive_tools.reason.chronology import solve
from tests.making import AS_OF, collection, event, tree, when
from tests.reason.chronology_asking import HERE, solved

BEGINNINGS = ("struck", "sown", "training begun", "potted", "collected")
CLAIMING = ("struck", "sown", "training begun")
ATTESTING = ("repotted", "pruned", "observed", "wired", "exhibited")
DATES = ("1951", "1951-03", "1953~", "195X", "1949/1957", "1960?", "../1955", "1948-07-04", "1962/1963", "1970")
OF_TREE = (Milestone.ORIGIN, Milestone.CARE, Milestone.CONTAINER)

kinds = st.sampled_from(BEGINNINGS + ATTESTING)
grades = st.sampled_from(list(Grade))
YEARS = st.integers(0, 8).map(lambda n: Duration(n, 0, 0, f"P{n}Y"))


@st.composite
def records(
    draw: st.DrawFn,
    grade: st.SearchStrategy[Grade] = grades,
    timed: bool = True,
    kinds: st.SearchStrategy[str] = kinds,
) -> list[Event]:
    """Two to six events of one tree; some of them at least, or at most, so many years after another."""
    size = draw(st.integers(2, 6))
    made = [
        event(draw(kinds), draw(st.sampled_from(DATES)), id=f"e{number}", standing=draw(grade))
        for number in range(size)
    ]
    for _ in range(draw(st.integers(0, 2)) if timed else 0):
        one, other = draw(st.integers(0, size - 1)), draw(st.integers(0, size - 1))
        if one != other:
            least, most = draw(st.none() | YEARS), draw(st.none() | YEARS)
            timing = Timing("after", EventRef(None, f"e{other}"), least, most, HERE)
            made[one] = replace(made[one], timing=(*made[one].timing, timing))
    return made


def told(found: TreeChronology) -> Any:
    """All that was found, in a form that does not depend on any order."""
    return (
        found.under_review,
        {m: (f.layers, f.ages, f.wording) for m, f in found.milestones.items()},
        {e.id: (e.bounds, e.grade) for e in found.events},
        {frozenset(s.says for s in c.statements) for c in found.contradictions},
        sorted((c.left_out.says for c in found.contradictions if c.left_out), key=str),
        found.unbroken_since,
        found.quiet,
        found.evidence_share,
    )


@settings(max_examples=150, deadline=None)
@given(records(), st.randoms(use_true_random=False))
def test_the_order_of_statements_never_matters(events: list[Event], chance: Any) -> None:
    shuffled = list(events)
    chance.shuffle(shuffled)
    assert told(solved(*events)) == told(solved(*shuffled))


@settings(max_examples=60, deadline=None)
@given(records(), records(), st.booleans())
def test_the_order_of_trees_never_matters(first: list[Event], second: list[Event], tied: bool) -> None:
    mother = EventRef("T1", None) if tied else None
    child = [replace(one, from_tree=mother) if one.kind == "struck" else one for one in second]
    trees = [tree(*first), tree(*child, accession="T2")]
    one = solve(collection(*trees), AS_OF, today=AS_OF)
    other = solve(collection(*reversed(trees)), AS_OF, today=AS_OF)
    assert {a: told(found) for a, found in one.items()} == {a: told(found) for a, found in other.items()}


@settings(max_examples=150, deadline=None)
@given(
    records(st.just(Grade.DOCUMENTED), kinds=st.sampled_from([*CLAIMING, *ATTESTING])),
    st.sampled_from(ATTESTING),
    st.sampled_from(DATES),
)
def test_more_evidence_never_widens(events: list[Event], kind: str, on: str) -> None:
    """A statement other than a beginning, added to documents that agree and still agree, only narrows.

    `potted` and `collected` are left out: after an earlier attestation they merely attest, so that what was taken for
    the beginning no longer is, and the earliest day goes (the seventh worked example).
    """
    before = solved(*events)
    after = solved(*events, event(kind, on, id="added"))
    if before.contradictions or after.contradictions:
        return
    for milestone in OF_TREE:
        wide = before.milestones[milestone].layers[Grade.DOCUMENTED]
        narrow = after.milestones[milestone].layers[Grade.DOCUMENTED]
        assert within(narrow, wide), (milestone, wide, narrow)


def within(inner: Bounds, outer: Bounds) -> bool:
    begins = outer.earliest is None or (inner.earliest is not None and inner.earliest >= outer.earliest)
    ends = outer.latest is None or (inner.latest is not None and inner.latest <= outer.latest)
    return begins and ends


@settings(max_examples=200, deadline=None)
@given(records(st.just(Grade.DOCUMENTED), timed=False))
def test_a_contradiction_names_statements_none_of_which_can_be_left_out(events: list[Event]) -> None:
    """With only the named dates the documents contradict each other; without any one of them they do not."""
    found = solved(*events)
    # Most systems agree: there the loop has nothing to look at (that some do not, see below).
    for contradiction in found.contradictions:
        named = {statement.event for statement in contradiction.statements}
        assert solved(*dated_only(events, named)).under_review
        for one in named:
            assert not solved(*dated_only(events, named - {one})).under_review, (named, one)


def dated_only(events: list[Event], named: set[str | None]) -> list[Event]:
    """The events, those that are not named without their date: they stay candidates for a beginning."""
    return [one if one.id in named else replace(one, when=None) for one in events]


def test_a_contradiction_of_this_kind_exists() -> None:
    """So that the property above is not about nothing: trained by 1951, and "training begun" in 1970."""
    found = solved(
        event("repotted", "1951", id="a"), event("training begun", "1970", id="b"), event("observed", "1960", id="c")
    )
    assert found.under_review
    assert [{s.event for s in c.statements} for c in found.contradictions] == [{"a", "b"}]
    assert when("1951") is not None
