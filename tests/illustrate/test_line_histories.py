"""The small histories worked out by hand in `tests/reason`, drawn: the same holders, gaps, hands, kin and plantings.

Each history is told there as a test; here every lineage it asks for is drawn and read back from the SVG, and held
against the machine form, which the history itself has just been found to agree with. Places on the line of years are
held against the figures that the drawing itself bears.
"""

from __future__ import annotations

import inspect
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

import pytest
from drawing_reader import (
    Years,
    across_of,
    all_of,
    assert_clear,
    each,
    extent,
    marks,
    rows,
    said,
    share,
    upright_of,
    years_across,
    years_down,
)

from archive_tools.illustrate.custody_line import custody_line
from archive_tools.illustrate.kinship_diagram import kinship_diagram
from archive_tools.illustrate.planting_chart import planting_chart
from archive_tools.model.collection import Selected
from archive_tools.model.findings import Findings
from archive_tools.model.grades import Edition
from archive_tools.model.lineage import member_numbers
from archive_tools.model.view import EditionView
from archive_tools.reason import find
from archive_tools.reason.lineage_json import lineage_as_json
from tests.making import AS_OF, collection
from tests.reason import lineage_asking, test_lineage_histories, test_lineage_plantings

TOLD_IN = (test_lineage_histories, test_lineage_plantings)
HISTORIES = {
    name: told
    for stories in TOLD_IN
    for name, told in inspect.getmembers(stories, inspect.isfunction)
    if name[5:7].isdigit()
}
NEAR = 0.012
"""Of the line of years: a bar is never drawn shorter than half a hundredth of it."""
Json = dict[str, Any]


@dataclass(frozen=True)
class Told:
    """One lineage that a history asked for: its machine form, and the edition it can be drawn from."""

    json: Json
    view: EditionView
    accession: str


def told_by(history: str, monkeypatch: pytest.MonkeyPatch) -> list[Told]:
    """Runs a history, which checks its machine form, and gives back every lineage that it asked for."""
    asked: list[Told] = []

    def lineage(*trees: Any, of: str = "T1", as_of: date = AS_OF, **more: Json) -> Json:
        records = collection(*trees, stewards=lineage_asking.people(**more))
        found: Findings = find(records, as_of, as_of)
        told = lineage_as_json(found.custodies[of], found.lineages[of], records.stewards, as_of)
        asked.append(Told(told, EditionView(Edition.INTERNAL, as_of, Selected(records), found), of))
        return told

    for stories in TOLD_IN:
        monkeypatch.setattr(stories, "lineage", lineage)
    HISTORIES[history]()
    assert asked
    return asked


@pytest.mark.parametrize("history", HISTORIES)
def test_a_history_is_drawn_as_it_is_told(history: str, monkeypatch: pytest.MonkeyPatch) -> None:
    for told in told_by(history, monkeypatch):
        markup = custody_line(told.view, told.accession)
        assert bool(markup) == bool(told.json["holders"])
        for svg in each(markup):
            down = svg == upright_of(markup)
            place = _Place(svg, down, told.view.as_of)
            assert_holders(told.json["holders"], place)
            assert_gaps(told.json["gaps"], place)
            assert_hands(told.json["hands"], place)
        assert_kin(told)
        assert_planting(told)


class _Place:
    """A drawing, and where days stand in it."""

    def __init__(self, svg: str, down: bool, as_of: date) -> None:
        self.svg, self.down, self.as_of = svg, down, as_of
        self.years: Years = years_down(svg) if down else years_across(svg)
        self.near = NEAR * abs(self.years.end - self.years.start)

    def start(self, bounds: Json) -> float | None:
        """Where a bar begins; None where nothing bounds it on that side."""
        first, last = days(bounds)
        return None if first is None or last is None else self.years.at(min(first, self.as_of))

    def end(self, bounds: Json | None) -> float | None:
        if bounds is None:
            return self.years.at(self.as_of)
        first, last = days(bounds)
        if first is None or last is None:
            return None
        return self.years.at(min(first if last - first <= timedelta(366) else last, self.as_of))

    def moment(self, bounds: Json) -> float | None:
        first, last = days(bounds)
        if first is None or last is None:
            return None
        last = first if last - first <= timedelta(366) else min(last, self.as_of)
        return (self.years.at(first) + self.years.at(last)) / 2

    def is_at(self, place: float, wanted: float | None) -> bool:
        return wanted is None or abs(place - wanted) <= self.near


def days(bounds: Json) -> tuple[date | None, date | None]:
    first, last = bounds["earliest"], bounds["latest"]
    return date.fromisoformat(first) if first else None, date.fromisoformat(last) if last else None


def assert_holders(holders: list[Json], place: _Place) -> None:
    """Each holder has rows that begin and end when they held it, in the order in which they did."""
    drawn = rows(place.svg, "holder")
    words = [plain(row) for row in drawn]
    for holder in holders:
        named = [row for row, said_ in zip(drawn, words, strict=True) if holder["name"] in said_]
        ends = [extent(row, place.down) for row in named]
        # A loan that became a gift is one row with it: each has its own bar there.
        ends += [_ends(bar, place.down) for row in named for bar in row.iter("rect")]
        assert any(place.is_at(first, place.start(holder["from"])) for first, _ in ends), (holder, ends)
        assert any(place.is_at(last, place.end(holder["to"])) for _, last in ends), (holder, ends)
        if holder["joint"]:
            assert any("jointly" in said_ for said_ in words if holder["name"] in said_)
        if holder["role"] == "holder":
            assert any("loan" in bar.get("class", "") for row in named for bar in row.iter("rect"))
        for agent in holder["through"]:
            assert any(lineage_asking.NAMES[agent] in said_ for said_ in words)
    known = list(dict.fromkeys(holder["name"] for holder in holders))
    seen = [next(name for name in known if name in said_) for said_ in words]
    assert all(any(name in said_ for name in known) for said_ in words)
    first_seen = {name: next(at for at, said_ in enumerate(words) if name in said_) for name in known}
    assert sorted(known, key=lambda name: first_seen[name]) == known, seen


def _ends(bar: Any, down: bool) -> tuple[float, float]:
    first = float(bar.get("y")) if down else share(bar)
    return first, first + (float(bar.get("height")) if down else share(bar, "width"))


def assert_gaps(gaps: list[Json], place: _Place) -> None:
    drawn = rows(place.svg, "gap-row")
    assert len(drawn) == len(gaps)
    for row, gap in zip(drawn, gaps, strict=True):
        first, last = extent(row, place.down)
        start, end = place.start(gap["from"]), place.end(gap["to"])
        assert start is None or start - place.near <= first
        assert end is None or last <= end + place.near
        line = next(line for line in row.iter("line") if "gap" in line.get("class", ""))
        assert line.get("class") == f"gap {gap['state']}"
        assert len(marks(row, "seen", place.down)) == len(gap["bridged_by"])
        if gap["years_min"]:
            assert str(gap["years_min"]) in plain(row)


def assert_hands(hands: list[Json], place: _Place) -> None:
    """Each piece of dated work has its mark in the row of whoever did it, and nobody else has one."""
    worked = [hand for hand in hands if hand["role"] == "worked" and any(hand["from"].values())]
    drawn = rows(place.svg, "hands")
    assert len(drawn) == len({hand["steward"] for hand in worked})
    order = list(dict.fromkeys(hand["steward"] for hand in worked))
    for row, steward in zip(drawn, order, strict=True):
        wanted = [place.moment(hand["from"]) for hand in worked if hand["steward"] == steward]
        found = marks(row, "hand", place.down)
        assert all(any(place.is_at(mark, one) for mark in found) for one in wanted), (steward, wanted, found)
        assert all(any(place.is_at(mark, one) for one in wanted) for mark in found), (steward, wanted, found)
        if not place.down:
            assert lineage_asking.NAMES[steward] in plain(row)


def assert_kin(told: Told) -> None:
    """Each tie to another tree stands at its day, in both drawings."""
    markup = kinship_diagram(told.view, told.accession)
    ties = [tie for what in ("came_from", "gave_rise_to") for tie in told.json["kin"][what] if tie["tree"]]
    spells = [one for one in told.json["kin"]["part_of"] if one["tree"] in told.view.records.trees]
    if not markup:
        assert not ties
        assert not spells
        return
    for svg in each(markup):
        down = svg == upright_of(markup)
        place = _Place(svg, down, told.view.as_of)
        drawn = [float(one.get("y1")) if down else share(one, "x1") for one in all_of(svg, "line", "tie")]
        for tie in ties:
            assert any(place.is_at(one, place.moment(tie["date"])) for one in drawn), (tie, drawn)
            assert f'href="tree:{tie["tree"]}"' in svg
        for spell in spells:
            for end in (spell["from"], spell["to"]):
                assert end is None or any(place.is_at(one, place.moment(end)) for one in drawn), (spell, drawn)
        assert_clear(svg, 280 if down else 520, not down)


def assert_planting(told: Told) -> None:
    """Each plant stands in the chart for the years it stood in the planting, and each making has its day."""
    markup = planting_chart(told.view, told.accession)
    members, versions = told.json["kin"]["members"], told.json["kin"]["versions"]
    if not markup:
        assert not any(any((spell["from"] or {}).values()) for spell in members)
        return
    svg = across_of(markup)
    place = _Place(svg, False, told.view.as_of)
    drawn = rows(svg, "member")
    spells = told.view.findings.lineages[told.accession].members
    called = {
        spell.member: [f"Plant {member_numbers(spells)[spell.member]}", f"{spell.count} plants"]
        + ([spell.place.say()[1:]] if spell.place else [])
        for spell in spells
    }
    for spell in members:
        bars = [
            (share(bar), share(bar) + share(bar, "width"))
            for row in drawn
            if spell["tree"] in told.view.records.trees or any(words in plain(row) for words in called[spell["member"]])
            for bar in row.iter("rect")
        ]
        assert any(place.is_at(first, place.start(spell["from"])) for first, _ in bars), (spell, bars)
        assert any(place.is_at(last, place.end(spell["to"])) for _, last in bars), (spell, bars)
    made = [mark for row in rows(svg, "version") for mark in marks(row, "made")]
    for version in versions:
        assert any(place.is_at(mark, place.moment(version["from"])) for mark in made), (version, made)
    for one, room in zip(each(markup), (520, 280), strict=True):
        assert_clear(one, room, True)


def plain(row: Any) -> str:
    """The words of a row on one line: where time runs down they are broken into several."""
    return " ".join(said(row).split())


def test_there_are_twenty_histories_and_more() -> None:
    assert len(HISTORIES) >= 20


def test_a_place_that_is_wrong_is_found_wrong(monkeypatch: pytest.MonkeyPatch) -> None:
    """The measure itself: a holder told for another decade than the one drawn does not pass."""
    told = told_by("test_03_a_loan_that_became_a_gift", monkeypatch)[0]
    place = _Place(across_of(custody_line(told.view, "T1")), False, AS_OF)
    moved = [{**one, "from": {"earliest": "1979-01-01", "latest": "1979-12-31"}} for one in told.json["holders"]]
    with pytest.raises(AssertionError):
        assert_holders(moved, place)
    with pytest.raises(AssertionError):
        assert_holders(list(reversed(told.json["holders"])), place)
