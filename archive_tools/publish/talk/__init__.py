"""A talk: its slides, its handout, and the sheet of facts that stands behind every sentence.

`slides` says what is on each slide, `layouts` how a slide is laid out, `fit` whether its words have room, `deck_file`
writes them; `keep` tells what the speaker has changed since from what may be made anew; `minutes` adds up the time.
`handout` and `fact_sheet` are set in type.
"""

from archive_tools.publish.talk.deck_file import ReadPicture, too_long
from archive_tools.publish.talk.fact_sheet import fact_sheet
from archive_tools.publish.talk.handout import handout
from archive_tools.publish.talk.keep import Changes, write_deck
from archive_tools.publish.talk.minutes import SectionTime
from archive_tools.publish.talk.slide import Slide
from archive_tools.publish.talk.slides import parts_of, slides_of

__all__ = [
    "Changes",
    "ReadPicture",
    "SectionTime",
    "Slide",
    "fact_sheet",
    "handout",
    "parts_of",
    "slides_of",
    "too_long",
    "write_deck",
]
