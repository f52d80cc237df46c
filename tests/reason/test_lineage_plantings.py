"""Small histories of plantings and of what was raised from a tree, worked out by hand; numbered with the others."""

from __future__ import annotations

from tests.making import HOUSE, event, tree
from tests.reason.lineage_asking import gaps, held, kin, lineage, member, refs, stood


def test_05_a_planting_remade_twice():
    """Planted by the club in 1972 of three, remade in 1990 without one, in 2004 with a new one."""
    told = lineage(
        tree(event("assembled", "1972-03-18", by="hill-club", trees=refs("tall", "low", "slim"), id="first"),
             event("member removed", "1989", by="anna", trees=refs("slim")),
             event("assembled", "1990-03", by="anna", trees=refs("tall", "low"), id="second"),
             event("member added", "2004-03-20", by="bo", trees=refs("young")),
             event("assembled", "2004-03-20", by="bo", trees=refs("tall", "low", "young"), id="third"),
             kind="planting",
             members=(member("tall", place="left"), member("low", count=2), member("slim"), member("young")))
    )  # fmt: skip
    assert held(told) == ["hill-club 1972 to now, first hands"]
    assert stood(told) == ["tall 1972 to now", "low 1972 to now", "slim 1972 to 1989", "young 2004 to now"]
    assert told["kin"]["members"][0]["place"] == "left"
    versions = told["kin"]["versions"]
    assert [(v["number"], v["event"], v["new"], v["gone"]) for v in versions] == [
        (1, "first", [], []),
        (2, "second", [], ["slim"]),
        (3, "third", ["young"], []),
    ]
    assert told["text"] == (
        "The Hill Club, who planted it together in 1972. "
        "Planted together in 1972 by The Hill Club, of 4 plants. Remade in 1990 by Anna Orr, of 3 plants. "
        "Remade in 2004 by Bo Lind, of 4 plants."
    )


def test_06_two_plantings_merged():
    """Anna's grove and Bo's grove were merged by the house in 1995 into the wood."""
    grove = tree(event("assembled", "1960", by="anna"), event("gift", "1990", from_="anna", to=HOUSE),
                 accession="T2", kind="planting")  # fmt: skip
    other = tree(event("assembled", "1965", by="bo"), event("gift", "1991", from_="bo", to=HOUSE),
                 accession="T3", kind="planting")  # fmt: skip
    wood = tree(event("merged", "1995-03", by=HOUSE, trees=refs("T2", "T3")), kind="planting")
    told = lineage(wood, grove, other)
    assert kin(told, "came_from") == ["T2 by merged 1995", "T3 by merged 1995"]
    assert stood(told) == ["T2 1995 to now", "T3 1995 to now"]
    assert held(told) == ["the-house 1995 to now, first hands"]
    of_the_grove = lineage(wood, grove, other, of="T2")
    assert kin(of_the_grove, "gave_rise_to") == ["T1 by merged 1995"]
    assert stood(of_the_grove, "part_of") == ["T1 1995 to now"]
    assert held(of_the_grove) == ["anna 1960 to 1990, first hands", "the-house 1990 to now, gift"]
    assert "It was merged in 1995 into T1." in of_the_grove["text"]


def test_07_a_layer_from_a_tree_that_died():
    """Bo severed a layer of Anna's maple in 1986; the maple died in 1998."""
    maple = tree(event("struck", "1954", by="anna"), event("died", "1998-06"), accession="T2")
    layer = tree(event("layer severed", "1986-09-20", by="bo", from_tree=refs("T2")[0]))
    told = lineage(layer, maple)
    assert held(told) == ["bo 1986 to now, first hands"]
    assert kin(told, "came_from") == ["T2 by layer 1986"]
    assert told["kin"]["came_from"][0]["died"] == {"earliest": "1998-06-01", "latest": "1998-06-30"}
    assert told["text"] == (
        "Bo Lind, who severed the layer in 1986. Raised from a layer of T2, severed in 1986, which died in 1998."
    )
    mother = lineage(layer, maple, of="T2")
    assert held(mother) == ["anna 1954 to 1998, first hands"]
    assert kin(mother, "gave_rise_to") == ["T1 by layer 1986"]


def test_18_a_member_taken_out_and_given_away():
    """Anna's beech of 1950 was set in the club's grove in 1972, came with it to the house, was taken out and given."""
    beech = tree(event("sown", "1950", by="anna"), event("given away", "2005", from_=HOUSE, to="bo"), accession="T2")
    grove = tree(event("assembled", "1972-03", by="hill-club", trees=refs("beech", "oak"), id="made"),
                 event("gift", "1986-09-14", from_="hill-club", to=HOUSE, id="came"),
                 event("member removed", "2004-03-20", by=HOUSE, trees=refs("T2")),
                 kind="planting", members=(member("beech", "T2", place="at the left edge"), member("oak")))  # fmt: skip
    told = lineage(beech, grove, of="T2")
    assert held(told) == [
        "anna 1950 to 1950-1972, first hands",
        "hill-club 1972 to 1986, planting",
        "the-house 1986 to 2005, gift",
        "bo 2005 to now, given away",
    ]
    assert told["holders"][2]["event"] == "T1#came"
    assert stood(told, "part_of") == ["T1 1972 to 2004"]
    assert gaps(told) == ["anna ? hill-club 1950 to 1972, 21-22 years, unknown"]
    assert "It stood in T1 from 1972 to 2004: at the left edge." in told["text"]
    # The grove's own line is not lengthened by the years of its members.
    assert held(lineage(beech, grove)) == ["hill-club 1972 to 1986, first hands", "the-house 1986 to now, gift"]


def test_22_taken_apart_and_planted_together_again_with_a_replacement():
    """A grove of three was taken apart in 2003 and planted again in 2004; one had died and another took its place."""
    told = lineage(
        tree(event("assembled", "1972", by="anna", trees=refs("a", "b", "c")),
             event("taken apart", "2003-03", by="bo"),
             event("assembled", "2004-03", by="bo", trees=refs("a", "b", "d")),
             kind="planting", members=(member("a"), member("b"), member("c"), member("d")))
    )  # fmt: skip
    assert stood(told) == [
        "a 1972 to 2003", "a 2004 to now", "b 1972 to 2003", "b 2004 to now", "c 1972 to 2003", "d 2004 to now",
    ]  # fmt: skip
    first, second = told["kin"]["versions"]
    assert first["taken_apart"] == {"earliest": "2003-03-01", "latest": "2003-03-31"}
    assert (second["new"], second["gone"]) == (["d"], ["c"])
    assert "Taken apart in 2003. Remade in 2004 by Bo Lind, of 3 plants." in told["text"]
