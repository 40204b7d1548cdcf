"""The facts of a hold, a look-over, a visit of the vet, and what the vet prescribed."""

from colony.notation.care import SIGNS
from colony.notation.fields.field import NOTE, Field

HOLD_COLUMNS = (
    Field("animal", "animals", needed=True),
    Field("started", "day", needed=True),
    Field("ended", "day"),
    Field("why", needed=True),
)

LOOK_OVER_COLUMNS = (
    Field("seen_on", "day", needed=True),
    Field("animal", "animals"),
    Field("tank", "tanks"),
    Field("sign", "word", words=SIGNS, needed=True),
    NOTE,
)

VET_VISIT_COLUMNS = (
    Field("visit", "label", needed=True),
    Field("visited_on", "day", needed=True),
    Field("vet", needed=True),
    Field("why", needed=True),
    Field("found"),
    Field("animals", "tags", empty=()),
)

PRESCRIPTION_COLUMNS = (
    Field("visit", "vet_visits", needed=True),
    Field("as_written", needed=True),
    Field("starts", "day"),
    Field("ends", "day"),
)
