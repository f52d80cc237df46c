"""Botanical names against the codes.

Sources: International Code of Nomenclature for algae, fungi, and plants, articles H.2 and H.3 (hybrid formulae and the
multiplication sign) and 24 (rank terms); International Code of Nomenclature for Cultivated Plants, articles 14 and 16
(cultivar epithets in single quotation marks; "Group" as part of a Group name) and 24 (the addition sign of
graft-chimaeras). `+Laburnocytisus 'Adamii'` and `Brassica oleracea Capitata Group` as the codes' own examples, from
memory.
"""

from __future__ import annotations

import re

import pytest

from archive_tools.publish.botanical_names import genus, markup, parts_of, plain, species


def kinds(name: str) -> list[tuple[str, str]]:
    return [(part.text, part.kind) for part in parts_of(name)]


@pytest.mark.parametrize("rank", ["var.", "subsp.", "f.", "nothovar."])
def test_ranks_stand_upright_between_italic_epithets(rank: str) -> None:
    assert kinds(f"Juniperus chinensis {rank} sargentii") == [
        ("Juniperus chinensis", "latin"),
        (rank, "rank"),
        ("sargentii", "latin"),
    ]


@pytest.mark.parametrize("written", ["'Shishigashira'", "‘Shishigashira’", '"Shishigashira"', "cv. 'Shishigashira'"])
def test_a_cultivar_is_upright_in_single_quotation_marks_however_it_was_written(written: str) -> None:
    assert kinds(f"Acer palmatum {written}") == [("Acer palmatum", "latin"), ("‘Shishigashira’", "cultivar")]


def test_an_apostrophe_inside_a_cultivar_name_does_not_end_it() -> None:
    assert kinds("Malus 'Bloomer's Best'")[-1] == ("‘Bloomer's Best’", "cultivar")


@pytest.mark.parametrize("written", ["Ulmus × hollandica", "Ulmus x hollandica", "Ulmus ×hollandica"])
def test_the_hybrid_sign_is_upright_and_never_a_letter(written: str) -> None:
    assert kinds(written) == [("Ulmus", "latin"), ("×", "sign"), ("hollandica", "latin")]
    assert "×</span>&nbsp;hollandica" in markup(written)


def test_a_nothogenus_keeps_its_sign_in_front() -> None:
    assert kinds("×Cupressocyparis leylandii") == [("×", "sign"), ("Cupressocyparis leylandii", "latin")]


def test_a_formula_has_a_space_on_either_side_and_keeps_the_second_genus() -> None:
    # ICN article H.2: the sign between the names of the parents; H.2A keeps the genus of the second written out.
    text = re.sub(r"<[^>]+>", "", markup("Acer palmatum x Acer japonicum"))
    assert text == "Acer palmatum × Acer japonicum"
    assert plain("Acer palmatum x Acer japonicum") == "Acer palmatum × Acer japonicum"


def test_group_names_are_upright() -> None:
    assert kinds("Brassica oleracea Capitata Group") == [
        ("Brassica oleracea", "latin"),
        ("Capitata Group", "upright"),
    ]
    assert kinds("Rhododendron (Satsuki Group) 'Kaho'") == [
        ("Rhododendron", "latin"),
        ("(Satsuki Group)", "upright"),
        ("‘Kaho’", "cultivar"),
    ]


def test_a_graft_chimaera_keeps_its_plus() -> None:
    assert kinds("+Laburnocytisus 'Adamii'") == [("+", "sign"), ("Laburnocytisus", "latin"), ("‘Adamii’", "cultivar")]


def test_authors_are_upright_and_their_f_is_no_rank() -> None:
    assert kinds("Acer palmatum subsp. amoenum (Carrière) H.Hara")[-1] == ("(Carrière) H.Hara", "upright")
    assert kinds("Thujopsis dolabrata L. f.")[-1] == ("L. f.", "upright")
    assert kinds("Acer buergerianum Miq. f. formosanum")[1:] == [
        ("Miq.", "upright"),
        ("f.", "rank"),
        ("formosanum", "latin"),
    ]


def test_the_markup_is_italic_only_where_the_code_has_italics() -> None:
    html = str(markup("Juniperus chinensis var. sargentii 'Glauca' Grey Group"))
    upright = re.findall(
        r"<(?:b|span)[^>]*>([^<]+)</(?:b|span)>", html.removeprefix('<span class="botanical" lang="la">')
    )
    assert upright == ["var.", "‘Glauca’", "Grey Group"]
    assert html.startswith('<span class="botanical" lang="la">Juniperus chinensis ')


def test_what_is_written_is_never_obeyed_as_html() -> None:
    assert "<script" not in markup("Acer <script>alert(1)</script> 'A<b>'")


@pytest.mark.parametrize(
    ("name", "filed_under"),
    [
        ("Acer palmatum 'Kiyohime'", "Acer palmatum"),
        ("Juniperus chinensis var. sargentii", "Juniperus chinensis"),
        ("Ulmus x hollandica 'Jacqueline Hillier'", "Ulmus × hollandica"),
        ("× Cupressocyparis leylandii", "× Cupressocyparis leylandii"),
        ("Pinus sp.", "Pinus sp."),
        ("Malus 'Evereste'", "Malus ‘Evereste’"),
        ("Acer palmatum × Acer japonicum", "Acer palmatum × Acer japonicum"),
    ],
)
def test_lists_file_a_name_under_its_species(name: str, filed_under: str) -> None:
    assert species(name) == filed_under


def test_the_genus_is_the_first_latin_word() -> None:
    assert genus("× Cupressocyparis leylandii") == "Cupressocyparis"
    assert genus("Acer palmatum") == "Acer"
