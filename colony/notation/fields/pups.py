"""The facts of a measurement, and of a food that was offered to one pup."""

from colony.notation.fields.field import NOTE, Field

MEASUREMENT_COLUMNS = (
    Field("animal", "animals", needed=True),
    Field("measured_on", "day", needed=True),
    Field("width_mm", "length_mm"),
    Field("mass_g", "mass_g"),
    NOTE,
)

FEEDING_COLUMNS = (
    Field("animal", "animals", needed=True),
    Field("fed_on", "day", needed=True),
    Field("food", needed=True),
    Field("took", "yes_no", needed=True),
)
