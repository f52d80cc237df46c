"""Commas, stops and colons as Japanese is printed: 、。；： without a blank after them, where they touch Japanese.

Pages put names, sentences and years beside each other with the marks of English. In a Japanese page a mark that follows
or precedes a Japanese sign (a number written to one counts as one: 1957年) takes its Japanese form; one between two
words in Latin letters stays as it is, so that a botanical name, a citation or a name of the house is never touched.
Forms after "Requirements for Japanese Text Layout"
(W3C Working Group Note, 2020), section 3.1: full stops and commas are as wide as a sign and are followed by no blank.
"""

from __future__ import annotations

import re

_PIECE = re.compile(r"<!--.*?-->|<[^>]*>|&#?\w+;", re.DOTALL)
_NAME = re.compile(r"</?([a-zA-Z][\w-]*)")
_INLINE = frozenset({"a", "abbr", "b", "bdi", "bdo", "cite", "data", "dfn", "em", "i", "mark", "q", "s", "small",
                     "span", "strong", "sub", "sup", "time", "tspan", "u", "wbr"})  # fmt: skip
_AS_WRITTEN = frozenset({"script", "style", "pre", "code", "kbd", "samp", "textarea"})
_TAG, _ENTITY = "\ue000", "\ue001"
"""What stands for a tag or an entity while the marks around it are looked at; private use, so never in a text."""

_SIGN = "[\u3001-\u30ff\u3400-\u9fff\uff01-\uff60々]"
_AFTER = re.compile(rf"({_SIGN})({_TAG}*)([,.;:])(?={_TAG}|\s|$)")
_AMID = re.compile(rf"({_SIGN})({_TAG}*)([,.;:])(?={_TAG}*\s+{_TAG}*[0-9–]*{_SIGN})")
_BEFORE = re.compile(rf"(?<=[^\s{_TAG}])({_TAG}*)([,.;:])({_TAG}*)\s+(?={_TAG}*[0-9–]*{_SIGN})")
_WORD = re.compile("[A-Za-z]{2,}")
_A_TEXT = 12
"""From this many words on, Latin letters are a text and no longer a name or a title (our own measure)."""
_LEADING = re.compile(
    rf"(?:{_TAG}|\s)*(?:[0-9–〜]|{_SIGN}|{_TAG})*(?:[ぁ-ん]|[年月日頃旬])(?:{_SIGN}|{_TAG})*(?=[,.;:](?:{_TAG}|\s|$))"
)
"""Words of the page before such a text: a date, a grade, a hedge. A Japanese name has no kana that ends a sentence."""
_BLANK = re.compile(rf"([、。；：])({_TAG}*)\s+")
_FORMS = {",": "、", ".": "。", ";": "；", ":": "："}


def with_own_marks(html: str, language: str) -> str:
    """`html` with Japanese marks where they touch Japanese, if `language` is Japanese; else as it is.

    Tags, attributes, scripts and what is printed as code stay as they are.
    """
    if language.split("-", maxsplit=1)[0] != "ja":
        return html
    done: list[str] = []
    run: list[str] = []
    kept: list[str] = []
    inside = ""
    at = 0
    for piece in _PIECE.finditer(html):
        run.append(html[at : piece.start()])
        at = piece.end()
        name = _NAME.match(piece.group())
        tag = name.group(1).lower() if name else ""
        if not inside and (piece.group()[0] == "&" or tag in _INLINE):
            run.append(_ENTITY if piece.group()[0] == "&" else _TAG)
            kept.append(piece.group())
            continue
        done += ["".join(run) if inside else _marked("".join(run), kept), piece.group()]
        run, kept = [], []
        if tag in _AS_WRITTEN and not inside:
            inside = tag
        elif inside and piece.group().lower().startswith(f"</{inside}"):
            inside = ""
    run.append(html[at:])
    return "".join([*done, _marked("".join(run), kept)])


def _marked(run: str, kept: list[str]) -> str:
    """One run of text, tags standing in it by their sign, with its marks and then with its tags."""
    if _is_foreign(run):
        before = _LEADING.match(run)
        if before is not None:
            mark, stopped = run[before.end()], before[0].rstrip(_TAG).endswith(("。", "？", "！"))
            run = f"{before[0]}{'' if stopped and mark == '.' else _FORMS[mark]}{run[before.end() + 1 :]}"
        return _with_tags(_BLANK.sub(r"\1\2", _AMID.sub(_own, run)), kept)
    run = _AFTER.sub(_own, run)
    run = _BEFORE.sub(lambda found: f"{found[1]}{_FORMS[found[2]]}{found[3]}", run)
    return _with_tags(_BLANK.sub(r"\1\2", run), kept)


def _is_foreign(run: str) -> bool:
    """Whether it is a text in another language in which a Japanese name stands, such as a note of the house."""
    words = len(_WORD.findall(run))
    return words >= _A_TEXT and len(re.findall(_SIGN, run)) < words


def _with_tags(run: str, kept: list[str]) -> str:
    tags = iter(kept)
    return re.sub(f"[{_TAG}{_ENTITY}]", lambda _: next(tags), run)


def _own(found: re.Match[str]) -> str:
    sign, tags, mark = found.groups()
    return f"{sign}{tags}" if sign in "。？！" and mark == "." else f"{sign}{tags}{_FORMS[mark]}"
