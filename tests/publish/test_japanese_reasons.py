"""Why pictures are not laid over each other, not measured, or worth comparing, is told in the language of the pages."""

from __future__ import annotations

import ast
import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import date
from gettext import NullTranslations
from pathlib import Path

import pytest

import archive_tools.illustrate
from archive_tools.illustrate.alignment import Laid, Point, shared_marks, similarity
from archive_tools.illustrate.change import change_in_words, change_told, measured_change
from archive_tools.illustrate.common_area import common_box
from archive_tools.illustrate.comparison import same_side
from archive_tools.illustrate.measure import length
from archive_tools.illustrate.movement import movement
from archive_tools.illustrate.proposals import Candidate, proposed
from archive_tools.illustrate.richer_models import lay
from archive_tools.model.photo import MeasureWanted, Photo
from archive_tools.model.pictures import MeasuredChange
from archive_tools.model.places_in_files import Where
from archive_tools.model.reasons import Cannot
from archive_tools.model.words import Words
from archive_tools.publish.context import Context
from archive_tools.publish.spoken import stop_texts
from archive_tools.publish.translation import translations_for
from tests.publish.sample_view import sample_pictures, sample_view

JA = translations_for("ja").gettext
SPREAD: list[Point] = [(0, 0), (900, 30), (850, 700), (60, 640), (400, 350), (700, 100)]
SWAPPED = [SPREAD[at] for at in (1, 2, 0, 4, 3, 5)]
FAR = Laid("similarity", ((1.0, 0.0, 5000.0), (0.0, 1.0, 0.0)), 0.0, (0.0, 0.0), 1.0, 2)
OLD, NEW = (Photo(f"{year}_front_1.jpg", f"{year}_front_1.jpg", Where(""), ("T1",)) for year in (1962, 2025))
SAID_WITH = {"CannotAlign", "TooFewMarks", "CannotMeasure", "Cannot", "because"}


def sides() -> None:
    same_side(replace(OLD, view="front"), replace(NEW, view="left"))


@pytest.mark.parametrize(
    ("ask", "japanese"),
    [
        (lambda: shared_marks({"縁": (0, 0)}, {"縁": (0, 0)}), "2枚の写真に共通する位置合わせの目印は「縁」だけである"),
        (lambda: shared_marks({}, {}), "2枚の写真に位置合わせに使える共通の目印がない"),
        (lambda: shared_marks({}, {}, ["左縁"]), "前の写真に目印「左縁」がない"),
        (lambda: similarity([(0, 0), (0, 0)], [(0, 0), (9, 0)]), "目印が一か所に重なっている"),
        (lambda: lay(SPREAD, SWAPPED), "目印が互いに食い違う：最もよく重ねても"),
        (lambda: common_box(FAR, (100, 100), (100, 100)), "重ね合わせると、2枚の写真に共通する範囲が狭すぎる"),
        (sides, "2枚の写真は樹の異なる側を写している（正面、左側面）"),
        (lambda: length({}, None, "a", "b"), "写真に基準尺がない"),
        (
            lambda: movement({"梢": (1, 1)}, {"梢": (1, 2)}, (), "梢", None),
            "「梢」自体を除くと写真を重ね合わせられない：両方の写真に目印が二つ必要である",
        ),
    ],
)  # fmt: skip
def test_a_refusal_is_said_in_japanese(ask: Callable[[], object], japanese: str) -> None:
    with pytest.raises(Cannot) as refused:
        ask()
    assert refused.value.why.say(JA).startswith(japanese)
    assert re.search("[A-Za-z]", refused.value.why.say(JA)) is None


def test_a_refused_measure_is_said_in_japanese() -> None:
    name = Words.plain("葉張り")
    width = measured_change(MeasureWanted(name, "a", "b", None), OLD, NEW, (), JA)
    assert width.words == "測れない：前の写真は測れない：写真に基準尺がない；後の写真は測れない：写真に基準尺がない"
    moved = measured_change(MeasureWanted(name, None, None, "梢"), OLD, NEW, (), JA)
    assert moved.words == "測れない：写真に目印「梢」がない"


def test_a_change_measured_for_japanese_pages_is_told_in_english_on_a_walk_in_english() -> None:
    """On a walk everything is in the walk's language, what was measured for the pages of the house included."""
    lowered = replace(MeasuredChange(Words.plain("Apex")), moved=(0.0, -29.0), moved_uncertainty=0.5)
    lowered = replace(lowered, told=change_told(lowered), words=change_in_words(lowered, JA))
    assert lowered.words == "29 cm下がった（± 1）"
    (made,) = sample_pictures().comparisons["M1"]
    drawn = replace(sample_pictures(), comparisons={"M1": (replace(made, changes=(lowered,)),)})
    walk = Context(sample_view(), drawn, "en", NullTranslations())
    assert "Apex: lowered by 29 cm (± 1)." in stop_texts(walk)["M1"].text


def test_what_speaks_for_a_pair_is_said_in_japanese() -> None:
    old = Candidate("1962.jpg", date(1962, 5, 1), "front", 1600, 1200, 0.05, frozenset({5}))
    (pair,) = proposed("T1", [old, replace(old, file="2025.jpg", day=date(2025, 5, 1))], [], (), JA)
    assert pair.reasons == ("63年の隔たり", "ともに正面から", "ともに鮮明", "構図が似る", "同じ時季に撮影")


def unmarked() -> Iterator[str]:
    """Refusals and reasons of the illustrate stage whose words no catalogue can know."""
    for file in Path(archive_tools.illustrate.__file__).parent.glob("*.py"):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in SAID_WITH:
                said = node.args[0]
                if isinstance(said, ast.Constant | ast.JoinedStr | ast.BinOp):
                    yield f"{file.name}:{node.lineno}"
                if isinstance(said, ast.Call) and ast.unparse(said.func) == "str":
                    yield f"{file.name}:{node.lineno}"


def test_every_refusal_of_a_picture_is_marked_for_the_catalogue() -> None:
    assert list(unmarked()) == []
