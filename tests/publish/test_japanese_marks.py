"""Marks of punctuation in Japanese pages. The forms: Requirements for Japanese Text Layout (W3C, 2020), section 3.1."""

from __future__ import annotations

import pytest

from archive_tools.publish.japanese_marks import with_own_marks

LONG = "The last autumn of eleven. The one at the right, 楓, had turned its back long before anybody saw it."


@pytest.mark.parametrize(
    ("english", "japanese"),
    [
        ("<p>懸崖, 半懸崖</p>", "<p>懸崖、半懸崖</p>"),
        ("<p>1957年より培養. 模様木.</p>", "<p>1957年より培養。模様木。</p>"),
        ("<p>Cold Stair, 懸崖</p>", "<p>Cold Stair、懸崖</p>"),
        ("<p><a href='x'>黒松</a>, <em>Pinus thunbergii</em>. 1970年より培養.</p>",
         "<p><a href='x'>黒松</a>、<em>Pinus thunbergii</em>。1970年より培養。</p>"),
        ("<p>年代は不明。.</p>", "<p>年代は不明。</p>"),
        ("<p>細い線：生涯。 帯：所持。</p>", "<p>細い線：生涯。帯：所持。</p>"),
        ("<li>1999年: Oda Lien. 2018年: Pim Dracott.</li>", "<li>1999年：Oda Lien。2018年：Pim Dracott.</li>"),
        ("<li><span>整姿.</span><b>1991年, S1984.2</b></li>", "<li><span>整姿。</span><b>1991年、S1984.2</b></li>"),
        ("<li><b>文書による.</b> 播種 (Garden diary of Hanne Veld, book 2, the leaf with a list of all grafts)</li>",
         "<li><b>文書による。</b>播種 (Garden diary of Hanne Veld, book 2, the leaf with a list of all grafts)</li>"),
        ("<p>寄贈 &amp; 購入; 交換</p>", "<p>寄贈 &amp; 購入；交換</p>"),
        (f"<p><b>2008年11月8日</b>. {LONG}</p>", f"<p><b>2008年11月8日</b>。{LONG}</p>"),
        (f"<p>おそらくこの樹. {LONG}</p>", f"<p>おそらくこの樹。{LONG}</p>"),
        (f"<p>年代は不明。. {LONG}</p>", f"<p>年代は不明。{LONG}</p>"),
    ],
)  # fmt: skip
def test_a_mark_that_touches_japanese_is_japanese(english: str, japanese: str) -> None:
    assert with_own_marks(english, "ja") == japanese
    assert with_own_marks(english, "ja-JP") == japanese
    assert with_own_marks(english, "en") == english


@pytest.mark.parametrize(
    "html",
    [
        "<p>Acer palmatum var. dissectum, Acer buergerianum. Bench book, leaf 61; no. 14.</p>",
        "<p>34.2 cm (± 0.8), 10:30</p>",
        '<img alt="黒松, 1970年."><script>const a = "黒松, 樹.";</script><pre>樹: 黒松, 樹.</pre>',
        "<p>A &amp; 樹</p>",
        "<p>All seven looked at, buds scratched, roots smelled. <a>楓</a>, which leans, has lost a flake.</p>",
        "<td>樹</td>\n<td>, 1957</td>",
        f"<p>盆栽, {LONG}</p>",
        f"<p>{LONG}</p>",
    ],
)
def test_everything_else_stays_as_it_is(html: str) -> None:
    assert with_own_marks(html, "ja") == html


def test_marks_change_nothing_but_marks_and_blanks() -> None:
    html = "<ul>\n<li><span>樹, 名.</span> <b>A: 樹</b></li>\n</ul>"
    bare = str.maketrans("", "", ",.;:、。；： \n")
    assert with_own_marks(html, "ja").translate(bare) == html.translate(bare)
