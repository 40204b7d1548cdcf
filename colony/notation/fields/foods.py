"""The facts of a food, of its batches, and of a feeding of a tank."""

from colony.notation.care import TAKEN
from colony.notation.fields.field import NOTE, Field

FOOD_FACTS = (
    Field(
        "protein_percent",
        "number",
        help="Protein in percent, as fed.",
        option="--protein",
        least=0,
        most=100,
    ),
    NOTE,
)
"""What the breeder says of a food, beside its name."""

FOOD_COLUMNS = (Field("name", needed=True), *FOOD_FACTS)

FOOD_BATCH_COLUMNS = (
    Field("food", "foods", needed=True),
    Field("code", needed=True),
    Field("received", "day", needed=True),
    Field("expires", "day"),
    Field("finished_on", "day"),
)

TANK_FEEDING_COLUMNS = (
    Field("fed_on", "day", needed=True),
    Field("tank", "tanks", needed=True),
    Field("food", "foods", needed=True),
    Field("batch", "food_batches", within="food"),
    Field("offered_g", "mass_g"),
    Field("taken", "word", words=TAKEN, needed=True),
    NOTE,
)
