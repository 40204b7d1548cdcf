"""The facts of a pairing, of a mating sign, and of what was found of a female."""

from colony.notation.fields.field import NOTE, ON, Field, choice
from colony.notation.words import FINDINGS, MATING_SIGNS, METHODS

DAM = Field("dam", "animals", help="The dam's tag.", needed=True, sex="F")
TANK = Field("tank", "tanks", help="The tank of the pairing.")
PURPOSE = Field("purpose", help="What it is for.")

KEPT_WITH = Field("sires", "tags", help="Tags of her sires.", empty=(), sex="M")

PAIRING_FACTS = (TANK, PURPOSE, NOTE)
"""What the breeder says of a pairing, beside who is with whom and since when."""

PAIRING_COLUMNS = (
    Field("pairing", "label", needed=True),
    DAM,
    KEPT_WITH,
    TANK,
    Field("started", "day", needed=True),
    Field("ended", "day"),
    PURPOSE,
    NOTE,
)

KIND = Field(
    "kind",
    "word",
    label="Seen",
    what="mating sign",
    help=choice(MATING_SIGNS),
    hint=", ".join(MATING_SIGNS),
    words=MATING_SIGNS,
    needed=True,
)
SIRE = Field("sire", "animals", help="Which male, if seen.", hint="if it was seen which", sex="M")
SIGN_FACTS = (KIND, ON, SIRE, NOTE)
"""What is said of a mating sign, beside the dam."""

MATING_SIGN_COLUMNS = (
    Field("pairing", "pairings"),
    Field("dam", "animals", sex="F"),
    ON.called("seen_on"),
    KIND,
    SIRE,
    NOTE,
)

FINDING = Field(
    "finding",
    "word",
    label="Found",
    help=choice(FINDINGS),
    hint=", ".join(FINDINGS),
    option="--found",
    words=FINDINGS,
    needed=True,
)
METHOD = Field(
    "method",
    "word",
    label="How",
    help=choice(METHODS),
    first=METHODS[0],
    words=METHODS,
    empty=METHODS[0],
)
FINDING_FACTS = (FINDING, METHOD, ON, NOTE)
"""What is said of a check of a female, beside who she is."""

FINDING_COLUMNS = (DAM, ON.called("found_on"), FINDING, METHOD, NOTE)
