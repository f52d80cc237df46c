"""Two cameras at one tree: a card that both photograph sets their clocks against each other, and nothing else does."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from archive_tools.sort_in.clocks import shots_of
from archive_tools.sort_in.facts import Camera, Picture
from archive_tools.sort_in.payload import Meant
from archive_tools.sort_in.sessions import Sessions, sessions_of

A = Camera("Ormond", "Tern 4", "1001")
B = Camera("Lisk", "Pocket", "")


def _day(*shots: tuple[str, Camera, str, str | None], day: str = "2026-05-03") -> Sessions:
    """Sessions of (file, camera, time, tree of the card in it); a time may carry a day and a zone of its own."""
    pictures, meant = [], {}
    for file, camera, time, tree in shots:
        clock = datetime.fromisoformat(time if "T" in time else f"{day}T{time}")
        pictures.append(Picture(file, 1, file, ".jpg", 10, 10, clock=clock, camera=camera))
        if tree == "end":
            meant[file] = Meant("archive card end", is_end=True, is_card=True)
        elif tree is not None:
            meant[file] = Meant(f"archive card {tree} x", (tree,), is_card=True)
    return sessions_of(shots_of(pictures, meant))


def _tree(sessions: Sessions, file: str) -> str:
    found = sessions.belongs[file]
    return "doubtful" if found.doubt else " ".join(found.trees) or "nothing"


def _trees(sessions: Sessions, files: Sequence[str]) -> list[str]:
    return [_tree(sessions, file) for file in files]


def test_a_card_seen_by_both_sets_the_clocks_and_the_other_cards_then_count_for_both() -> None:
    """B runs 47 minutes ahead and photographs only the first card; then it rests until after the second."""
    sessions = _day(
        ("a1", A, "10:00:00", "T1"),
        ("a2", A, "10:02:00", None),
        ("a3", A, "10:30:00", "T2"),
        ("a4", A, "10:32:00", None),
        ("b0", B, "10:40:00", None),
        ("b1", B, "10:47:20", "T1"),
        ("b2", B, "10:49:00", None),
    )
    assert _trees(sessions, ["a2", "a4", "b2"]) == ["T1", "T2", "T1"]
    assert _tree(sessions, "b0") == "nothing"
    assert sessions.clocks == (
        "the clock of Lisk Pocket is 47 min 20 s ahead of that of Ormond Tern 4 (no. 1001), "
        "by one code that both photographed",
    )


def test_pictures_before_the_own_first_card_follow_the_other_cameras_card() -> None:
    """B comes to the first tree late, without its card, and photographs the second card together with A."""
    sessions = _day(
        ("a1", A, "10:00:00", "T1"),
        ("a2", A, "10:02:00", None),
        ("b1", B, "11:10:00", None),
        ("a3", A, "10:30:00", "T2"),
        ("b2", B, "11:30:10", "T2"),
        ("b3", B, "11:31:00", None),
    )
    assert _trees(sessions, ["b1", "b3"]) == ["T1", "T2"]
    assert sessions.belongs["b1"].says == "follows the card of T1, by the clock of Ormond Tern 4 (no. 1001)"


def test_one_card_that_both_photographed_is_enough_for_the_cards_of_the_one_to_count_for_the_other() -> None:
    """B runs an hour and three minutes ahead, shows its zone, and never photographs a card again."""
    sessions = _day(
        ("a1", A, "10:00:00", "T1"),
        ("b1", B, "2026-05-03T13:03:05+02:00", "T1"),
        ("b2", B, "2026-05-03T13:06:00+02:00", None),
        ("a2", A, "10:30:00", "T2"),
        ("b3", B, "2026-05-03T13:40:00+02:00", None),
        ("a3", A, "10:50:00", "T3"),
        ("b4", B, "2026-05-03T13:50:00+02:00", None),
        ("b5", B, "2026-05-03T13:59:00+02:00", None),
    )
    assert _trees(sessions, ["b2", "b3", "b4", "b5"]) == ["T1", "T2", "T2", "T3"]
    assert sessions.belongs["b3"].says == "follows the card of T2, by the clock of Ormond Tern 4 (no. 1001)"


def test_two_cameras_that_each_photographed_cards_of_their_own_may_have_gone_different_ways() -> None:
    sessions = _day(
        ("a1", A, "10:00:00", "T1"),
        ("b1", B, "10:00:05", "T1"),
        ("b2", B, "10:02:00", None),
        ("a3", A, "10:30:00", "T2"),
        ("b3", B, "10:40:00", None),
        ("b4", B, "10:50:00", "T3"),
        ("b5", B, "10:52:00", None),
        ("a4", A, "10:55:00", None),
    )
    assert _trees(sessions, ["b2", "b3", "b5", "a4"]) == ["T1", "doubtful", "T3", "doubtful"]
    assert "which this camera did not" in (sessions.belongs["b3"].doubt or "")


def test_no_card_in_common_leaves_a_camera_without_cards_in_doubt() -> None:
    sessions = _day(
        ("a1", A, "10:00:00", "T1"),
        ("a2", A, "10:02:00", None),
        ("b1", B, "10:02:30", None),
    )
    assert _trees(sessions, ["a2", "b1"]) == ["T1", "doubtful"]
    assert "photographed no code in common" in (sessions.belongs["b1"].doubt or "")
    assert sessions.clocks == ()


def test_two_photographers_each_with_cards_of_their_own_do_not_disturb_each_other() -> None:
    """No card in common: each camera's own cards hold for its own pictures."""
    sessions = _day(
        ("a1", A, "10:00:00", "T1"),
        ("a2", A, "10:02:00", None),
        ("b1", B, "10:01:00", "T2"),
        ("b2", B, "10:03:00", None),
    )
    assert _trees(sessions, ["a2", "b2"]) == ["T1", "T2"]


def test_the_same_two_cards_morning_and_evening_still_give_one_difference() -> None:
    sessions = _day(
        *(
            shot
            for hour in ("09", "17")
            for shot in (
                (f"a1-{hour}", A, f"{hour}:00:00", "T1"),
                (f"a2-{hour}", A, f"{hour}:10:00", "T2"),
                (f"b1-{hour}", B, f"{hour}:05:03", "T1"),
                (f"b2-{hour}", B, f"{hour}:15:08", "T2"),
                (f"b3-{hour}", B, f"{hour}:16:00", None),
            )
        )
    )
    (told,) = sessions.clocks
    assert "5 min 6 s ahead" in told
    assert "by 4 codes" in told
    assert _trees(sessions, ["b3-09", "b3-17"]) == ["T2", "T2"]


def test_a_clock_put_forward_an_hour_between_two_cards_is_told_and_own_cards_still_hold() -> None:
    """Spring 2026: B is put forward between the trees; A is a telephone that writes its zone."""
    sessions = _day(
        ("a1", A, "2026-03-29T01:30:00+01:00", "T1"),
        ("a2", A, "2026-03-29T01:31:00+01:00", None),
        ("b1", B, "2026-03-29T01:30:10", "T1"),
        ("b2", B, "2026-03-29T01:32:00", None),
        ("a3", A, "2026-03-29T03:30:00+02:00", "T2"),
        ("b3", B, "2026-03-29T03:30:15", "T2"),
        ("b4", B, "2026-03-29T03:35:00", None),
        ("a4", A, "2026-03-29T03:36:00+02:00", None),
    )
    assert _trees(sessions, ["a2", "b2", "b4", "a4"]) == ["T1", "T1", "T2", "T2"]
    assert "do not agree" in sessions.clocks[0]
    assert "summer time" in sessions.clocks[0]


def test_a_card_photographed_twice_by_one_camera_and_once_by_the_other_leaves_its_clock_open() -> None:
    """Which of A's two pictures of the card goes with B's, nothing tells: A may be ten minutes slow, or right."""
    sessions = _day(
        ("a1", A, "09:00:00", "T2"),
        ("a2", A, "09:10:00", "T2"),
        ("b1", B, "09:10:00", "T2"),
        ("b2", B, "09:12:00", None),
        ("a3", A, "09:20:00", "T1"),
        ("b3", B, "09:22:10", None),
        ("a4", A, "09:22:00", None),
    )
    assert "leave open" in sessions.clocks[0]
    assert sessions.clocks[0].endswith("10 min behind or equal")
    assert _trees(sessions, ["b2", "b3", "a4"]) == ["T2", "doubtful", "T1"]


def test_so_many_ways_to_set_a_clock_that_nothing_is_sure() -> None:
    shots = [(f"a{n}", A, f"{8 + n // 12:02}:{n % 12 * 5:02}:00", "T1" if n % 2 else "T2") for n in range(140)]
    sessions = _day(*shots, ("b0", B, "12:00:00", "T1"), ("b1", B, "12:03:00", None))
    assert _tree(sessions, "b1") == "doubtful"


def test_where_two_differences_give_a_picture_to_different_trees_it_is_doubtful() -> None:
    """As before, and A alone photographs a third card: for B's pictures its hour is not known."""
    sessions = _day(
        ("a1", A, "10:00:00", "T1"),
        ("b1", B, "10:00:10", "T1"),
        ("a2", A, "11:00:00", "T2"),
        ("b2", B, "12:00:10", "T2"),
        ("a3", A, "12:10:00", "T3"),
        ("b3", B, "12:30:00", None),
        ("b4", B, "13:30:00", None),
    )
    assert _trees(sessions, ["b3", "b4"]) == ["doubtful", "doubtful"]
    assert "do not agree" in (sessions.belongs["b3"].doubt or "")


def test_cards_in_autumn_with_one_camera_by_zone_and_one_never_set_back() -> None:
    """The telephone goes back an hour and says so; the old camera keeps summer time: one difference all day."""
    sessions = _day(
        ("a1", A, "2026-10-25T02:30:00+02:00", "T1"),
        ("b1", B, "2026-10-25T02:30:20", "T1"),
        ("a2", A, "2026-10-25T02:40:00+01:00", "T2"),
        ("b2", B, "2026-10-25T03:40:20", "T2"),
        ("b3", B, "2026-10-25T03:41:00", None),
        ("a3", A, "2026-10-25T02:42:00+01:00", None),
        ("b0", B, "2026-10-25T03:00:00", None),
    )
    assert len(sessions.clocks) == 1
    assert "by 2 codes that both photographed" in sessions.clocks[0]
    assert _trees(sessions, ["b0", "b3", "a3"]) == ["T1", "T2", "T2"]


def test_a_picture_within_the_margin_of_anothers_card_is_doubtful() -> None:
    sessions = _day(
        ("a1", A, "10:00:00", "T1"),
        ("a2", A, "10:30:00", "T2"),
        ("b1", B, "10:29:40", None),
        ("b9", B, "11:00:05", "T9"),
        ("a9", A, "11:00:00", "T9"),
    )
    assert _tree(sessions, "b1") == "doubtful"
    assert "not set against each other more closely" in (sessions.belongs["b1"].doubt or "")


def test_the_end_card_of_one_camera_does_not_silently_end_the_others_session() -> None:
    sessions = _day(
        ("a1", A, "10:00:00", "T1"),
        ("b1", B, "10:00:10", "T1"),
        ("a2", A, "10:20:00", "end"),
        ("a3", A, "10:25:00", None),
        ("b2", B, "10:26:00", None),
    )
    assert _trees(sessions, ["a3", "b2"]) == ["nothing", "doubtful"]


def test_three_cameras_are_set_against_each_other_pair_by_pair() -> None:
    third = Camera("Ormond", "Wren", "77")
    sessions = _day(
        ("a1", A, "10:00:00", "T1"),
        ("b1", B, "11:00:00", "T1"),
        ("c1", third, "09:00:00", "T1"),
        ("a2", A, "10:01:00", None),
        ("b2", B, "11:01:00", None),
        ("c2", third, "09:01:00", None),
    )
    assert len(sessions.clocks) == 3
    assert _trees(sessions, ["a2", "b2", "c2"]) == ["T1", "T1", "T1"]
