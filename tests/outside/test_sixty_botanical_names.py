"""Sixty botanical names as the codes have them set, and a second opinion on each.

Sources: International Code of Nomenclature for algae, fungi, and plants (Shenzhen Code 2018), articles 24 (ranks), H.1-
H.3 (hybrids; `Agrostis stolonifera × Polypogon monspeliensis`, `Mentha ×smithiana`, `Salix ×capreola`,
`Salix aurita × S. caprea`, `×Triticosecale` are its examples, from memory); International Code of Nomenclature for
Cultivated Plants (9th edition 2016), articles 2 to 4 (cultivar, Group, grex), 5 and 24 (graft-chimaeras;
`+Crataegomespilus ‘Dardarii’` and `‘Jules d’Asnières’`, `Syringa + Syringa`), 14 to 17 (quotation marks, trade
designations in another type and never in quotation marks; `Rosa ‘Korlanum’ SURREY`, `Choisya ternata ‘Lich’ SUNDANCE`),
from memory. Second opinion: the name parser of the Global Biodiversity Information Facility (gbif-name-parser).
"""

from __future__ import annotations

import re

import pytest

from archive_tools.publish.botanical_names import parts_of
from archive_tools.publish.print.document import botanical
from tests.conftest import missing

# What is in italics stands between asterisks.
NAMES = """\
*Acer palmatum*
*Acer buergerianum*
*Juniperus chinensis* var. *sargentii*
*Acer palmatum* subsp. *amoenum*
*Acer palmatum* var. *dissectum*
*Camellia sinensis* f. *parvifolia*
*Pinus nigra* subsp. *laricio*
*Pinus mugo* subsp. *uncinata*
*Ulmus minor* subsp. *minor* var. *suberosa*
*Acer palmatum* ‘Sango-kaku’
*Acer palmatum* var. *dissectum* ‘Crimson Queen’
*Acer palmatum* ‘Shishigashira’
*Juniperus chinensis* ‘Itoigawa’
*Juniperus* ‘Grey Owl’
*Pinus thunbergii* ‘Kotobuki’
*Pinus parviflora* ‘Zuisho’
*Picea glauca* ‘Conica’
*Picea glauca* ‘J. W. Daisy’s White’
*Malus* ‘Evereste’
*Prunus mume* ‘Beni-chidori’
*Chaenomeles speciosa* ‘Toyo-nishiki’
*Rhododendron indicum* ‘Kozan’
*Rhododendron* (Satsuki Group) ‘Kaho’
*Acer palmatum* (Dissectum Group) ‘Ornatum’
*Brassica oleracea* Capitata Group
*Brassica oleracea* (Capitata Group) ‘Primata’
*Hydrangea macrophylla* Hortensia Group
*Rhododendron* Loderi grex
*Rhododendron* (Loderi grex) ‘King George’
*Chaenomeles* × *superba*
*Chaenomeles* × *superba* ‘Crimson and Gold’
*Ulmus* × *hollandica*
*Ulmus* × *hollandica* ‘Jacqueline Hillier’
*Ulmus* × *elegantissima* ‘Jacqueline Hillier’
*Malus* × *zumi* ‘Golden Hornet’
*Prunus* × *yedoensis* ‘Somei-yoshino’
*Tilia* × *europaea*
*Mentha* × *smithiana*
*Salix* × *capreola*
*Larix* × *marschlinsii*
*Mentha* × *piperita* nothosubsp. *pyramidalis*
*Populus* × *canadensis* nothovar. *marilandica*
× *Cupressocyparis leylandii*
× *Cuprocyparis leylandii* ‘Castlewellan’
× *Triticosecale*
× *Sorbaronia mitschurinii*
*Agrostis stolonifera* × *Polypogon monspeliensis*
*Mentha aquatica* × *Mentha arvensis* × *Mentha spicata*
*Acer palmatum* × *Acer japonicum*
*Salix aurita* × *Salix caprea*
+ *Laburnocytisus* ‘Adamii’
+ *Crataegomespilus* ‘Dardarii’
+ *Crataegomespilus* ‘Jules d’Asnières’
+ *Pyrocydonia* ‘Danielii’
*Syringa vulgaris* + *Syringa* × *chinensis*
*Rosa* ‘Korlanum’ SURREY
*Choisya ternata* ‘Lich’ SUNDANCE
*Acer palmatum* Thunb.
*Acer buergerianum* Miq. var. *formosanum* (Hayata ex Koidz.) Sasaki
*Juniperus chinensis* L. var. *sargentii* A.Henry
*Thujopsis dolabrata* (L.f.) Siebold & Zucc.
*Pinus* sp.
*Buxus microphylla* ‘Compacta’
*Diospyros rhombifolia*""".splitlines()

REFUSES_FORMULAS = "the parser takes no formula apart; the codes set each name of one as if it stood alone (H.2)"
GROUP_AS_CULTIVAR = (
    "the parser files a Group's or grex's name as a cultivar epithet; it takes no quotation marks (ICNCP 3, 15)"
)
APOSTROPHE = "the parser takes a cultivar epithet with an apostrophe or full stops in it for an author"
DISAGREES = {
    "Picea glauca ‘J. W. Daisy’s White’": APOSTROPHE,
    "+ Crataegomespilus ‘Jules d’Asnières’": APOSTROPHE,
    "Brassica oleracea Capitata Group": GROUP_AS_CULTIVAR,
    "Hydrangea macrophylla Hortensia Group": GROUP_AS_CULTIVAR,
    "Rhododendron Loderi grex": GROUP_AS_CULTIVAR,
    "Agrostis stolonifera × Polypogon monspeliensis": REFUSES_FORMULAS,
    "Mentha aquatica × Mentha arvensis × Mentha spicata": REFUSES_FORMULAS,
    "Acer palmatum × Acer japonicum": REFUSES_FORMULAS,
    "Salix aurita × Salix caprea": REFUSES_FORMULAS,
    "Syringa vulgaris + Syringa × chinensis": REFUSES_FORMULAS,
    "Pinus sp.": "the parser answers a name without a species as informal, with no genus of its own",
}
"""Names of which the second opinion differs, and why ours stands."""


def test_there_are_at_least_sixty_and_each_once() -> None:
    assert len(set(NAMES)) == len(NAMES) >= 60


@pytest.mark.parametrize("name", NAMES)
def test_a_name_is_set_by_the_codes(name: str) -> None:
    parts = parts_of(name.replace("*", ""))
    assert " ".join(f"*{part.text}*" if part.kind == "latin" else part.text for part in parts) == name
    # The same on paper: what the typesetter is given in italics is what the list has in italics.
    assert re.findall(r'#latin\[#"(.*?)";\]', botanical(name.replace("*", ""))) == re.findall(r"\*([^*]+)\*", name)


@pytest.mark.parametrize("name", NAMES)
def test_another_parser_finds_the_same_epithets(name: str) -> None:
    try:
        import nameparser
    except ImportError:
        missing("gbif-name-parser")
    plain = name.replace("*", "")
    cultivar = re.findall(r"‘(.+?)’(?=\s|$)", plain)
    latin = {re.sub(r"[^\w-]", "", word) for part in re.findall(r"\*([^*]+)\*", name) for word in part.split()}
    try:
        parsed = nameparser.parse(re.sub(r"‘(.+?)’(?=\s|$)", r"'\1'", plain).replace("’", "'")).to_dict()
    except nameparser.UnparsableNameError:
        parsed = {}
    keys = ("uninomial", "genus", "specificEpithet", "infraspecificEpithet")
    same = {parsed[key] for key in keys if parsed.get(key)} == latin and (
        [parsed["cultivarEpithet"]] if parsed.get("cultivarEpithet") else []
    ) == cultivar
    assert same == (plain not in DISAGREES), parsed
