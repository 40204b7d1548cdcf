"""The facts of a measurement, and of a food that was offered to one pup."""

from colony.notation.fields.field import ANIMAL, NOTE, ON, Field

WIDTH = Field(
    "width_mm",
    "length_mm",
    label="Disc width",
    help="Disc width, tail excluded: 12.5cm, 5in.",
    hint="12.5cm or 5in",
)
MASS = Field("mass_g", "mass_g", label="Mass", help="Mass: 450g, 1.2kg.", hint="if it was weighed")

MEASUREMENT_COLUMNS = (ANIMAL, ON.called("measured_on"), WIDTH, MASS, NOTE)

FOOD = Field("food", help="What it was offered: worms, prawn, ...", needed=True, longest=40)
TOOK = Field(
    "took",
    "yes_no",
    label="Took it",
    help="It did not take it.",
    first="yes",
    option="--refused",
    needed=True,
)

FEEDING_COLUMNS = (ANIMAL, ON.called("fed_on"), FOOD, TOOK)
