"""The line of stewards and the plan of the courts as shapes of a slide, grouped, which the speaker can edit."""

from __future__ import annotations

from typing import Any

from pptx.dml.color import RGBColor
from pptx.enum.dml import MSO_LINE
from pptx.enum.shapes import MSO_CONNECTOR, MSO_SHAPE
from pptx.enum.text import PP_ALIGN
from pptx.util import Mm, Pt

from archive_tools.publish.talk.fit import largest, width
from archive_tools.publish.talk.layouts import PAPER, RULE, SOFT, Box
from archive_tools.publish.talk.slide import Bar, Figure

_BAR, _AXIS = 3.2, 12.0
_SOFT = "8D897E"
_TALLEST = 32.0
"""Millimetres of a row, where there are few."""


def _rgb(digits: str) -> Any:
    return RGBColor(*bytes.fromhex(digits))  # type: ignore[no-untyped-call]


def draw_line(made: Any, figure: Figure, box: Box) -> None:
    """One row a holder: words above, the time below; fading where a date is vague, dots where nobody is known."""
    left, top, wide, high = box
    group = made.shapes.add_group_shape()
    group.name = "Line of stewards"
    row = min((high - _AXIS) / max(len(figure.bars), 1), _TALLEST)
    top += (high - _AXIS - row * len(figure.bars)) / 2
    bottom = top + row * len(figure.bars)
    for words, share in figure.years:
        x = left + share * wide
        _rule(group, x, top, x, bottom + 2, RULE)
        _words(
            group,
            words,
            (min(max(x - 12, left - 4), left + wide - 24), bottom + 3, 24, 8),
            (14,),
            SOFT,
            PP_ALIGN.CENTER,
        )
    for at, bar in enumerate(figure.bars):
        _row(group, bar, (left, top + at * row, wide, row))
    group._element.nvGrpSpPr.cNvPr.set("descr", figure.says)


def _row(group: Any, bar: Bar, box: Box) -> None:
    left, top, wide, high = box
    sizes = (18.0, 16.0, 14.0, 12.0)
    points = largest((bar.words,), sizes, (wide, high - _BAR - 2)) or sizes[-1]
    takes = width(bar.words, points) + 4
    begin = left + bar.start * wide
    at = begin if begin + takes <= left + wide else max(left, left + wide - takes)
    _words(group, bar.words, (at, top, min(takes, wide), high - _BAR - 3), (points,), PAPER, PP_ALIGN.LEFT)
    y = top + high - _BAR - 2.5
    if bar.sort == "gap":
        line = _rule(group, begin, y + _BAR / 2, left + max(bar.end, bar.start + 0.01) * wide, y + _BAR / 2, SOFT)
        line.line.dash_style, line.line.width = MSO_LINE.ROUND_DOT, Pt(2.5)
        return
    for start, end, firm in (
        (bar.start, bar.firm, False),
        (bar.firm, bar.firm_end, True),
        (bar.firm_end, bar.end, False),
    ):
        if end - start > 0.001:
            _bar(group, left + start * wide, y, (end - start) * wide, firm, bar.sort == "lent")


def _bar(group: Any, x: float, y: float, wide: float, firm: bool, lent: bool) -> None:
    shape = group.shapes.add_shape(MSO_SHAPE.RECTANGLE, Mm(x), Mm(y), Mm(wide), Mm(_BAR))
    shape.shadow.inherit = False
    if lent:
        shape.fill.background()
        shape.line.color.rgb = _rgb(PAPER)
        shape.line.width = Pt(1.25)
        return
    shape.fill.solid()
    shape.fill.fore_color.rgb = _rgb(PAPER if firm else _SOFT)
    shape.line.fill.background()


def draw_plan(made: Any, figure: Figure, box: Box) -> None:
    """Courts as points with the ways between them; where a tree of the talk stands the point is full."""
    left, top, wide, high = box
    inner = (left + 16, top + 12, wide - 32, high - 24)
    scale = min(inner[2], inner[3] * figure.ratio)
    across, down = scale, scale / figure.ratio
    x0, y0 = inner[0] + (inner[2] - across) / 2, inner[1] + (inner[3] - down) / 2
    group = made.shapes.add_group_shape()
    group.name = "Plan"
    at = [(x0 + spot.across * across, y0 + spot.down * down) for spot in figure.spots]
    for first, second in figure.ways:
        _rule(group, *at[first], *at[second], _SOFT)
    for spot, (x, y) in zip(figure.spots, at, strict=True):
        radius = 3.4 if spot.marked else 2.2
        point = group.shapes.add_shape(MSO_SHAPE.OVAL, Mm(x - radius), Mm(y - radius), Mm(2 * radius), Mm(2 * radius))
        point.shadow.inherit = False
        point.fill.solid()
        point.fill.fore_color.rgb = _rgb(PAPER if spot.marked else _SOFT)
        point.line.fill.background()
        takes = width(spot.name, 14) + 3
        to_left = x + 5 + takes > left + wide
        words_at = x - 5 - takes if to_left else x + 5
        align = PP_ALIGN.RIGHT if to_left else PP_ALIGN.LEFT
        _words(group, spot.name, (words_at, y - 3.4, takes, 7), (14,), PAPER if spot.marked else SOFT, align)
    group._element.nvGrpSpPr.cNvPr.set("descr", figure.says)


def _rule(group: Any, x1: float, y1: float, x2: float, y2: float, colour: str) -> Any:
    line = group.shapes.add_connector(MSO_CONNECTOR.STRAIGHT, Mm(x1), Mm(y1), Mm(x2), Mm(y2))
    line.line.color.rgb = _rgb(colour)
    line.line.width = Pt(0.75)
    return line


def _words(group: Any, words: str, box: Box, sizes: tuple[float, ...], colour: str, align: Any) -> None:
    shape = group.shapes.add_textbox(*(Mm(length) for length in box))
    frame = shape.text_frame
    frame.word_wrap = True
    frame.margin_left = frame.margin_right = frame.margin_top = frame.margin_bottom = 0
    frame.text = words
    frame.paragraphs[0].alignment = align
    run = frame.paragraphs[0].runs[0]
    run.font.size = Pt(sizes[0])
    run.font.color.rgb = _rgb(colour)
