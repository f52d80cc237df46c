"""The layouts of a deck, of our own: 16 to 9, dark as a hall is, the picture first and few words beneath it.

A deck is begun from python-pptx's empty one: its master and theme get the house's colours and typefaces, its layouts
are drawn anew. A speaker may change them like any others. Lengths in millimetres.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from lxml import etree
from pptx import Presentation
from pptx.opc.constants import RELATIONSHIP_TYPE
from pptx.util import Emu, Mm

from archive_tools.publish.talk import slide as kinds

WIDE, HIGH = 338.667, 190.5
PAPER, SOFT, GROUND, RULE = "E9E5DB", "B9B4A8", "151614", "3A3A35"
SERIF, EASTERN = "Georgia", "Yu Mincho"
TITLE, WORDS, BOTANICAL = 0, 10, 11
FIRST_PICTURE = 20
"""Numbers of the placeholders: title, words, the botanical name, the pictures."""

_A = "http://schemas.openxmlformats.org/drawingml/2006/main"
_P = "http://schemas.openxmlformats.org/presentationml/2006/main"
Box = tuple[float, float, float, float]
"""Left, top, width, height."""


@dataclass(frozen=True, slots=True)
class Layout:
    """Where things stand. `sizes`: points, the largest first. `fill`: a picture is cut to its box."""

    name: str
    title: Box
    words: Box | None
    pictures: tuple[Box, ...] = ()
    botanical: Box | None = None
    figure: Box | None = None
    title_sizes: tuple[float, ...] = (26, 24, 22, 20)
    word_sizes: tuple[float, ...] = (18, 16, 14)
    fill: bool = False
    captions: bool = False
    """Whether the words under each picture stand in a box of their own."""


_HALF = (188.0, 0.0, WIDE - 188.0, HIGH)
_BESIDE = {"title_sizes": (44.0, 40.0, 36.0, 32.0, 28.0), "word_sizes": (22.0, 20.0, 18.0, 16.0)}

LAYOUTS: dict[str, Layout] = {
    kinds.OPENING: Layout("Opening", (18, 44, 154, 66), (18, 116, 154, 46), (_HALF,), fill=True, **_BESIDE),  # type: ignore[arg-type]
    kinds.SECTION: Layout("Section", (18, 32, 154, 58), (18, 96, 154, 76), (_HALF,), fill=True, **_BESIDE),  # type: ignore[arg-type]
    kinds.TREE: Layout(
        "Tree", (18, 32, 154, 44), (18, 98, 154, 74), (_HALF,), (18, 80, 154, 14), fill=True, **_BESIDE  # type: ignore[arg-type]
    ),
    kinds.PICTURE: Layout("Picture", (18, 160, 190, 22), (214, 160, 108, 22), ((18, 10, WIDE - 36, 146),)),
    kinds.PAIR: Layout(
        "Two pictures",
        (18, 160, 150, 22),
        (174, 158, 147, 26),
        ((18, 10, 148, 134), (WIDE - 166, 10, 148, 134)),
        word_sizes=(18, 16, 14),
        captions=True,
    ),
    kinds.YEARS: Layout(
        "Years",
        (18, 160, WIDE - 36, 22),
        None,
        tuple((18 + at * 51.1, 40.0, 47.1, 84.0) for at in range(6)),
        captions=True,
    ),
    kinds.LINE: Layout("Line of stewards", (18, 160, WIDE - 36, 22), None, figure=(18, 12, WIDE - 36, 140)),
    kinds.MAP: Layout("Where they stand", (18, 24, 120, 30), (18, 60, 120, 110), figure=(156, 24, 160, 140)),
    kinds.CREDITS: Layout(
        "Credits", (18, 16, WIDE - 36, 20), (18, 42, WIDE - 36, 134), word_sizes=(16, 14, 12, 11, 10, 9)
    ),
}  # fmt: skip


def empty_deck(accent: str) -> Any:
    """A presentation without slides, with the layouts of this house. accent: six hexadecimal digits."""
    deck = Presentation()
    deck.slide_width, deck.slide_height = Emu(12192000), Emu(6858000)
    master = deck.slide_master
    _theme(master, accent)
    _master(master)
    found = list(deck.slide_layouts)
    for spare in found[len(LAYOUTS) :]:
        deck.slide_layouts.remove(spare)
    for drawn, layout in zip(found, LAYOUTS.values(), strict=False):
        _draw(drawn, layout)
    return deck


def layout_named(deck: Any, kind: str) -> Any | None:
    """The layout of a kind of slide in a deck; None where its speaker has taken it away."""
    return next((layout for layout in deck.slide_layouts if layout.name == LAYOUTS[kind].name), None)


def _theme(master: Any, accent: str) -> None:
    part = master.part.part_related_by(RELATIONSHIP_TYPE.THEME)
    theme = etree.fromstring(part.blob)
    theme.set("name", "Catalogue")
    colours = {
        "dk1": GROUND, "lt1": PAPER, "dk2": "1E1F1C", "lt2": SOFT, "accent1": accent, "accent2": "8D897E",
        "accent3": "93C6CD", "accent4": "C9A96A", "accent5": "A8B58F", "accent6": "B98C7A", "hlink": "93C6CD",
        "folHlink": "B9B4A8",
    }  # fmt: skip
    for name, colour in colours.items():
        for slot in theme.iter(f"{{{_A}}}{name}"):
            for child in list(slot):
                slot.remove(child)
            etree.SubElement(slot, f"{{{_A}}}srgbClr", val=colour.upper())
    for kind in ("majorFont", "minorFont"):
        for fonts in theme.iter(f"{{{_A}}}{kind}"):
            fonts.find(f"{{{_A}}}latin").set("typeface", SERIF)
            fonts.find(f"{{{_A}}}ea").set("typeface", EASTERN)
    part._blob = etree.tostring(theme, xml_declaration=True, encoding="UTF-8", standalone=True)


def _master(master: Any) -> None:
    """Dark ground, light words, no bullets, nothing at the foot."""
    element = master._element
    common = element.find(f"{{{_P}}}cSld")
    background = common.find(f"{{{_P}}}bg")
    if background is not None:
        common.remove(background)
    common.insert(
        0,
        etree.fromstring(
            f'<p:bg xmlns:p="{_P}" xmlns:a="{_A}"><p:bgPr><a:solidFill><a:schemeClr val="bg1"/></a:solidFill>'
            "<a:effectLst/></p:bgPr></p:bg>"
        ),
    )
    mapping = element.find(f"{{{_P}}}clrMap")
    for name, value in {"bg1": "dk1", "tx1": "lt1", "bg2": "dk2", "tx2": "lt2"}.items():
        mapping.set(name, value)
    tree = common.find(f"{{{_P}}}spTree")
    for shape in list(master.placeholders):
        kind = shape.placeholder_format.type
        if str(kind).split(" ")[0] not in ("TITLE", "BODY"):
            tree.remove(shape._element)
    title, body = (
        next(s for s in master.placeholders if str(s.placeholder_format.type).startswith(kind))
        for kind in ("TITLE", "BODY")
    )
    _put(title, (18, 24, WIDE - 36, 30))
    _put(body, (18, 60, WIDE - 36, 110))
    styles = element.find(f"{{{_P}}}txStyles")
    element.replace(styles, etree.fromstring(_TEXT_STYLES))


def _put(shape: Any, box: Box) -> None:
    shape.left, shape.top, shape.width, shape.height = (Mm(length) for length in box)


def _draw(drawn: Any, layout: Layout) -> None:
    """Give a layout its name and its placeholders; what it had is taken away."""
    drawn._element.find(f"{{{_P}}}cSld").set("name", layout.name)
    drawn._element.attrib.pop("type", None)
    tree = drawn._element.find(f"{{{_P}}}cSld/{{{_P}}}spTree")
    for child in list(tree)[2:]:
        tree.remove(child)
    boxes: list[tuple[str, str, int, Box]] = [("Title", "title", TITLE, layout.title)]
    if layout.words is not None:
        boxes.append(("Words", "body", WORDS, layout.words))
    if layout.botanical is not None:
        boxes.append(("Botanical name", "body", BOTANICAL, layout.botanical))
    boxes += [
        (f"Picture {at}", "pic", FIRST_PICTURE + at, box) for at, box in enumerate(layout.pictures)
    ]  # fmt: skip
    for number, (name, kind, index, box) in enumerate(boxes, 2):
        tree.append(etree.fromstring(_placeholder(number, name, kind, index, box, layout)))


def _placeholder(number: int, name: str, kind: str, index: int, box: Box, layout: Layout) -> str:
    size = {"title": layout.title_sizes[0], "body": layout.word_sizes[0], "pic": 14}[kind]
    if index == BOTANICAL:
        size = 20
    left, top, wide, high = (round(length * 36000) for length in box)
    over_picture = layout.fill
    anchor = "b" if kind == "title" and over_picture else "t"
    italic = ' i="1"' if index == BOTANICAL else ""
    colour = "tx1" if kind == "title" else "tx2"
    place = f'<p:ph type="{kind}"' + ("" if kind == "title" else f' idx="{index}"') + "/>"
    return (
        f'<p:sp xmlns:p="{_P}" xmlns:a="{_A}"><p:nvSpPr><p:cNvPr id="{number}" name="{name}"/>'
        f'<p:cNvSpPr><a:spLocks noGrp="1"/></p:cNvSpPr><p:nvPr>{place}</p:nvPr></p:nvSpPr>'
        f'<p:spPr><a:xfrm><a:off x="{left}" y="{top}"/><a:ext cx="{wide}" cy="{high}"/></a:xfrm></p:spPr>'
        f'<p:txBody><a:bodyPr lIns="0" tIns="0" rIns="0" bIns="0" anchor="{anchor}"><a:normAutofit/></a:bodyPr>'
        f'<a:lstStyle><a:lvl1pPr marL="0" indent="0"><a:buNone/><a:defRPr sz="{int(size * 100)}"{italic}>'
        f'<a:solidFill><a:schemeClr val="{colour}"/></a:solidFill></a:defRPr></a:lvl1pPr></a:lstStyle>'
        f"<a:p><a:endParaRPr/></a:p></p:txBody></p:sp>"
    )


def _text_level(size: int, colour: str, font: str) -> str:
    return (
        f'<a:lvl1pPr marL="0" indent="0" algn="l"><a:lnSpc><a:spcPct val="100000"/></a:lnSpc>'
        f'<a:spcBef><a:spcPts val="0"/></a:spcBef><a:buNone/><a:defRPr sz="{size}" kern="1200"><a:solidFill>'
        f'<a:schemeClr val="{colour}"/></a:solidFill><a:latin typeface="+{font}-lt"/><a:ea typeface="+{font}-ea"/>'
        f'<a:cs typeface="+{font}-cs"/></a:defRPr></a:lvl1pPr>'
    )


_TEXT_STYLES = (
    f'<p:txStyles xmlns:p="{_P}" xmlns:a="{_A}"><p:titleStyle>{_text_level(2600, "tx1", "mj")}</p:titleStyle>'
    f"<p:bodyStyle>{_text_level(1800, 'tx2', 'mn')}</p:bodyStyle>"
    f"<p:otherStyle>{_text_level(1400, 'tx2', 'mn')}</p:otherStyle></p:txStyles>"
)
