"""An entry of photos.yml as written."""

from __future__ import annotations

from typing import Annotated

from pydantic import BeforeValidator, Field, model_validator

from archive_tools.model.photo import PictureScale
from archive_tools.model.vocabulary import CONSENT, DATED_BY, PHOTO_VIEWS, SURE
from archive_tools.read.fields import Record, Text, TextOrLanguages, Texts, WhoMaySee, YesOrNo, as_list, one_of, wrong
from archive_tools.read.fields_of_time import Centimetres, PictureMarks, Uncertainty, When
from archive_tools.read.schema_common import Citations
from archive_tools.read.schema_event import Shown, TimingSchema


class ScaleSchema(Record):
    """A known length between two marks."""

    from_: Text = Field(alias="from")
    to: Text
    cm: Centimetres
    plus_minus: Uncertainty | None = None

    @model_validator(mode="after")
    def _two_ends(self) -> ScaleSchema:
        if self.from_ == self.to:
            raise wrong("bad-value", "the scale begins and ends at the same mark", "the names of two marks")
        return self

    def scale(self) -> PictureScale:
        """The scale as the model has it."""
        return PictureScale(self.from_, self.to, self.cm, self.plus_minus)


class PhotoSchema(Record):
    """The keys of a photograph."""

    file: Text
    of: Texts | None = None
    sure: Annotated[str, one_of(SURE, "how sure it is")] | None = None
    when: When | None = Field(None, alias="date")
    dated_by: Annotated[str, one_of(DATED_BY, "what dates a photograph")] | None = None
    why: TextOrLanguages | None = None
    timing: Annotated[tuple[TimingSchema | None, ...], BeforeValidator(as_list)] | None = None
    view: Annotated[str, one_of(PHOTO_VIEWS, "a side of the tree")] | None = None
    caption: TextOrLanguages | None = None
    alt: TextOrLanguages | None = None
    photographer: Text | None = None
    rights_holder: Text | None = None
    held_by: Text | None = None
    credit: TextOrLanguages | None = None
    rights: Text | None = None
    permission: TextOrLanguages | None = None
    people: Texts | None = None
    children: YesOrNo | None = None
    consent: Annotated[str, one_of(CONSENT, "an answer to the question of consent")] | None = None
    shows: Shown | None = None
    marks: PictureMarks | None = None
    scale: ScaleSchema | None = None
    sources: Citations | None = Field(None, alias="source")
    visibility: WhoMaySee | None = None
    public_from: When | None = None
