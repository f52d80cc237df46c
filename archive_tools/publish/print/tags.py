"""Pieces that a camera reads: tree tags with the page's address, and session cards that say whose pictures follow."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from archive_tools.model.tree import Tree
from archive_tools.publish.context import Context
from archive_tools.publish.print.document import Markup, Printed, Told, botanical, mm, printed, string, text
from archive_tools.publish.print.qr import QUIET, qr_svg
from archive_tools.publish.print.sheets import Sheet, sheets
from archive_tools.publish.print.style import HouseStyle

TAG_SIZE = (90.0, 48.0)
"""Millimetres. A code of 42 mm is a tenth of the height of a tall tree's picture: enough from across a bench."""
CARD_SIZE = (148.0, 105.0)
"""A6 across (ISO 216): a card that a hand can hold before a lens."""


@dataclass(frozen=True, slots=True)
class Coded:
    """One piece. payload: the text in its code; heading: what a person reads first; lines: below it; small: last."""

    payload: str
    heading: str
    lines: tuple[Markup, ...] = ()
    small: str = ""
    told: tuple[Told, ...] = ()


def tree_tag(context: Context, tree: Tree, payload: str) -> Coded:
    """A tag that hangs on a tree: its number, its names, and the address of its page."""
    name = context.tree_name(tree) if tree.name or tree.common_name else ""
    lines = ([f"#quiet[{text(name)}]"] if name else []) + [f"#serif[{botanical(taxon)}]" for taxon in tree.taxon]
    told = (Told(name, tree.where.at("name")), *(Told(taxon, tree.where.at("taxon")) for taxon in tree.taxon))
    return Coded(payload, tree.accession, tuple(lines), "", told)


def session_card(context: Context, trees: Sequence[Tree], payload: str) -> Coded:
    """A card to be photographed before a tree, or before several that stand together."""
    _ = context.translations.gettext
    names = context.listed([context.tree_name(tree) for tree in trees])
    lines = (
        f"#quiet[{text(names)}]",
        text(_("Photograph this card, then the tree.")),
    )
    told = tuple(Told(context.tree_name(tree), tree.where.at("name")) for tree in trees)
    return Coded(payload, " + ".join(tree.accession for tree in trees), lines, payload, told)


def end_card(context: Context, payload: str) -> Coded:
    """The card that closes a session."""
    _ = context.translations.gettext
    return Coded(payload, _("End"), (text(_("Photograph this card after the last tree.")),), payload)


def coded_pieces(
    context: Context, pieces: Sequence[Coded], title: str, sheet: Sheet, slug: Sequence[str], *, level: str = "m"
) -> Printed:
    """The pieces on their sheets. level: error correction of the codes."""
    _ = context.translations.gettext
    width, height = sheet.piece_width, sheet.piece_height
    pad = max(3.0, 0.05 * height)
    side = min(height - 2 * pad, 0.56 * width)
    lines = [f"#let side = {mm(side)}", f"#let pad = {mm(pad)}", f"#let high = {mm(height)}"]
    lines += [f"#let wide = {mm(width)}", f"#let room = {mm(width - side - 2.5 * pad)}", _LAYOUT]
    laid = []
    for number, piece in enumerate(pieces):
        alt = _("QR code: %(text)s") % {"text": piece.payload}
        code = f"#image({string(_file(number))}, width: side, alt: {string(alt)})"
        below = "".join(f"#line-of[{line}]" for line in piece.lines)
        laid.append(f"#coded[{code}][{text(piece.heading)}][{below}][{text(piece.small)}]")
    lines.append(sheets(sheet, laid, slug))
    return printed(
        "\n".join(lines),
        title=title,
        author=context.house,
        language=context.language,
        style=HouseStyle(size=max(8.0, min(14.0, height * 0.19)), sans=True),
        day=context.as_of,
        files={_file(number): qr_svg(piece.payload, level=level) for number, piece in enumerate(pieces)},
        told=_told(pieces),
    )


def module_size(side_modules: int, sheet: Sheet) -> float:
    """Millimetres of one module of a code of so many, its quiet zone of `QUIET` modules counted in."""
    pad = max(3.0, 0.05 * sheet.piece_height)
    return min(sheet.piece_height - 2 * pad, 0.56 * sheet.piece_width) / max(side_modules, 1 + 2 * QUIET)


def _told(pieces: Iterable[Coded]) -> Iterable[Told]:
    for piece in pieces:
        yield from piece.told


def _file(number: int) -> str:
    return f"code-{number}.svg"


_LAYOUT = """\
#let line-of(body) = block(above: 0.75em, below: 0pt, body)
#let coded(code, title, below, small) = block(width: wide, height: high, inset: pad, context {
  let wanted = 2.2em.to-absolute()
  let whole = measure(text(size: wanted, weight: 600, title)).width
  let size = if whole > room { calc.max(1em.to-absolute(), wanted * (room / whole)) } else { wanted }
  grid(columns: (side, room), column-gutter: pad / 2, rows: (high - 2 * pad,),
    align(left + horizon, code),
    block(height: 100%, inset: (top: pad, bottom: pad / 2))[
      #show heading: set text(size: size, weight: 600)
      #show heading: set block(above: 0pt, below: 0pt)
      #heading(level: 1, title)
      #below
      #v(1fr)
      #text(size: 0.62em, fill: soft-ink, small)])
})
"""
