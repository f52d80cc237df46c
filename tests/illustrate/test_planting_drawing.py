"""Plantings as drawings: who stood where through its makings, and a plan of places where they can be counted."""

import re
from dataclasses import replace

import pytest
from drawing_reader import (
    across_of,
    all_of,
    assert_clear,
    classes,
    each,
    parse,
    rows,
    said,
    share,
    upright_of,
)
from illustrate_builders import steward, tree
from line_builders import during
from test_kinship_drawing import AS_OF, family_view, tie
from test_line_words import assert_whole

from archive_tools.illustrate.custody_line import custody_line
from archive_tools.illustrate.planting_chart import planting_chart
from archive_tools.illustrate.planting_plan import planting_plan
from archive_tools.model.grades import Edition
from archive_tools.model.lineage import Lineage, MemberSpell, Version, member_numbers
from archive_tools.model.words import Words
from archive_tools.pipeline import view
from archive_tools.publish.translation import translations_for
from tests.illustrate.great_planting import BEGAN, PLACES, REMADE, REPLACED, write


def grove():
    """Four places: one plant followed another, three of one sort stand together, and one has a record of its own."""
    place = Words.plain("at the left edge")
    lineage = Lineage(
        "T9",
        members=(
            MemberSpell("T9", "old-one", None, during(1972), during(2004), place),
            MemberSpell("T9", "young-one", None, during(2005), None, place),
            MemberSpell("T9", "company", None, during(1972), None, count=3),
            MemberSpell("T9", "tall", "T1", during(1972), None),
            MemberSpell("T9", "other", None, during(1972), None, Words.plain("behind")),
        ),
        versions=(
            Version(1, during(1972), during(2005), ("circle",), "a", ("old-one", "company", "tall", "other")),
            Version(2, during(2005), None, (), "b", ("young-one", "company", "tall", "other")),
        ),
    )
    tall = Lineage("T1", came_from=(tie(None, "cutting", "struck", during(1949), text="an oak"),))
    trees = [replace(tree("T9", name="The Grove"), kind="planting"), tree("T1", name="The Tall One")]
    return family_view([lineage, tall], trees, stewards=[steward("circle", "The Circle")])


def test_a_planting_has_a_row_for_each_place_and_one_for_each_making():
    for svg in each(planting_chart(grove(), "T9")):
        assert [" ".join(said(row).split()) for row in rows(svg, "version")] == [
            "Planted together 1972 6 plants, by The Circle", "Remade 2005 6 plants",
        ]  # fmt: skip
        assert [" ".join(said(row).split()) for row in rows(svg, "member")] == [
            "Plant 1 then Plant 2 at the left edge", "3 plants", "The Tall One", "Behind",
        ]  # fmt: skip
        strands = [len([bar for bar in row.iter("rect") if "here" in classes(bar)]) for row in rows(svg, "member")]
        assert strands == [1, 3, 1, 1]


def test_no_plant_is_called_by_the_id_it_has_in_the_record():
    """By its place where that is its own, else by its number, in the words of the page's language."""
    japanese = planting_chart(grove(), "T9", translations_for("ja").gettext)
    assert [" ".join(said(row).split()) for row in rows(across_of(japanese), "member")] == [
        "1番の木 次いで2番の木 at the left edge", "3本", "The Tall One", "Behind",
    ]  # fmt: skip
    assert not re.search("old.one|young.one|company|other", planting_chart(grove(), "T9"))


def test_plants_are_numbered_as_the_curator_numbers_them():
    members = [MemberSpell("T9", name, tree, during(1972), None)
               for name, tree in (("m7", None), ("tall", "T1"), ("m12", None))]  # fmt: skip
    assert member_numbers(members) | {"tall": 0} == {"m7": 7, "m12": 12, "tall": 0}
    assert member_numbers([*members, MemberSpell("T9", "a7", None, during(1972), None)]) == {
        "m7": 1, "tall": 2, "m12": 3, "a7": 4,
    }  # fmt: skip


def test_a_plant_older_than_the_planting_has_its_own_years_as_a_thin_line():
    svg = across_of(planting_chart(grove(), "T9"))  # the axis runs from 1940 to 2030
    thin, stood = rows(svg, "member")[2].iter("rect")
    assert "with" in classes(thin)
    assert share(thin) == pytest.approx(9 / 90, abs=2e-3)
    assert (
        share(thin) + share(thin, "width") == pytest.approx(share(stood), abs=2e-3) == pytest.approx(32 / 90, abs=2e-3)
    )
    assert float(thin.get("height")) < float(stood.get("height")) / 2


@pytest.fixture(scope="module")
def fifty(tmp_path_factory: pytest.TempPathFactory):
    return view(write(tmp_path_factory.mktemp("fifty")), edition=Edition.PUBLIC, as_of=AS_OF, today=AS_OF)


def test_fifty_plants_over_sixty_years_are_drawn_whole(fifty):
    markup = planting_chart(fifty, "W1")
    assert_whole(across_of(markup))
    for svg, room in ((across_of(markup), 520), (upright_of(markup), 280)):
        for across in (room, 350, 535) if room == 280 else (room, 682, 912):
            assert_clear(svg, across, across < 682)
        places = rows(svg, "member")
        assert len(places) == PLACES
        assert sum(len(list(row.iter("rect"))) for row in places) - 4 == PLACES + REPLACED, "two have their own years"
        assert len(rows(svg, "version")) == 1 + len(REMADE)
        lefts = {text.get("x") for row in places for text in row.iter("text")}
        assert len(lefts) == 1, "the names stand one below the other"
        # As high as so many lines of words have to be, and not much more: some two to a place.
        assert PLACES * 26 < float(parse(svg).get("height")) < PLACES * (36 if room == 520 else 48)
    first = min(
        share(bar) for row in rows(across_of(markup), "member") for bar in row.iter("rect") if "here" in classes(bar)
    )
    assert first == pytest.approx((BEGAN + 0.22 - 1940) / 90, abs=3e-3)


def counted(*places, extra=()):
    """A planting of which the places are said in these words; each with how many plants stood in it."""
    spells = [
        MemberSpell("T9", f"m-{at}-{number}", None, during(1970 + number),
                    None if number + 1 == count else during(1971 + number), Words.plain(text))
        for at, (text, count) in enumerate(places) for number in range(count)
    ]  # fmt: skip
    grove_ = replace(tree("T9", name="The Grove"), kind="planting")
    return family_view([Lineage("T9", members=(*spells, *extra))], [grove_])


def test_counted_places_are_a_plan_with_its_front_below():
    svg = planting_plan(
        counted(("row 1, 1 from the left", 1), ("Row 1, 3 from the left", 2), ("row 2, 2 from the left", 4)), "T9"
    )
    dots = [one for one in all_of(svg, "circle") if "again" not in classes(one)]
    assert [classes(one) for one in dots] == [{"first"}, {"later"}, {"later"}]
    x, y = ([float(one.get(at)) for one in dots] for at in ("cx", "cy"))
    assert x[0] < x[2] < x[1]
    assert x[1] - x[2] == pytest.approx(x[2] - x[0])
    assert y[0] == y[1] > y[2], "row 1 is at the front"
    assert len(all_of(svg, "circle", "again")) == 1
    assert "in 2 of them stands a later plant" in parse(svg).find("desc").text
    assert_clear(svg, 280, True)


@pytest.mark.parametrize(
    "word", ["Third from the left", "row 1", "row 1, 2 from the left, leaning", "row 0, 1 from the left"]
)
def test_places_told_in_other_words_are_not_guessed_at(word):
    assert planting_plan(counted(("row 1, 1 from the left", 1), (word, 1)), "T9") == ""


def test_a_place_whose_plant_is_gone_is_a_point():
    gone = MemberSpell("T9", "gone", None, during(1970), during(1980), Words.plain("row 1, 2 from the left"))
    away = MemberSpell("T9", "away", None, during(1970), during(1980), Words.plain("somewhere"))
    svg = planting_plan(counted(("row 1, 1 from the left", 1), extra=(gone, away)), "T9")
    assert [classes(one) for one in all_of(svg, "circle")] == [{"first"}, {"empty"}]


def test_the_plan_of_the_fifty_counts_what_was_replaced(fifty):
    svg = planting_plan(fifty, "W1")
    dots = [one for one in all_of(svg, "circle") if "again" not in classes(one)]
    assert len(dots) == PLACES
    replaced = {spell.place for spell in fifty.findings.lineages["W1"].members if spell.end is not None}
    assert len([one for one in dots if "later" in classes(one)]) == len(replaced)
    assert all(float(one.get("cx")) + float(one.get("r")) <= 280 for one in dots)


def test_a_story_on_a_phone_reads_down(fifty):
    svg = upright_of(custody_line(fifty, "W1"))
    tops = [float(next(row.iter("text")).get("y")) for row in rows(svg, "holder")]
    assert tops == sorted(tops)
