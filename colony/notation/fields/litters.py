"""The facts of a litter."""

from colony.notation.fields.field import NOTE, Field

SIRES = Field(
    "sires",
    "sires",
    label="Sire",
    help="A possible sire, TAG or TAG=SHARE; repeat for several ('unknown' is one too). "
    "Without: the males that were with her, by their days.",
    hint="those who were with her; Bruno=0.7 Caro=0.3",
    option="--sire",
    empty=(),
    sex="M",
)
BORN = Field("born", "day", help="The right day of birth.", needed=True)
DEAD = Field(
    "dead", "count", label="Stillborn", help="Stillborn pups.", hint="none", empty=0, most=30
)
MARKS = (
    Field(
        "pups_may_differ",
        "yes_no",
        label="Several sires",
        help="Each pup may have a sire of its own.",
        hint="no: one sire, even if not known which",
        option="--pups-may-differ/--one-sire",
        empty=False,
    ),
)
"""What else is known of a litter."""

LITTER_FACTS = (SIRES, BORN, DEAD, *MARKS, NOTE)
"""What can be mended of a litter."""

BIRTH_FACTS = (SIRES, DEAD, *MARKS, NOTE)
"""What is said of a birth, beside the dam, the day and the live pups."""

LITTER_COLUMNS = (
    Field("code", "tag", needed=True),
    Field("dam", "animals", needed=True, sex="F"),
    SIRES,
    BORN,
    Field("live", "count", needed=True),
    DEAD,
    *MARKS,
    Field("pairing", "pairings"),
    Field("tank", "tanks"),
    NOTE,
)
