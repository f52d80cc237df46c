"""What the work page and a tree's comparison say of photographs: refusals with their why, proposals, cautions."""

from __future__ import annotations

from dataclasses import replace

import pytest
import yaml

from archive_tools.model.grades import Edition
from archive_tools.model.pictures import Cut, Pictures, ProposedPair, StripFrame, YearsStrip
from archive_tools.publish import make_site
from archive_tools.publish.work_photographs import AT_ONCE
from tests.publish.sample_view import ELM, sample_pictures, sample_view

OLD, NEW = (photo.file for photo in ELM.photos)
SNIPPET = f"  - id: front-1971-2024\n    before: {OLD}\n    after: {NEW}\n"


def pictures(**parts: object) -> Pictures:
    return replace(sample_pictures(), **parts)


def page(path: str, made: Pictures, edition: Edition = Edition.INTERNAL) -> str:
    tree = replace(ELM, photos=tuple(replace(photo, width=4000, height=3000) for photo in ELM.photos))
    (found,) = [page for page in make_site(sample_view(edition, trees=(tree,)), made).pages if page.path == path]
    return found.body


def compared(**changes: object) -> Pictures:
    (made,) = sample_pictures().comparisons["M1"]
    return pictures(comparisons={"M1": (replace(made, **changes),)})


def test_a_refused_comparison_and_a_refused_measure_stand_on_the_work_page_with_their_why() -> None:
    body = page("work/index.md", compared(aligned=False, why_not="the two pictures share no mark to align on"))
    part = body[body.index('id="refused"') : body.index("</section>", body.index('id="refused"'))]
    assert "The two pictures share no mark to align on." in part
    assert "Rim of the pot. No scale in the older picture." in part
    assert f"trees/M1/marks/?photo={OLD}&amp;beside={NEW}" in part


def test_nothing_refused_leaves_no_empty_part() -> None:
    body = page("work/index.md", pictures(comparisons={}))
    assert 'id="refused"' not in body
    assert 'id="proposed"' not in body
    assert 'id="loose"' not in body


def test_a_proposal_shows_both_pictures_its_reasons_and_lines_that_are_yaml() -> None:
    pair = ProposedPair("M1", OLD, NEW, 0.8, ("53 years apart", "both from the front"), SNIPPET)
    body = page("work/index.md", pictures(proposals={"M1": (pair,)}))
    part = body[body.index('id="proposed"') : body.index("</section>", body.index('id="proposed"'))]
    assert "53 years apart, both from the front." in part
    assert ["pictures/then-480.jpg" in part, "pictures/now-480.jpg" in part] == [True, True]
    lines = part[part.index("<pre") : part.index("</pre>")].split(">", 1)[1]
    assert yaml.safe_load(f"comparisons:\n{lines}\n") == {
        "comparisons": [{"id": "front-1971-2024", "before": OLD, "after": NEW}]
    }


def test_the_best_proposals_lie_open_and_the_rest_can_be_opened() -> None:
    pairs = tuple(ProposedPair("M1", OLD, NEW, n / 10, (f"reason {n}",), SNIPPET) for n in range(9))
    body = page("work/index.md", pictures(proposals={"M1": pairs}))
    part = body[body.index('id="proposed"') : body.index("</section>", body.index('id="proposed"'))]
    opened, folded = part.split("<details", 1)
    assert opened.count("Reason ") == AT_ONCE
    assert "Reason 8." in opened
    assert "Reason 0." in folded
    assert "3 more pairs" in folded


def test_a_proposal_whose_photograph_the_edition_does_not_hold_is_not_made() -> None:
    pair = ProposedPair("M1", OLD, "hidden.jpg", 0.8, ("53 years apart",), SNIPPET)
    assert "53 years apart" not in page("work/index.md", pictures(proposals={"M1": (pair,)}))


def test_photographs_without_a_common_frame_are_told_with_their_why() -> None:
    frames = (
        StripFrame(OLD, Cut("pictures/s1.jpg", 480, 360), False, "they share no mark"),
        StripFrame(NEW, Cut("pictures/s2.jpg", 480, 360), True),
    )
    body = page("work/index.md", pictures(strips={"M1": (YearsStrip("M1", "front", NEW, frames),)}))
    part = body[body.index('id="loose"') : body.index("</section>", body.index('id="loose"'))]
    assert f"1 of 2 photographs is not laid over {NEW}" in part
    assert f"{OLD}. They share no mark." in part


@pytest.mark.parametrize("edition", [Edition.PUBLIC, Edition.INTERNAL])
def test_visitors_are_told_plainly_that_a_pair_is_not_aligned_and_curators_why(edition: Edition) -> None:
    why = "the two pictures share no mark to align on; two are needed"
    body = page("trees/M1/index.md", compared(aligned=False, why_not=why), edition)
    assert "53 years apart, side by side, as they were taken, and not to one scale." in body
    assert (why in body) is (edition is Edition.INTERNAL)
    assert "Draw the line across" not in body


def test_pictures_from_different_sides_are_said_to_be() -> None:
    made = compared(aligned=False, why_not="x")
    photos = (replace(ELM.photos[0], view="back"), ELM.photos[1])
    site = make_site(sample_view(trees=(replace(ELM, photos=photos),)), made)
    (body,) = [page.body for page in site.pages if page.path == "trees/M1/index.md"]
    assert "side by side: they show the tree from different sides." in body


def test_the_caution_is_one_step_from_the_measures_and_only_there() -> None:
    caution = "Measured in one view, a length holds only in the plane of its scale."
    body = page("trees/M1/index.md", compared(caution=caution), Edition.PUBLIC)
    measures = body[body.index('class="measures"') : body.index("</figcaption>")]
    assert caution in measures[measures.index("<details") : measures.index("</details>")]
    assert (
        "<details"
        not in page("trees/M1/index.md", compared(), Edition.PUBLIC)
        .split('class="measures"')[1]
        .split("</figcaption>")[0]
    )


def test_brightness_that_was_matched_is_said_in_the_caption() -> None:
    said = "the earlier picture is brought to the brightness and contrast of the later"
    assert said in page("trees/M1/index.md", compared(exposure_matched=True), Edition.PUBLIC).split("<figcaption>")[1]
    assert said not in page("trees/M1/index.md", compared(exposure_matched=False), Edition.PUBLIC)


def test_by_what_a_pair_was_laid_is_said() -> None:
    by_marks = page("trees/M1/index.md", compared(method="similarity"), Edition.PUBLIC)
    assert "brought to one scale and level by two marks." in by_marks
    by_itself = page("trees/M1/index.md", compared(method="features", marks_used=()), Edition.PUBLIC)
    assert "brought to one scale and level by what has not changed in them." in by_itself
