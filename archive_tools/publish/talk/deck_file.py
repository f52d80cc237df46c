"""Slides written into a presentation file, which the speaker may then edit as any other."""

from __future__ import annotations

import io
from collections.abc import Callable
from datetime import datetime
from typing import Any

from pptx.enum.text import MSO_ANCHOR
from pptx.opc.constants import RELATIONSHIP_TYPE
from pptx.util import Mm, Pt

from archive_tools.publish.talk import layouts
from archive_tools.publish.talk.drawn_shapes import draw_line, draw_plan
from archive_tools.publish.talk.fit import largest
from archive_tools.publish.talk.layouts import LAYOUTS, Box, Layout
from archive_tools.publish.talk.slide import MAP, Plate, Slide

_APPLICATION = (
    b'<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<Properties xmlns="http://schemas.openxmlformats.org/'
    b'officeDocument/2006/extended-properties"><Application>archive-tools</Application></Properties>'
)
ReadPicture = Callable[[str], bytes]
"""The bytes of a cut, by its address in the site."""


def add_slide(deck: Any, slide: Slide, read: ReadPicture) -> Any:
    """One slide more at the end of a deck. Returns python-pptx's slide."""
    layout = LAYOUTS[slide.layout]
    drawn = layouts.layout_named(deck, slide.layout) or deck.slide_layouts[0]
    made = deck.slides.add_slide(drawn)
    _say(made, layouts.TITLE, (slide.title,), layout.title, layout.title_sizes)
    _say(made, layouts.WORDS, slide.lines, layout.words, layout.word_sizes)
    _say(made, layouts.BOTANICAL, (slide.botanical,) if slide.botanical else (), layout.botanical, (20, 18, 16, 14))
    boxes = _boxes(layout, slide)
    for at, (plate, box) in enumerate(zip(slide.plates, boxes, strict=False)):
        _picture(made, layouts.FIRST_PICTURE + at, plate, box, layout, read)
    for shape in list(made.placeholders):
        if _is_empty(shape):
            shape._element.getparent().remove(shape._element)
    if slide.figure is not None and layout.figure is not None:
        (draw_plan if slide.layout == MAP else draw_line)(made, slide.figure, layout.figure)
    if slide.notes:
        made.notes_slide.notes_text_frame.text = slide.notes
    return made


def name_deck(deck: Any, title: str, speaker: str, house: str, language: str, day: datetime) -> None:
    """The file's own properties: whose it is, and nothing of the machine that wrote it."""
    core = deck.core_properties
    core.title, core.author, core.subject = title, speaker or house, house
    core.last_modified_by, core.language, core.keywords, core.comments, core.category = house, language, "", "", ""
    core.created = core.modified = day
    core.revision = 1
    for relation, other in list(deck.part.package._rels.items()):
        if other.reltype.endswith("/metadata/thumbnail"):
            deck.part.package._rels.pop(relation)
        elif other.reltype == RELATIONSHIP_TYPE.EXTENDED_PROPERTIES:
            other.target_part._blob = _APPLICATION


def as_bytes(deck: Any) -> bytes:
    """The deck as a file."""
    out = io.BytesIO()
    deck.save(out)
    return out.getvalue()


def too_long(slides: tuple[Slide, ...]) -> tuple[tuple[Slide, str], ...]:
    """Slides with words that have no room even at the smallest size, each with those words."""
    found = []
    for slide in slides:
        layout = LAYOUTS[slide.layout]
        if largest((slide.title,), layout.title_sizes, layout.title[2:]) is None:
            found.append((slide, slide.title))
        if slide.lines and (layout.words is None or largest(slide.lines, layout.word_sizes, layout.words[2:]) is None):
            found.append((slide, " ".join(slide.lines)))
    return tuple(found)


def _say(made: Any, index: int, paragraphs: tuple[str, ...], box: Box | None, sizes: tuple[float, ...]) -> None:
    shape = next((s for s in made.placeholders if s.placeholder_format.idx == index), None)
    said = [paragraph for paragraph in paragraphs if paragraph]
    if shape is None or not said:
        return
    frame = shape.text_frame
    frame.text = said[0]
    for paragraph in said[1:]:
        frame.add_paragraph().text = paragraph
    size = largest(tuple(said), sizes, box[2:]) if box else None
    for paragraph in frame.paragraphs:
        for run in paragraph.runs:
            run.font.size = Pt(size or sizes[-1])


def _boxes(layout: Layout, slide: Slide) -> tuple[Box, ...]:
    """Where the pictures stand. A row of fewer than it has room for is set in its middle."""
    count = len(slide.plates)
    if layout.captions and count < len(layout.pictures) and len(layout.pictures) > 2:
        step = layout.pictures[1][0] - layout.pictures[0][0]
        begin = (layouts.WIDE - (count - 1) * step - layout.pictures[0][2]) / 2
        return tuple((begin + at * step, *layout.pictures[0][1:]) for at in range(count))
    return layout.pictures


def _picture(made: Any, index: int, plate: Plate, box: Box, layout: Layout, read: ReadPicture) -> None:
    holder = next((s for s in made.placeholders if s.placeholder_format.idx == index), None)
    content = io.BytesIO(read(plate.url))
    left, top, wide, high = box
    picture = holder.insert_picture(content) if holder is not None else made.shapes.add_picture(content, 0, 0)
    if layout.fill:
        _cut_to(picture, plate.ratio, wide / high)
    else:
        picture.crop_left = picture.crop_right = picture.crop_top = picture.crop_bottom = 0
        fitted = min(wide / plate.ratio, high)
        across = fitted * plate.ratio
        left, top, wide, high = left + (wide - across) / 2, top + (high - fitted), across, fitted
    picture.left, picture.top, picture.width, picture.height = Mm(left), Mm(top), Mm(wide), Mm(high)
    picture._element.nvPicPr.cNvPr.set("descr", plate.alt)
    if layout.captions and plate.caption:
        _caption(made, plate.caption, (left, top + high + 2, max(wide, 20), 8))


def _cut_to(picture: Any, ratio: float, wanted: float) -> None:
    """Crop evenly, so that the picture fills its box without being stretched."""
    picture.crop_left = picture.crop_right = picture.crop_top = picture.crop_bottom = 0
    if ratio > wanted:
        picture.crop_left = picture.crop_right = (1 - wanted / ratio) / 2
    else:
        picture.crop_top = picture.crop_bottom = (1 - ratio / wanted) / 2


def _caption(made: Any, words: str, box: Box) -> None:
    shape = made.shapes.add_textbox(*(Mm(length) for length in box))
    shape.name = "Year"
    frame = shape.text_frame
    frame.margin_left = frame.margin_right = frame.margin_top = frame.margin_bottom = 0
    frame.vertical_anchor = MSO_ANCHOR.TOP
    frame.text = words
    size = largest((words,), (18, 16, 14, 12), (box[2], box[3])) or 12
    frame.paragraphs[0].runs[0].font.size = Pt(size)


def _is_empty(shape: Any) -> bool:
    if shape.has_text_frame:
        return not str(shape.text_frame.text)
    return bool(shape._element.tag.endswith("}sp"))  # a placeholder for a picture that no picture was put into
