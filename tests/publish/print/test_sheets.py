"""Several pieces on a sheet: none lies on another, none hangs over the edge, whatever their size."""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archive_tools.publish.print.label_type import label_type, points_for_distance
from archive_tools.publish.print.sheets import CLEAR, MARK, SizeError, read_size, sheet_for, sheets

SIDES = st.floats(20, 320, allow_nan=False)


@given(st.sampled_from(["A3", "A4", "A5", "Letter", "320x450"]), SIDES, SIDES, st.floats(0, 8))
def test_pieces_lie_apart_and_inside_with_room_for_their_marks(
    paper: str, width: float, height: float, bleed: float
) -> None:
    try:
        sheet = sheet_for(paper, (width, height), bleed)
    except SizeError as fault:
        # Refused only where the piece and its marks are larger than the paper either way round.
        short, long = sorted(read_size(paper))
        need = 2 * (bleed + CLEAR + MARK)
        fits = (width + need <= short - 8 and height + need <= long - 8) or (
            width + need <= long - 8 and height + need <= short - 8
        )
        assert not fits, fault
        return
    assert sorted((sheet.width, sheet.height)) == sorted(read_size(paper))
    assert len(sheet.spots) == sheet.count >= 1
    reach = bleed + CLEAR + MARK
    for x, y in sheet.spots:
        assert reach < x
        assert x + width + reach < sheet.width
        assert reach < y
        assert y + height + reach < sheet.height
    for (x0, y0), (x1, y1) in combinations(sheet.spots[:40], 2):
        apart = max(abs(x0 - x1) - width, abs(y0 - y1) - height)
        assert apart >= 2 * bleed - 1e-6  # the bleed of one is never the face of another


@pytest.mark.parametrize(("count", "pages"), [(1, 1), (2, 1), (3, 2), (28, 14)])
def test_every_piece_is_laid_once_on_as_many_sheets_as_it_takes(count: int, pages: int) -> None:
    sheet = sheet_for("A4", (148, 105), 0)
    assert sheet.count == 2
    laid = sheets(sheet, [f"<{number}>" for number in range(count)], ["line"] * pages)
    assert laid.count("#pagebreak") == pages - 1
    assert all(laid.count(f"[<{number}>]") == 1 for number in range(count))


@pytest.mark.parametrize(
    ("written", "size"), [("148x105", (148, 105)), ("85.5 × 54 mm", (85.5, 54)), ("A6", (105, 148)), ("a4", (210, 297))]
)
def test_sizes_are_read_as_people_write_them(written: str, size: tuple[float, float]) -> None:
    assert read_size(written) == size  # ISO 216 for the papers


@pytest.mark.parametrize("written", ["", "big", "148", "148x", "0x5", "5000x10", "-148x105", "148,5x105"])
def test_what_is_no_size_is_refused_with_what_to_write(written: str) -> None:
    with pytest.raises(SizeError, match=r"148x105|20 to 1200"):
        read_size(written)


@pytest.mark.parametrize(("distance", "points"), [(75, 24), (1000, 100), (2000, 200)])
def test_type_for_a_viewing_distance_is_the_published_one(distance: float, points: float) -> None:
    # Smithsonian Guidelines for Accessible Exhibition Design, table of type sizes; values from memory.
    assert points_for_distance(distance) == points
    assert points_for_distance(distance - 1) <= points


def test_type_is_never_smaller_than_clear_or_large_print_asks() -> None:
    # UK Association for Accessible Formats, G003 (2019): 12 point for clear print, 16 for large print.
    assert min(label_type(60, large_print=False, distance=None).sizes) == 12
    assert min(label_type(60, large_print=True, distance=None).sizes) == 16
    assert min(label_type(600, large_print=False, distance=1000).sizes) == 100
