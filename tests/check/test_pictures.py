"""Marks, scales, comparisons, people in pictures, portraits, labels, rights, and pictures kept twice."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest

from archive_tools.check import without
from archive_tools.check.public_face import words_of
from archive_tools.check.rights import RIGHTS_STATEMENTS, is_rights_code
from archive_tools.model.photo import MeasureWanted, PictureScale
from archive_tools.model.problems import Reach, Severity
from archive_tools.model.words import Words
from tests.check.builders import (
    collection,
    comparison,
    event,
    photo,
    spot,
    steward,
    the_one,
    told,
    tree,
)

SHEET = "trees/T1/photos/photos.yml"


def pictured(**keys: Any) -> Any:
    keys = {"visibility": "public", "width": 400, "height": 300, **keys}
    return collection(tree("T1", photos=(photo("2020.jpg", **keys),)))


@pytest.mark.parametrize("at", [(401.0, 10.0), (10.0, 300.5), (-1.0, 10.0), (10.0, -0.5)])
def test_marks_outside(at: tuple[float, float]) -> None:
    problem = the_one(pictured(marks={"rim": (0.0, 0.0), "apex": at}))
    assert (problem.rule, spot(problem.mark)) == ("mark-outside", f"{SHEET} 2020.jpg/marks/apex")
    assert "400 × 300" in problem.what


def test_marks_inside_and_pictures_without_size() -> None:
    assert told(pictured(marks={"a": (0.0, 0.0), "b": (400.0, 300.0)})) == []
    assert told(pictured(marks={"a": (9000.0, 0.0)}, width=0, height=0)) == []


def test_a_mark_outside_goes_and_the_scale_that_leans_on_it() -> None:
    scale = PictureScale("rim", "apex", Decimal(40), None)
    made = pictured(marks={"rim": (1.0, 1.0), "apex": (900.0, 1.0), "foot": (2.0, 2.0)}, scale=scale)
    cut = without(made, [the_one(made)]).trees["T1"].photos[0]
    assert [name for name, _ in cut.marks] == ["rim", "foot"]
    assert cut.scale is None


def test_scales() -> None:
    scale = PictureScale("rim left", "rim rigth", Decimal(40), None)
    marks = {"rim left": (1.0, 1.0), "rim right": (9.0, 1.0)}
    problem = the_one(pictured(marks=marks, scale=scale))
    assert (problem.rule, problem.instead) == ("unknown-mark", "rim right")
    assert spot(problem.mark) == f"{SHEET} 2020.jpg/scale/to"
    assert told(pictured(marks=marks, scale=replace(scale, to_mark="rim right"))) == []


def compared(before: dict[str, Any], after: dict[str, Any], **keys: Any) -> Any:
    photos = (photo("2020.jpg", visibility="public", marks=before), photo("2021.jpg", visibility="public", marks=after))
    return collection(tree("T1", photos=photos, comparisons=(comparison("c", "2020.jpg", "2021.jpg", **keys),)))


THREE = {"rim": (1.0, 1.0), "fork": (5.0, 5.0), "apex": (9.0, 9.0)}


def measure(**keys: str) -> MeasureWanted:
    return MeasureWanted(Words.plain("Height"), keys.get("from_"), keys.get("to"), keys.get("mark"))


def test_marks_of_a_comparison() -> None:
    two = {"rim": (1.0, 1.0), "apex": (9.0, 9.0), "foot": (2.0, 2.0)}
    problem = the_one(compared(THREE, two, align_on=("rim", "apex", "fork")))
    assert (problem.rule, spot(problem.mark)) == ("unknown-mark", "trees/T1/tree.yml comparisons/c/align_on/2")
    assert problem.what.startswith("2021.jpg has no mark “fork”")
    assert problem.subject == ("T1", "comparison", "c")
    length, moved = measure(from_="rim", to="fork"), measure(mark="fork")
    assert [place.rpartition("c/")[2] for _, place in told(compared(THREE, two, measure=(length, moved)))] == [
        "measure/0/to",
        "measure/1/mark",
    ]
    assert told(compared(THREE, THREE, align_on=("rim", "fork"), measure=(length, moved))) == []


def test_a_measure_without_its_mark_leaves_the_comparison_in() -> None:
    made = compared(THREE, {"rim": (1.0, 1.0), "fork": (2.0, 2.0)}, measure=(measure(mark="apex"),))
    problem = the_one(made)
    assert (problem.severity, problem.reach) == (Severity.ERROR, Reach.TOLD)
    assert without(made, [problem]).trees["T1"].comparisons


def test_pictures_that_share_too_few_marks_are_still_compared() -> None:
    """What has not changed in them may hold them; only marks named to align on must be there."""
    made = compared(THREE, {"rim": (1.0, 1.0)})
    problem = the_one(made)
    assert (problem.rule, problem.severity, problem.reach) == ("too-few-marks", Severity.WARNING, Reach.TOLD)
    assert without(made, [problem]).trees["T1"].comparisons
    named = compared(THREE, THREE, align_on=("rim",))
    assert not without(named, [the_one(named)]).trees["T1"].comparisons


def test_a_comparison_needs_two_shared_marks_or_none_at_all() -> None:
    assert the_one(compared(THREE, {"rim": (1.0, 1.0)})).rule == "too-few-marks"
    assert the_one(compared(THREE, THREE, align_on=("rim",))).rule == "too-few-marks"
    assert told(compared(THREE, THREE)) == []
    assert told(compared({}, {})) == []
    assert told(compared(THREE, {})) == []


def test_a_comparison_with_itself() -> None:
    made = collection(tree("T1", comparisons=(comparison("c", "2020.jpg", "2020.jpg"),)))
    assert the_one(made).rule == "same-photo"


def test_children() -> None:
    problem = the_one(pictured(children=True, consent="unknown"))
    assert (problem.rule, problem.reach, spot(problem.mark)) == (
        "children-without-consent",
        Reach.STATEMENT,
        f"{SHEET} 2020.jpg/children",
    )
    assert the_one(pictured(children=True)).rule == "children-without-consent"
    assert told(pictured(children=True, consent="yes")) == []
    inside = collection(
        tree(
            "T1", photos=(photo("2020.jpg", visibility="public"), photo("in.jpg", children=True, visibility="internal"))
        )
    )
    assert told(inside) == []


def test_children_in_pictures_public_by_default() -> None:
    """What says nothing is as public as the collection's default."""
    made = collection(tree("T1", photos=(photo("2020.jpg", children=True),)))
    assert the_one(made).rule == "children-without-consent"


def test_consent() -> None:
    assert the_one(pictured(people=["a visitor"], children=False, consent="no")).rule == "consent-refused"
    warning = the_one(pictured(people=["a visitor"]))
    assert (warning.rule, warning.severity) == ("consent-unsaid", Severity.WARNING)
    assert the_one(pictured(people=["a visitor"], children=False)).rule == "consent-unsaid"
    assert the_one(pictured(people=["a visitor"], consent="unknown")).rule == "consent-unsaid"
    assert told(pictured(people=["a visitor"], consent="yes")) == []
    assert told(pictured(people=["a visitor"], children=False, consent="unknown")) == []
    hidden = collection(tree("T1", visibility="internal", photos=(photo("2020.jpg", people=["a visitor"]),)))
    assert told(hidden) == []


def test_hidden_portraits() -> None:
    made = collection(tree("T1", photos=(photo("2020.jpg", visibility="internal"),)))
    problem = the_one(made)
    assert (problem.rule, problem.reach, spot(problem.mark)) == (
        "hidden-portrait",
        Reach.TOLD,
        "trees/T1/tree.yml portrait",
    )
    assert told(collection(tree("T1", visibility="internal", photos=(photo("2020.jpg", visibility="internal"),)))) == []


def test_a_portrait_that_shows_a_hidden_tree_too() -> None:
    shared = photo("2020.jpg", visibility="public", of=("T1", "T2"))
    made = collection(tree("T1", photos=(shared,)), tree("T2", visibility="internal", portrait=None, photos=()))
    assert the_one(made).rule == "hidden-portrait"


def test_faceless_trees() -> None:
    made = collection(tree("T1", portrait=None, label=None))
    assert [(rule, place) for rule, place in told(made)] == [
        ("no-label", "trees/T1/tree.yml accession"),
        ("no-portrait", "trees/T1/tree.yml accession"),
    ]
    assert told(collection(tree("T1", portrait=None, label=None, visibility="internal"))) == []


def test_label_length() -> None:
    def labelled(label: Any, most: int = 10) -> Any:
        return collection(tree("T1", label=label), house={"label_words": most})

    problem = the_one(labelled("one two three four five six seven eight nine ten eleven"))
    assert (problem.rule, problem.severity) == ("long-label", Severity.WARNING)
    assert "11 words" in problem.what
    assert told(labelled("one two three four five six seven eight nine ten")) == []
    assert spot(the_one(labelled({"en": "short", "ja": " a" * 11})).mark).endswith("label/ja")


def test_words_are_counted_as_a_visitor_reads_them() -> None:
    assert words_of("Part of it lives on as [[S2015.9]] — see {{ since.care }}.") == 9
    assert words_of("") == 0


def test_stewards_who_would_be_name_withheld() -> None:
    def held(**keys: Any) -> Any:
        return collection(
            steward("donor-94", visibility="restricted", **keys),
            tree("T1", event("gift", from_=["donor-94"], to="the-house")),
        )

    problem = the_one(held())
    assert (problem.rule, problem.severity) == ("no-public-name", Severity.WARNING)
    assert spot(problem.mark) == "stewards/donor-94.yml visibility"
    assert told(held(public_name="a private donor")) == []
    unused = collection(steward("donor-94", visibility="restricted"), tree("T1"))
    assert told(unused) == []
    internal = event("gift", from_=["donor-94"], to="the-house", visibility="internal")
    assert told(collection(steward("donor-94", visibility="restricted"), tree("T1", internal))) == []
    valued = event("valued", by="donor-94")
    assert told(collection(steward("donor-94", visibility="restricted"), tree("T1", valued))) == []


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("CC BY 4.0", "CC-BY-4.0"),
        ("cc-by-sa-4.0", "CC-BY-SA-4.0"),
        ("CC-BY-5.0", "CC-BY-4.0"),
        ("https://creativecommons.org/licenses/by-nc/4.0/", "CC-BY-NC-4.0"),
        ("http://rightsstatements.org/vocab/NoC-US/1.0/", "NoC-US"),
        ("In Copyright", "InC"),
        ("Copyright Undetermined", "UND"),
        ("inc", "InC"),
        ("all rights reserved by us", "CC-BY-4.0, InC or another code"),
    ],
)
def test_rights(written: str, meant: str) -> None:
    problem = the_one(pictured(rights=written))
    assert (problem.rule, problem.instead) == ("bad-rights", meant)
    house = the_one(collection(tree("T1"), house={"rights": written}))
    assert (spot(house.mark), house.instead) == ("collection.yml rights", meant)
    assert without(collection(house={"rights": written}), [house]).settings.rights is None


@pytest.mark.parametrize("code", [*RIGHTS_STATEMENTS, "CC0-1.0", "CC-BY-NC-ND-3.0", "CC-PDDC", "LicenseRef-house"])
def test_codes_of_rights(code: str) -> None:
    assert is_rights_code(code)
    assert told(pictured(rights=code)) == []


def test_pictures_kept_twice() -> None:
    one, two = photo("2020.jpg", visibility="public", fingerprint="ab"), photo("2021.jpg", fingerprint="ab")
    problem = the_one(collection(tree("T1", photos=(one, two))))
    assert (problem.rule, problem.severity) == ("same-picture", Severity.WARNING)
    assert "trees/T1/photos/2020.jpg" in problem.what
    assert "trees/T1/photos/2021.jpg" in problem.what
    assert spot(problem.mark) == f"{SHEET} 2021.jpg/file"
    assert told(collection(tree("T1", photos=(one, replace(two, fingerprint="cd"))))) == []
    assert told(collection(tree("T1", photos=(replace(one, fingerprint=""), replace(two, fingerprint=""))))) == []


def test_one_picture_of_two_trees_is_kept_once() -> None:
    shared = photo("2020.jpg", visibility="public", fingerprint="ab", of=("T1", "T2"))
    assert told(collection(tree("T1", photos=(shared,)), tree("T2", photos=(shared,)))) == []


def test_an_age_in_years_on_a_label() -> None:
    """A printed age is wrong within a year; the year of a beginning is not."""
    problem = the_one(collection(tree("T1", label="Trained for {{ years.care }}, struck {{ since.origin }}.")))
    assert (problem.rule, problem.severity) == ("age-on-label", Severity.ERROR)
    assert problem.instead == "{{ since.care }}, which never goes stale"
    assert told(collection(tree("T1", label="Trained since {{ since.care }}."))) == []
