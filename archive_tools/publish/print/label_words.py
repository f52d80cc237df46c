"""The words of a label: botanical name, common name, age by the chronology, text, giver as far as may be said."""

from __future__ import annotations

from archive_tools.model.findings import CustodyPeriod, MilestoneFinding
from archive_tools.model.grades import Grade, Milestone
from archive_tools.model.label import LabelWords, OtherLanguage
from archive_tools.model.tree import Tree
from archive_tools.model.tree_query import trees_that_fit
from archive_tools.model.words import Words
from archive_tools.publish.context import Context
from archive_tools.publish.prose import as_text
from archive_tools.publish.typography import set_in_type, years_in_type

_GONE = frozenset({"died", "given away", "sold", "missing", "stolen", "on loan elsewhere"})


def labelled_trees(context: Context, query: str | None) -> tuple[tuple[Tree, ...], tuple[tuple[Tree, str], ...]]:
    """The trees that get a label, and those that are left out with the word for their state.

    query: as `model.tree_query` reads it, or accessions with commas between them; None: every tree that is here. A tree
    asked for by its accession gets a label wherever it is. Raises QueryProblem.
    """
    trees = context.records.trees
    asked = [part.strip() for part in (query or "").split(",") if part.strip()]
    if asked and all(part in trees for part in asked):
        return tuple(trees[part] for part in dict.fromkeys(asked)), ()
    fitting = trees_that_fit(query, trees.values()) if query else tuple(trees.values())
    here = tuple(tree for tree in fitting if _state(context, tree) not in _GONE)
    return here, tuple((tree, _state(context, tree)) for tree in fitting if tree not in here)


def label_words(context: Context, tree: Tree, second: Context | None = None) -> LabelWords:
    """The words of one tree's label in the language of `context`, and beside it in that of `second`."""
    chronology = context.view.findings.chronologies.get(tree.accession)
    origin, since = "", ""
    if chronology is not None and not chronology.under_review:
        found = chronology.milestones
        since = _printed(found.get(Milestone.CARE))
        if _adds(found.get(Milestone.ORIGIN), found.get(Milestone.CARE)):
            origin = _printed(found.get(Milestone.ORIGIN))
    site = context.records.settings.site_url
    custody = context.view.findings.custodies.get(tree.accession)
    return LabelWords(
        accession=tree.accession,
        language=context.language,
        name=_said(context, tree.name or tree.common_name),
        taxa=tree.taxon,
        common_name=_capital(_said(context, tree.common_name)) if tree.name else "",
        native_to=_said(context, tree.native_to) if _is_said(tree.native_to, context.language) else "",
        origin=origin,
        since=since,
        text=text_of(context, tree),
        credit=_said(context, tree.credit_line) or _credit(context, tree),
        address=f"{site.rstrip('/')}/{context.tree_path(tree.accession)}" if site else "",
        other=_beside(second, tree) if second is not None else None,
        place=context.place(custody.state.place) if custody is not None else "",
        facts_language=context.language if context.translations.info() else "en",
        text_language=_language_of(tree.label, context),
        marks={
            key: tree.where.at(path)
            for key, path in (
                ("name", "name"), ("common", "common_name"), ("native", "native_to"), ("text", "label"),
                ("credit", "credit_line"), ("botanical", "taxon"), ("address", "accession"),
            )
        },
    )  # fmt: skip


def text_of(context: Context, tree: Tree) -> str:
    """The label's own text without markup, its references and age tokens filled in; "" where none is written."""
    if tree.label is None:
        return ""
    return set_in_type(as_text(context, tree.label, tree.accession), _language_of(tree.label, context))


def _beside(second: Context, tree: Tree) -> OtherLanguage:
    language = second.language

    def said(words: Words | None) -> str:
        return _said(second, words) if _is_said(words, language) else ""

    text = text_of(second, tree) if tree.label is not None and _is_said(tree.label, language) else ""
    return OtherLanguage(language, said(tree.name), said(tree.common_name), text)


def _said(context: Context, words: Words | None) -> str:
    """A text in the language of the labels, set in type; what is written without a language is the house's own."""
    return set_in_type(words.say(context.language), _language_of(words, context)) if words else ""


def _is_said(words: Words | None, language: str) -> bool:
    """Whether a text is written in a language itself, not only in another that would stand in for it."""
    if words is None:
        return False
    said = words.language_said(language)
    return said.split("-", maxsplit=1)[0] == language.split("-", maxsplit=1)[0] if said else language == "en"


def _language_of(words: Words | None, context: Context) -> str:
    """The language a text is written in; the house's own where it is not said."""
    said = words.language_said(context.language) if words is not None else ""
    return said or context.records.settings.languages[0]


def _state(context: Context, tree: Tree) -> str:
    custody = context.view.findings.custodies.get(tree.accession)
    return custody.state.word if custody is not None else ""


def _printed(found: MilestoneFinding | None) -> str:
    """The sentence of a milestone, with the dash that a printer sets between years."""
    return years_in_type(found.wording) if found is not None and found.wording else ""


def _adds(origin: MilestoneFinding | None, care: MilestoneFinding | None) -> bool:
    """Whether the origin says more than the care does: what was in training then was growing then anyhow."""
    if origin is None or care is None:
        return origin is not None
    for grade in Grade:
        born, trained = origin.layers.get(grade), care.layers.get(grade)
        if born is None or not born.known:
            continue
        if born.earliest is not None or trained is None or trained.latest is None:
            return True
        if born.latest is not None and born.latest < trained.latest:
            return True
    return False


def _credit(context: Context, tree: Tree) -> str:
    """How it came here, by the line of holders, where the record has no credit line of its own."""
    _ = context.translations.gettext
    custody = context.view.findings.custodies.get(tree.accession)
    house = context.records.settings.custodian
    if custody is None or not custody.periods or house not in custody.periods[-1].holders:
        return ""
    last: CustodyPeriod = custody.periods[-1]
    event = tree.event(last.event or "")
    if event is None or not event.from_:
        return ""
    sentences = {
        "gift": _("Given by %(who)s, %(year)s"), "bequest": _("Bequeathed by %(who)s, %(year)s"),
        "purchase": _("Bought from %(who)s, %(year)s"), "loan": _("Lent by %(who)s, %(year)s"),
        "exchange": _("Received from %(who)s in exchange, %(year)s"),
        "transfer": _("Transferred from %(who)s, %(year)s"),
    }  # fmt: skip
    year = context.dates.year(event.when)
    if event.kind not in sentences or not year:
        return ""
    return sentences[event.kind] % {"who": context.names(event.from_), "year": year}


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]
