"""The house's page on paper, in the type and the ink of the site.

Serif: EB Garamond, with the figures of Crimson Pro (Garamond's old-style 1 is drawn like an I). Sans: Source Sans 3.
Chinese, Japanese and Korean: whichever of the fonts named here the machine has.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

SERIF, SANS, FIGURES = "EB Garamond", "Source Sans 3", "Crimson Pro"
"""Families that come with the program."""

CJK_SERIF: Mapping[str, tuple[str, ...]] = {
    "ja": ("Noto Serif CJK JP", "Hiragino Mincho ProN", "Yu Mincho", "MS Mincho"),
    "ko": ("Noto Serif CJK KR", "AppleMyungjo", "Batang"),
    "zh-Hans": ("Noto Serif CJK SC", "Songti SC", "SimSun"),
    "zh-Hant": ("Noto Serif CJK TC", "Songti TC", "PMingLiU"),
}
CJK_SANS: Mapping[str, tuple[str, ...]] = {
    "ja": ("Noto Sans CJK JP", "Hiragino Kaku Gothic ProN", "Hiragino Sans", "Yu Gothic", "MS Gothic"),
    "ko": ("Noto Sans CJK KR", "Apple SD Gothic Neo", "Malgun Gothic"),
    "zh-Hans": ("Noto Sans CJK SC", "PingFang SC", "Microsoft YaHei"),
    "zh-Hant": ("Noto Sans CJK TC", "PingFang TC", "Microsoft JhengHei"),
}
"""Families of the machine that may stand in for one another, by language."""


@dataclass(frozen=True, slots=True)
class HouseStyle:
    """How a document looks. size: running text in points. leading: between lines, in ems of the text.

    sans: everything in the sans face (large print). contrast: black on white, no greys and no accent.
    """

    size: float = 11.0
    leading: float = 0.45
    accent: str = "#174a55"
    sans: bool = False
    contrast: bool = False


def prelude(style: HouseStyle, language: str) -> str:
    """Definitions and rules that stand before a document's body.

    For the body: `serif[…]`, `sans[…]`, `said(language)[…]`, `latin[…]` (a botanical name's Latin), `data[…]`
    (small sans in soft ink), `quiet[…]`, and the colours `ink`, `soft`, `rule`, `accent`.
    """
    black = style.contrast
    colours = {
        "ink": "#000000" if black else "#1c1b19",
        "soft": "#000000" if black else "#4b4841",
        "rule": "#000000" if black else "#cbc7bd",
        "accent": "#000000" if black else style.accent,
    }
    lines = [f'#let {name}-ink = rgb("{value}")' for name, value in colours.items()]
    lines.append(f"#let serif-of(tag) = {_stacks(CJK_SERIF, serif=True)}")
    lines.append(f"#let sans-of(tag) = {_stacks(CJK_SANS, serif=False)}")
    lines.append(f'#let own-tag = "{_tag(language)}"')
    lines.append(f"#let house-is-sans = {'true' if style.sans else 'false'}")
    lines.append(_DEFINITIONS)
    lang, region, script = _parts(language)
    lines.append(
        f'#set text(lang: "{lang}", region: {region}, script: {script}, size: {style.size:g}pt, '
        "fill: ink-ink, fallback: false, hyphenate: false, kerning: true, "
        f"font: {'sans' if style.sans else 'serif'}-of(own-tag), "
        f'number-type: "{"lining" if style.sans else "old-style"}")'
    )
    lines.append(f"#set par(leading: {style.leading:g}em, spacing: {style.leading * 2:g}em, justify: false)")
    lines.append(_RULES)
    return "\n".join(lines) + "\n"


def _stacks(families: Mapping[str, tuple[str, ...]], *, serif: bool) -> str:
    """Code that answers the list of fonts for a language: its own Chinese characters first, then all the others."""
    latin = f'(name: "{FIGURES}", covers: regex("[0-9]")), "{SERIF}", "{SANS}"' if serif else f'"{SANS}", "{SERIF}"'
    cases = []
    for tag, own in families.items():
        rest = [name for other, names in families.items() if other != tag for name in names]
        cases.append(f'if tag == "{tag}" {{ ({latin}, {_quoted([*own, *rest])}) }}')
    cases.append(f"{{ ({latin}, {_quoted(name for names in families.values() for name in names)}) }}")
    return "{ " + " else ".join(cases) + " }"


def _quoted(names: Iterable[str]) -> str:
    return ", ".join(f'"{name}"' for name in names)


def _tag(language: str) -> str:
    """The key of `CJK_SERIF` that a language asks for, or "" where it has no Chinese characters of its own."""
    parts = language.replace("_", "-").split("-")
    if parts[0] == "zh":
        return "zh-Hant" if {"Hant", "TW", "HK", "MO"} & set(parts[1:]) else "zh-Hans"
    return parts[0] if parts[0] in {"ja", "ko"} else ""


def _parts(language: str) -> tuple[str, str, str]:
    parts = language.replace("_", "-").split("-")
    region = next((f'"{part}"' for part in parts[1:] if len(part) == 2), "none")
    script = next((f'"{part.lower()}"' for part in parts[1:] if len(part) == 4), "auto")
    return parts[0].lower(), region, script


_DEFINITIONS = """\
#let tag-of(language) = {
  let parts = language.split("-")
  if parts.first() == "zh" {
    if parts.slice(1).any(p => p in ("Hant", "TW", "HK", "MO")) { "zh-Hant" } else { "zh-Hans" }
  } else if parts.first() in ("ja", "ko") { parts.first() } else { own-tag }
}
#let serif(body) = { set text(font: serif-of(own-tag), number-type: "old-style"); body }
#let sans(body) = { set text(font: sans-of(own-tag), number-type: "lining"); body }
#let said(language, body) = context {
  let parts = language.split("-")
  let region = parts.slice(1).find(p => p.len() == 2)
  let now = if type(text.font) == array { text.font.first() } else { text.font }
  let of = if type(now) == str and lower(now).starts-with("source") { sans-of } else { serif-of }
  set text(lang: parts.first(), region: region, font: of(tag-of(language)))
  body
}
#let latin(body) = { set text(style: "italic", lang: "la"); body }
#let quiet(body) = { set text(fill: soft-ink); body }
#let data(body) = { set text(size: 0.8em, fill: soft-ink); sans(body) }
"""

_RULES = """\
#show heading: set text(weight: 400)
#show heading.where(level: 1): set text(size: 1.3em)
#show heading: set block(above: 1.1em, below: 0.6em)
#show strong: it => { set text(weight: 600); sans(it.body) }
#show link: set text(fill: accent-ink)
"""
