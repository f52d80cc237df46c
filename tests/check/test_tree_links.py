from __future__ import annotations

from typing import Any

import pytest

from archive_tools.model.collection import HandWrittenPage
from archive_tools.model.places_in_files import Where
from archive_tools.model.problems import Reach
from tests.check.builders import collection, event, note, photo, spot, steward, the_one, told, tree

BODY = "The branch\nlives on as [[S2015.8]],\non roots of its own."


def test_in_a_note_by_line_and_column() -> None:
    problem = the_one(collection(tree("S2015.9"), tree("T1", notes=(note("2020-01-01-a", BODY),))))
    assert (problem.rule, problem.instead, problem.reach) == ("unknown-tree", "[[S2015.9]]", Reach.TOLD)
    # The text begins on line 4 of its file.
    assert (problem.mark.file, problem.mark.line, problem.mark.column) == ("trees/T1/notes/2020-01-01-a.md", 5, 13)


@pytest.mark.parametrize(
    ("keys", "place"),
    [
        ({"label": "See [[S1]]."}, "label"),
        ({"label": {"en": "A", "ja": "[[S1]]"}}, "label/ja"),
    ],
)
def test_in_labels(keys: dict[str, Any], place: str) -> None:
    assert spot(the_one(collection(tree("T1", **keys))).mark) == f"trees/T1/tree.yml {place}"


def test_in_texts_of_other_records() -> None:
    made = collection(
        steward("a", about="Gave [[S1]]."),
        tree(
            "T1",
            event("observed", text="Beside [[S1]].", title="[[T1]] again"),
            photos=(photo("2020.jpg", visibility="public", caption="[[S1|the old one]] behind"),),
        ),
    )
    assert told(made) == [
        ("unknown-tree", "stewards/a.yml about"),
        ("unknown-tree", "trees/T1/photos/photos.yml 2020.jpg/caption"),
        ("unknown-tree", "trees/T1/tree.yml events/0/text"),
    ]


def test_known_trees_and_other_brackets_pass() -> None:
    text = "[[T1]], [[ T1 ]], [[T1|this maple]], [a link](x), [x][y], [[broken\nover]] lines"
    assert told(collection(tree("T1", notes=(note("2020-01-01-a", text),)))) == []


def test_pages() -> None:
    page = HandWrittenPage("visiting.md", "Visiting", "Ask\nfor [[S1]].", Where("pages/visiting.md", {(): (1, 1)}))
    mark = the_one(collection(tree("T1"), pages=(page,))).mark
    assert (mark.file, mark.line, mark.column) == ("pages/visiting.md", 2, 5)
    below = HandWrittenPage(
        "visiting.md", "Visiting", "[[S1]]", Where("pages/visiting.md", {(): (1, 1), ("title",): (2, 8)})
    )
    # Where front matter stands above, the line is not known, and none is better than a wrong one.
    assert the_one(collection(tree("T1"), pages=(below,))).mark.line is None
