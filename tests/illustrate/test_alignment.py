"""Which marks hold two pictures together, and when they cannot be held."""

import pytest

from archive_tools.illustrate.alignment import CannotAlign, shared_marks, similarity

BEFORE = {"base": (1.0, 2.0), "apex": (3.0, 4.0), "left": (5.0, 6.0)}
AFTER = {"left": (0.0, 0.0), "base": (1.0, 1.0), "apex": (2.0, 2.0), "new": (3.0, 3.0)}


def test_all_shared_marks_serve_unless_some_are_asked_for():
    assert shared_marks(BEFORE, AFTER) == ("base", "apex", "left")
    assert shared_marks(BEFORE, AFTER, asked=("left", "base")) == ("left", "base")


def test_a_mark_whose_movement_is_measured_does_not_hold_the_picture():
    assert shared_marks(BEFORE, AFTER, moved=("apex",)) == ("base", "left")


def test_too_few_marks_are_told_by_name():
    with pytest.raises(CannotAlign, match="only the mark “left”"):
        shared_marks(BEFORE, AFTER, moved=("apex", "base"))
    with pytest.raises(CannotAlign, match="no mark to align on"):
        shared_marks({}, AFTER)
    with pytest.raises(CannotAlign, match="only the mark “base”"):
        shared_marks(BEFORE, AFTER, asked=("base",))


def test_a_mark_that_is_asked_for_and_missing_is_told():
    with pytest.raises(CannotAlign, match="earlier picture has no mark “new”"):
        shared_marks(BEFORE, AFTER, asked=("base", "new"))
    with pytest.raises(CannotAlign, match="later picture has no mark “old”"):
        shared_marks(BEFORE | {"old": (0, 0)}, AFTER, asked=("base", "old"))


def test_a_mirrored_picture_is_refused():
    corners = [(0, 0), (100, 0), (100, 60), (20, 80)]
    with pytest.raises(CannotAlign, match="mirrored"):
        similarity(corners, [(500 - x, y) for x, y in corners])


def test_marks_nearly_in_a_line_are_not_taken_for_mirrored():
    marks = [(0, 0), (50, 1), (100, 0)]
    assert similarity(marks, [(0, 0), (50, -1), (100, 0)]).scale == pytest.approx(1, abs=0.01)


def test_unlike_numbers_of_marks_are_a_mistake_of_the_caller():
    with pytest.raises(ValueError, match="2 marks against 1"):
        similarity([(0, 0), (1, 1)], [(0, 0)])
