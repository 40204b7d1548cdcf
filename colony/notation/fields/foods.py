"""The facts of a food, of its batches, and of a feeding of a tank."""

from colony.notation.care import TAKEN
from colony.notation.fields.field import NOTE, ON, Field, choice

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

EXPIRES = Field("expires", "day", help="The day it expires.")
BATCH_FACTS = (EXPIRES, ON)
"""What is said of a delivery, beside the food and the code on the package."""

FOOD_BATCH_COLUMNS = (
    Field("food", "foods", needed=True),
    Field("code", needed=True),
    Field("received", "day", needed=True),
    EXPIRES,
    Field("finished_on", "day"),
)

GIVEN = Field("food", label="Food", help="The food's name on your list.", needed=True)
OFFERED = Field(
    "offered_g", "mass_g", label="Offered", help="Mass offered: 20g, 1oz.", hint="20g, if weighed"
)
TOOK_IT = Field(
    "took", "animals", help="An animal seen to take it; repeat.", several=True, empty=()
)
REFUSED_IT = Field(
    "refused", "animals", help="An animal seen to refuse it; repeat.", several=True, empty=()
)
BATCH = Field(
    "batch",
    "food_batches",
    help="Batch; without: the open one that expires first.",
    within="food",
)
TAKEN_OF_IT = Field(
    "taken",
    "word",
    what="answer to what was taken",
    help=choice(TAKEN),
    first=TAKEN[0],
    words=TAKEN,
    needed=True,
)
MEAL_FACTS = (TAKEN_OF_IT, BATCH, ON, NOTE)
"""What is said of a feeding of a tank, beside the food and how much."""

SEEN_FACTS = (TOOK_IT, REFUSED_IT)
"""Who was seen at a feeding."""

TANK_FEEDING_COLUMNS = (
    ON.called("fed_on"),
    Field("tank", "tanks", needed=True),
    Field("food", "foods", needed=True),
    BATCH,
    OFFERED,
    TAKEN_OF_IT,
    NOTE,
)
