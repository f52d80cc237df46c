"""Lengths, movements, and what is said of them."""

import math
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archive_tools.illustrate.change import change_in_words, measured_change, plus_minus
from archive_tools.illustrate.measure import CannotMeasure, length, same_scale, uncertainty_of
from archive_tools.illustrate.movement import movement
from archive_tools.model.photo import MeasureWanted, Photo, PictureScale
from archive_tools.model.pictures import MeasuredChange
from archive_tools.model.places_in_files import Where
from archive_tools.model.words import Words

POT = PictureScale("rim left", "rim right", Decimal("46.0"), Decimal("0.2"))


def shot(marks, scale=POT):
    return Photo("p.jpg", "p.jpg", Where("photos.yml"), (), marks=tuple(marks.items()), scale=scale)


def frame(apex, trunk=40.0, shift=0.0, scale=POT):
    """A tree in a pot 46 cm and 920 pixels wide: 20 pixels a centimetre."""
    return shot(
        {
            "rim left": (100 + shift, 1000.0),
            "rim right": (1020 + shift, 1000.0),
            "base": (560 + shift, 980.0),
            "apex": (apex[0] + shift, apex[1]),
            "trunk left": (560 + shift - trunk / 2, 930.0),
            "trunk right": (560 + shift + trunk / 2, 930.0),
        },
        scale,
    )


def wanted(mark=None, between=(None, None)):
    return MeasureWanted(Words.plain("it"), between[0], between[1], mark)


HOLD = ("rim left", "rim right", "base")


def test_the_scale_measured_by_itself_is_as_uncertain_as_the_scale():
    found = length({"rim left": (0, 0), "rim right": (700, 9)}, POT, "rim left", "rim right")
    assert found.cm == pytest.approx(46)
    assert found.uncertainty == pytest.approx(0.2)


@pytest.mark.parametrize("other", [(5, 5), (8, 6), (5, 10.6)])
def test_marks_on_one_spot_are_no_length(other):
    """Nearer than 2 sqrt(2) times two pixels, twice the uncertainty of a distance (JCGM 100:2008, 5.1.2) exceeds it."""
    marks = {"rim left": (0, 0), "rim right": (700, 0), "a": (5, 5), "b": other}
    with pytest.raises(CannotMeasure, match="“a” and “b” are marked too near each other"):
        length(marks, POT, "a", "b")
    marks["b"] = (5, 10.7)
    found = length(marks, POT, "a", "b")
    assert 0 < 1.99 * found.uncertainty < found.cm


def test_what_is_closed_now_was_open_then():
    change = measured_change(
        wanted(between=("trunk left", "trunk right")), frame((0, 0), trunk=100), frame((0, 0), trunk=2), HOLD
    )
    assert words(change) == "then 5.0 cm (± 0.3); what it is now cannot be measured"
    assert "too near each other" in change.refused


def test_a_scale_must_be_known_to_a_tenth():
    """Beyond that, what is divided by it is no longer spread as the first order says (JCGM 100:2008, 5.1.2, note)."""
    marks = {"rim left": (0, 0), "rim right": (28, 0), "a": (5, 5), "b": (5, 500)}
    with pytest.raises(CannotMeasure, match="scale are too near"):
        length(marks, POT, "a", "b")
    length(marks | {"rim right": (29, 0)}, POT, "a", "b")
    length(marks, POT, "a", "b", placing=1)


def test_an_uncertainty_that_is_not_written_is_that_of_the_last_place():
    assert uncertainty_of(PictureScale("a", "b", Decimal("46"), None)) == pytest.approx(0.5 / math.sqrt(3))
    assert uncertainty_of(PictureScale("a", "b", Decimal("46.0"), None)) == pytest.approx(0.05 / math.sqrt(3))
    assert uncertainty_of(PictureScale("a", "b", Decimal("46"), Decimal("0.3"))) == 0.3


@pytest.mark.parametrize(
    ("scale", "between", "why"),
    [
        (None, ("rim left", "a"), "no scale"),
        (POT, ("rim left", "nowhere"), "no mark “nowhere”"),
        (PictureScale("rim left", "gone", Decimal("46"), None), ("rim left", "a"), "no mark “gone”"),
        (PictureScale("rim left", "a", Decimal("46"), None), ("rim left", "rim right"), "too near each other"),
        (PictureScale("rim left", "rim right", Decimal("0"), None), ("rim left", "a"), "no length"),
    ],
)
def test_nothing_is_measured_without_scale_or_marks(scale, between, why):
    with pytest.raises(CannotMeasure, match=why):
        length({"rim left": (0, 0), "rim right": (700, 0), "a": (3, 3)}, scale, *between)


def test_a_movement_needs_two_other_marks():
    with pytest.raises(CannotMeasure, match="cannot be laid over each other"):
        movement(dict(frame((560, 100)).marks), dict(frame((560, 200)).marks), ("apex", "base"), "apex", POT)


def test_a_movement_does_not_depend_on_where_the_camera_stood():
    still = movement(dict(frame((560, 100)).marks), dict(frame((600, 280)).marks), HOLD, "apex", POT)
    shifted = movement(dict(frame((560, 100)).marks), dict(frame((600, 280), shift=333).marks), HOLD, "apex", POT)
    assert (still.right, still.up) == pytest.approx((2, -9))
    assert (shifted.right, shifted.up) == pytest.approx((2, -9))


def test_marks_that_ask_for_more_than_they_can_carry_measure_no_movement():
    """A foot and six marks along the rim, bent as by another lens or another rim: six on a line show no tilt."""
    rim = {f"rim {i}": (100.0 * i, 500.0) for i in range(6)} | {"base": (250.0, 0.0)}
    bent = {name: (x + 0.0006 * (x - 250) ** 2, y) for name, (x, y) in rim.items()}
    scale = PictureScale("rim 0", "rim 5", Decimal("46.0"), Decimal("0.2"))
    apex = {"apex": (250.0, 900.0)}
    with pytest.raises(CannotMeasure, match="miss each other by more than their placing explains"):
        movement(rim | apex, bent | apex, tuple(rim), "apex", scale)
    assert movement(rim | apex, rim | apex, tuple(rim), "apex", scale).up == pytest.approx(0)


def test_marks_that_fit_badly_make_a_movement_less_certain():
    before, after = dict(frame((560, 100)).marks), dict(frame((600, 280)).marks)
    good = movement(before, after, HOLD, "apex", POT)
    after["base"] = (after["base"][0] + 80, after["base"][1])
    assert movement(before, after, HOLD, "apex", POT).up_uncertainty > 3 * good.up_uncertainty


def words(change):
    assert change.words == change_in_words(change)
    return change.words


def test_lowered_and_moved_aside():
    change = measured_change(wanted("apex"), frame((560, 100)), frame((600, 280)), HOLD)
    assert change.moved == pytest.approx((2, -9))
    assert words(change).startswith("lowered by 9.0 cm and moved 2.0 cm to the right (± 0.")
    assert "raised by" in words(measured_change(wanted("apex"), frame((600, 280)), frame((600, 100)), HOLD))
    assert "to the left" in words(measured_change(wanted("apex"), frame((600, 100)), frame((500, 100)), HOLD))


def test_a_length_then_and_now():
    change = measured_change(
        wanted(between=("trunk left", "trunk right")), frame((0, 0), trunk=68), frame((0, 0), trunk=222), HOLD
    )
    assert (change.before, change.after) == pytest.approx((3.4, 11.1))
    assert words(change) == "3.4 cm, now 11.1 cm (± 0.3)"


def test_a_change_smaller_than_its_uncertainty_is_not_claimed():
    change = measured_change(
        wanted(between=("trunk left", "trunk right")), frame((0, 0), trunk=100), frame((0, 0), trunk=104), HOLD
    )
    assert words(change) == "5.2 cm (± 0.3), no change that can be measured"
    still = measured_change(wanted("apex"), frame((560, 100)), frame((562, 101)), HOLD)
    assert words(still).startswith("no change that can be measured (± 0.")


def test_one_picture_without_a_scale_says_what_the_other_shows():
    change = measured_change(wanted(between=("base", "apex")), frame((560, 100), scale=None), frame((560, 180)), HOLD)
    assert change.before is None
    assert change.after == pytest.approx(40)
    assert change.refused == "the earlier picture cannot be measured: the picture has no scale"
    assert words(change) == "now 40.0 cm (± 0.5); what it was cannot be measured"
    other = measured_change(wanted(between=("base", "apex")), frame((560, 180)), frame((560, 100), scale=None), HOLD)
    assert words(other) == "then 40.0 cm (± 0.5); what it is now cannot be measured"


def test_without_scale_in_either_it_is_refused_in_words():
    both = measured_change(
        wanted(between=("base", "apex")), frame((560, 100), scale=None), frame((560, 100), scale=None), HOLD
    )
    assert both.before is None
    assert both.after is None
    assert words(both).startswith("cannot be measured: the earlier picture")
    moved = measured_change(wanted("apex"), frame((560, 100)), frame((560, 200), scale=None), HOLD)
    assert moved.moved is None
    assert words(moved) == "cannot be measured: the picture has no scale"


def test_whole_centimetres_where_the_uncertainty_is_that_large():
    change = MeasuredChange(Words.plain("Apex"), moved=(0.4, -9.3), moved_uncertainty=0.5)
    assert change_in_words(change) == "lowered by 9 cm (± 1)"
    grown = MeasuredChange(
        Words.plain("Height"), before=31.2, after=44.6, before_uncertainty=0.6, after_uncertainty=0.4
    )
    assert change_in_words(grown) == "31 cm, now 45 cm (± 2)"


@pytest.mark.parametrize(
    ("within", "told"),
    [(0.004, "0.1"), (0.32, "0.4"), (0.94, "0.9"), (0.96, "1"), (1.04, "1"), (1.06, "2"), (29, "29"), (94, "94"),
     (96, "100"), (127, "130"), (1040, "1000")],
)  # fmt: skip
def test_an_uncertainty_has_at_most_two_figures(within, told):
    """JCGM 100:2008, 7.2.6: "it usually suffices to quote [it] to at most two significant digits"; rounded up, unless
    that is by less than a twentieth (EA-4/02, 6.3).
    """
    assert plus_minus(within) == told
    assert len(told.replace("0.", "").rstrip("0") or "0") <= 2


def test_a_value_ends_at_the_place_of_its_uncertainty():
    grove = MeasuredChange(
        Words.plain("Grove"), before=1234.0, after=2468.0, before_uncertainty=63.5, after_uncertainty=40.0
    )
    assert change_in_words(grove) == "1230 cm, now 2470 cm (± 130)"


def test_a_change_hidden_in_what_both_lengths_share_is_told_by_itself():
    """One scale for both: each length is known to 4 cm, their difference to 0.6."""
    near = frame((560, 100), scale=PictureScale("rim left", "rim right", Decimal("46.0"), Decimal("2.0")))
    far = frame((560, 84), scale=near.scale)
    change = measured_change(wanted(between=("base", "apex")), near, far, HOLD)
    assert change.is_measurable
    assert words(change) == "44 cm, now 45 cm (± 4): 0.8 cm more (± 0.6)"
    back = measured_change(wanted(between=("base", "apex")), far, near, HOLD)
    assert words(back) == "45 cm, now 44 cm (± 4): 0.8 cm less (± 0.6)"


def test_words_and_numbers_agree_on_whether_something_came_down():
    """What is open of the way aside says nothing of the way down."""
    lowered = MeasuredChange(
        Words.plain("Apex"), moved=(9.0, -0.6), moved_uncertainty=0.4, change_uncertainty=0.2
    )  # fmt: skip
    assert lowered.is_measurable
    assert change_in_words(lowered) == "lowered by 0.6 cm and moved 9.0 cm to the right (± 0.8)"
    straight = MeasuredChange(Words.plain("Apex"), moved=(0.3, -0.6), moved_uncertainty=0.4, change_uncertainty=0.2)
    assert change_in_words(straight) == "lowered by 0.6 cm (± 0.4)"


def test_one_number_told_more_and_less_finely_is_no_longer_one_scale():
    fine, coarse = PictureScale("a", "b", Decimal("60.0"), None), PictureScale("a", "b", Decimal("60"), None)
    assert same_scale(fine, fine)
    assert not same_scale(fine, coarse)


@given(
    st.floats(0, 200), st.floats(0, 200), st.floats(0.001, 20), st.floats(0.001, 20)
)  # fmt: skip
def test_words_claim_a_change_only_beyond_twice_the_uncertainty(before, after, first, second):
    change = MeasuredChange(
        Words.plain("x"), before=before, after=after, before_uncertainty=first, after_uncertainty=second
    )
    claimed = ", now " in change_in_words(change)
    assert claimed == (abs(after - before) > 2 * math.hypot(first, second))


def test_words_can_be_said_in_another_language():
    change = MeasuredChange(Words.plain("x"), moved=(0.0, -9.0), moved_uncertainty=0.5)
    said = {"lowered by %(length)s": "%(length)s tiefer"}
    assert change_in_words(change, lambda text: said.get(text, text)) == "9 cm tiefer (± 1)"
