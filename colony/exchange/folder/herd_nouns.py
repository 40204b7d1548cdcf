"""The files of the herd: animals and their homes, pairings, births, sizes, meals and holds.

Rows name animals by tag, tanks by code, litters by code and systems by name. A pairing is
named by its dam and its first day.
"""

from colony.exchange.folder.noun import Noun
from colony.notation.fields.animals import ANIMAL_COLUMNS
from colony.notation.fields.health import HOLD_COLUMNS
from colony.notation.fields.litters import LITTER_COLUMNS
from colony.notation.fields.pairings import FINDING_COLUMNS, MATING_SIGN_COLUMNS, PAIRING_COLUMNS
from colony.notation.fields.pups import FEEDING_COLUMNS, MEASUREMENT_COLUMNS
from colony.notation.fields.tanks import PLACEMENT_COLUMNS, SYSTEM_COLUMNS, TANK_COLUMNS

HERD_NOUNS = (
    Noun("systems", SYSTEM_COLUMNS, "tank", key=("name",)),
    Noun("tanks", TANK_COLUMNS, "tank", key=("code",)),
    Noun("animals", ANIMAL_COLUMNS, "animal", key=("tag",)),
    Noun("pairings", PAIRING_COLUMNS, "pairing", key=("pairing",)),
    Noun("mating_signs", MATING_SIGN_COLUMNS, "pairing"),
    Noun("pregnancy_findings", FINDING_COLUMNS, "pairing"),
    Noun("litters", LITTER_COLUMNS, "litter", key=("code",)),
    Noun("placements", PLACEMENT_COLUMNS, "tank", key=("animal", "entered_on")),
    Noun("measurements", MEASUREMENT_COLUMNS, "pup", key=("animal", "measured_on")),
    Noun("feedings", FEEDING_COLUMNS, "pup", key=("animal", "fed_on", "food")),
    Noun("holds", HOLD_COLUMNS, "animal"),
)
"""Every noun of the herd, each after those that it cannot do without."""
