"""Walks invented at random: whatever the clocks do, a picture goes to the tree it was taken of, or is left in doubt."""

from __future__ import annotations

from datetime import datetime, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from archive_tools.sort_in.clocks import shots_of
from archive_tools.sort_in.facts import Camera, Picture
from archive_tools.sort_in.payload import Meant
from archive_tools.sort_in.sessions import Belongs, sessions_of

A, B = Camera("Ormond", "Tern 4", "1001"), Camera("Lisk", "Pocket", "")
_START = datetime(2026, 5, 3, 9, 0, 0)


@st.composite
def _walks(draw: st.DrawFn) -> tuple[list[Picture], dict[str, Meant], dict[str, str]]:
    """Two people walk together from tree to tree, ten minutes each. A photographs every card; B some of them.

    B's clock is wrong by anything up to two days, and both photograph a card within 30 seconds. Gives the pictures, the
    meanings of those of cards, and the tree that each other picture truly shows ("" before the first card).
    """
    trees = draw(st.lists(st.sampled_from(["T1", "T2", "T3", "T4"]), min_size=1, max_size=6))
    wrong = timedelta(seconds=draw(st.integers(-172_800, 172_800)))
    pictures: list[Picture] = []
    meant: dict[str, Meant] = {}
    truth: dict[str, str] = {}

    def take(camera: Camera, at: datetime, tree: str, card: bool) -> None:
        file = f"{'a' if camera == A else 'b'}-{len(pictures):03}-{'card' if card else 'tree'}"
        clock = at + (wrong if camera == B else timedelta(0))
        pictures.append(Picture(file, 1, file, ".jpg", 10, 10, clock=clock, camera=camera))
        if card:
            meant[file] = Meant(f"archive card {tree} x", (tree,), is_card=True)
        else:
            truth[file] = tree

    for early in draw(st.lists(st.integers(200, 600), max_size=2)):
        take(draw(st.sampled_from([A, B])), _START - timedelta(seconds=early), "", False)
    for number, tree in enumerate(trees):
        at = _START + timedelta(minutes=10 * number)
        take(A, at, tree, True)
        if draw(st.booleans()):
            take(B, at + timedelta(seconds=draw(st.integers(-30, 30))), tree, True)
        for after in draw(st.lists(st.integers(130, 460), max_size=3)):
            take(draw(st.sampled_from([A, B])), at + timedelta(seconds=after), tree, False)
    return pictures, meant, truth


def _outcome(found: Belongs) -> str | None:
    return None if found.doubt else " ".join(found.trees)


@settings(max_examples=400, deadline=None)
@given(_walks())
def test_no_picture_ever_goes_to_another_tree_than_it_shows(
    walk: tuple[list[Picture], dict[str, Meant], dict[str, str]],
) -> None:
    pictures, meant, truth = walk
    found = sessions_of(shots_of(pictures, meant)).belongs
    for file, tree in truth.items():
        assert _outcome(found[file]) in (tree, "", None), (file, tree, found[file])


@settings(max_examples=200, deadline=None)
@given(_walks())
def test_the_camera_that_photographed_every_card_is_never_in_doubt(
    walk: tuple[list[Picture], dict[str, Meant], dict[str, str]],
) -> None:
    pictures, meant, truth = walk
    found = sessions_of(shots_of(pictures, meant)).belongs
    for file, tree in truth.items():
        if file.startswith("a-"):
            assert _outcome(found[file]) == tree, (file, found[file])


@settings(max_examples=200, deadline=None)
@given(_walks(), st.randoms())
def test_the_order_in_which_files_are_found_changes_nothing(
    walk: tuple[list[Picture], dict[str, Meant], dict[str, str]], chance: object
) -> None:
    pictures, meant, _ = walk
    first = sessions_of(shots_of(pictures, meant))
    shuffled = list(pictures)
    chance.shuffle(shuffled)  # type: ignore[attr-defined]
    assert sessions_of(shots_of(shuffled, meant)) == first
