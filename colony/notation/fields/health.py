"""The facts of a hold, a look-over, a visit of the vet, and what the vet prescribed."""

from colony.notation.care import SIGNS
from colony.notation.fields.field import ANIMAL, NOTE, ON, Field

HELD_WHY = Field("why", label="Why", what="reason", help="What was seen.", needed=True)
HOLD_FACTS = (HELD_WHY, ON)
"""What is said of a hold, beside the animal."""

OVERRULING_COLUMNS = (
    ANIMAL,
    Field("other", "animals"),
    Field("act", needed=True),
    Field("guard", needed=True),
    Field("what", needed=True),
    Field("why", needed=True),
    Field("decided_on", "day", needed=True),
)
"""What stood against an act, and why it was done anyway."""

ANYWAY_WHY = Field(
    "why",
    label="Why",
    what="reason",
    help="Why it is done anyway.",
    hint="asked where something stands against it",
)
"""The reason that is kept where a guard is overruled."""

HOLD_COLUMNS = (ANIMAL, ON.called("started"), Field("ended", "day"), HELD_WHY)

LOOKED_AT = Field("animal", "animals", help="The animal looked over.")
LOOKED_IN = Field("tank", "tanks", help="Or the tank looked over.")
SIGN = Field("sign", "word", what="sign of health", words=SIGNS, needed=True)
LOOK_OVER_FACTS = (
    LOOKED_IN,
    SIGN.called(
        "signs",
        help=f"What was seen; repeat: {', '.join(SIGNS)}.",
        option="--sign",
        needed=False,
        several=True,
    ),
    NOTE,
    ON,
)
"""What is said of a look-over, beside the animal."""

LOOK_OVER_COLUMNS = (ON.called("seen_on"), LOOKED_AT, LOOKED_IN, SIGN, NOTE)

VET = Field("vet", what="vet's name", help="Who came.", needed=True)
VISITED_WHY = Field("why", label="Why", what="reason", help="Why.", needed=True)
FOUND = Field("found", what="finding", help="What the vet found.")
SEEN = Field(
    "animals", "tags", help="An animal that was seen; repeat.", option="--animal", empty=()
)
PRESCRIPTIONS = Field(
    "prescriptions",
    what="prescription",
    help="A prescription, as the vet wrote it; repeat.",
    option="--prescribed",
    several=True,
)
REPORT_FACTS = (VET, VISITED_WHY, FOUND, PRESCRIPTIONS)
"""What the vet said and wrote at a visit."""

VISIT_FACTS = (SEEN.called(SEEN.name, needed=True), ON)
"""What else is said of a visit: whom the vet saw, and when."""

VET_VISIT_COLUMNS = (
    Field("visit", "label", needed=True),
    ON.called("visited_on"),
    VET,
    VISITED_WHY,
    FOUND,
    SEEN,
)

PRESCRIPTION_COLUMNS = (
    Field("visit", "vet_visits", needed=True),
    Field("as_written", needed=True),
    Field("starts", "day"),
    Field("ends", "day"),
)
