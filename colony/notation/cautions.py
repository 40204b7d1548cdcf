"""The usual caution, in one line, for the act where it matters: every face shows it there."""

from collections.abc import Mapping

STING = (
    "Stings: a rigid container, no net; two people, or somebody within call. Stung: get help, "
    "hot water (to 45 C, 113 F), a physician."
)
"""The sting is venomous from birth. Hot water as hot as can be borne without scalding eases the
pain; pieces that stay in the wound are for a physician."""

ELECTRICITY = (
    "Power off before hands go in, and on again after; heaters guarded, plugs above the water."
)
MAINS_WATER = (
    "Treat mains water for chlorine and chloramine and bring it to temperature before it goes in."
)
ZOONOSIS = "Cover cuts and wash after tank work: fish mycobacteria infect people."
VET = "Medicines and doses are for a licensed vet."
LOCAL_CODES = "Keeping, moving and selling are licensed: ask your permit office and local codes."
DEAD_RAY = "A dead ray still stings, and so does a shed sting: handle it with a tool."
OWN_TOOLS = "One set of nets and tools a system; clean tanks before isolated ones."

GENERATIONS = (
    "A generation is what the records support; what counts is for the permit office to say."
)

CARRIER = (
    "Ask the carrier what it takes live (the IATA Live Animals Regulations are what to consult)."
)
OLD_COPIES = (
    "Backups and files that were given away still have what was forgotten, and so do notes and "
    "reasons in which the name was written by hand: they are yours to delete."
)

CAUTIONS: Mapping[str, str] = {
    "animal add": f"Isolate arrivals. {STING}",
    "animal end": f"A dead ray still stings: cover cuts, use a tool. At a sale: {LOCAL_CODES}",
    "animal hold": VET,
    "buyer forget": OLD_COPIES,
    "litter record": f"Pups sting from birth. {STING}",
    "order close": LOCAL_CODES,
    "order collect": f"{STING} {LOCAL_CODES}",
    "order ship": f"{STING} {CARRIER} {LOCAL_CODES}",
    "pairing end": STING,
    "pairing start": f"Males bite: watch the first hours. {STING}",
    "pup measure": STING,
    "tank add": ELECTRICITY,
    "tank move": STING,
}
"""The caution of each act that has one, by its name in the journal."""
