from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from archive_tools.model.grounds import Talk
from archive_tools.model.problems import Reach, Severity
from archive_tools.model.tree import Kin, OtherNumber
from archive_tools.model.words import Words
from tests.check.builders import (
    HOUSE,
    collection,
    event,
    note,
    photo,
    source,
    spot,
    steward,
    taught,
    the_one,
    thing,
    told,
    tree,
    where,
)


@pytest.mark.parametrize(("key", "path"), [("by", "by"), ("with_", "with"), ("from_", "from"), ("to", "to")])
def test_unknown_steward_in_an_event(key: str, path: str) -> None:
    hands: dict[str, Any] = {key: ["tobiah-renn", "tobiah-rehn"]}
    problem = the_one(collection(steward("tobiah-renn"), tree("T1", event("observed", **hands))))
    assert problem.rule == "unknown-steward"
    assert spot(problem.mark) == f"trees/T1/tree.yml events/0/{path}/1"
    assert problem.instead == "tobiah-renn"
    assert (problem.severity, problem.reach) == (Severity.ERROR, Reach.STATEMENT)
    assert problem.subject == ("T1", "event", "observed")


def test_known_stewards_and_plain_text_pass() -> None:
    made = collection(
        steward("tobiah-renn"), tree("T1", event("observed", by=["tobiah-renn", "two apprentices of that summer"]))
    )
    assert told(made) == []


def test_a_name_is_answered_with_the_id() -> None:
    made = collection(steward("tobiah-renn", "Tobiah Renn"), tree("T1", event("observed", by="TOBIAH  RENN")))
    problem = the_one(made)
    assert "is a name" in problem.what
    assert problem.instead == "tobiah-renn"


def test_nobody_near_is_answered_with_a_new_file() -> None:
    problem = the_one(collection(tree("T1", event("observed", by="xyz-qrs"))))
    assert problem.instead == "a new file stewards/xyz-qrs.yml"


def test_award_may_be_text_but_no_slip() -> None:
    assert told(collection(tree("T1", event("exhibited", awarded_by="The Ostrey Rooms")))) == []
    assert told(collection(tree("T1", event("exhibited", awarded_by="unknown")))) == []
    problem = the_one(collection(steward("sound-circle"), tree("T1", event("exhibited", awarded_by="sound-cirle"))))
    assert (problem.rule, problem.instead) == ("unknown-steward", "sound-circle")


def test_note() -> None:
    made = collection(steward("ilse-adeyi"), tree("T1", notes=(note("2020-01-01-a", by="ilse-adeyo"),)))
    problem = the_one(made)
    assert problem.subject == ("T1", "note", "2020-01-01-a")
    assert spot(problem.mark) == "trees/T1/notes/2020-01-01-a.md by/0"
    good = collection(steward("ilse-adeyi"), tree("T1", notes=(note("2020-01-01-a", by="ilse-adeyi"),)))
    assert told(good) == []


def test_an_event_in_a_note_is_told_once() -> None:
    written = note("2020-01-01-a", by="ilse-adeyo", event="2020-01-01-a")
    carried = replace(event("observed", id="2020-01-01-a", by="ilse-adeyo"), where=written.where, from_note=True)
    made = collection(steward("ilse-adeyi"), tree("T1", carried, notes=(written,)))
    assert the_one(made).subject == ("T1", "event", "2020-01-01-a")


def test_photographs() -> None:
    def with_photo(**keys: Any) -> Any:
        return collection(
            steward("pim-dracott", "Pim Dracott"),
            tree("T1", photos=(photo("2020.jpg", visibility="public", children=False, consent="yes", **keys),)),
        )

    problem = the_one(with_photo(photographer="pim-draccot"))
    assert (problem.rule, problem.instead) == ("unknown-steward", "pim-dracott")
    assert problem.subject == ("T1", "photo", "2020.jpg")
    for key in ("held_by", "rights_holder"):
        assert the_one(with_photo(**{key: "pim-dracot"})).instead == "pim-dracott"
        assert told(with_photo(**{key: "the town museum"})) == []
    assert spot(the_one(with_photo(people=["A visitor", "pim-dracot"])).mark).endswith("people/1")
    assert told(with_photo(photographer="pim-dracott", people=["pim-dracott", "visitors"])) == []
    assert told(with_photo(photographer="Pim Dracott")) == []


def test_stewards_own_records() -> None:
    made = collection(
        steward("renn", members=("renni", "harrack")),
        steward("harrack", taught_by=(taught("aonuma"), taught("aonumi")), member_of=("rennn",)),
        steward("aonuma"),
    )
    assert told(made) == [
        ("unknown-steward", "stewards/harrack.yml member_of/0"),
        ("unknown-steward", "stewards/harrack.yml taught_by/1/who"),
        ("unknown-steward", "stewards/renn.yml members/0"),
    ]


def test_sources_objects_numbers_kin_and_talks() -> None:
    bad = collection(
        steward("lin-qiaohe"),
        source("a", made_by=["lin-quiaohe"]),
        thing("b", maker="lin-qiahe", owner="lin-qiaoho"),
        tree(
            "T1",
            other_numbers=(OtherNumber("4", "lin-qiaohi", None, None),),
            kin=(Kin(Words.plain("A sister"), "lin-qiaohu", None),),
        ),
        talks={"t": Talk("t", Words.plain("T"), where("talks/t.yml"), speaker="lin-qiaohy")},
    )
    assert [place for _, place in told(bad)] == [
        "objects/b.yml maker",
        "objects/b.yml owner",
        "sources/a.yml made_by/0",
        "talks/t.yml speaker",
        "trees/T1/tree.yml kin/0/holder",
        "trees/T1/tree.yml other_numbers/0/given_by",
    ]
    good = collection(
        steward("lin-qiaohe"),
        source("a", made_by=["lin-qiaohe"]),
        thing("b", maker="lin-qiaohe", owner="a lender who is not recorded"),
        tree("T1", other_numbers=(OtherNumber("4", "the nursery", None, None),)),
        talks={"t": Talk("t", Words.plain("T"), where("talks/t.yml"), speaker="lin-qiaohe")},
    )
    assert told(good) == []


def test_custodian_stops_everything() -> None:
    problem = the_one(collection(steward("the-houses"), house={"custodian": "the-housse"}))
    assert (problem.rule, problem.reach, spot(problem.mark)) == (
        "unknown-steward",
        Reach.RECORD,
        "collection.yml custodian",
    )
    assert problem.instead in ("the-houses", HOUSE)


def test_death_before_birth() -> None:
    problem = the_one(collection(steward("a", born="1950", died="1949-12")))
    assert (problem.rule, spot(problem.mark)) == ("died-before-born", "stewards/a.yml died")
    assert told(collection(steward("a", born="1950", died="1950"))) == []
    assert told(collection(steward("a", born="1950~", died="1949"))) == []
