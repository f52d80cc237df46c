"""Words in drawings: how wide they are at most, and where they stand.

A drawing is percent across and pixels down: what is drawn grows with the page, the words never do. So each word has a
place (a share of the width, and a shift in pixels) and a width in pixels, and whether two words meet, or one runs over
the edge, is decided at the narrowest page: everything moves apart from there.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

NARROW = 280.0
"""Pixels across a drawing on the narrowest phone (320 px, less its margins): minor words are not shown there."""
WIDE = 600.0
"""Pixels across a drawing on the narrowest page that shows minor words (48rem and more, or beside a margin column)."""

SIZES = {"": 15.0, "by": 15.0, "who": 19.0, "gap-word": 18.0}
"""Pixels of type by class; they are set in the theme's style sheet under `.drawing`."""
SPACE = 10.0
"""Between two runs of one line, at most: a word space and `_EXTRA`."""
_EXTRA = 4

_EMS = {
    " '’‘|": 0.28, ".,:;!ijl": 0.31, "()[]-ftI": 0.37, "r/\\": 0.42, "“”\"": 0.45, "cszvxyJ": 0.51, "?aek": 0.57,
    "bdghnopquL–": 0.61, "FTZPSEB": 0.68, "0123456789": 0.62, "ARVXYCK": 0.73, "DUGw": 0.78, "HOQN": 0.82,
    "mM@%&—…": 1.0, "WԜ": 1.07, "‰‱": 1.6, "ǄǅǊǋǱǲ": 1.4, "―": 2.0,
}  # fmt: skip
"""Widths of letters in ems: about the largest of what Helvetica and Georgia take (their metrics, from memory) and what
the theme's own faces do (measured), so a page stays whole while they load, or where they never do."""
_OTHER = 1.05
"""Ems that any other letter takes at most."""
_EM_OF = {letter: em for letters, em in _EMS.items() for letter in letters}


@dataclass(frozen=True, slots=True)
class Run:
    """Some words in one type: `css` is "" for data, "by" for names among data, "who" for names, "gap-word" for what is
    not known. `link`: where they lead, if they do; the page that shows the drawing says at what address that is.
    """

    words: str
    css: str = ""
    link: str = ""

    @property
    def width(self) -> float:
        """At most so many pixels wide."""
        return width_of(self.words, SIZES[self.css])


@dataclass(frozen=True, slots=True)
class Text:
    """A line of words: `x` is a share of the drawing's width, `dx` a shift in pixels, `y` the baseline in pixels.

    anchor: "start", "middle" or "end", the part of the line that stands at x. minor: not shown on a phone.
    """

    runs: tuple[Run, ...]
    x: float
    y: float
    dx: float = 0.0
    anchor: str = "start"
    minor: bool = False

    @property
    def width(self) -> float:
        """At most so many pixels wide."""
        return line_width(self.runs)

    def ends(self, across: float) -> tuple[float, float]:
        """Left and right end, in pixels, in a drawing `across` pixels wide."""
        left = self.x * across + self.dx - {"start": 0.0, "middle": 0.5, "end": 1.0}[self.anchor] * self.width
        return left, left + self.width

    def markup(self) -> str:
        """As SVG, escaped."""
        css = ["minor"] if self.minor else []
        only = self.runs[0] if len(self.runs) == 1 else None
        if only is not None and only.css:
            css.append(only.css)
        attributes = f' class="{" ".join(css)}"' if css else ""
        attributes += f' x="{percent(self.x)}" y="{pixels(self.y)}"'
        attributes += f' dx="{pixels(self.dx)}"' if self.dx else ""
        attributes += f' text-anchor="{self.anchor}"' if self.anchor != "start" else ""
        plain = only is not None and not only.link
        inner = escape(self.runs[0].words) if plain else " ".join(_span(run, at) for at, run in enumerate(self.runs))
        return f"<text{attributes}>{inner}</text>"


def _span(run: Run, at: int) -> str:
    css = f' class="{run.css}"' if run.css else ""
    shift = f' dx="{_EXTRA}"' if at else ""
    inner = escape(run.words)
    linked = f'<a href="{escape(run.link)}">{inner}</a>' if run.link else inner
    return f"<tspan{css}{shift}>{linked}</tspan>"


def width_of(words: str, size: float) -> float:
    """At most how many pixels wide `words` are in type of `size` pixels, also in the faces the theme falls back to."""
    return sum(_em(letter) for letter in words) * size


def _em(letter: str) -> float:
    if unicodedata.combining(letter) or unicodedata.category(letter) in ("Cf", "Mn", "Me"):
        return 0.0
    if unicodedata.east_asian_width(letter) in ("W", "F"):
        return 1.0
    if letter in _EM_OF:
        return _EM_OF[letter]
    base = unicodedata.normalize("NFD", letter)[0]
    return _EM_OF.get(base, _OTHER)


def line_width(runs: Sequence[Run]) -> float:
    """At most so many pixels wide, the spaces between the runs included."""
    return sum(run.width for run in runs) + SPACE * (len(runs) - 1)


def wrapped(run: Run, room: float) -> tuple[Run, ...]:
    """The run in as many lines as it takes to fit `room` pixels; a single word too long for it is broken."""
    lines: list[str] = []
    for word in run.words.split():
        joined = f"{lines[-1]} {word}" if lines else word
        if lines and Run(joined, run.css).width <= room:
            lines[-1] = joined
        else:
            lines += _broken(word, run.css, room)
    return tuple(Run(line, run.css, run.link) for line in lines)


def _broken(word: str, css: str, room: float) -> list[str]:
    pieces = [""]
    for letter in word:
        if pieces[-1] and Run(pieces[-1] + letter, css).width > room:
            pieces.append("")
        pieces[-1] += letter
    return pieces


def beside(
    lines: Sequence[tuple[Run, ...]], start: float, end: float, y: float, step: float, least: float = NARROW
) -> tuple[Text, ...]:
    """Lines of words with the bar that runs from `start` to `end` (shares of the width), never over the edge.

    They begin where the bar does, if that fits on the narrowest page, `least` pixels across; else they slide: the wider
    the page, the nearer they stand to the beginning of the bar; else they end where it does. `step` is from one
    baseline to the next.
    """
    width = max(line_width(runs) for runs in lines)
    # At share t of what the words leave free, they begin at t (W - width): inside at every W.
    usual = 1.4 * WIDE
    t = start * usual / (usual - width) if width < usual else 1.0
    if start * least + width <= least:
        x, dx, anchor = start, 0.0, "start"
    elif t >= 1 and end * least - width >= 0:
        x, dx, anchor = end, 0.0, "end"
    else:
        t = min(t, 1.0)
        x, dx, anchor = t, -t * width, "start"
    return tuple(Text(runs, x, y + at * step, dx, anchor) for at, runs in enumerate(lines))


def about(run: Run, x: float, y: float, room: float, *, minor: bool = False) -> Text:
    """A line of words centred on `x`, or to the side of it where the edge is near, in a page of `room` pixels."""
    half = run.width / 2
    if x * room >= half and (1 - x) * room >= half:
        return Text((run,), x, y, anchor="middle", minor=minor)
    if x < 0.5:
        return Text((run,), x if x * room + run.width <= room else 0.0, y, minor=minor)
    return Text((run,), x if x * room >= run.width else 1.0, y, anchor="end", minor=minor)


def percent(share: float) -> str:
    """A share of the width, as SVG writes it."""
    return f"{share * 100:.2f}".rstrip("0").rstrip(".") + "%"


def pixels(value: float) -> str:
    """A number of pixels, to a tenth."""
    return f"{value:.1f}".rstrip("0").rstrip(".")
