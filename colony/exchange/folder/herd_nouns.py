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
    Noun("systems", SYSTEM_COLUMNS, key=("name",)),
    Noun("tanks", TANK_COLUMNS, key=("code",)),
    Noun("animals", ANIMAL_COLUMNS, key=("tag",)),
    Noun("pairings", PAIRING_COLUMNS, key=("pairing",)),
    Noun("mating_signs", MATING_SIGN_COLUMNS),
    Noun("pregnancy_findings", FINDING_COLUMNS),
    Noun("litters", LITTER_COLUMNS, key=("code",)),
    Noun("placements", PLACEMENT_COLUMNS, key=("animal", "entered_on")),
    Noun("measurements", MEASUREMENT_COLUMNS, key=("animal", "measured_on")),
    Noun("feedings", FEEDING_COLUMNS, key=("animal", "fed_on", "food")),
    Noun("holds", HOLD_COLUMNS),
)
"""Every noun of the herd, each after those that it cannot do without."""
