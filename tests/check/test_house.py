from __future__ import annotations

import pytest

from archive_tools.check.house import PAPER, contrast
from archive_tools.model.problems import Severity
from tests.check.builders import collection, spot, the_one, told


def test_contrast_of_published_values() -> None:
    """WCAG 2.2: black on white is 21:1; #767676 is the palest grey on white that reaches 4.5:1 (from memory)."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert contrast("#fff", "#ffffff") == pytest.approx(1.0)
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.005)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.005)


@pytest.mark.parametrize("accent", ["#b33", "#ffff00", "#808080", "#3a7f6b", "#FFFFFF"])
def test_pale_accents(accent: str) -> None:
    problem = the_one(collection(house={"accent": accent}))
    assert (problem.rule, problem.severity, spot(problem.mark)) == (
        "pale-accent",
        Severity.WARNING,
        "collection.yml accent",
    )
    assert problem.instead is not None
    assert contrast(problem.instead, PAPER) >= 7
    assert told(collection(house={"accent": problem.instead})) == []


def test_the_darker_accent_is_no_darker_than_it_must_be() -> None:
    problem = the_one(collection(house={"accent": "#3a7f6b"}))
    assert problem.instead is not None
    assert contrast(problem.instead, PAPER) < 7.3


@pytest.mark.parametrize("accent", ["#1f4a3d", "#000", None])
def test_dark_accents(accent: str | None) -> None:
    assert told(collection(house={"accent": accent})) == []


def test_site_url() -> None:
    problem = the_one(collection(house={"site_url": "https://garden.example/trees/?lang=en#top"}))
    assert (problem.rule, problem.instead) == ("bad-address", "https://garden.example/trees/")
    assert problem.subject == ("", "collection value", "site_url")
    assert told(collection(house={"site_url": "https://garden.example/trees/"})) == []
