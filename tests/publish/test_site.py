"""The pages of the sample, part by part."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise

import pytest

from archive_tools.model.grades import Edition
from archive_tools.model.page import Site
from archive_tools.model.pictures import Pictures
from archive_tools.model.tree import OtherNumber
from archive_tools.publish import make_site
from archive_tools.publish.addresses import addresses
from tests.publish.sample_view import BARE, DAUGHTER, ELM, FOREST, sample_pictures, sample_view
from tests.publish.sample_view import year as year_of

PUBLIC = make_site(sample_view(), sample_pictures())
INTERNAL = make_site(sample_view(Edition.INTERNAL), sample_pictures())


def body(path: str, site: Site = PUBLIC) -> str:
    return next(page.body for page in site.pages if page.path == path)


def words(html: str) -> str:
    return " ".join(re.sub(r"<[^>]+>", " ", html).split())


def test_a_tree_page_has_its_parts_in_order() -> None:
    heads = re.findall(r"<h2[^>]*>([^<]+)</h2>", body("trees/M1/index.md"))
    assert heads == [
        "Before and after",
        "The line of stewards",
        "The years",
        "Its story",
        "Kin",
        "What comes next",
        "Sources and credits",
    ]


def test_levels_of_headings_are_never_skipped() -> None:
    for page in PUBLIC.pages:
        if page.is_markdown:
            continue
        levels = [int(level) for level in re.findall(r"<h([1-6])", page.body)]
        assert levels[0] == 1, page.path
        assert levels.count(1) == 1, page.path
        assert all(after - before <= 1 for before, after in pairwise(levels)), page.path


def test_the_sentence_opens_to_its_proof() -> None:
    said = words(body("trees/M1/index.md"))
    assert "In training since 1953 How we know" in said
    assert (
        "14 April 1953 Into the fish box. First pot: the blue oval: ‘Ferry elm, wired and into the fish box.’" in said
    )
    assert "Documented; decides since when. Bench book of Edda Lindqvarn, page 31." in said
    assert "Reported; says how the tree began. Letter of her niece." in said
    assert "As of 25 November 2026 that is 73 years." in said
    assert "Said to be from a cutting struck in 1951." in said


def test_what_decides_is_only_what_the_printed_layer_rests_on() -> None:
    chain = re.findall(r'<li class="([^"]*)"', body("trees/M1/index.md").split('class="chain"')[1].split("</ol>")[0])
    assert chain == [" reported", "decides"]


def test_files_and_lines_stand_in_the_internal_edition_alone() -> None:
    for page in PUBLIC.pages:
        assert ".yml" not in page.body, page.path
        assert "notes/" not in page.body, page.path
    assert "trees/M1-elm/tree.yml:14" in body("trees/M1/index.md", INTERNAL)
    assert not any(page.path.startswith("work/") for page in PUBLIC.pages)


def test_contradicted_documents_print_no_year() -> None:
    page = body("trees/M3/index.md")
    assert "Dates under review" in words(page)
    assert "These statements cannot all be true" in words(page)
    assert "As of 25 November 2026 that is" not in words(page)
    assert "Dates under review" in body("trees/index.md")


@pytest.mark.parametrize("tree", [BARE, replace(BARE, events=ELM.events), replace(FOREST, photos=(), events=())])
@pytest.mark.parametrize("edition", list(Edition))
def test_a_tree_without_anything_still_has_a_page(tree: object, edition: Edition) -> None:
    site = make_site(sample_view(edition, trees=(tree,), pages=()), Pictures())  # type: ignore[arg-type]
    page = next(p for p in site.pages if p.path.startswith("trees/M") and "/by-" not in p.path)
    assert "No portrait yet" in page.body


def test_a_collection_without_trees_still_has_a_site() -> None:
    site = make_site(sample_view(trees=(), pages=()), Pictures())
    assert "No tree has been recorded yet." in body("trees/index.md", site)


def test_a_tree_known_by_its_botanical_name_alone_has_it_as_its_heading() -> None:
    assert '<h1 id="name"><span class="botanical" lang="la">Pinus thunbergii</span></h1>' in body("trees/M-4/index.md")


def test_a_withheld_steward_has_a_name_and_no_page() -> None:
    assert not any("withheld" in page.path for page in PUBLIC.pages)
    assert not any('href="' in part for part in re.findall(r"[^>]{0,80}a private donor", body("trees/M1/index.md")))
    assert "One has asked not to be named." in words(body("stewards/index.md"))
    assert "a private donor" not in body("trees/index.md")


def test_a_steward_is_told_with_trees_teachers_and_pupils() -> None:
    edda = words(body("stewards/edda/index.md"))
    assert "1911–1979" in edda
    assert "Taught Tobiah Renn" in edda
    assert "1951 to 1974 The Ferry Elm M1 First hands. After that nobody is known. Reported" in edda
    renn = words(body("stewards/renn/index.md"))
    assert "Taught by Edda Lindqvarn (1960 to 1964)" in renn
    assert "1960 to 1964 Edda Lindqvarn Reported. Letter of her niece" in renn
    assert "Member of The Harbour Circle" in renn
    assert "1988 The Ferry Elm M1 Styled." in renn


def test_kin_is_told_from_both_sides() -> None:
    assert "Raised from it: layer severed, 1986" in words(body("trees/M1/index.md"))
    assert "Its mother: layer severed, 1986" in words(body("trees/M2/index.md"))
    assert "Raised from a street elm" in words(body("trees/M1/index.md"))


def test_a_planting_shows_its_members_and_counts_those_that_stand() -> None:
    forest = words(body("trees/M3/index.md"))
    assert "6 trees stand in it." in forest
    assert "5 plants" in forest
    assert "small ones" not in forest
    assert '<tr class="gone">' in body("trees/M3/index.md")


def test_quiet_years_are_drawn_as_years() -> None:
    strip = body("trees/M1/index.md").split('class="strip"')[1].split("</ol>")[0]
    years = re.findall(r'class="year">([^<]*)<', strip)
    assert years == ["1951", "1953", "1968", "about 1971", "1974–81", "1988", "1996", "2024"]


def test_routine_work_stands_in_the_table_only() -> None:
    page = body("trees/M1/index.md")
    assert "Fed" not in page.split('class="strip"')[1].split("</ol>")[0]
    assert "Fed" in page.split('class="data events"')[1]


def test_many_notes_are_folded_and_one_is_printed() -> None:
    note = ELM.notes[0]
    notes = tuple(
        replace(note, id=f"{year}-x", when=year_of(str(year)), body="Long. " * (300 if year == 1960 else 20))
        for year in range(1960, 1970)
    )
    site = make_site(sample_view(trees=(replace(ELM, notes=notes),)), sample_pictures())
    story = body("trees/M1/index.md", site).split('id="story"')[1].split("</section>")[0]
    assert "Six more notes, 1964–1969" in words(story)
    assert story.count("on-sheet") == 1
    assert story.index("on-sheet") > story.index('class="told first"'), "the first is too long for the sheet"


def test_the_printed_line_of_years_has_ten_frames_at_most() -> None:
    events = tuple(replace(ELM.events[2], id=f"gale-{year}", when=year_of(str(year))) for year in range(1960, 1990))
    site = make_site(sample_view(trees=(replace(ELM, events=events),)), sample_pictures())
    strip = body("trees/M1/index.md", site).split('class="strip"')[1].split("</ol>")[0]
    frames = re.findall(r'<li class="([^"]+)"', strip)
    assert len(frames) > 30
    assert sum("off-sheet" not in frame for frame in frames) == 10
    assert all("off-sheet" not in frame for frame in frames if frame.startswith("seen"))


def test_an_index_of_very_many_terms_shows_the_fullest() -> None:
    trees = tuple(replace(BARE, accession=f"P{n}", taxon=(f"Pinus nova{n:02d}",)) for n in range(30))
    trees += (replace(BARE, accession="P-more", taxon=("Pinus nova29",)),)
    site = make_site(sample_view(trees=trees, pages=()), Pictures())
    shown = re.findall(r'data-index="species" data-value="([^"]+)"', body("trees/index.md", site))
    assert len(shown) == 16
    assert "pinus-nova29" in shown
    assert body("trees/by-species/index.md", site).count("<section") == 30


def test_what_comes_next_says_when_and_what() -> None:
    part = words(body("trees/M1/index.md").split('id="next"')[1].split("</section>")[0])
    assert part.endswith("until 20 March 2027 Not on display: in the winter house 2027 Into the same oval")


def test_the_index_counts_and_every_count_is_that_of_its_page() -> None:
    counts = dict(
        re.findall(r'data-value="([^"]+)" data-words="[^"]*">.*?</a><span class="n">(\d+)<', body("trees/index.md"))
    )
    assert counts["ulmus-parvifolia"] == "2"
    assert counts["lower-court"] == "1"
    page = body("trees/by-species/index.md")
    section = page.split('id="ulmus-parvifolia"')[1].split("</section>")[0]
    assert section.count("<li>") == 2


def test_every_term_of_the_index_is_filed_on_the_wall() -> None:
    page = body("trees/index.md")
    for index, value in re.findall(r'data-index="([^"]+)" data-value="([^"]+)"', page):
        assert re.search(rf'data-{index}="(?:[^"]* )?{re.escape(value)}(?: [^"]*)?"', page), (index, value)


def test_the_home_page_takes_the_words_of_the_house() -> None:
    home = body("index.md")
    assert "<h1" in home
    assert "Four trees and those who kept them" in words(home)
    own = make_site(sample_view(pages=()), sample_pictures())
    assert "Four trees and those who kept them" in words(body("index.md", own))


def test_a_hand_written_page_stays_markdown_with_its_references_filled_in() -> None:
    page = next(page for page in PUBLIC.pages if page.path == "visiting.md")
    assert page.is_markdown
    assert "[The Ferry Elm](trees/M1/index.md)" in page.body


def test_the_policies_stand_on_the_page_about_dating() -> None:
    assert "2 years to either side" in words(body("how-we-date.md"))


def test_a_former_number_of_the_house_leads_on() -> None:
    elm = replace(
        ELM, other_numbers=(OtherNumber("M-OLD/7", "house", None, None), OtherNumber("K3", "edda", None, None))
    )
    site = make_site(sample_view(trees=(elm, DAUGHTER)), sample_pictures())
    moved = {file.path: (file.content or b"").decode() for file in site.files if file.path.endswith(".html")}
    assert list(moved) == ["trees/M-OLD-7/index.html"]
    assert 'href="../M1/"' in moved["trees/M-OLD-7/index.html"]


def test_addresses_differ_where_file_systems_do_not() -> None:
    given = addresses(["a/1", "A 1", "a-1", "", "松"])
    assert given == {"a/1": "a-1", "A 1": "A-1-2", "a-1": "a-1-3", "": "x", "松": "u677e"}


def test_the_public_frame_has_no_band_and_the_internal_one_says_edition_and_day() -> None:
    assert PUBLIC.frame.band is None
    assert INTERNAL.frame.band == "Internal edition, as of 25 November 2026. Not for the public."
    assert INTERNAL.frame.masthead[0].path == "work/"
    assert INTERNAL.frame.site_url is None


def test_the_work_page_puts_work_first() -> None:
    page = words(body("work/index.md", INTERNAL))
    assert "Into the same oval" in page
    assert "The Daughter : portrait, label and any photograph" in page
    assert "Seven at Ebb : dates under review" in page
    assert "a document for the cutting of 1951" in page


def test_every_page_is_the_same_on_every_run() -> None:
    assert make_site(sample_view(), sample_pictures()) == PUBLIC
