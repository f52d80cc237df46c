"""The sheet of facts behind a talk: what stands behind each sentence, and every tree with its years."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from archive_tools.model.findings import ProseClaim, Verdict
from archive_tools.model.grades import Milestone
from archive_tools.model.grounds import Talk
from archive_tools.model.told import Behind, Standing, ToldSentence
from archive_tools.model.tree import Tree
from archive_tools.publish.age_words import age, firmest
from archive_tools.publish.citations import cited
from archive_tools.publish.context import Context
from archive_tools.publish.event_words import grade_word, title_of
from archive_tools.publish.print.document import Markup, Printed, Told, mm, printed, text
from archive_tools.publish.print.style import HouseStyle
from archive_tools.publish.statement_words import dated_by_words, statement_line
from archive_tools.publish.talk.minutes import SectionTime, clock
from archive_tools.publish.talk.slides import parts_of
from archive_tools.publish.typography import years_in_type

_MILESTONES = (Milestone.ORIGIN, Milestone.CARE, Milestone.CONTAINER, Milestone.ARRIVAL)


def fact_sheet(
    context: Context, talk: Talk, sentences: Iterable[ToldSentence], times: tuple[SectionTime, ...]
) -> Printed:
    """Every sentence of the talk with its evidence, grade and source; every tree's years as of the talk's day."""
    _ = context.translations.gettext
    parts = parts_of(context, talk)
    by_part: dict[int, list[ToldSentence]] = {}
    for sentence in sentences:
        by_part.setdefault(sentence.part, []).append(sentence)
    body = [
        '#set page(paper: "a4", margin: (x: 20mm, top: 20mm, bottom: 18mm), '
        "footer: context align(right)[#data[#counter(page).display()]])\n",
        f"= {text(_('Facts behind “%(title)s”') % {'title': context.say(talk.title)})}\n",
        "#data[" + text(_("Ages and all else as of %(day)s.") % {"day": context.dates.day(context.as_of)}) + "]\n",
        _clock_table(context, times),
    ]
    told = []
    for number, (part, time) in enumerate(zip(parts, times, strict=True)):
        told.append(Told(part.text, part.section.where.at("text")))
        body.append(f"== {text(f'{clock(time.begin)}  {part.title}')}\n")
        body += list(_sentences(context, by_part.get(number, [])))
        body += [_tree(context, tree) for tree in part.trees]
    return printed(
        "\n".join(body),
        title=_("Facts behind “%(title)s”") % {"title": context.say(talk.title)},
        language=context.language,
        style=HouseStyle(size=10, accent=context.records.settings.accent or "#174a55"),
        day=context.as_of,
        author=context.house,
        told=told,
    )


def _clock_table(context: Context, times: tuple[SectionTime, ...]) -> Markup:
    _ = context.translations.gettext
    head = ", ".join(
        f"[{text(name)}]" for name in (_("Section"), _("Begins"), _("Given"), _("Words and pictures take"))
    )
    rows = [
        f"[{text(time.title)}], [{text(clock(time.begin))}], [{text(clock(time.given))}], [{text(clock(time.said))}]"
        for time in times
    ]
    given, said = sum(time.given for time in times), sum(time.said for time in times)
    together = _("Together")
    rows.append(f"[*{text(together)}*], [], [{text(clock(given))}], [{text(clock(said))}]")
    columns = "columns: (1fr, auto, auto, auto), stroke: none, inset: (x: 0pt, y: 2.5pt), column-gutter: 8mm"
    return f"#data[#table({columns}, table.header({head}), {', '.join(rows)})]\n"


def _sentences(context: Context, sentences: list[ToldSentence]) -> Iterator[Markup]:
    """Each sentence, and under it, in small, what stands behind it; sentences that state nothing are in soft ink."""
    for sentence in sentences:
        said = text(sentence.text)
        if sentence.standing is Standing.PLAIN:
            yield f"#quiet[{said}]\n"
            continue
        lines = "".join(f"#linebreak()#data[{text(line)}]" for line in _behind_lines(context, sentence))
        yield f"#block(breakable: false)[{said}{lines}]\n"


def _behind_lines(context: Context, sentence: ToldSentence) -> Iterator[str]:
    _ = context.translations.gettext
    for claim in sentence.claims:
        yield _claim_line(context, claim)
    for behind in sentence.behind:
        line = _record_line(context, behind)
        if line:
            yield line
    if sentence.standing is Standing.UNPROVED:
        yield _("No record of these trees names this year, number or person. Who says so?")


def _claim_line(context: Context, claim: ProseClaim) -> str:
    _ = context.translations.gettext
    if claim.verdict is Verdict.SUPPORTED:
        return _("“%(words)s”: borne out. %(could)s") % {"words": claim.words, "could": claim.could_say or ""}
    words = {
        Verdict.STRONGER: _("“%(words)s”: more than the evidence bears. It could be said: %(could)s"),
        Verdict.CONTRADICTED: _("“%(words)s”: contradicted by the evidence. It could be said: %(could)s"),
        Verdict.STALE: _("“%(words)s”: no longer true on this day. It could be said: %(could)s"),
    }
    could = claim.could_say or _("nothing")
    return words[claim.verdict] % {"words": claim.words, "could": could}


def _record_line(context: Context, behind: Behind) -> str:
    _ = context.translations.gettext
    tree = context.records.trees.get(behind.accession)
    event = tree.event(behind.record) if tree else None
    if tree is None:
        return ""
    if event is not None:
        said = f"{context.dates.until(event.when, event.until)}: {title_of(context, event)}".lstrip(": ")
        source = cited(context, event.sources) or (_("the garden’s own note") if event.from_note else _("no source"))
        return _("%(said)s (%(tree)s; %(grade)s: %(source)s)") % {
            "said": said, "tree": tree.accession, "grade": grade_word(event.standing, _).lower(), "source": source,
        }  # fmt: skip
    photo = tree.photo(behind.record)
    if photo is None:
        return ""
    source = cited(context, photo.sources) or dated_by_words(context, photo)
    said = _("Photograph, %(date)s") % {"date": context.dates.when(photo.when)}
    return f"{said} ({tree.accession}; {source})" if source else f"{said} ({tree.accession})"


def _tree(context: Context, tree: Tree) -> Markup:
    """What may be said of a tree's years on the day, with ages, grades and the statements that decide."""
    _ = context.translations.gettext
    chronology = context.view.findings.chronologies.get(tree.accession)
    lines = []
    if chronology is not None and chronology.under_review:
        lines.append(_("Dates under review: say no age."))
    elif chronology is not None:
        for milestone in _MILESTONES:
            finding = chronology.milestones.get(milestone)
            grade = firmest(finding)
            if finding is None or grade is None or not finding.wording:
                continue
            statements = dict.fromkeys((*finding.because_earliest, *finding.because_latest))
            proved = _("; ").join(dict.fromkeys(statement_line(context, tree, one) for one in statements))
            lines.append(
                _("%(wording)s: %(age)s, %(grade)s. By: %(proof)s")
                % {
                    "wording": years_in_type(finding.wording),
                    "age": age(context, finding.ages[grade]),
                    "grade": grade_word(grade, _).lower(),
                    "proof": proved,
                }
            )
    said = "".join(f"#linebreak()#data[{text(line)}]" for line in lines)
    name = f"{context.tree_name(tree)} ({tree.accession})"
    return f"#block(breakable: false, inset: (left: {mm(5)}))[*{text(name)}*{said}]\n"
