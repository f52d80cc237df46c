"""The mark by which a slide made here is known again: a programmable tag of the presentation format (ISO/IEC 29500-1).

A tag holds the slide's key, the digest of what it was made from, and how it looked when it was written. A slide whose
looks differ was edited by its speaker; one without a tag is the speaker's own.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from hashlib import sha256
from typing import Any

from lxml import etree
from pptx.enum.shapes import MSO_SHAPE_TYPE
from pptx.opc.package import Part

_P = "http://schemas.openxmlformats.org/presentationml/2006/main"
_R = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_KIND = "application/vnd.openxmlformats-officedocument.presentationml.tags+xml"
_NAME = "MADE_FROM_RECORDS"
_MOVED = 1.0
"""Millimetres: another program may round places by less."""

Boxes = list[list[float]]


@dataclass(frozen=True, slots=True)
class Tag:
    """What a slide says of itself. `said` is a digest of its words and pictures, `boxes` where its things stood."""

    key: str
    made_from: str
    said: str
    boxes: Boxes


def mark(slide: Any, key: str, made_from: str) -> None:
    """Tag a slide as made here, as it now looks."""
    tag = {"key": key, "made_from": made_from, "said": _said(slide), "boxes": _boxes(slide)}
    _write(slide.part, slide._element.find(f"{{{_P}}}cSld"), json.dumps(tag, separators=(",", ":")))


def tag_of(slide: Any) -> Tag | None:
    """A slide's tag; None for a slide of the speaker's own, or whose tag another program has dropped."""
    told = _read(slide.part, slide._element.find(f"{{{_P}}}cSld"))
    if told is None:
        return None
    try:
        found = json.loads(told)
        return Tag(str(found["key"]), str(found["made_from"]), str(found["said"]), list(found["boxes"]))
    except (ValueError, KeyError, TypeError):
        return None


def is_edited(slide: Any, tag: Tag) -> bool:
    """Whether a slide no longer looks as it did when it was made: other words, pictures or notes, or things moved."""
    now = _boxes(slide)
    if _said(slide) != tag.said or len(now) != len(tag.boxes):
        return True
    return any(
        abs(a - b) > _MOVED
        for mine, theirs in zip(now, tag.boxes, strict=True)
        for a, b in zip(mine, theirs, strict=True)
    )


def remember_keys(deck: Any, keys: tuple[str, ...]) -> None:
    """Write into the deck which slides it was made with, so that one the speaker has deleted stays deleted."""
    _write(deck.part, deck.part._element, json.dumps(list(keys)), before=("modifyVerifier", "extLst"))


def remembered_keys(deck: Any) -> tuple[str, ...]:
    """The keys it was made with last time, in order; none for a deck that is not ours."""
    told = _read(deck.part, deck.part._element)
    try:
        return tuple(str(key) for key in json.loads(told)) if told else ()
    except ValueError:
        return ()


def _write(part: Any, element: Any, value: str, before: tuple[str, ...] = ("controls", "extLst")) -> None:
    existing = element.find(f"{{{_P}}}custDataLst")
    if existing is not None:
        for tags in existing.findall(f"{{{_P}}}tags"):
            part.drop_rel(tags.get(f"{{{_R}}}id"))
        element.remove(existing)
    root = etree.Element(f"{{{_P}}}tagLst", nsmap={"p": _P})
    etree.SubElement(root, f"{{{_P}}}tag", name=_NAME, val=value)
    blob = etree.tostring(root, xml_declaration=True, encoding="UTF-8", standalone=True)
    tag_part = Part(part.package.next_partname("/ppt/tags/tag%d.xml"), _KIND, part.package, blob)
    identity = part.relate_to(tag_part, f"{_R}/tags")
    data = etree.Element(f"{{{_P}}}custDataLst")
    etree.SubElement(data, f"{{{_P}}}tags").set(f"{{{_R}}}id", identity)
    follows = next((child for name in before if (child := element.find(f"{{{_P}}}{name}")) is not None), None)
    if follows is not None:
        follows.addprevious(data)
    else:
        element.append(data)


def _read(part: Any, element: Any) -> str | None:
    for tags in element.iterfind(f"{{{_P}}}custDataLst/{{{_P}}}tags"):
        try:
            root = etree.fromstring(part.related_part(tags.get(f"{{{_R}}}id")).blob)
        except (KeyError, etree.XMLSyntaxError):
            continue
        for tag in root.iter(f"{{{_P}}}tag"):
            if tag.get("name", "").upper() == _NAME:
                return str(tag.get("val"))
    return None


def _said(slide: Any) -> str:
    """Words with their weight, slant and size, pictures by their bytes, and the notes."""
    told: list[str] = []
    for shape in _flat(slide.shapes):
        if shape.has_text_frame:
            for paragraph in shape.text_frame.paragraphs:
                told += [f"{r.text}|{r.font.bold}|{r.font.italic}|{r.font.size}" for r in paragraph.runs]
        elif shape.shape_type in (MSO_SHAPE_TYPE.PICTURE, MSO_SHAPE_TYPE.PLACEHOLDER) and hasattr(shape, "image"):
            told.append(sha256(shape.image.blob).hexdigest())
    notes = slide.notes_slide.notes_text_frame if slide.has_notes_slide else None
    told.append(notes.text if notes is not None else "")
    return sha256("\n".join(told).encode()).hexdigest()[:16]


def _boxes(slide: Any) -> Boxes:
    return [
        [round((length or 0) / 36000, 1) for length in (s.left, s.top, s.width, s.height)]
        for s in sorted(slide.shapes, key=lambda s: s.shape_id)
    ]


def _flat(shapes: Any) -> list[Any]:
    found = []
    for shape in shapes:
        if shape.shape_type == MSO_SHAPE_TYPE.GROUP:
            found += _flat(shape.shapes)
        else:
            found.append(shape)
    return found
