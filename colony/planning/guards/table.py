"""Which guard bars which act: refused for good, refused unless overruled, or warned of.

Who is guarded against what is common practice, no source. The breeder overrules a refusal with
a reason, which is kept; what the book itself would contradict cannot be overruled.
"""

from collections.abc import Mapping

PAIR, BEAR, MOVE, SELL, GIVE, BRING = "pair", "bear", "move", "sell", "give away", "bring in"
RESERVE, HAND_OVER = "reserve", "hand over"
"""The acts that ask. To bear is to be written down as the dam of a litter; an animal that is brought in is put into a tank as it is written down; one that is reserved is kept for an order, and handed over to its buyer."""

ACTS = (PAIR, BEAR, MOVE, SELL, GIVE, BRING, RESERVE, HAND_OVER)

NEVER, REFUSE, WARN = "never", "refused", "warned of"
"""What a guard does: bars the act, bars it unless it is overruled, or says so and lets it be."""

GUARDS: Mapping[str, Mapping[str, str]] = {
    "gone": dict.fromkeys((PAIR, MOVE, SELL, GIVE, RESERVE, HAND_OVER), NEVER),
    "same_animal": {PAIR: NEVER},
    "same_sex": {PAIR: NEVER},
    "sex": {PAIR: NEVER},
    "child": {BEAR: REFUSE},
    "age": {PAIR: REFUSE},
    "width": {PAIR: REFUSE},
    "hold": {
        PAIR: REFUSE,
        SELL: REFUSE,
        GIVE: REFUSE,
        HAND_OVER: REFUSE,
        MOVE: WARN,
        RESERVE: WARN,
    },
    "isolation": {PAIR: REFUSE, SELL: REFUSE, GIVE: REFUSE, HAND_OVER: REFUSE, RESERVE: WARN},
    "arrival": {BRING: REFUSE, MOVE: REFUSE},
    "near_term": {MOVE: REFUSE, SELL: REFUSE, GIVE: REFUSE, HAND_OVER: REFUSE},
    "gravid": {PAIR: WARN, SELL: WARN, GIVE: WARN, HAND_OVER: WARN},
    "rest": {PAIR: WARN},
    "reserved": {SELL: REFUSE, GIVE: REFUSE, HAND_OVER: REFUSE, RESERVE: REFUSE},
    "held_back": {SELL: REFUSE, GIVE: REFUSE, HAND_OVER: REFUSE, RESERVE: REFUSE},
    "unready": {HAND_OVER: REFUSE},
    "ban": {PAIR: REFUSE},
    "species": {PAIR: REFUSE},
    "line": {PAIR: WARN},
    "kin": {PAIR: REFUSE},
    "kin_at_worst": {PAIR: WARN},
    "kin_unknown": {PAIR: WARN},
}
"""What each guard does to each act, in the order in which reasons are given."""

MEANINGS: Mapping[str, str] = {
    "gone": "it died, was sold or is gone",
    "same_animal": "it would be paired with itself",
    "same_sex": "both are of one sex",
    "sex": "its sex is not recorded",
    "child": "it is far younger than its species is mature",
    "age": "it is younger than its species is mature",
    "width": "it is smaller than its species is mature, or nobody knows",
    "hold": "it is held for its health",
    "isolation": "its isolation has not ended",
    "arrival": "it came from outside within the days of isolation, and the water is shared",
    "near_term": "she is within the last days before a birth, and does not go to a nursery",
    "gravid": "she is likely gravid",
    "rest": "she gave birth and rests",
    "reserved": "it is reserved for somebody else than is named",
    "held_back": "it is kept as a future breeder",
    "unready": "it is a pup of an order, and waits on its age, width, food or sex",
    "ban": "it is not to be bred",
    "species": "they are of two species, or one has none on record",
    "line": "they are of two lines",
    "kin": "their kinship, as expected, is above the limit of the book",
    "kin_at_worst": "their kinship is above the limit if a doubtful sire is the one that it may be",
    "kin_unknown": "no kin is known, and a parent of one is not on record",
}
"""When each guard bars."""


def weight(guard: str, act: str) -> str | None:
    """What a guard does to an act, or None where it does not ask."""
    return GUARDS[guard].get(act)
