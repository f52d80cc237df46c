"""Before and after, from files to cuts."""

import math

import numpy as np
import pytest
from illustrate_builders import difference, photo, scene, tree, view_of
from PIL import Image

from archive_tools.illustrate import cut_file, draw
from archive_tools.illustrate.alignment import CannotAlign, similarity
from archive_tools.illustrate.common_area import common_box
from archive_tools.model.photo import ComparisonWanted, MeasureWanted
from archive_tools.model.places_in_files import Where
from archive_tools.model.words import Words

MARKS = {"rim left": (500.0, 900.0), "rim right": (1500.0, 940.0), "apex": (960.0, 300.0)}


def wanted(**how):
    return ComparisonWanted("pair", "1990.jpg", "2025.jpg", Where("tree.yml"), **how)


def laid_out(root, turn=8.0, factor=0.8, shift=(260.0, 40.0)):
    """A wide picture, and another of the same scene taken smaller, turned and moved; both with the same marks."""
    root.mkdir(exist_ok=True)
    before = scene(2000, 1500)
    c, s = factor * math.cos(math.radians(turn)), factor * math.sin(math.radians(turn))
    matrix = np.array([[c, -s, shift[0]], [s, c, shift[1]]])
    turn_only = np.linalg.inv(matrix[:, :2])
    back = np.column_stack([turn_only, -turn_only @ matrix[:, 2]])
    after = before.transform((2000, 1500), Image.Transform.AFFINE, tuple(back.ravel()), Image.Resampling.BICUBIC)
    before.save(root / "1990.jpg", quality=95)
    after.save(root / "2025.jpg", quality=95)
    carried = {name: tuple(matrix @ [*at, 1.0]) for name, at in MARKS.items()}
    return matrix, carried


def run(tmp_path, before_marks=None, after_marks=None, ask=None, views=("front", "front"), scale=None):
    root = tmp_path / "collection"
    photos = [
        photo(root, "1990.jpg", marks=before_marks, view=views[0], scale=scale),
        photo(root, "2025.jpg", marks=after_marks, view=views[1], scale=scale),
    ]
    view = view_of([tree("A", photos, [ask or wanted()])])
    return draw(view, root, tmp_path / "cache"), view


def test_a_pair_is_brought_into_one_frame(tmp_path):
    matrix, carried = laid_out(tmp_path / "collection")
    pictures, _ = run(tmp_path, MARKS, carried)
    (pair,) = pictures.comparisons["A"]
    assert pair.aligned
    assert pair.why_not is None
    assert np.array(pair.matrix) == pytest.approx(matrix, abs=1e-6)
    assert pair.residual_px == pytest.approx(0, abs=1e-6)
    assert pair.marks_used == ("rim left", "rim right", "apex")
    assert [cut.width for cut in pair.before.cuts] == [cut.width for cut in pair.after.cuts]
    assert {cut.url for cut in pair.before.cuts}.isdisjoint(cut.url for cut in pair.after.cuts)
    for before, after in zip(pair.before.cuts, pair.after.cuts, strict=True):
        with (
            Image.open(cut_file(tmp_path / "cache", before)) as first,
            Image.open(cut_file(tmp_path / "cache", after)) as second,
        ):
            assert first.size == second.size == (before.width, before.height)
            assert difference(first, second) < 3  # the same scene: once aligned, the two show the same
    with (
        Image.open(tmp_path / "collection" / "1990.jpg") as one,
        Image.open(tmp_path / "collection" / "2025.jpg") as two,
    ):
        assert difference(one, two) > 20  # and did not before


def test_nothing_is_shown_that_one_of_the_two_lacks(tmp_path):
    _, carried = laid_out(tmp_path / "collection")
    pictures, _ = run(tmp_path, MARKS, carried)
    (pair,) = pictures.comparisons["A"]
    with Image.open(cut_file(tmp_path / "cache", pair.before.largest)) as image:
        edge = np.asarray(image)
    corners = np.concatenate([edge[:2].reshape(-1, 3), edge[-2:].reshape(-1, 3), edge[:, :2].reshape(-1, 3)])
    assert (corners.max(axis=1) < 3).mean() < 0.02  # Pillow fills with black what lies outside


def test_a_pair_made_once_is_not_made_again(tmp_path):
    _, carried = laid_out(tmp_path / "collection")
    first, view = run(tmp_path, MARKS, carried)
    assert first.encoded > 6
    again = draw(view, tmp_path / "collection", tmp_path / "cache")
    assert again.encoded == 0
    assert again.comparisons == first.comparisons
    moved = carried | {"apex": (carried["apex"][0] + 9, carried["apex"][1])}
    other, _ = run(tmp_path, MARKS, moved)
    assert other.comparisons["A"][0].before.cuts[0].url != first.comparisons["A"][0].before.cuts[0].url


@pytest.mark.parametrize(
    ("change", "why"),
    [
        ({"after_marks": {"apex": (1.0, 1.0)}}, "would carry the mark “apex”"),
        ({"after_marks": dict.fromkeys(MARKS, (7.0, 7.0))}, "one spot"),
        ({"views": ("front", "back")}, "different sides"),
        ({"after_marks": {name: (2000 - x, y) for name, (x, y) in MARKS.items()}}, "mirrored"),
        ({"after_marks": {name: (x + 1900, y) for name, (x, y) in MARKS.items()}}, "too little in common"),
    ],
)
def test_what_cannot_be_aligned_honestly_stands_side_by_side(tmp_path, change, why):
    _, carried = laid_out(tmp_path / "collection")
    pictures, _ = run(tmp_path, MARKS, **({"after_marks": carried} | change))
    (pair,) = pictures.comparisons["A"]
    assert not pair.aligned
    assert why in pair.why_not
    assert pair.before == pictures.photos["1990.jpg"]
    assert pair.after == pictures.photos["2025.jpg"]
    assert pair.matrix is None


@pytest.mark.parametrize(
    ("after_marks", "why"),
    [({}, "no mark to align on; two are needed; and "), ({"apex": (960.0, 300.0)}, "only the mark “apex”")],
)
def test_too_few_marks_in_pictures_that_have_nothing_in_common(tmp_path, after_marks, why):
    laid_out(tmp_path / "collection")
    scene(2000, 1500, seed=7).save(tmp_path / "collection" / "2025.jpg", quality=95)
    pictures, _ = run(tmp_path, MARKS, after_marks)
    (pair,) = pictures.comparisons["A"]
    assert not pair.aligned
    assert why in pair.why_not
    assert "look alike" in pair.why_not
    assert pair.method is None


def test_without_marks_a_pair_is_laid_by_what_has_not_changed(tmp_path):
    matrix, carried = laid_out(tmp_path / "collection")
    lowered = {"apex": (carried["apex"][0], carried["apex"][1] + 90)}
    ask = wanted(measure=(MeasureWanted(Words.plain("Apex"), None, None, "apex"),))
    pictures, view = run(tmp_path, {"apex": MARKS["apex"]}, lowered, ask)
    (pair,) = pictures.comparisons["A"]
    assert pair.aligned
    assert pair.method == "features"
    assert pair.marks_used == ()
    assert pair.inliers > 50
    for corner in ((0, 0), (2000, 0), (2000, 1500), (0, 1500)):
        assert math.dist(np.array(pair.matrix) @ [*corner, 1], matrix @ [*corner, 1]) < 2
    assert pair.changes[0].refused == "the picture has no scale"
    again = draw(view, tmp_path / "collection", tmp_path / "cache")
    assert again.encoded == 0
    assert again.comparisons == pictures.comparisons


def test_changes_are_measured_with_the_pair(tmp_path):
    _, carried = laid_out(tmp_path / "collection")
    lowered = carried | {"apex": (carried["apex"][0], carried["apex"][1] + 90)}
    rim = math.dist(carried["rim left"], carried["rim right"])
    ask = wanted(
        measure=(
            MeasureWanted(Words.plain("Apex"), None, None, "apex"),
            MeasureWanted(Words.plain("Pot"), "rim left", "rim right", None),
        )
    )
    pictures, _ = run(tmp_path, MARKS, lowered, ask, scale=("rim left", "rim right", "46.0", "0.2"))
    (pair,) = pictures.comparisons["A"]
    assert pair.marks_used == ("rim left", "rim right")
    apex, pot = pair.changes
    assert apex.moved == pytest.approx((0, -90 * 46 / rim), abs=1e-6)
    assert apex.words.startswith("lowered by ")
    assert pot.words == "46.0 cm (± 0.4), no change that can be measured"


def test_a_photograph_the_edition_does_not_hold_takes_its_comparison_with_it(tmp_path):
    laid_out(tmp_path / "collection")
    root = tmp_path / "collection"
    only = photo(root, "2025.jpg", marks=MARKS)
    pictures = draw(view_of([tree("A", [only], [wanted()])]), root, tmp_path / "cache")
    assert pictures.comparisons == {}
    assert set(pictures.photos) == {"2025.jpg"}


def test_an_original_that_is_gone_takes_its_comparison_with_it(tmp_path):
    _, carried = laid_out(tmp_path / "collection")
    for after_marks in (carried, {}):
        root = tmp_path / "collection"
        photos = [photo(root, "1990.jpg", marks=MARKS), photo(root, "2025.jpg", marks=after_marks)]
        kept = (root / "1990.jpg").read_bytes()
        (root / "1990.jpg").unlink()
        pictures = draw(view_of([tree("A", photos, [wanted()])]), root, tmp_path / "cache")
        (root / "1990.jpg").write_bytes(kept)
        assert pictures.comparisons == {}
        assert [problem.rule for problem in pictures.problems] == ["picture-unreadable"]


def test_a_small_old_print_is_not_blown_up(tmp_path):
    root = tmp_path / "collection"
    root.mkdir()
    scene(400, 300).save(root / "1990.jpg")
    scene(4000, 3000).save(root / "2025.jpg")
    marks = {name: (x / 5, y / 5) for name, (x, y) in MARKS.items()}
    large = {name: (x * 2, y * 2) for name, (x, y) in MARKS.items()}
    pictures, _ = run(tmp_path, marks, large)
    assert pictures.comparisons["A"][0].after.largest.width == pytest.approx(800, abs=2)


class TestCommonBox:
    def test_shifted_pictures_share_their_overlap(self):
        laid = similarity([(0, 0), (100, 0)], [(30, 20), (130, 20)])
        box = common_box(laid, (400, 300), (400, 300))
        assert (box.left, box.top, box.right, box.bottom) == pytest.approx((30, 20, 400, 300), abs=1e-6)

    def test_a_turned_square_holds_the_known_largest_square(self):
        # The largest upright rectangle in a square of side a turned by 45 degrees is a square of side a / sqrt(2).
        laid = similarity([(500, 500), (600, 500)], [(500, 500), (500 + 50 * math.sqrt(2), 500 + 50 * math.sqrt(2))])
        box = common_box(laid, (1000, 1000), (1000, 1000))
        side = 1000 / math.sqrt(2)
        assert box.area == pytest.approx(side**2, rel=0.01)
        assert box.right - box.left == pytest.approx(side, rel=0.02)

    def test_points_to_keep_stay_inside(self):
        laid = similarity([(0, 0), (100, 0)], [(0, 300), (80, 240)])
        free = common_box(laid, (1000, 800), (1000, 800))
        x, y = laid.carry((60, 60))
        assert x < free.left or y < free.top
        kept = common_box(laid, (1000, 800), (1000, 800), [(x, y)])
        assert kept.left <= x <= kept.right
        assert kept.top <= y <= kept.bottom
        assert kept.area < free.area

    def test_corners_of_the_box_lie_in_both_pictures(self):
        for turn in range(-40, 41, 10):
            c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
            laid = similarity([(500, 400), (600, 400)], [(520, 380), (520 + 110 * c, 380 + 110 * s)])
            box = common_box(laid, (1000, 800), (1000, 800))
            assert 0 <= box.left < box.right <= 1000
            assert 0 <= box.top < box.bottom <= 800
            back = np.linalg.inv(np.array([*laid.matrix, (0, 0, 1)]))
            for x, y in [(box.left, box.top), (box.right, box.top), (box.right, box.bottom), (box.left, box.bottom)]:
                u, v, _ = back @ [x, y, 1]
                assert -0.01 <= u <= 1000.01
                assert -0.01 <= v <= 800.01

    def test_pictures_that_hardly_meet_are_refused(self):
        laid = similarity([(0, 0), (100, 0)], [(950, 0), (1050, 0)])
        with pytest.raises(CannotAlign, match="too little in common"):
            common_box(laid, (1000, 800), (1000, 800))
