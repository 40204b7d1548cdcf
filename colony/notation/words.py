"""The words that a breeder chooses from, and how a shorter or longer way of saying one is read."""

from colony.refusals.notation import UnknownWord

SEXES = ("F", "M", "U")
SEX_WORDS = {"F": "female", "M": "male", "U": "not sexed"}
"""A sex as it is said."""

ORIGINS = ("born here", "bred elsewhere", "wild", "unknown")
STATUSES = ("present", "sold", "died", "gone")
ENDS = ("sold", "died", "gone")
PRECISIONS = ("day", "month", "year")
MATING_SIGNS = ("bite marks", "copulation", "courtship")
FINDINGS = ("pregnant", "nothing seen", "unsure", "false alarm", "aborted")
METHODS = ("look", "ultrasound", "palpation by vet", "other")
ROLES = ("breeding", "nursery", "grow-out", "intake", "hospital")
READY_GROUPS = ("litter", "tank", "species")

_ALSO = {
    "female": "F",
    "male": "M",
    "unknown sex": "U",
    "unsexed": "U",
    "bites": "bite marks",
    "mating": "copulation",
    "gravid": "pregnant",
    "wild caught": "wild",
    "growout": "grow-out",
    "quarantine": "intake",
    "dead": "died",
}


def parse_word(text: str, words: tuple[str, ...], what: str) -> str:
    """Read one of some words; its beginning is enough where only one word begins so.

    Raises
    ------
    UnknownWord
        It is none of the words, or the beginning of several.
    """
    plain = " ".join(text.replace("_", " ").split()).casefold()
    also = _ALSO.get(plain, plain).casefold()
    exact = [word for word in words if word.casefold() == also]
    begun = [word for word in words if plain and word.casefold().startswith(plain)]
    if len(exact or begun) != 1:
        raise UnknownWord(text, what, words)
    return (exact or begun)[0]
