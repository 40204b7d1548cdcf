"""The facts of an animal, in groups: a new one is entered in its group, and that is all."""

from colony.notation.fields.field import NOTE, ON, Field, choice
from colony.notation.words import ENDS, ORIGINS, SEXES, STATUSES

TAG = Field(
    "tag",
    "tag",
    help="A new tag.",
    headings="tag id animal ray code ring number no number/tag animal/id animal/no tag/id tag/no",
    needed=True,
)
DAM = Field(
    "dam",
    "animals",
    help="The dam's tag.",
    headings="dam mother mum mom female/parent dam/tag dam/id mother/id",
    sex="F",
)
SIRES = Field(
    "sires",
    "sires",
    label="Sire",
    help="A possible sire, TAG or TAG=SHARE; repeat for several ('unknown' is one too).",
    option="--sire",
    sheet="sire",
    headings="sire sires father dad male/parent possible/sires sire/tag sire/id father/id",
    empty=(),
    sex="M",
)
WHO = (
    TAG,
    Field("name", help="A longer name.", headings="name nickname call/name"),
    Field(
        "species",
        "species",
        help="Species: a short or scientific name.",
        headings="species kind scientific/name",
    ),
    Field(
        "sex",
        "word",
        help="F, M or U (unknown).",
        hint="F, M or U",
        headings="sex gender m/f f/m",
        words=SEXES,
        synonyms={"F": "female fem ♀ 0.1", "M": "male ♂ 1.0", "U": "unsexed not/sexed 0.0.1"},
        empty="U",
    ),
    Field(
        "born",
        "known_day",
        help="Birth: 2026-03-09, 2026-03 or 2026.",
        hint="2024-05 or 2024 will do",
        headings="born birth dob birthday birth/date date/of/birth born/on birthdate date/born",
    ),
)
PARENTS = (DAM, SIRES)
ORIGIN = Field(
    "origin",
    "word",
    help="born here, bred elsewhere, wild or unknown.",
    headings="origin source provenance",
    words=ORIGINS,
    synonyms={
        "born here": "own home/bred homebred here",
        "bred elsewhere": "captive/bred captive-bred cb",
        "wild": "wild/caught wild-caught wc",
    },
    empty="unknown",
)
ARRIVAL = (
    ORIGIN,
    Field(
        "arrived",
        "day",
        help="The day it came.",
        headings="arrived arrival arrival/date date/arrived acquired acquired/on date/acquired bought",
    ),
    Field(
        "arrived_from",
        label="From whom",
        help="From whom it came.",
        option="--from",
        headings="arrived/from from supplier seller breeder vendor bought/from acquired/from",
    ),
)
MARKS = (
    Field(
        "transponder",
        "transponder",
        help="ISO 11784 number, 15 digits.",
        hint="15 digits",
        headings="transponder chip microchip pit pit/tag chip/no chip/number rfid",
    ),
    Field("line", help="Your own name for a strain.", headings="line strain bloodline morph"),
)
DECISIONS = (
    Field(
        "held_back",
        "yes_no",
        label="Hold back",
        help="Keep as a future breeder.",
        hint="yes keeps it as a breeder, not for sale",
        option="--hold-back/--for-sale",
        headings="held/back hold/back holdback keeper keep",
        empty=False,
    ),
    Field(
        "reserved_for",
        help="Reserved for whom; '' frees it.",
        headings="reserved/for reserved customer buyer",
    ),
    Field(
        "breeding_ban",
        label="Not to breed",
        help="Why it must not breed; '' lifts the ban.",
        hint="why",
        option="--no-breeding",
        headings="breeding/ban do/not/breed",
    ),
    Field(
        "mature_since",
        "day",
        help="The day its own maturity was seen (claspers, eggs).",
        headings="mature/since mature matured",
    ),
)
LAST_SEEN = Field(
    "last_seen",
    "day",
    label="Last seen",
    help="The last day it was seen alive, of one that died unseen: 4d ago.",
    hint="alive, if it died unseen",
    headings="last/seen last/seen/alive",
)
END = (
    Field(
        "status",
        "word",
        headings="status state",
        words=STATUSES,
        synonyms={
            "present": "alive active here in/house breeding",
            "sold": "rehomed",
            "died": "dead deceased euthanised euthanized",
            "gone": "left lost loan traded elsewhere",
        },
        empty="present",
    ),
    Field("ended_on", "day", headings="ended/on ended end/date left left/on"),
    Field("ended_why", headings="ended/why why reason cause cause/of/death"),
    LAST_SEEN,
)
HOW_ENDED = Field(
    "how",
    "word",
    what="end",
    help=choice(ENDS),
    hint=", ".join(ENDS),
    words=ENDS,
    needed=True,
)
ENDED = Field(
    "tags",
    "tags",
    label="Animals",
    help="Animals, then how: TAG ... sold, died or gone.",
    hint="tags, with spaces between",
    needed=True,
)
END_FACTS = (
    ON,
    Field("why", label="Why", what="reason", help="To whom, or of what.", hint="cause, or buyer"),
    LAST_SEEN,
)
"""What is said of an animal's end, beside who and how."""

MEASURED = (
    Field("tank", "tanks", help="The tank it is in.", headings="tank/code location place pond vat"),
    Field(
        "width_mm",
        "length_mm",
        label="Disc width",
        help="Disc width: 12.5cm, 5in.",
        hint="12.5cm or 5in, tail excluded",
        option="--width",
        sheet="width",
        headings="width disc/width dw disc disk/width size diameter",
    ),
    Field("mass_g", "mass_g", label="Mass", sheet="mass", headings="mass weight wt"),
    Field(
        "measured_on",
        "day",
        headings="measured/on measured date/measured measuring/date",
    ),
)
"""Where it was last, and how large: records of their own, in a sheet beside the animal."""

ADDED_WITH = MEASURED[:2]
"""What is said of a new animal beside itself: where it is, and how large."""

ENDINGS = {
    "sold": Field("sold_on", "day", headings="sold/on sold sale/date date/sold"),
    "died": Field("died_on", "day", headings="died/on died death death/date date/of/death dod"),
}
"""How a breeder's own sheet says when and how an animal left at once, by status."""

ANIMAL_FACTS = (*WHO, *PARENTS, *ARRIVAL, *MARKS, *DECISIONS, NOTE)
"""What the breeder says of an animal: the options of a command, the fields of a form."""

ANIMAL_DETAILS = (*WHO, *PARENTS, *ARRIVAL, *MARKS, *DECISIONS, *END, NOTE)
"""What stands on its page."""

EXPORTED = (*WHO, *PARENTS, *ARRIVAL, *MARKS, *DECISIONS, *END, *MEASURED, NOTE)
"""The columns of an exported sheet."""

SHEET_FIELDS = (*EXPORTED[:-1], *ENDINGS.values(), NOTE)
"""What a breeder's own sheet may say."""

ANIMAL_COLUMNS = (
    *WHO,
    *ARRIVAL,
    DAM,
    Field("sire", "animals"),
    Field("possible_sires", "sires", empty=()),
    Field("litter", "litters"),
    *MARKS,
    *DECISIONS,
    *END,
    NOTE,
)
"""The columns of an animal in a folder of plain files."""
