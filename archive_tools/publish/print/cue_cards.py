"""A guide's cards, A6, one stop each, in type as large as the words allow; and the run sheet of a walk on one page."""

from __future__ import annotations

from collections.abc import Callable

from archive_tools.model.grounds import Tour
from archive_tools.model.tour_plan import TourPlan
from archive_tools.publish.context import Context
from archive_tools.publish.print.document import Markup, Printed, Told, mm, printed, string, text
from archive_tools.publish.print.style import HouseStyle
from archive_tools.publish.spoken.cards import Card, cards_of
from archive_tools.publish.spoken.run_sheet import (
    STOP,
    WAIT,
    WALK,
    RunLine,
    at_each_minute,
    clock,
    lasting,
    run_lines,
    start_seconds,
)

_WIDE, _HIGH, _MARGIN = 105.0, 148.0, 8.0
_SIZES = (17, 16, 15, 14, 13, 12, 11, 10, 9)
"""Points. At arm's length 12 is read with ease; less is for long texts alone."""
_TEXT_HIGH = 84.0
"""Millimetres that the words may take on a card."""

_FIT = """\
#let fitted(width, height, sizes, body) = context {
  let chosen = sizes.last()
  for size in sizes {
    if measure(block(width: width, { set text(size: size); set par(leading: .5em); body })).height <= height {
      chosen = size
      break
    }
  }
  set text(size: chosen)
  set par(leading: .5em)
  body
}
"""

ReadPicture = Callable[[str], bytes]


def cue_cards(context: Context, tour: Tour, plan: TourPlan, read: ReadPicture) -> Printed:
    """The cards in order. A small picture of the tree stands on each, so that the next one is found by eye."""
    files: dict[str, bytes] = {}
    cards = cards_of(context, tour, plan)
    body = [
        f"#set page(width: {mm(_WIDE)}, height: {mm(_HIGH)}, margin: {mm(_MARGIN)})\n{_FIT}",
        *(_card(context, card, files, read, first=number == 0) for number, card in enumerate(cards)),
    ]
    told = [Told(card.text, tour.where.at("stops")) for card in cards]
    return _printed(context, tour, "\n".join(body), files, told, 13.5)


def run_sheet_page(context: Context, tour: Tour, plan: TourPlan) -> Printed:
    """What happens when, and where one should be at each minute. It adds up to the second."""
    _ = context.translations.gettext
    lines = run_lines(context, plan)
    start = start_seconds(tour)
    head = ", ".join(f"[{text(name)}]" for name in (_("At"), _("What"), _("For")))
    rows = ", ".join(
        f"[{text(clock(start, line.begin))}], [{_what(context, line)}], [{text(lasting(line.seconds))}]"
        for line in lines
    )
    whole = sum(line.seconds for line in lines)
    minutes = ", ".join(
        f"[{text(clock(start, 60 * minute))}], [{text(_short(context, line))}]"
        for minute, line in at_each_minute(lines)
    )
    said = _("%(taken)s of %(asked)s") % {"taken": lasting(whole), "asked": lasting(plan.asked)}
    by_the_minute = _("Where to be at each minute")
    body = (
        '#set page(paper: "a4", margin: (x: 20mm, top: 18mm, bottom: 16mm))\n'
        f"= {text(context.say(tour.title))}\n"
        f"#data[{text(' · '.join(part for part in (context.dates.when(tour.when), said) if part))}]\n"
        f"#table(columns: (auto, 1fr, auto), stroke: none, inset: (x: 0pt, y: 2.5pt), column-gutter: 6mm, "
        f"table.header({head}), {rows})\n"
        f"== {text(by_the_minute)}\n"
        f"#columns(3, gutter: 7mm)[#data[#table(columns: (auto, 1fr), stroke: none, inset: (x: 0pt, y: 1.2pt), "
        f"column-gutter: 3mm, {minutes})]]\n"
    )
    return _printed(context, tour, body, {}, [], 10.5)


def _what(context: Context, line: RunLine) -> Markup:
    if line.what == STOP:
        return f"*{text(f'{line.stop}  {line.name}')}*"
    return text(_short(context, line))


def _short(context: Context, line: RunLine) -> str:
    _ = context.translations.gettext
    if line.what == WALK:
        return _("To %(name)s") % {"name": line.name}
    if line.what == WAIT:
        return _("Wait at %(name)s") % {"name": line.name}
    return line.name


def _card(context: Context, card: Card, files: dict[str, bytes], read: ReadPicture, *, first: bool) -> Markup:
    _ = context.translations.gettext
    wide = _WIDE - 2 * _MARGIN
    parts = [] if first else ["#pagebreak()"]
    staying = f"{card.arrive} – {card.leave}  ({lasting(card.seconds)})"
    parts.append(f"#sans[*{text(staying)}*] #data[{text(f' · {card.place}' if card.place else '')}]")
    heading = f"= {text(f'{card.number}  {card.name}')}"
    if card.portrait is not None:
        cut = card.portrait.small
        file = cut.url.rsplit("/", maxsplit=1)[-1]
        files[file] = read(cut.url)
        picture = f'#image({string(file)}, width: 24mm, height: 18mm, fit: "cover", alt: {string(card.portrait.alt)})'
        years = f"#data[{text(card.years)}]" if card.years else ""
        parts.append(f"#grid(columns: (1fr, 24mm), gutter: 4mm, [{heading}\n{years}], [{picture}])")
    else:
        parts.append(heading)
    if card.is_draft:
        parts.append(f"#data[*{text(_('Draft from the records. Nobody has written words for this tree yet.'))}*]")
    sizes = ", ".join(f"{size}pt" for size in _SIZES)
    said = text(card.text, card.language if card.language != context.language else "")
    parts.append(f"#fitted({mm(wide)}, {mm(_TEXT_HIGH)}, ({sizes}), [{said}])")
    small = [f"{name}: {spoken}" for name, spoken in card.says] + list(card.cautions)
    if card.next_name and card.next_walk:
        small.append(_("Next: %(name)s, %(time)s on foot") % {"name": card.next_name, "time": lasting(card.next_walk)})
    elif card.next_name:
        small.append(_("Next: %(name)s.") % {"name": card.next_name})
    foot = "#linebreak()".join(text(line) for line in small)
    parts.append(f"#place(bottom + left)[#block(width: {mm(wide)})[#data[{foot}]]]" if small else "")
    return "\n\n".join(part for part in parts if part) + "\n"


def _printed(
    context: Context, tour: Tour, body: Markup, files: dict[str, bytes], told: list[Told], size: float
) -> Printed:
    return printed(
        body,
        title=context.say(tour.title),
        language=context.language,
        style=HouseStyle(size=size, accent=context.records.settings.accent or "#174a55"),
        day=context.as_of,
        author=context.house,
        files=files,
        told=[Told(context.say(tour.title), tour.where.at("title")), *told],
    )
