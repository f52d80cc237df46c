"""People in pictures that are to be public: consent, and children above all."""

from __future__ import annotations

from collections.abc import Iterator

from archive_tools.check.declared import public_photo
from archive_tools.check.telling import in_photo, warning
from archive_tools.check.walk import all_photos
from archive_tools.model.collection import Collection
from archive_tools.model.problems import Problem


def children_without_consent(collection: Collection) -> Iterator[Problem]:
    """A recognisable child in a picture declared public, without `consent: yes`."""
    for tree, photo in all_photos(collection):
        if photo.children is True and photo.consent != "yes" and public_photo(collection, tree, photo):
            said = "nobody's consent is written" if photo.consent is None else f"`consent` is {photo.consent}"
            what = f"a child can be recognised in this public picture, and {said}"
            instead = "`visibility: internal`, or `consent: yes` once it is given"
            yield in_photo(tree.accession, photo, ("children",), "children-without-consent", what, instead)


def consent_refused(collection: Collection) -> Iterator[Problem]:
    """A picture declared public of people who do not want it to be."""
    for tree, photo in all_photos(collection):
        if photo.consent == "no" and photo.children is not True and public_photo(collection, tree, photo):
            what = "this picture is public, and whoever is in it has not consented"
            yield in_photo(tree.accession, photo, ("consent",), "consent-refused", what, "`visibility: internal`")


def consent_unsaid(collection: Collection) -> Iterator[Problem]:
    """People in a picture declared public, and nothing said of their consent or of children among them."""
    for tree, photo in all_photos(collection):
        if not photo.people or photo.children is True or not public_photo(collection, tree, photo):
            continue
        if photo.consent is None:
            what = "people are in this public picture, and nothing says whether they consented"
            if photo.children is None:
                what += " or whether children are among them; until then it stays internal"
            yield warning(photo.where.at("people"), "consent-unsaid", what, "`consent: yes` and `children: false`")
        elif photo.children is None and photo.consent != "yes":
            what = "nothing says whether children are in this public picture; until then it stays internal"
            yield warning(photo.where.at("people"), "consent-unsaid", what, "`children: false`, or `consent: yes`")
