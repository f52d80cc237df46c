"""The clock of a walk, worked through by hand (see `walks`), and for any walk."""

from __future__ import annotations

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from archive_tools.model.tour_plan import StopText, TourPlan, TourStop
from archive_tools.publish.spoken.run_sheet import (
    STOP,
    WAIT,
    WALK,
    at_each_minute,
    clock,
    lasting,
    run_lines,
    start_seconds,
)
from tests.publish.spoken.walks import context, plan, tour


def test_a_walk_of_32_minutes_with_24_stops_adds_up_to_the_second():
    lines = run_lines(context(), plan())
    assert sum(line.seconds for line in lines) == 1920 == lines[-1].end
    assert sum(line.seconds for line in lines if line.what == WALK) == 228
    assert sum(line.seconds for line in lines if line.what == WAIT) == 12
    assert [line.seconds for line in lines if line.what == STOP] == [70] * 24
    # By hand: 45 + 6 x 70 = 465 s to the end of the first court, then 50: the seventh tree at 515 s, 8 min 35 s.
    seventh = next(line for line in lines if line.stop == 7)
    assert (seventh.begin, clock(14 * 3600, seventh.begin)) == (515, "14:08:35")
    # The last court: 45 + 50 + 65 + 40 + 12 + 18 x 70 = 1,472 s.
    assert next(line for line in lines if line.stop == 19).begin == 1472


def test_where_to_be_at_each_minute_of_it():
    minutes = at_each_minute(run_lines(context(), plan()))
    assert [minute for minute, _ in minutes] == list(range(32))
    said = {minute: (line.what, line.name) for minute, line in minutes}
    assert said[0] == (WALK, "Tree 1")
    assert said[1] == (STOP, "Tree 1")  # from 0:45 to 1:55
    assert said[8] == (WALK, "Tree 7")  # from 7:45 to 8:35
    assert said[24] == (WALK, "Tree 19")  # from 23:40 to 24:20, then twelve seconds at the gate
    assert said[31] == (STOP, "Tree 24")  # to 31:32


def test_a_place_without_a_time_of_day_counts_from_its_beginning():
    assert start_seconds(tour()) == 14 * 3600
    assert start_seconds(tour(start_time="")) is None
    assert [clock(None, 0), clock(None, 515)] == ["+0:00", "+8:35"]
    assert [clock(23 * 3600 + 3000, 900), lasting(65)] == ["00:05", "1:05"]


stays = st.lists(st.tuples(st.integers(0, 400), st.integers(0, 90), st.integers(1, 600)), min_size=1, max_size=12)


@given(stays, st.integers(0, 300))
def test_lines_follow_each_other_without_a_gap(stops: list[tuple[int, int, int]], back: int):
    told, now = [], 0
    for walk, wait, stay in stops:
        arrive = now + walk + wait
        told.append(TourStop("tree", "T00", "north", walk, arrive, arrive + stay, wait, 0, StopText("", "en")))
        now = arrive + stay
    found = run_lines(context(), TourPlan("t", now + back, tuple(told), back, now + back, 1, 1, None, "gate", False))
    assert found[0].begin == 0 and found[-1].end == now + back
    assert all(a.end == b.begin for a, b in pairwise(found))
    assert all(line.seconds > 0 for line in found)
    assert len(at_each_minute(found)) == -(-(now + back) // 60)
