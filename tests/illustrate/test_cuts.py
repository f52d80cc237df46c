"""Sizes and names of cuts."""

import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import archive_tools
from archive_tools.illustrate.cuts import LIMITS, Size, name_of, picture_of, sizes_of


def pairs(width, height):
    return [size.pair for size in sizes_of(width, height)]


def test_a_large_picture_has_three_cuts_each_half_the_next():
    assert pairs(4000, 3000) == [(480, 360), (960, 720), (1920, 1440)]


def test_a_tall_picture_is_limited_by_its_height():
    assert pairs(3000, 4000) == [(360, 480), (720, 960), (1440, 1920)]


def test_a_picture_between_two_limits_ends_with_its_own_size():
    assert pairs(1200, 900) == [(480, 360), (960, 720), (1200, 900)]


def test_a_small_picture_is_never_enlarged():
    assert pairs(300, 200) == [(300, 200)]
    assert pairs(480, 480) == [(480, 480)]


def test_a_picture_without_pixels_is_refused():
    with pytest.raises(ValueError, match="0 x 10"):
        sizes_of(0, 10)


@given(st.integers(1, 20_000), st.integers(1, 20_000))
def test_sizes_never_pass_the_limits_nor_the_original_and_keep_the_shape(width, height):
    sizes = sizes_of(width, height)
    longest = max(width, height)
    assert max(sizes[-1].pair) == min(longest, 1920)
    assert [max(size.pair) for size in sizes[:-1]] == [side for side in (480, 960) if side < longest]
    for size in sizes:
        assert 1 <= size.width <= min(width, LIMITS[-1])
        assert 1 <= size.height <= min(height, LIMITS[-1])
        factor = max(size.pair) / max(width, height)
        assert abs(size.width - max(1, width * factor)) <= 1
        assert abs(size.height - max(1, height * factor)) <= 1


def test_a_name_depends_on_the_original_and_on_the_size_and_tells_neither():
    small, large = sizes_of(900, 900)[:2]
    names = {name_of(small, "a" * 64), name_of(large, "a" * 64), name_of(small, "b" * 64)}
    assert len(names) == 3
    assert all(len(name) == 36 and name.endswith(".jpg") and "aaaa" not in name for name in names)


def test_cuts_are_addressed_from_the_root_of_the_site():
    picture = picture_of(sizes_of(2000, 1000), "f" * 64)
    assert [cut.width for cut in picture.cuts] == [480, 960, 1920]
    assert all(cut.url.startswith("pictures/") for cut in picture.cuts)
    assert picture.largest.width == 1920
    assert picture.ratio == 2


@pytest.mark.parametrize(
    ("module", "old", "new"),
    [
        ("cuts", "QUALITY = 82", "QUALITY = 60"),
        ("cuts", '"subsampling": "4:2:0"', '"subsampling": "4:4:4"'),
        ("shrinking", "FILTER = Image.Resampling.HAMMING", "FILTER = Image.Resampling.BOX"),
    ],
)
def test_every_setting_is_in_the_name_of_a_cut(module, old, new, tmp_path):
    """A program with one setting changed, in a process of its own, gives the same picture another name."""
    package = Path(archive_tools.__file__).parent
    shutil.copytree(
        package, tmp_path / "archive_tools", ignore=shutil.ignore_patterns("__pycache__", "locale", "theme")
    )
    changed = tmp_path / "archive_tools" / "illustrate" / f"{module}.py"
    assert old in changed.read_text("utf-8")
    changed.write_text(changed.read_text("utf-8").replace(old, new), "utf-8")
    program = "from archive_tools.illustrate.cuts import Size, name_of; print(name_of(Size(8, 6), 'original'))"
    run = subprocess.run([sys.executable, "-c", program], cwd=tmp_path, capture_output=True, text=True, check=True)
    assert run.stdout.strip() != name_of(Size(8, 6), "original")
    assert len(run.stdout.strip()) == len(name_of(Size(8, 6), "original"))
