"""Kinship and plantings as drawings: who came of whom, who stood where, and that no words ever meet."""

import re
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from drawing_reader import (
    across_of,
    all_of,
    assert_clear,
    classes,
    each,
    extent,
    marks,
    parse,
    rows,
    said,
    share,
    upright_of,
)
from hypothesis import given, settings
from hypothesis import strategies as st
from illustrate_builders import steward, tree, view_of
from line_builders import during
from test_line_words import NAMES, assert_whole, vague_dates

from archive_tools.illustrate.custody_line import custody_line
from archive_tools.illustrate.kinship_diagram import MOST, kinship_diagram
from archive_tools.illustrate.planting_chart import planting_chart
from archive_tools.illustrate.planting_plan import planting_plan
from archive_tools.model.findings import EventFinding, TreeChronology
from archive_tools.model.grades import Edition, Grade
from archive_tools.model.lineage import Elsewhere, Kinship, Lineage, MemberSpell, Version, member_numbers
from archive_tools.model.words import Words
from archive_tools.pipeline import view
from archive_tools.publish.translation import translations_for
from tests.illustrate.great_planting import BEGAN, PLACES, REMADE, REPLACED, write

AS_OF = date(2026, 11, 25)


def tie(other, relation, how, bounds, **keys):
    return Kinship(other, relation, how, bounds, "e", Grade.DOCUMENTED, **keys)


def family_view(lineages, trees, died=(), stewards=()):
    """An edition with these lineages; `died`: when trees died, by accession."""
    found = {
        accession: TreeChronology(
            accession, AS_OF, False, {}, (EventFinding("died", "died", bounds, None, Grade.DOCUMENTED),)
        )
        for accession, bounds in died
    }
    made = view_of(trees, stewards, {}, found)
    return replace(made, findings=replace(made.findings, lineages={one.accession: one for one in lineages}))


def three_generations():
    """An elm of a street tree, its layer, and a seedling of the layer; the elm died in 2001."""
    layer, seed = during(1986), during(1999)
    return family_view(
        [
            Lineage("T1", came_from=(tie(None, "cutting", "struck", during(1954), text="a street elm"),),
                    gave_rise_to=(tie("T2", "layer", "layer severed", layer),)),
            Lineage("T2", came_from=(tie("T1", "layer", "layer severed", layer, ended=during(2001)),),
                    gave_rise_to=(tie("T3", "seed", "sown", seed),),
                    elsewhere=(Elsewhere(Words.plain("A second layer. It is taller."), "school"),)),
            Lineage("T3", came_from=(tie("T2", "seed", "sown", seed),)),
        ],
        [tree("T1", name="The Elm"), tree("T2", name="The Daughter"), tree("T3", name="The Seedling")],
        [("T1", during(2001))],
        [steward("school", "The school garden")],
    )  # fmt: skip


def test_a_family_reads_from_left_to_right_the_older_first():
    svg = across_of(kinship_diagram(three_generations(), "T2"))
    assert [said(row) for row in rows(svg, "life")] == [
        "a street elm",
        "The Elm cutting struck 1954, died 2001",
        "The Daughter layer severed 1986",
        "The Seedling sown 1999",
    ]
    begins = [extent(row)[0] for row in rows(svg, "life")]
    assert begins == sorted(begins)
    assert parse(svg).find("title").text == "The kin of The Daughter, from 1946 to today"


def test_ties_stand_at_their_years_and_a_seed_is_another_plant():
    svg = across_of(kinship_diagram(three_generations(), "T2"))  # the axis runs from 1940 to 2030
    drawn = [(classes(one) - {"tie"}, share(one, "x1")) for one in all_of(svg, "line", "tie")]
    assert [css for css, _ in drawn] == [{"same"}, {"same"}, {"seed"}]
    assert [x for _, x in drawn] == pytest.approx([14 / 90, 46 / 90, 59 / 90], abs=1e-3)
    tops = [(float(one.get("y1")), float(one.get("y2"))) for one in all_of(svg, "line", "tie")]
    assert all(top < bottom for top, bottom in tops)
    assert [bottom for _, bottom in tops[:-1]] == [top for top, _ in tops[1:]], "each hangs from the one before"


def test_one_that_died_has_an_end_and_its_own_stroke():
    life = rows(across_of(kinship_diagram(three_generations(), "T2")), "life")[1]
    assert extent(life)[1] == pytest.approx(61 / 90, abs=2e-3)
    assert marks(life, "ended") == pytest.approx([61 / 90], abs=2e-3)


def test_every_relative_but_the_tree_itself_is_a_link_and_the_drawing_is_then_no_picture():
    for svg in each(kinship_diagram(three_generations(), "T2")):
        assert {link.get("href") for link in all_of(svg, "a")} == {"tree:T1", "tree:T3"}
        assert parse(svg).get("role") == "group"


def test_what_is_kept_elsewhere_has_words_and_no_bar():
    for svg in each(kinship_diagram(three_generations(), "T2")):
        elsewhere = rows(svg, "kept-elsewhere")
        assert [" ".join(said(row).split()) for row in elsewhere] == ["Kept elsewhere The school garden"]
        assert not [bar for row in elsewhere for bar in row.iter("rect")]


def test_a_tree_that_stood_in_a_planting_joins_and_leaves_it():
    spell = MemberSpell("T9", "tall", "T1", during(1979), during(2009))
    made = family_view(
        [
            Lineage("T1", came_from=(tie("T9", "split off", "split off", during(2009)),), part_of=(spell,)),
            Lineage("T9", gave_rise_to=(tie("T1", "split off", "split off", during(2009)),),
                    versions=(Version(1, during(1979), None, (), "e", ("tall",)),)),
        ],
        [tree("T1", name="The Odd One"), replace(tree("T9", name="The Grove"), kind="planting")],
    )  # fmt: skip
    svg = across_of(kinship_diagram(made, "T1"))
    assert [said(row) for row in rows(svg, "life")] == ["The Grove planted together 1979", "The Odd One split off 2009"]
    assert [classes(one) - {"tie"} for one in all_of(svg, "line", "tie")] == [{"same"}, {"joined"}, {"left"}]


def test_a_tree_without_kin_has_no_drawing():
    assert kinship_diagram(family_view([Lineage("T1")], [tree("T1")]), "T1") == ""
    assert planting_chart(family_view([Lineage("T1")], [tree("T1")]), "T1") == ""


def test_of_a_very_large_family_the_nearest_are_drawn():
    many = [f"C{at}" for at in range(60)]
    young = {one: during(1960 + at) for at, one in enumerate(many)}
    made = family_view(
        [Lineage("T1", gave_rise_to=tuple(tie(one, "cutting", "struck", young[one]) for one in many))]
        + [Lineage(one, came_from=(tie("T1", "cutting", "struck", young[one]),)) for one in many],
        [tree("T1"), *(tree(one) for one in many)],
    )
    assert len(rows(across_of(kinship_diagram(made, "T1")), "life")) == MOST
    assert "C59" in kinship_diagram(made, "C59")


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


# Random families ----------------------------------------------------------------------------------------------------

RELATIONS = {
    "cutting": "struck", "layer": "layer severed", "seed": "sown", "graft": "raised from graft",
    "division": "raised from division", "merged": "merged", "split off": "split off",
}  # fmt: skip


@st.composite
def families(draw):
    """Trees of which each may have come of one before it, some dead, some in a planting, with relatives elsewhere."""
    count = draw(st.integers(1, 7))
    trees = [tree(f"T{at}", name=draw(NAMES)) for at in range(count)]
    up: dict[int, list[Kinship]] = {at: [] for at in range(count)}
    down: dict[int, list[Kinship]] = {at: [] for at in range(count)}
    for at in range(count):
        mother = draw(st.integers(-2, at - 1))
        relation = draw(st.sampled_from(sorted(RELATIONS)))
        bounds = draw(vague_dates())
        if mother >= 0:
            up[at].append(tie(f"T{mother}", relation, RELATIONS[relation], bounds))
            down[mother].append(tie(f"T{at}", relation, RELATIONS[relation], bounds))
        elif mother == -1:
            up[at].append(tie(None, relation, RELATIONS[relation], bounds, text=draw(NAMES)))
    spells = [
        MemberSpell("T0", f"m-{at}", f"T{at}" if at and at < count else None, draw(vague_dates()),
                    draw(st.none() | vague_dates()), draw(st.none() | NAMES.map(Words.plain)), draw(st.integers(1, 9)))
        for at in range(draw(st.integers(0, 9)))
    ]  # fmt: skip
    versions = [
        Version(at + 1, draw(vague_dates()), None, ("a",) if draw(st.booleans()) else (), "e", ("m-0",))
        for at in range(draw(st.integers(0, 3)))
    ]
    kept = draw(st.lists(NAMES, max_size=2))
    lineages = [
        Lineage(
            f"T{at}", tuple(up[at]), tuple(down[at]),
            members=tuple(spells) if at == 0 else (),
            part_of=tuple(spell for spell in spells if spell.tree == f"T{at}"),
            versions=tuple(versions) if at == 0 else (),
            elsewhere=tuple(Elsewhere(Words.plain(text), draw(st.none() | st.just("a") | NAMES)) for text in kept),
        )
        for at in range(count)
    ]  # fmt: skip
    died = [(f"T{at}", draw(vague_dates())) for at in range(count) if draw(st.booleans())]
    return family_view(lineages, trees, died, [steward("a", draw(NAMES))])


@settings(max_examples=15, deadline=None)
@given(families())
def test_no_words_of_kin_or_planting_meet_or_leave_the_page(made):
    ids: list[str] = []
    for accession in made.records.trees:
        for svg in each(kinship_diagram(made, accession)) + each(planting_chart(made, accession)):
            is_rows = "upright" in classes(parse(svg)) and rows(svg, "member")
            if is_rows:
                for across in (280, 350, 535):
                    assert_clear(svg, across, True)
            else:
                assert_whole(svg)
            ids += [element.get("id") for element in parse(svg).iter() if element.get("id")]
    assert len(ids) == len(set(ids)), "no drawing takes an id of another on the page"


# The demonstration --------------------------------------------------------------------------------------------------


@pytest.fixture(scope="module", params=[Edition.PUBLIC, Edition.INTERNAL])
def demo(request):
    folder = Path(__file__).resolve().parents[2] / "demo_collection"
    return view(folder, edition=request.param, as_of=AS_OF, today=AS_OF)


@pytest.mark.slow
def test_every_drawing_of_the_demonstration_is_whole(demo):
    drawn = 0
    for accession in demo.records.trees:
        for svg in each(custody_line(demo, accession)) + each(kinship_diagram(demo, accession)):
            assert_whole(svg)
            drawn += 1
        for svg, widths in zip(each(planting_chart(demo, accession)), ((520, 682, 912), (280, 350, 535)), strict=False):
            drawn += 1
            for across in widths:
                assert_clear(svg, across, across < 682)
    assert drawn > 60


def test_a_story_on_a_phone_reads_down(fifty):
    svg = upright_of(custody_line(fifty, "W1"))
    tops = [float(next(row.iter("text")).get("y")) for row in rows(svg, "holder")]
    assert tops == sorted(tops)
