"""Which English names a tree of a genus goes by: "the pine beside it" is not the maple whose label this is."""

from __future__ import annotations

__all__ = ["SPECIES_WORDS", "words_of_genus"]

_BY_GENUS = {
    "acacia": "acacia wattle", "acer": "maple trident", "alnus": "alder", "amelanchier": "serviceberry", "arbutus": "arbutus strawberry-tree",
    "berberis": "barberry", "betula": "birch", "bougainvillea": "bougainvillea", "buxus": "box boxwood", "calluna": "heather ling",
    "camellia": "camellia", "carmona": "carmona", "carpinus": "hornbeam", "castanea": "chestnut", "cedrus": "cedar", "celtis": "hackberry",
    "chaenomeles": "quince", "chamaecyparis": "hinoki cypress", "conocarpus": "buttonwood", "cornus": "dogwood", "corylus": "hazel",
    "cotoneaster": "cotoneaster", "crataegus": "hawthorn thorn whitethorn may", "cryptomeria": "cryptomeria cedar", "cupressus": "cypress",
    "cydonia": "quince", "diospyros": "persimmon", "elaeagnus": "elaeagnus", "euonymus": "spindle", "fagus": "beech",
    "ficus": "fig banyan", "forsythia": "forsythia", "fraxinus": "ash", "ginkgo": "ginkgo", "hedera": "ivy", "ilex": "holly",
    "jasminum": "jasmine", "juniperus": "juniper shimpaku", "laburnum": "laburnum", "lagerstroemia": "myrtle", "larix": "larch",
    "ligustrum": "privet", "lonicera": "honeysuckle", "magnolia": "magnolia", "malus": "crabapple crab apple", "mespilus": "medlar",
    "metasequoia": "redwood", "morus": "mulberry", "myrtus": "myrtle", "olea": "olive", "picea": "spruce", "pinus": "pine",
    "pistacia": "pistachio", "podocarpus": "podocarpus", "potentilla": "potentilla", "prunus": "plum cherry apricot sloe blackthorn almond",
    "pseudocydonia": "quince", "pseudolarix": "larch", "punica": "pomegranate", "pyracantha": "pyracantha firethorn", "pyrus": "pear",
    "quercus": "oak", "rhododendron": "azalea satsuki rhododendron", "rosa": "rose", "rosmarinus": "rosemary", "salix": "willow",
    "salvia": "rosemary", "sequoia": "redwood", "serissa": "serissa", "sorbus": "rowan whitebeam", "stewartia": "stewartia",
    "syringa": "lilac", "tamarix": "tamarisk", "taxodium": "bald-cypress cypress", "taxus": "yew", "thuja": "thuja", "tilia": "linden lime",
    "tsuga": "hemlock", "ulex": "gorse", "ulmus": "elm", "vitis": "vine", "wisteria": "wisteria", "zelkova": "zelkova elm",
}  # fmt: skip

SPECIES_WORDS = frozenset(word for words in _BY_GENUS.values() for word in words.split()) - {
    "may",
    "trident",
    "rose",
    "ling",
}
"""Every English name of a genus that the reader knows."""


def words_of_genus(taxon: str) -> frozenset[str]:
    """The English names of a taxon's genus, empty where the reader does not know it."""
    return frozenset(_BY_GENUS.get(taxon.partition(" ")[0].casefold(), "").split())
