"""The usual caution, in one line, for the act where it matters."""

STING = "The sting is venomous from birth and stays so when shed; after a sting get medical help."
ELECTRICITY = "Power off before hands go in; heaters guarded, plugs above the water."
MAINS_WATER = (
    "Treat mains water for chlorine and chloramine and bring it to temperature before it goes in."
)
ZOONOSIS = "Cover cuts and wash after tank work: fish mycobacteria infect people."
VET = "Medicines and doses are for a licensed vet."
LOCAL_CODES = "Keeping, moving and selling are licensed: ask your permit office and local codes."
DEAD_RAY = "A dead ray still stings, and so does a shed sting: handle it with a tool."
OWN_TOOLS = "One set of nets and tools a system; clean tanks before isolated ones."
