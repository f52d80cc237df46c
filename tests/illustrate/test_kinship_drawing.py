"""Kinship as drawings: who came of whom; and that in no drawing of kin or planting words ever meet."""

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
)
from hypothesis import given, settings
from hypothesis import strategies as st
from illustrate_builders import steward, tree, view_of
from line_builders import during
from test_line_words import NAMES, assert_whole, vague_dates

from archive_tools.illustrate.custody_line import custody_line
from archive_tools.illustrate.kinship_diagram import MOST, kinship_diagram
from archive_tools.illustrate.planting_chart import planting_chart
from archive_tools.model.findings import EventFinding, TreeChronology
from archive_tools.model.grades import Edition, Grade
from archive_tools.model.lineage import Elsewhere, Kinship, Lineage, MemberSpell, Version
from archive_tools.model.words import Words
from archive_tools.pipeline import view

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
