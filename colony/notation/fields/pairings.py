"""The facts of a pairing, of a mating sign, and of what was found of a female."""

from colony.notation.fields.field import NOTE, Field
from colony.notation.words import FINDINGS, MATING_SIGNS, METHODS

TANK = Field("tank", "tanks", help="The tank of the pairing.")
PURPOSE = Field("purpose", help="What it is for.")

PAIRING_FACTS = (TANK, PURPOSE, NOTE)
"""What the breeder says of a pairing, beside who is with whom and since when."""

PAIRING_COLUMNS = (
    Field("pairing", "label", needed=True),
    Field("dam", "animals", needed=True, sex="F"),
    Field("sires", "tags", empty=(), sex="M"),
    TANK,
    Field("started", "day", needed=True),
    Field("ended", "day"),
    PURPOSE,
    NOTE,
)

MATING_SIGN_COLUMNS = (
    Field("pairing", "pairings", needed=True),
    Field("seen_on", "day", needed=True),
    Field("kind", "word", words=MATING_SIGNS, needed=True),
    Field("sire", "animals", sex="M"),
    NOTE,
)

FINDING_COLUMNS = (
    Field("dam", "animals", needed=True, sex="F"),
    Field("found_on", "day", needed=True),
    Field("finding", "word", words=FINDINGS, needed=True),
    Field("method", "word", words=METHODS, empty="look"),
    NOTE,
)
