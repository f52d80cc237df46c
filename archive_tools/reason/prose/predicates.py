"""The phrases in a clause that speak of a beginning or of what has lasted since: in training, came to us, first potted.

They are made of parts, so that "its training began", "the training has lasted" and "sixty years of training" need no
line of their own.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import Enum
from functools import cache
from itertools import count

from archive_tools.model.grades import Milestone
from archive_tools.reason.prose.genera import SPECIES_WORDS
from archive_tools.reason.prose.times import Time

__all__ = ["Kind", "Pair", "Predicate", "predicates_in"]


class Kind(Enum):
    """How a phrase takes its time."""

    STATE = "lasts: in training since …, for … years"
    NOUN = "the name of what lasts: sixty years of training"
    EVENT = "happened: potted in …"
    ACT = "happened to an object: she potted it in …"
    BEGAN = "its training began in …"
    LASTED = "its training has lasted …"
    COUNTED = "its years here are …"
    AGE_AFTER = "sixty years old"
    AGE_BEFORE = "its age is sixty"
    IS = "is seventy-five"
    DATES = "goes back to …"


@dataclass(frozen=True, slots=True)
class Predicate:
    """One phrase in clause[begin:end]. `thing`: what it is said of or done to, where the phrase itself names it."""

    begin: int
    end: int
    about: Milestone | None
    kind: Kind
    thing: str | None = None


@dataclass(frozen=True, slots=True)
class Pair:
    """A phrase with the time that is said of it. `attests`: the time only bounds it ("already in a pot in 1953")."""

    phrase: Predicate
    time: Time
    attests: bool = False

    @property
    def begin(self) -> int:
        """Where the first of the two begins."""
        return min(self.phrase.begin, self.time.begin)

    @property
    def end(self) -> int:
        """Where the last of the two ends."""
        return max(self.phrase.end, self.time.end)


_HOUSE = r"(?:house|gardens?|collection|terraces|arboretum|museum|institution)"
_US = rf"(?:us\b|our (?:\w+ )?(?:{_HOUSE}|care|hands|keeping|possession|charge|benches|custody)\b|the {_HOUSE}\b|this {_HOUSE}\b|here\b)"
_WE = rf"(?:we|us|the {_HOUSE})"
_IT = r"(?P<thing>it|(?:the|this|that|our) (?!\w+ed\b)[\w’-]+)"
_BONSAI = r"(?:bonsai|penjing)"

_TRAINING = r"(?:training|shaping|schooling|styling)"
_CARE_PLACE = (
    r"(?:(?:in|under) (?:[\w-]+ ){0,2}?(?:training|cultivation)\b(?! (?:box|pot|ground|school|courses?|beds?))|in (?:human |skilled |good )?care\b(?! of\b)|under care\b|"
    r"under the (?:wire|scissors|shears)\b)"
)
_CARE_STATE = (
    rf"(?:{_CARE_PLACE}|(?<!un)(?<!-)(?:trained|cultivated|shaped|schooled)\b(?! (?:gardeners?|eyes?|hands?|to\b|nurserymen|staff|people))"
    rf"(?: (?:as|into) (?:an? )?{_BONSAI})?|"
    rf"(?:grown|kept|tended|treated|raised|worked|lived|looked after|cared for|pruned|wired|styled) as an? {_BONSAI}|cared for|tended\b|"
    rf"(?<!as\x20)(?<!become\x20)(?:an? )?{_BONSAI}(?=,? (?:ever )?(?:since|from|for)\b)|an? {_BONSAI}(?=[.,;]|$)|"
    rf"been (?:training|shaping|tending|cultivating|working on) {_IT})"
)
_CARE_NOUN = (
    rf"(?<!in\x20)(?<!under\x20)(?:{_TRAINING}|cultivation|care(?! (?:for|of))|life as an? {_BONSAI}|career as an? {_BONSAI})\b"
    rf"(?! (?:for|in) (?:his|her|their)\b)(?! (?:wire|pot|box|ground))"
)
_CARE_EVENT = (
    rf"(?:(?:taken|put|brought|came|went|"
    rf"entered)(?: in| into)? (?:training|cultivation)|(?:became|made (?:it )?into) an? {_BONSAI}|(?:first )?work on it (?:began|started)|"
    rf"taken from (?:the|a|its) (?:wild|hills?|mountains?|coast|ledge|cliffs?|moor|heath|shore|hillside|rocks?)|lifted from the (?:wild|cliffs?|moor|hillside|rocks?))"
)
_CARE_ACT = (
    rf"(?:collected|planted (?:{_IT} )?together|put {_IT} together|set (?:{_IT} )?out together|assembled|put together|first (?:trained|wired|styled|shaped|pruned|taken in hand)|dug(?: up| out)?|(?:(?:has|have) )?(?:began|begun|started) (?:to (?:train|shape|be trained|be shaped)|training|shaping)|"
    rf"took (?:it )?into training|begun(?=[^,]{{0,40}}, (?:its|the) training\b))"
)

_VESSEL = r"(?:pot|container|tray|bowl|box|dish)"
_POT_KIND = r"(?:training|nursery|flower|growing|first|clay|plain)"
_POT_PLACE = (
    rf"(?:(?:in|out of|into|confined to) an? (?:{_POT_KIND} )?{_VESSEL}s?\b(?! (?:of|(?:by|from)(?! (?:about |around |\w+ )?[0-9])|that|which|made|thrown|with|in which|too)\b)|"
    rf"in (?:some|one) pot or (?:an)?other|in one {_VESSEL} (?:and|or|after) another|in (?:pots|containers|trays|its first {_VESSEL}|the pot\b(?! that)|(?:pot|container) culture|captivity))"
)
_POT_STATE = rf"(?:{_POT_PLACE}|(?:pot|container)[- ](?:grown|bound|kept)|containerised)"
_POT_NOUN = r"(?:pot culture|container culture|pot life|container life)"
_MOVED = r"(?:put|planted|set|placed|moved|lifted|transferred|went|came|goes|gone|brought|shifted|tucked|settled)"
_POT_EVENT = (
    rf"(?:(?:first )?{_MOVED} (?:{_IT} )?(?:straight |first |up )?(?:(?:out of|from) the (?:open )?(?:ground|field|bed) (?:and )?)?(?:in|into|in to) (?:its first |an? (?:{_POT_KIND} )?)"
    rf"{_VESSEL}\b(?! (?:of|by|that|which|made|thrown|with)\b)|"
    rf"(?:got|was given|given|received|had|took|entered) its first {_VESSEL}|first pot(?:ting)?\b|first given an? {_VESSEL}|was it (?:first )?(?:put|planted|set|placed|moved) in(?:to)? an? {_VESSEL}|"
    rf"first (?:put|planted|set|placed) (?:in|into) (?:an? )?{_VESSEL}s?)"
)
_POT_ACT = r"(?<!re)(?<!re-)(?:first )?potted(?: up)?(?: for the first time)?(?! (?:on|again|anew|afresh|over|into a (?:new|larger|smaller|second)|in a (?:new|larger|smaller|second)|this|that year)\b)"

_HERE = (
    rf"(?:(?<!from\x20)(?<!round\x20)(?<!around\x20)(?<!near\x20)here\b(?! and there)|(?:with|among|amongst) {_US}|in {_US}|under our (?:care|roof)|at (?:the )?{_HOUSE}\b|at us\b|"
    rf"on our (?:benches|terraces|shelves))"
)
_HERE_STATE = (
    rf"(?:{_HERE}|(?:been |is )?ours\b|{_WE} (?:have|has) (?:now )?(?:had|kept|held|owned|looked after|cared for|housed|tended) {_IT}|"
    rf"(?:belonged|belongs) to {_US}|(?:resident|guest|lodger) (?:(?:of|at) {_US}|here)|(?:a )?(?:part|member) of {_US}|"
    rf"(?:this|the) {_HOUSE} has been its home)"
)
_HERE_NOUN = rf"(?:stay|residence|lodging|home|tenancy) {_HERE}"
_GIVEN = (
    r"(?:given|presented|donated|sold|lent|loaned|handed(?: over| on)?|passed(?: on| over)?|bequeathed|left|transferred|made over|entrusted|brought|"
    r"shipped|sent|delivered|consigned)"
)
_SOMEHOW = r"(?:(?!\b(?:it|and|but|when|who|which|that|was|were|had|has)\b)[\w’'-]+ ){0,6}?"
_HERE_EVENT = (
    rf"(?:(?:first )?(?:came|comes|come|moved?|passed|went|arrive|travelled|found its way|made its way|crossed|sailed|returned home) {_SOMEHOW}(?:(?:in|on|over|across|down|up)?(?:to|into|in with|among) )?{_US}|"
    rf"(?:first )?arrived(?: (?:here|(?:with|among|at|in) {_US}))?|(?:joined?|reach(?:ed)?|enter(?:ed)?|on loan to|(?:gift|bequest|present|donation|loan|legacy) (?:of \w+ )?to) {_SOMEHOW}{_US}|"
    rf"{_GIVEN} {_SOMEHOW}(?:to|with|by us to) {_US}|(?:became|become) (?:ours|part of {_US}|a (?:member|part) of {_US}|the {_HOUSE}['’]s)|"
    rf"(?:made|found|took up) (?:its|a) (?:home|residence|place|quarters) {_HERE}|(?:its )?home became {_US}|settled (?:in )?{_HERE}|took up residence(?: {_HERE})?|"
    rf"(?:its )?(?:arrival|coming)(?: (?:here|(?:to|with|at|in|among) {_US}))?\b|(?:taken|accepted|welcomed|received|brought|admitted|adopted)(?: in)? (?:into|in|by) {_US}|"
    rf"(?:bought|acquired|received|taken over|obtained|purchased|accepted|inherited) {_SOMEHOW}(?:by|for) {_US}|acquired\b(?! by\b)|(?:brought|sent|shipped|carried|taken|delivered) {_SOMEHOW}here\b|has been (?:here|ours) since its arrival)"
)
_HERE_ACT = (
    rf"(?:(?:gave|lent|left|sold|brought|handed|passed|presented|sent|bequeathed|entrusted|donated|loaned|transferred|made) (?:{_IT} )?(?:over |on )?(?:to )?"
    rf"(?:us\b|the {_HOUSE}\b)(?: (?P<thing>it|(?:the|this) [\w’-]+))?|"
    rf"{_WE} (?:were given|was given|(?:first )?(?:bought|acquired|received|got|took in|took over|took|accepted|obtained|welcomed|inherited|were left|was left)) {_IT})"
)
_TOLD = r"(?:(?:is|was) (?:said|thought|believed|known|reported|held) to (?:have )?)"
_BEGIN = rf"(?:{_TOLD}?(?:was )?(?:first |only |really )?(?:began|begun|begin|begins|started|starts?|commenced|opened))"
_FROM_SEED = r"(?:seed|an? (?:\w+ )?(?:seed|seedling|cutting|layer|sucker|air[- ]layer))"
_ORIGIN_EVENT = (
    rf"(?:(?:was )?germinated|germination|sprouted|came up|sprang up|emerged|raised from {_FROM_SEED}|grown from {_FROM_SEED}|(?:came|comes) from {_FROM_SEED}|"
    rf"(?:from )?(?:seed|an? (?:\w+ )?(?:cutting|seedling|layer))(?: taken| made| rooted)?(?=,? (?:of|from|in) [\w’ ]{{0,20}}?[0-9])|cutting taken|"
    rf"(?:began|begun|started|starts|begins) (?:its )?(?:life|out|as)(?: (?:as|from) {_FROM_SEED})?|was born|first saw (?:the )?light|came into the world|"
    rf"the (?:seed|cutting) is|(?:its )?life {_BEGIN}|(?:its )?(?:sowing|birth)\b)"
)
_ORIGIN_ACT = rf"(?:\bsown|sowed|(?:take|took)(?= the cutting\b)|(?<!-)struck(?! (?:by|down|off|with|out|up)\b)|rooted(?! in\b(?! (?:1|20))) ?|(?:layer )?(?:severed|air-layered|layered))(?: {_IT}(?= as\b))?(?: as an? (?:cutting|layer|seed|seedling))?"
_ORIGIN_STATE = r"(?:growing|alive|living|lived)"

_LAST = rf"(?:{_TOLD}?(?:has |have )?(?:now |so far |by now |already )*(?:lasted|gone on|run|continued|taken|spanned|spans|covers|covered|stretches|extends|been going on))"
_NOUNS = {
    Milestone.CARE: rf"(?:{_CARE_NOUN}|(?:its |the )?(?:life|years|time|work) {_CARE_PLACE})",
    Milestone.CONTAINER: rf"(?:{_POT_NOUN}|(?:its |the )?(?:life|years|time|stay) {_POT_PLACE})",
    Milestone.ARRIVAL: rf"(?:{_HERE_NOUN}|(?:its |the |a )?(?:life|years|time|stay|days) {_HERE})",
}
_STATES = {Milestone.ARRIVAL: _HERE_STATE, Milestone.CARE: _CARE_STATE, Milestone.CONTAINER: _POT_STATE}
_SPECIES = "|".join(sorted(SPECIES_WORDS))


def _rows() -> list[tuple[Milestone | None, Kind, str]]:
    rows: list[tuple[Milestone | None, Kind, str]] = []
    for about, noun in _NOUNS.items():
        of_it = rf"{noun}(?: of (?P<thing>it|(?:the|this) [\w’-]+))?"
        rows += [
            (about, Kind.LASTED, rf"{of_it} {_LAST}"),
            (about, Kind.BEGAN, rf"{of_it},? {_BEGIN}"),
            (
                about,
                Kind.BEGAN,
                rf"(?:{_BEGIN} (?:its |his |her |the )?|(?:start|beginnings?|onset|first day) of (?:its |the |\w+['’]s )?){noun}",
            ),
            (about, Kind.COUNTED, rf"{of_it} (?:are|is|were|number|come to|amount to|add up to|total|make)"),
        ]
    rows += [
        (
            None,
            Kind.DATES,
            r"(?:goes|go|gone|going|went|reach|reaches|stretches) (?:right |all the way )?back\b|dates?(?: back)?(?= (?:to|from)\b)|dating(?: back)?\b|(?:traced?|traces|followed) (?P<thing>its \w+ |the \w+ )?back\b",
        )
    ]
    rows += [
        (Milestone.ORIGIN, Kind.AGE_AFTER, r"old\b(?! enough)|of age\b|of (?:life|growth)\b|years young"),
        (Milestone.ORIGIN, Kind.AGE_BEFORE, r"age(?: of (?P<thing>(?:the|this) [\w’-]+))? (?:is|was|comes to|must be)(?: now)?(?: put at| given as| reckoned at)?|"
                                            r"age(?= (?:of|at) (?!the|this))|age:|age(?= [0-9])|aged|lived(?= for)|been alive(?= for)|"
                                            rf"(?:tree|plant|specimen|{_SPECIES})(?= of)|(?:has |have )?turned"),
    ]  # fmt: skip
    rows += [
        (Milestone.ARRIVAL, Kind.ACT, _HERE_ACT), (Milestone.ARRIVAL, Kind.EVENT, _HERE_EVENT),
        (Milestone.CARE, Kind.EVENT, _CARE_EVENT), (Milestone.CONTAINER, Kind.EVENT, _POT_EVENT),
        (Milestone.ORIGIN, Kind.ACT, _ORIGIN_ACT), (Milestone.CARE, Kind.ACT, _CARE_ACT),
        (Milestone.CONTAINER, Kind.ACT, _POT_ACT), (Milestone.ORIGIN, Kind.EVENT, _ORIGIN_EVENT),
    ]  # fmt: skip
    rows += [(about, Kind.STATE, state) for about, state in _STATES.items()]
    rows += [
        (Milestone.CARE, Kind.NOUN, _CARE_NOUN),
        (Milestone.CONTAINER, Kind.NOUN, _POT_NOUN),
        (Milestone.ARRIVAL, Kind.NOUN, _HERE_NOUN),
    ]
    rows += [
        (Milestone.ORIGIN, Kind.STATE, _ORIGIN_STATE),
        (Milestone.ORIGIN, Kind.IS, r"(?:is|be|turns|turned|reached)\b(?: now| today)?"),
    ]
    return rows


def _compiled(words: str) -> re.Pattern[str]:
    """A row as a pattern. Its spaces take any run of them; what it is done to may be named in several places."""
    numbers = count()
    named = re.sub(r"\(\?P<thing>", lambda _: f"(?P<thing{next(numbers)}>", words)
    return re.compile(rf"(?<![\w’'])(?:{named})".replace(" ", r"\s+"), re.I)


@cache
def _patterns() -> tuple[tuple[Milestone | None, Kind, re.Pattern[str]], ...]:
    return tuple((about, kind, _compiled(words)) for about, kind, words in _rows())


def predicates_in(clause: str) -> list[Predicate]:
    """The phrases of a clause in the order of its words; of two that overlap the one earlier in the table stands."""
    found: list[Predicate] = []
    for about, kind, pattern in _patterns():
        for match in pattern.finditer(clause):
            if any(match.start() < other.end and other.begin < match.end() for other in found):
                continue
            thing = next((words for words in match.groupdict().values() if words), None)
            found.append(Predicate(match.start(), match.end(), about, kind, thing))
    return sorted(found, key=lambda phrase: phrase.begin)
