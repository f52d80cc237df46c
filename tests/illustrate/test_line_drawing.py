"""The line of stewards as a drawing: what it says and shows, of which holder, and that no words ever meet."""

import re
from dataclasses import replace
from datetime import date

import pytest
from drawing_reader import (
    across_of,
    all_of,
    classes,
    each,
    marks,
    parse,
    rows,
    said,
    share,
    upright_of,
)
from illustrate_builders import AS_OF, steward, tree, view_of
from line_builders import FERRY, WHO, WORK, during, line_of

from archive_tools.illustrate.custody_line import custody_line
from archive_tools.illustrate.svg_frame import id_part
from archive_tools.model.findings import Bounds, CustodyPeriod, Hand
from archive_tools.model.grades import Grade


def test_every_holder_has_a_row_with_their_years_and_a_loan_joins_what_followed_it():
    assert [said(row) for row in rows(across_of(line_of(FERRY, WORK, WHO)), "holder")] == [
        "Anna Lindq <b>& 1951 to 1960–64",
        "Tomas Verr 1960–64 to 1974, by gift",
        "The Harbour Circle 1981–83 to 1989",
        "Inés Okor 1989 to 1996, by gift",
        "The Terraces loan 1994, given 1996",
    ]


def test_the_phone_says_the_same_of_every_holder_and_gap_in_the_same_order():
    both = line_of(FERRY, WORK, WHO)
    for css in ("holder", "gap-row"):
        assert [said(row) for row in rows(upright_of(both), css)] == [said(row) for row in rows(across_of(both), css)]


def test_bars_stand_at_their_years():
    svg = across_of(line_of(FERRY, (), WHO))  # the axis runs from 1950 to 2030
    held, here, loan, gap = (all_of(svg, kind, css) for kind, css in
        (("rect", "held"), ("rect", "here"), ("rect", "loan"), ("line", "gap")))  # fmt: skip
    away = [one for one in held if "away" in classes(one)]
    held = [one for one in held if "away" not in classes(one)]
    assert [share(one) for one in held] == pytest.approx([1 / 80, 15 / 80, 34 / 80, 39 / 80], abs=1e-3)
    assert share(held[0]) + share(held[0], "width") == pytest.approx(10 / 80, abs=1e-3)
    assert share(held[3]) + share(held[3], "width") == pytest.approx(44 / 80, abs=1e-3), "then it was lent"
    assert [share(one) for one in away] == pytest.approx([44 / 80], abs=1e-3)
    assert float(away[0].get("height")) < float(held[3].get("height")) / 2
    assert share(loan[0]) == pytest.approx(44 / 80, abs=1e-3)
    assert share(here[0]) == pytest.approx(46 / 80, abs=1e-3)
    assert share(here[0]) + share(here[0], "width") == pytest.approx((AS_OF.year + 0.9 - 1950) / 80, abs=1e-3)
    assert 24 / 80 < share(gap[0], "x1") < share(gap[0], "x2") < 31 / 80


def test_vague_dates_are_drawn_soft_and_certain_ones_are_not():
    svg = across_of(line_of(FERRY, (), WHO))
    soft = [(one.get("fill"), share(one), share(one, "width")) for one in all_of(svg, "rect") if one.get("fill")]
    assert [x for _, x, _ in soft] == pytest.approx([10 / 80, 10 / 80, 31 / 80], abs=2e-3)
    assert [width for _, _, width in soft] == pytest.approx([5 / 80, 5 / 80, 3 / 80], abs=2e-3)
    assert [fill.rsplit("-", 1)[1] for fill, _, _ in soft] == ["end)", "start)", "start)"]
    certain = line_of((CustodyPeriod(("anna",), during(1951), during(1960), "gift"),), (), WHO)
    assert [one for svg in each(certain) for one in all_of(svg, "rect") if one.get("fill")] == []


def test_the_description_tells_every_holder_gap_and_hand_in_a_sentence():
    for svg in each(line_of(FERRY, WORK, WHO)):
        assert parse(svg).find("desc").text == (
            "Anna Lindq <b>&, 1951 to 1960–64; Tomas Verr, 1960–64 to 1974, by gift; nobody known, 1974 to 1981–83; "
            "The Harbour Circle, 1981–83 to 1989; Inés Okor, 1989 to 1996, by gift; "
            "The Terraces, on loan 1994 to 1996; The Terraces, given 1996. "
            "Hands: first potted 1953, Anna Lindq <b>&; styled 1988, Inés Okor; repotted 1990–94."
        )
        assert parse(svg).find("title").text == "Who held The Tide Elm, 1951 to today"
        assert parse(svg).get("role") == "img"


def test_joint_holders_have_a_bar_in_strands_and_a_survivor_a_whole_one():
    svg = across_of(line_of((
        CustodyPeriod(("anna", "tomas"), during(1960), during(1980), "purchase", joint=True),
        CustodyPeriod(("tomas",), during(1980), during(1990), "survivor"),
    ), (), WHO))  # fmt: skip
    together, alone = rows(svg, "holder")
    assert said(together) == "Anna Lindq <b>& and Tomas Verr jointly, 1960 to 1980, bought"
    assert said(alone) == "Tomas Verr 1980 to 1990, the survivor"
    first, second = together.iter("rect")
    assert float(first.get("y")) + float(first.get("height")) < float(second.get("y"))
    assert len(list(alone.iter("rect"))) == 1


def test_what_came_back_says_so_and_an_exchange_both_ways_has_its_sign():
    svg = across_of(line_of((
        CustodyPeriod(("anna",), during(1950), during(1960), "first hands"),
        CustodyPeriod(("tomas",), during(1960), during(1970), "sold", through=("circle",)),
        CustodyPeriod(("anna",), during(1970), during(1980), "gift"),
        CustodyPeriod(("house",), during(1980), None, "exchange", given_in_return=("T2",)),
    ), (), WHO, trees=[tree("T2", name="The Slip")]))  # fmt: skip
    assert [said(row) for row in rows(svg, "holder")] == [
        "Anna Lindq <b>& 1950 to 1960",
        "Tomas Verr 1960 to 1970, bought, through The Harbour Circle",
        "Anna Lindq <b>& again, 1970 to 1980, by gift",
        "The Terraces by exchange 1980, for The Slip",
    ]
    signs = [[one for one in row.iter() if "swap" in classes(one)] for row in rows(svg, "holder")]
    assert [len(one) for one in signs] == [0, 0, 0, 1]
    assert share(signs[3][0]) == pytest.approx(30 / 80, abs=1e-3)


def test_each_grade_of_gap_is_drawn_in_its_own_way_and_what_bridges_one_is_marked():
    def gap(grade, **keys):
        return across_of(line_of((
            CustodyPeriod(("anna",), during(1950), during(1960), "first hands"),
            CustodyPeriod((), during(1960), during(1980), "gap", gap_grade=grade, **keys),
            CustodyPeriod(("house",), during(1980), None, "gift"),
        ), (), WHO, told=[("seen", during(1971))]))  # fmt: skip

    unknown, presumed, bridged = gap("unknown"), gap("presumed"), gap("bridged", bridged_by=("seen",))
    assert said(*rows(unknown, "gap-row")) == "nobody known 19 to 20 years"
    assert said(*rows(presumed, "gap-row")) == "nothing told 19 to 20 years, thought to have stayed"
    assert said(*rows(bridged, "gap-row")) == "nobody known 19 to 20 years, but told of in 1971"
    assert [classes(next(rows(svg, "gap-row")[0].iter("line"))) for svg in (unknown, presumed, bridged)] == [
        {"gap", "unknown"}, {"gap", "presumed"}, {"gap", "bridged"},
    ]  # fmt: skip
    assert marks(*rows(bridged, "gap-row"), "seen") == pytest.approx([21 / 80], abs=1e-3)
    assert marks(*rows(unknown, "gap-row"), "seen") == []


def test_quarantine_is_kept_apart_from_ownership():
    svg = across_of(line_of((
        CustodyPeriod(("tomas",), during(1968), during(1975), "first hands"),
        CustodyPeriod(("circle",), during(1969), during(1971), "quarantine", owner=False),
    ), (), WHO))  # fmt: skip
    owner, station = rows(svg, "holder")
    assert said(station) == "The Harbour Circle in quarantine 1969 to 1971"
    assert [classes(bar) for bar in station.iter("rect")] == [{"loan", "out"}]
    assert [classes(bar) for bar in owner.iter("rect")] == [{"held"}, {"held"}, {"held", "away"}]


def test_a_nursery_and_an_estate_are_called_so_where_their_names_do_not():
    who = [
        replace(steward("a", "Brannock"), kind="nursery"),
        replace(steward("b", "The estate of Ana"), kind="estate"),
        replace(steward("c", "Vey"), kind="family"),
    ]
    svg = across_of(line_of((
        CustodyPeriod(("a",), during(1950), during(1960), "first hands"),
        CustodyPeriod(("b",), during(1960), during(1961), "estate"),
        CustodyPeriod(("c",), during(1961), during(1970), "family"),
    ), (), who))  # fmt: skip
    assert [said(row) for row in rows(svg, "holder")] == [
        "Brannock a nursery, 1950 to 1960",
        "The estate of Ana 1960 to 1961, after a death",
        "Vey a family, 1961 to 1970, within the family",
    ]


def test_a_steward_the_edition_does_not_know_is_never_named_by_id():
    markup = line_of((CustodyPeriod(("secret-donor",), during(1950), None, "first hands"),))
    assert "secret-donor" not in markup
    assert "name withheld" in markup


def test_names_cannot_break_out_of_the_drawing():
    markup = line_of(FERRY, WORK, WHO, name='<script>alert("1")</script>')
    assert "<script" not in markup
    assert "<b>" not in markup
    assert all('alert("1")' in parse(svg).find("title").text for svg in each(markup))


def test_whoever_worked_on_it_has_a_row_of_marks_at_the_years_of_the_work():
    svg = across_of(line_of(FERRY, WORK, WHO))
    hands = rows(svg, "hands")
    assert [said(row) for row in hands] == [
        "Hands Anna Lindq <b>& first potted 1953", "Inés Okor styled 1988", "repotted 1990–94",
    ]  # fmt: skip
    assert [marks(row, "hand") for row in hands] == [
        pytest.approx([3 / 80], abs=2e-3), pytest.approx([38 / 80], abs=2e-3), pytest.approx([42.5 / 80], abs=2e-3),
    ]  # fmt: skip
    spread = next(line for line in hands[2].iter("line") if "about" in classes(line))
    assert (share(spread, "x1"), share(spread, "x2")) == pytest.approx((40 / 80, 45 / 80), abs=2e-3)


def test_what_two_did_together_stands_with_each_and_what_was_done_at_once_is_said_at_once():
    done = [
        Hand(("anna", "ines"), "repotted", during(1960), "a", Grade.DOCUMENTED),
        Hand(("anna",), "styled", during(1970), "b", Grade.DOCUMENTED),
        Hand(("anna",), "bent", during(1970), "c", Grade.DOCUMENTED),
        *(Hand(("ines",), "fed", during(year), f"d{year}", Grade.DOCUMENTED) for year in range(1971, 1976)),
    ]
    svg = line_of((), done, WHO)
    assert [said(row) for row in rows(across_of(svg), "hands")] == [
        "Hands Anna Lindq <b>& repotted 1960, styled and bent 1970",
        "Inés Okor repotted 1960 and other work",
    ]
    assert "1970 styled and bent Anna Lindq <b>&" in said(rows(upright_of(svg), "hands")[0])


def test_many_hands_share_the_last_row():
    who = [steward(f"s{at}", f"Person {at}") for at in range(30)]
    work = [Hand((f"s{at}",), "repotted", during(1950 + at), f"e{at}", Grade.DOCUMENTED) for at in range(30)]
    hands = rows(across_of(line_of((), work, who)), "hands")
    assert len(hands) == 12
    assert said(hands[-1]).startswith("19 others")
    assert sum(len(marks(row, "hand")) for row in hands) == 30


def test_nothing_known_draws_nothing():
    assert line_of(()) == ""
    assert custody_line(view_of([tree("T1")]), "T1") == ""


def test_ids_differ_between_trees_whose_numbers_look_alike():
    assert len({id_part(number) for number in ("S1979.2", "S1979-2", "S1979 2", "S19792", "S1979/2")}) == 5
    assert all(re.fullmatch(r"[A-Za-z0-9-]+", id_part(number)) for number in ("盆.1", 'x"><b', "é"))


def test_a_line_that_ended_says_when():
    markup = line_of((CustodyPeriod(("anna",), during(1950), during(1960), "first hands"),), (), WHO)
    assert parse(across_of(markup)).find("title").text == "Who held The Tide Elm, 1950 to 1960"


def test_a_loan_that_ended_in_the_year_of_the_gift_is_one_row_with_it():
    loan = CustodyPeriod(("house",), during(1994), during(1996), "loan", owner=False)
    gift = CustodyPeriod(("house",), Bounds(date(1996, 6, 2), date(1996, 6, 2)), None, "gift")
    later = CustodyPeriod(("house",), during(2001), None, "gift")
    assert "loan 1994, given 1996" in line_of((loan, gift))
    assert "on loan 1994 to 1996" in line_of((loan, later)).split("</desc>")[1]
